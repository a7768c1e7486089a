/// The database: its stores, how it is opened, how it is read, and what its errors mean.
import { openDB, type DBSchema, type IDBPDatabase } from "idb";
import { isEntry, type Entry } from "./event.ts";
import { NotKept, type Trouble } from "./journal.ts";

/** Raised only with a step in `build`; a copy of the app that knows less leaves the data alone. */
export const VERSION = 1;

export interface Stores extends DBSchema {
  /** Entries by id. */
  entries: { key: string; value: Entry; indexes: { number: [string, number] } };
  /** Entries whose id was taken already by one that says something else. */
  clashes: { key: number; value: Entry };
  /** What this device is called. */
  about: { key: string; value: string };
}
export type Database = IDBPDatabase<Stores>;

export interface Connection {
  readonly db: Database;
  /** Called once when the browser or a newer version in another tab has closed the connection. */
  onClosed: () => void;
}

class CannotOpen extends Error {
  constructor(readonly trouble: Trouble) {
    super(trouble);
  }
}

/** Open or build the database. */
export async function opened(name: string, patience_ms: number): Promise<Connection> {
  let waiting: Trouble = "denied";
  const closed: { onClosed: () => void } = { onClosed: () => undefined };
  const opening = openDB<Stores>(name, VERSION, {
    upgrade: build,
    blocked: () => {
      waiting = "blocked";
    },
    blocking: (_current, _wanted, event) => {
      // A newer version wants to come in: stand aside at once, or both would wait for ever.
      (event.target as IDBDatabase).close();
      closed.onClosed();
    },
    terminated: () => closed.onClosed(),
  });
  let timer: ReturnType<typeof setTimeout> | undefined;
  let late = false;
  const patience = new Promise<never>((_, reject) => {
    timer = setTimeout(() => {
      late = true;
      reject(new CannotOpen(waiting));
    }, patience_ms);
  });
  void opening.then((db) => late && db.close()).catch(() => undefined);
  try {
    const db = await Promise.race([opening, patience]);
    return Object.assign(closed, { db });
  } finally {
    clearTimeout(timer);
  }
}

function build(db: Database, before: number): void {
  if (before >= 1) return;
  db.createObjectStore("entries", { keyPath: "id" }).createIndex("number", ["device", "seq"]);
  db.createObjectStore("clashes", { autoIncrement: true });
  db.createObjectStore("about");
}

/** Why the journal could not be opened. */
export function troubleOf(error: unknown): Trouble {
  if (error instanceof CannotOpen) return error.trouble;
  if (nameOf(error) === "VersionError") return "newer";
  return nameOf(error) === "QuotaExceededError" ? "full" : "denied";
}

/** Why a write failed. */
export function notKept(error: unknown, isClosed: boolean): NotKept {
  if (nameOf(error) === "QuotaExceededError") return new NotKept("full", error);
  return new NotKept(
    isClosed || nameOf(error) === "InvalidStateError" ? "closed" : "denied",
    error,
  );
}

function nameOf(error: unknown): string {
  return typeof error === "object" && error !== null && "name" in error ? String(error.name) : "";
}

export interface Rows {
  readonly entries: readonly Entry[];
  readonly damaged: number;
}

/** All rows of one store that can be read. */
export async function rowsOf(db: Database, store: "entries" | "clashes"): Promise<Rows> {
  let rows: unknown[];
  let unread = 0;
  try {
    rows = await db.getAll(store);
  } catch {
    // One row that the browser cannot read spoils them all: go through them one at a time.
    rows = [];
    for (const key of await db.getAllKeys(store)) {
      try {
        rows.push(await db.get(store, key));
      } catch {
        unread += 1;
      }
    }
  }
  const entries = rows.filter(isEntry);
  return { entries, damaged: unread + rows.length - entries.length };
}
