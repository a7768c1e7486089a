/// Tabs over one journal, each test with a database of its own.
import "fake-indexeddb/auto";
import { openDB } from "idb";
import { afterEach, beforeEach, vi } from "vitest";
import type { Journal } from "../../src/journal/journal.ts";
import { openJournal } from "../../src/journal/store.ts";

let name = "";
let count = 0;
let open: Journal[] = [];

beforeEach(() => {
  count += 1;
  name = `journal ${count}`;
});
afterEach(() => {
  vi.restoreAllMocks();
  vi.unstubAllGlobals();
  for (const journal of open) journal.close();
  open = [];
});

export function databaseName(): string {
  return name;
}

interface Opening {
  readonly now?: () => number;
  readonly patience_ms?: number;
  /** Another device: a journal that shares nothing with the others of the test. */
  readonly elsewhere?: boolean;
}

export async function tab({ elsewhere = false, ...options }: Opening = {}): Promise<Journal> {
  const journal = await openJournal({ name: elsewhere ? `${name} elsewhere` : name, ...options });
  open.push(journal);
  return journal;
}

export function changed(journal: Journal): Promise<void> {
  return new Promise((resolve) => {
    journal.onChange(resolve);
  });
}

/** What lies on the disk. */
export async function rows(): Promise<unknown[]> {
  const db = await openDB(name);
  const found: unknown[] = await db.getAll("entries");
  db.close();
  return found;
}

/** Let every transaction with a write in it fail as a full disk makes it fail: at its end. */
export function fillTheDisk(): void {
  const add = IDBObjectStore.prototype.add;
  vi.spyOn(IDBObjectStore.prototype, "add").mockImplementation(function (
    this: IDBObjectStore,
    ...row: [unknown]
  ) {
    const request = add.apply(this, row);
    request.addEventListener("success", () => {
      (this.transaction as unknown as { _abort(name: string): void })._abort("QuotaExceededError");
    });
    return request;
  });
}
