/// What the journal knows of the driving of one tree: begun, how far, over.
import { SCHEMA, type Entry } from "../journal/event.ts";
import { hasMoved, type Ground } from "./changes.ts";

export const START = "start";
export const END = "end";
export const DOES_NOT_GO = "does not go";

export interface Driving {
  /** The entry that began it. */
  readonly start: string;
  readonly device: string | null;
  /** Newest stage that was kept, and the turns then. */
  readonly stage: string;
  readonly turns: number;
  /** What the plan rests on changed after the start. */
  readonly changed: boolean;
}

/** The driving that is under way; null before the start, after the end, and when it is not loaded. */
export function drivingOf(entries: readonly Entry[], tree: string, ground: Ground): Driving | null {
  let driving: Driving | null = null;
  for (const entry of entries) {
    if (entry.tree === tree && entry.schema <= SCHEMA) driving = then(driving, entry, ground);
  }
  return driving;
}

function then(driving: Driving | null, entry: Entry, ground: Ground): Driving | null {
  if (entry.kind === "drive") return after(driving, entry, ground);
  return entry.kind === "state" && entry.body["state"] !== "loaded" ? null : driving;
}

function after(driving: Driving | null, entry: Entry, ground: Ground): Driving | null {
  const { id, body } = entry;
  const stage = String(body["stage"]);
  if (stage === END) return null;
  const turns = typeof body["turns"] === "number" ? body["turns"] : null;
  if (stage === START) {
    const device = typeof body["device"] === "string" ? body["device"] : null;
    return { start: id, device, stage, turns: 0, changed: hasMoved(entry, ground) };
  }
  if (!driving) return null;
  const kept = stage === DOES_NOT_GO ? driving.stage : stage;
  return { ...driving, stage: kept, turns: turns ?? driving.turns };
}
