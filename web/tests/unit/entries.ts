/// Entries of the invented world for tests of the journal.
import { v7 } from "uuid";
import type { Body, Entry } from "../../src/journal/event.ts";

export const HARROWLEES_11 = "0190a000-0000-7000-8000-000000000011";
export const HARROWLEES_12 = "0190a000-0000-7000-8000-000000000012";
export const MORNING = Date.UTC(2026, 2, 2, 6, 40);

let made = 0;

export function entry(changes: Partial<Entry> = {}): Entry {
  made += 1;
  return {
    id: v7({ msecs: MORNING + made }),
    device: "phone-of-van-2",
    seq: made,
    at: "2026-03-02T07:40:00.000+01:00",
    schema: 1,
    kind: "reading",
    tree: HARROWLEES_11,
    by: "AB",
    body: { path: "tree.dbh_cm", value: 40, typed: "40", how: null },
    ...changes,
  };
}

export function reading(path: string, value: Body[string], changes: Partial<Entry> = {}): Entry {
  return entry({ body: { path, value, typed: null, how: null }, ...changes });
}

/** Numbers in [0, 1) that come out alike each time: a test must not depend on luck. */
export function chance(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

export function shuffled<T>(items: readonly T[], next: () => number): T[] {
  const rest = [...items];
  return items.map(() => rest.splice(Math.floor(next() * rest.length), 1)[0] as T);
}
