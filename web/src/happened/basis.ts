/// What the prediction is made from: the verdict that was kept, else the readings as they stand.
import type { Body } from "../journal/event.ts";
import type { TreeState } from "../journal/state.ts";

export interface Basis {
  readonly request: Body;
  /** When the verdict was kept; null: the present readings. */
  readonly kept: string | null;
}

/** The request of the newest kept verdict, told in the manner of today. */
export function basisOf(tree: TreeState, present: Body, manner: object): Basis {
  const kept = tree.latest.get("plan");
  const request = kept?.body["request"];
  if (kept && typeof request === "object" && request !== null && !Array.isArray(request)) {
    return { request: { ...request, ...manner }, kept: kept.at };
  }
  return { request: present, kept: null };
}

/** Turns that were counted when it went; null where none were. */
export function turnsCounted(tree: TreeState): number | null {
  const body = tree.latest.get("drive")?.body;
  const turns = body?.["went"] === true ? body["turns"] : null;
  return typeof turns === "number" ? turns : null;
}
