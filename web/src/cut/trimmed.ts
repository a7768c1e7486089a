/// The stump after trimming, and the request as it would be had it not been measured again.
import { byAge, type Body, type Entry } from "../journal/event.ts";
import { addUp, withoutUnit, type TreeState } from "../journal/state.ts";
import { isTable } from "../tip/trial.ts";

const WIDTH = "tree.stump_diameter";
const FLARE = "tree.flare";

function keyIn(imperial: boolean): string {
  return imperial ? "stump_diameter_in" : "stump_diameter_cm";
}

export function trimmedBody(width: number, typed: string, imperial: boolean): Body {
  return { [keyIn(imperial)]: width, typed };
}

/** What was typed at the newest trimming; null where that was in the other unit. */
export function typedOf(trimmed: Entry | undefined, imperial: boolean): string | null {
  const typed = trimmed?.body["typed"];
  return typeof typed === "string" && trimmed && keyIn(imperial) in trimmed.body ? typed : null;
}

/** This tree before its newest trimming; undefined where it was not trimmed. */
export function beforeTrimming(entries: readonly Entry[], id: string): TreeState | undefined {
  const ordered = [...entries].sort(byAge);
  const last = ordered.filter((entry) => entry.kind === "trimmed" && entry.tree === id).at(-1);
  return last && addUp(ordered.slice(0, ordered.indexOf(last))).trees.get(id);
}

/** The tables as they stand, with width and flare as they were before. */
export function tablesBefore(tables: Body, before: TreeState): Body {
  const table = tables["tree"];
  const kept = Object.entries(isTable(table) ? table : {}).filter(
    ([key]) => withoutUnit(key) !== "stump_diameter" && key !== "flare",
  );
  const old = [...before.readings]
    .filter(([path]) => withoutUnit(path) === WIDTH || path === FLARE)
    .map(([path, { value }]) => [path.slice("tree.".length), value] as const);
  return { ...tables, tree: Object.fromEntries([...kept, ...old]) };
}
