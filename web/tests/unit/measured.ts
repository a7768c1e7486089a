/// Trees as the measure screen leaves them, for its tests.
import type { Json } from "../../src/journal/event.ts";
import { addUp, type TreeState } from "../../src/journal/state.ts";
import { entry, HARROWLEES_11 } from "./entries.ts";

interface Given {
  readonly value: Json;
  readonly typed?: string;
  readonly how?: string;
}

/** A tree with these readings, added up from entries as the app adds them up. */
export function tree(readings: { readonly [path: string]: Given | Json }): TreeState {
  const entries = Object.entries(readings).map(([path, given]) => {
    const told = isGiven(given) ? given : { value: given };
    return entry({
      body: { path, value: told.value, typed: told.typed ?? null, how: told.how ?? null },
    });
  });
  const found = addUp([entry({ kind: "tree", body: { name: "11" } }), ...entries]);
  return found.trees.get(HARROWLEES_11) as TreeState;
}

function isGiven(given: Given | Json): given is Given {
  return typeof given === "object" && given !== null && !Array.isArray(given) && "value" in given;
}

export const LEAN_BY_CLOCK = { offset_m: 0.5, toward_clock: 6, sighted_at: "balance point" };
export const LEAN_BY_COMPASS = { offset_m: 0.4, toward_deg: 220, sighted_at: "top" };
