/// The form in this tab until it is kept: it outlives a reload, and is no record.
import { EMPTY, formOf, type Form } from "./entries.ts";
import type { TreeState } from "../journal/state.ts";

type Shelf = Pick<Storage, "getItem" | "setItem" | "removeItem">;

const place = (tree: string) => `fellwright stump ${tree}`;

function shelf(): Shelf | null {
  try {
    return sessionStorage;
  } catch {
    return null;
  }
}

/** What was being entered; else the newest record, to be corrected by another one. */
export function drafted(tree: TreeState, language: string, on: Shelf | null = shelf()): Form {
  const newest = formOf(tree.latest.get("stump")?.body, language);
  try {
    const form = JSON.parse(on?.getItem(place(tree.id)) ?? "null") as Partial<Form> | null;
    return form === null ? newest : { ...EMPTY, ...form };
  } catch {
    return newest;
  }
}

/** Null: it is kept, or given up. */
export function draft(tree: string, form: Form | null, on: Shelf | null = shelf()): void {
  try {
    if (form === null) on?.removeItem(place(tree));
    else on?.setItem(place(tree), JSON.stringify(form));
  } catch {
    // The form itself still holds it.
  }
}
