/// Where a count of taps stands in the driving table: stage, opening, what comes next.
import type { DriveRow, DriveTable } from "../engine/answers.ts";

export const STOP = "stop";
const NEARLY = 1e-9;

export interface Standing {
  readonly row: DriveRow;
  readonly atStop: boolean;
  /** The stage after this one, and the whole turns that are certainly left before it. */
  readonly next: { readonly stage: string; readonly turns: number } | null;
}

/** A tap is one row: a whole turn, and at last what remains to the stop. Never past it. */
export function standingAt(table: DriveTable, taps: number): Standing | null {
  const index = Math.min(Math.max(taps, 0), table.rows.length - 1);
  const row = table.rows[index];
  if (!row) return null;
  const next = table.rows.slice(index).find(({ stage }) => stage !== row.stage);
  return {
    row,
    atStop: row.stage === STOP,
    next: next ? { stage: next.stage, turns: turnsBetween(row, next) } : null,
  };
}

function turnsBetween(from: DriveRow, to: DriveRow): number {
  return Math.floor((to.turns ?? 0) - (from.turns ?? 0) + NEARLY);
}

/** Most taps that a number of turns can stand for; what was not kept is not made up. */
export function tapsFor(table: DriveTable, turns: number): number {
  const after = table.rows.findIndex((row) => (row.turns ?? 0) > turns + NEARLY);
  return after < 0 ? Math.max(table.rows.length - 1, 0) : Math.max(after - 1, 0);
}

/** One tap more, or one back, within the table. */
export function moved(table: DriveTable, taps: number, by: 1 | -1): number {
  return Math.min(Math.max(taps + by, 0), Math.max(table.rows.length - 1, 0));
}

/** Words of the table for a stage; null for one that it does not name. */
export function stageOf(table: DriveTable, key: string): DriveTable["stages"][number] | null {
  return table.stages.find((stage) => stage.key === key) ?? null;
}
