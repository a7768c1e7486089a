/// The journal in IndexedDB. Rows are only ever added; a write is done when it is on the disk.
import type { Journal } from "./journal.ts";
import { KeptJournal } from "./kept.ts";
import { MemoryJournal } from "./memory.ts";
import { opened, troubleOf } from "./database.ts";

export interface Opening {
  readonly name?: string;
  readonly now?: () => number;
  /** How long to wait for another tab, or for a browser that does not answer. */
  readonly patience_ms?: number;
}

const PATIENCE_MS = 10_000;

/** Open the journal of this device; where that cannot be, one in memory that says why. */
export async function openJournal({
  name = "fellwright",
  now = Date.now,
  patience_ms = PATIENCE_MS,
}: Opening = {}): Promise<Journal> {
  try {
    return await KeptJournal.over(await opened(name, patience_ms), name, now);
  } catch (error) {
    return new MemoryJournal({ trouble: troubleOf(error), now });
  }
}
