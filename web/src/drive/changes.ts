/// What a tick or a start rests on: after a change of it, the last look is taken anew.
import type { Body } from "../journal/event.ts";
import type { State, TreeState } from "../journal/state.ts";

export interface Ground {
  /** Id of the newest entry that the plan rests on. */
  readonly newest: string;
  /** Mark of all readings, kit and rules together: a merge may bring in what is older than a tick. */
  readonly mark: string;
}

/** The ground of a plan as it stands. */
export function groundOf(state: State, tree: TreeState, request: Body): Ground {
  const newest = state.restsOn > tree.restsOn ? state.restsOn : tree.restsOn;
  return { newest, mark: markOf(request) };
}

/** Whether an entry that was made on other ground than this. */
export function hasMoved(entry: { readonly id: string; readonly body: Body }, ground: Ground) {
  const mark = entry.body["ground"];
  return entry.id < ground.newest || (typeof mark === "string" && mark !== ground.mark);
}

/** A short mark of what is planned from; how it is told does not count. FNV-1a, 32 bits. */
function markOf({ tree, kit, profile }: Body): string {
  let hash = 0x811c9dc5;
  for (const letter of JSON.stringify([tree ?? null, kit ?? null, profile ?? null])) {
    hash = Math.imul(hash ^ (letter.codePointAt(0) ?? 0), 0x01000193);
  }
  return (hash >>> 0).toString(16).padStart(8, "0");
}
