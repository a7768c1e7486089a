/// The small picture of a comparison: where band, middle and real value lie along its axis.
import type { StumpRow } from "../engine/answers.ts";

export interface BandPicture {
  /** Lengths in CSS from the start of the axis. */
  readonly from: string;
  readonly length: string;
  readonly middle: string;
  readonly planned: string | null;
  readonly real: string | null;
}

/** Room beside the outermost figure, as a share of what lies between the outermost ones. */
const ROOM = 0.08;

/** Null where nothing was predicted. */
export function bandPicture({ predicted, planned, real }: StumpRow): BandPicture | null {
  if (!predicted) return null;
  const { p10, p50, p90 } = predicted;
  const figures = [p10, p50, p90, planned, real].filter((value) => value !== null);
  const low = Math.min(...figures);
  const wide = Math.max(...figures) - low;
  const share = (value: number) =>
    wide > 0 ? ROOM + ((1 - 2 * ROOM) * (value - low)) / wide : 0.5;
  const place = (value: number) => `${(100 * share(value)).toFixed(2)}%`;
  return {
    from: place(p10),
    length: `${(100 * (share(p90) - share(p10))).toFixed(2)}%`,
    middle: place(p50),
    planned: planned === null ? null : place(planned),
    real: real === null ? null : place(real),
  };
}
