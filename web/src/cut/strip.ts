/// The bark marks on one strip from the front of the stump to its back: every place a share of it.
import type { Tip } from "../engine/answers.ts";

export type ZoneKey = "notch" | "hinge" | "bar" | "device" | "wood";

export interface Zone {
  readonly key: ZoneKey;
  readonly from: number;
  readonly to: number;
}

export interface StripMark {
  /** Place on the stump. */
  readonly share: number;
  /** Middle of its line in the list beside the strip, whose lines are all of one height. */
  readonly line: number;
}

export interface Strip {
  readonly zones: readonly Zone[];
  readonly marks: readonly StripMark[];
}

/** Null where there is nothing to draw. */
export function layStrip(tip: Pick<Tip, "marks" | "hinge" | "notch" | "cut">): Strip | null {
  const { marks, hinge, notch, cut } = tip;
  const whole = Math.max(0, ...marks.map((mark) => mark.from_front_mm));
  if (whole === 0 || !hinge || !notch) return null;
  const share = (from_front_mm: number): number => Math.min(1, Math.max(0, from_front_mm / whole));
  const hingeBack_mm = notch.depth_mm + hinge.thickness_mm;
  const barEnd_mm = hingeBack_mm + Math.max(0, cut?.bar_room_mm ?? 0);
  // Behind the bar lies the device at its full reach; where none is seated it is all wood.
  const last = cut?.bar_room_mm == null ? "wood" : "device";
  const ends: [ZoneKey, number, number][] = [
    ["notch", 0, notch.depth_mm],
    ["hinge", notch.depth_mm, hingeBack_mm],
    ["bar", hingeBack_mm, barEnd_mm],
    [last, barEnd_mm, whole],
  ];
  return {
    zones: ends
      .map(([key, from, to]) => ({ key, from: share(from), to: share(to) }))
      .filter(({ from, to }) => to > from),
    marks: marks.map((mark, index) => ({
      share: share(mark.from_front_mm),
      line: (index + 0.5) / marks.length,
    })),
  };
}

/** Height in a drawing that is a hundred high. */
export function inHundred(share: number): number {
  return 100 * share;
}
