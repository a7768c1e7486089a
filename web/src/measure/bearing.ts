/// A direction as a person reads it: an hour of the clock with the lay at twelve, or degrees.
import type { Json } from "../journal/event.ts";

export const HOURS = [12, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11] as const;
export type Hour = (typeof HOURS)[number];

/** What a tree file takes: `{ [clock key]: hour }` or `{ [degree key]: degrees }`. */
export type Bearing =
  | { readonly by: "clock"; readonly hour: number }
  | { readonly by: "degrees"; readonly deg: number };

/** The hour of a tree file: half past twelve is 0.5. */
export function hourOf(hour: Hour, half: boolean): number {
  return half ? (hour % 12) + 0.5 : hour;
}

/** Which button of the clock an hour lights, and whether it is half past. */
export function shownHour(hour: number): { readonly hour: Hour; readonly half: boolean } | null {
  const half = hour % 1 === 0.5;
  const whole = Math.floor(hour) || 12;
  const known = HOURS.find((one) => one === whole);
  return known !== undefined && (half || hour % 1 === 0) ? { hour: known, half } : null;
}

/** An hour as it stands on a clock: 5:15, and 12:30 for half an hour. */
export function hourText(hour: number): string {
  const minutes = Math.round(60 * hour);
  const whole = Math.floor(minutes / 60) || 12;
  return `${whole}:${String(minutes % 60).padStart(2, "0")}`;
}

export function bearingText(bearing: Bearing, degrees: (deg: number) => string): string {
  return bearing.by === "clock" ? hourText(bearing.hour) : `${degrees(bearing.deg)}°`;
}

/** Keys of a direction: `toward` gives `toward_clock` or `toward_deg`. */
export function bearingKeys(stem: string, bearing: Bearing): { [key: string]: Json } {
  return bearing.by === "clock"
    ? { [`${stem}_clock`]: bearing.hour }
    : { [`${stem}_deg`]: bearing.deg };
}

export function bearingIn(table: { readonly [key: string]: Json }, stem: string): Bearing | null {
  const hour = table[`${stem}_clock`];
  const deg = table[`${stem}_deg`];
  if (typeof hour === "number") return { by: "clock", hour };
  return typeof deg === "number" ? { by: "degrees", deg } : null;
}
