/// The lay, and what was read against it: an hour of the clock means nothing without its twelve.
import type { Json } from "./event.ts";
import type { Reading, TreeState } from "./state.ts";

export const LAY = "cut.lay_deg";
/** How a lay is entered that stands for no compass direction: it is twelve o'clock, and that is all. */
export const CLOCK_ONLY = "clock only";
/** What is written as the lay then: the engine needs some azimuth, any one serves. */
export const CLOCK_ONLY_LAY = 0;

type Readings = ReadonlyMap<string, Reading>;

export function isClockOnly(readings: Readings): boolean {
  return readings.get(LAY)?.how === CLOCK_ONLY;
}

/** Paths that hold a direction as an hour; they turn with the lay. */
export function readByClock(readings: Readings): string[] {
  return pathsWith(readings, "_clock");
}

/** Paths that hold a direction in degrees from north; they do not turn with the lay. */
export function readByCompass(readings: Readings): string[] {
  return pathsWith(readings, "_deg").filter((path) => path !== LAY);
}

/**
 * True where the lay is twelve o'clock and nothing else, yet a direction stands in degrees: the two
 * cannot be put together, and nought degrees must not be taken for north.
 */
export function layIsContradicted(tree: Pick<TreeState, "readings">): boolean {
  return isClockOnly(tree.readings) && readByCompass(tree.readings).length > 0;
}

function pathsWith(readings: Readings, ending: string): string[] {
  const found: string[] = [];
  for (const [path, { value }] of readings) {
    if (path.endsWith(ending) || holds(value, ending)) found.push(path);
  }
  return found;
}

function holds(value: Json, ending: string): boolean {
  if (Array.isArray(value)) return value.some((item) => holds(item, ending));
  if (typeof value !== "object" || value === null) return false;
  return Object.entries(value).some(([key, held]) => key.endsWith(ending) && held !== null);
}
