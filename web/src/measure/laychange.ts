/// When the lay is entered anew, hours that were read with the old one at twelve must not turn along.
import type { Json } from "../journal/event.ts";
import { isClockOnly, LAY, readByClock } from "../journal/lay.ts";
import type { TreeState } from "../journal/state.ts";

export interface NewLay {
  readonly value: number;
  readonly typed: string | null;
  readonly how: string | null;
}

type Readings = Pick<TreeState, "readings">;

/** Whether hours stand that were read against another lay than this one. */
export function asksAboutHours(tree: Readings, lay: NewLay): boolean {
  if (readByClock(tree.readings).length === 0) return false;
  const old = tree.readings.get(LAY);
  return !old || old.value !== lay.value || isClockOnly(tree.readings) !== (lay.how !== null);
}

/** What to write so that no hour is left: a list keeps its other entries, null withdraws. */
export function hoursOut(tree: Readings): { readonly path: string; readonly value: Json }[] {
  return readByClock(tree.readings).map((path) => {
    const value = tree.readings.get(path)?.value ?? null;
    const left = Array.isArray(value) ? value.filter((entry) => !holdsHour(entry)) : [];
    return { path, value: left.length > 0 ? left : null };
  });
}

function holdsHour(entry: Json): boolean {
  if (typeof entry !== "object" || entry === null || Array.isArray(entry)) return false;
  return Object.keys(entry).some((key) => key.endsWith("_clock"));
}
