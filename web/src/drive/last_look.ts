/// The seven items before the start, and how long an answer to one of them holds.
import { SCHEMA, type Entry } from "../journal/event.ts";
import { hasMoved, type Ground } from "./changes.ts";

export const ITEMS = [
  "ring",
  "wind",
  "way out",
  "overhead",
  "wedges",
  "battery",
  "signal",
] as const;
export type Item = (typeof ITEMS)[number];

export const HOLDS_MS = 30 * 60_000;
/** Clocks of two phones may differ by this; a tick from further ahead is no tick. */
export const AHEAD_MS = 60_000;

/** Why a tick no longer holds. */
export type Stale = "old" | "changed" | "clock";

export interface Looked {
  readonly item: Item;
  /** A yes that no longer holds is none; a no holds until it is answered yes. */
  readonly answer: "yes" | "no" | null;
  readonly stale: Stale | null;
}

/** How each item of a tree stands on this ground. Entries come oldest first. */
export function lookedAt(
  entries: readonly Entry[],
  tree: string,
  ground: Ground,
  now: number,
): Looked[] {
  const newest = new Map<string, Entry>();
  for (const entry of entries) {
    if (entry.kind === "ready" && entry.tree === tree && entry.schema <= SCHEMA) {
      newest.set(String(entry.body["item"]), entry);
    }
  }
  return ITEMS.map((item) => {
    const entry = newest.get(item);
    if (!entry) return { item, answer: null, stale: null };
    if (entry.body["done"] !== true) return { item, answer: "no", stale: null };
    const stale = hasMoved(entry, ground) ? "changed" : tooOld(Date.parse(entry.at), now);
    return { item, answer: stale === null ? "yes" : null, stale };
  });
}

function tooOld(at: number, now: number): Stale | null {
  const age = now - at;
  if (!(age >= -AHEAD_MS)) return "clock";
  return age > HOLDS_MS ? "old" : null;
}

/** Whether all seven are answered yes, and every yes holds. */
export function isReady(looked: readonly Looked[]): boolean {
  return looked.length === ITEMS.length && looked.every(({ answer }) => answer === "yes");
}

/** How many are answered yes. */
export function countYes(looked: readonly Looked[]): number {
  return looked.filter(({ answer }) => answer === "yes").length;
}
