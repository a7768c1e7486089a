/// What of a helper's answer goes into the journal, in which order, when a person takes it over.
import type { SightAnswer } from "../../engine/answers.ts";
import type { Body, Json } from "../../journal/event.ts";
import type { TreeState } from "../../journal/state.ts";
import { entriesOf, LEAN, withEntry } from "../lists.ts";

/** How a reading came about that a helper worked out; kept with the reading. */
export type Worked = "girth" | "two angles" | "paces" | "test bore" | "plumb line, two sides";

export interface TakenOver {
  readonly path: string;
  readonly value: Json;
}

/**
 * One entry a key, errors first: were the browser ended in between, an old value would stand beside
 * a wider doubt, not a new value beside a doubt that is too narrow. A lean joins those taken before.
 */
export function entriesFrom(answer: SightAnswer, tree: Pick<TreeState, "readings">): TakenOver[] {
  const keys = Object.keys(answer.values).sort((a, b) => rank(a) - rank(b));
  return keys.map((key) => {
    const value = answer.values[key] ?? null;
    return key === "lean"
      ? { path: LEAN, value: withEntry(entriesOf(tree, LEAN), value as Body) }
      : { path: `tree.${key}`, value };
  });
}

function rank(key: string): number {
  return /_error_/.test(key) ? 0 : 1;
}
