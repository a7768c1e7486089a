/// The count of taps in this tab: it outlives a reload, and is no entry of the journal.
import type { DriveTable } from "../engine/answers.ts";

export interface Count {
  readonly start: string;
  readonly taps: number;
  /** The table it was counted by, so that it is there before the engine is. */
  readonly table: DriveTable | null;
}

export type Shelf = Pick<Storage, "getItem" | "setItem">;

const place = (tree: string) => `fellwright drive ${tree}`;

/** The shelf of this tab; null where the browser denies it. */
export function thisTab(): Shelf | null {
  try {
    return sessionStorage;
  } catch {
    return null;
  }
}

/** The count of one driving; null when none is kept, or that of another one. */
export function keptCount(shelf: Shelf | null, tree: string, start: string): Count | null {
  try {
    const count = JSON.parse(shelf?.getItem(place(tree)) ?? "null") as Count | null;
    return count?.start === start && Number.isSafeInteger(count.taps) ? count : null;
  } catch {
    return null;
  }
}

/** False: it was not kept, a reload would lose it. */
export function keepCount(shelf: Shelf | null, tree: string, count: Count): boolean {
  try {
    shelf?.setItem(place(tree), JSON.stringify(count));
    return shelf !== null;
  } catch {
    return false;
  }
}
