/// A journal over an open database: what this tab knows in memory, and every change on the disk first.
import type { IDBPTransaction } from "idb";
import { v4 } from "uuid";
import { notKept, rowsOf, type Connection, type Database, type Stores } from "./database.ts";
import { contentOf, isId, type Body, type Draft, type Entry, type Kind } from "./event.ts";
import { Heap, type Taken } from "./heap.ts";
import type { Journal, Keeping, Merged, Trouble } from "./journal.ts";
import { CLOCK_SLACK_MS } from "./memory.ts";
import { openSecondCopy, type SecondCopy } from "./second_copy.ts";
import { NO_CLOCK, stamped, whoConfirms } from "./stamp.ts";

type Writing = IDBPTransaction<Stores, ["entries", "clashes"], "readwrite">;

export class KeptJournal implements Journal {
  keeping: Keeping = "best effort";
  trouble: Trouble | null = null;
  damaged = 0;
  broughtBack = 0;
  private second: SecondCopy | null = null;
  private readonly db: Database;
  private readonly heap = new Heap();
  private readonly listeners: (() => void)[] = [];
  private readonly channel: BroadcastChannel | null;

  private constructor(
    connection: Connection,
    name: string,
    readonly device: string,
    private readonly now: () => number,
  ) {
    this.db = connection.db;
    connection.onClosed = () => {
      this.trouble = "closed";
      this.tell();
    };
    this.channel =
      typeof BroadcastChannel === "undefined" ? null : new BroadcastChannel(`${name} journal`);
    if (this.channel) this.channel.onmessage = () => void this.reload();
  }

  /** The journal of an open database, read in whole. */
  static async over(connection: Connection, name: string, now: () => number): Promise<KeptJournal> {
    const second = await openSecondCopy(name);
    try {
      const before = await second?.device().catch(() => undefined);
      const device = await deviceOf(connection.db, before);
      const journal = new KeptJournal(connection, name, device, now);
      await journal.read();
      await journal.uniteWith(second);
      journal.keeping = await promised(() => navigator.storage.persisted());
      // The browser may ask the person first: nothing waits for the answer.
      void journal.askToKeep();
      return journal;
    } catch (error) {
      connection.db.close();
      second?.close();
      throw error;
    }
  }

  get clashes(): number {
    return this.heap.clashes;
  }

  get clockWentBack(): boolean {
    return this.now() + CLOCK_SLACK_MS < this.heap.timeOf(this.device);
  }

  entries(): readonly Entry[] {
    return this.heap.entries();
  }

  async append(kind: Kind, tree: string | null, body: Body): Promise<Entry> {
    const [entry] = await this.appendAll([{ kind, tree, body }]);
    return entry as Entry;
  }

  async appendAll(drafts: readonly Draft[]): Promise<readonly Entry[]> {
    const { device } = this;
    const by = whoConfirms(this.heap.entries(), device);
    const added = await this.write(async (writing) => {
      const [seq, newest] = await Promise.all([lastSeq(writing, device), newestId(writing)]);
      const entries = stamped(drafts, { device, by, seq, newest, now: this.now() });
      await Promise.all(entries.map((entry) => put(writing, "entries", entry)));
      return entries;
    });
    await this.copy(added);
    this.takeIn(added);
    return added;
  }

  async merge(incoming: readonly Entry[]): Promise<Merged> {
    const count: Record<Taken, number> = { added: 0, here: 0, clash: 0 };
    await this.write(async (writing) => {
      const entries = writing.objectStore("entries");
      const clashes = writing.objectStore("clashes");
      const [kept, clashing] = await Promise.all([entries.getAll(), clashes.getAll()]);
      const known = new Map<string, Entry[]>();
      // Rows that cannot be read hold their id as well: they are never written over.
      for (const row of [...kept, ...clashing]) note(known, row);
      const adding: Promise<unknown>[] = [];
      for (const entry of incoming) {
        const taken = takenAs(known.get(entry.id), entry);
        count[taken] += 1;
        if (taken === "here") continue;
        adding.push(put(writing, taken === "added" ? "entries" : "clashes", entry));
        note(known, entry);
      }
      await Promise.all(adding);
    });
    await this.copy(incoming);
    this.takeIn(incoming);
    return { added: count.added, here: count.here, clashes: count.clash };
  }

  async askToKeep(): Promise<Keeping> {
    const keeping = await promised(() => navigator.storage.persist());
    if (keeping !== this.keeping) {
      this.keeping = keeping;
      this.tell();
    }
    return keeping;
  }

  onChange(listener: () => void): void {
    this.listeners.push(listener);
  }

  close(): void {
    this.trouble = "closed";
    this.listeners.length = 0;
    this.channel?.close();
    this.db.close();
    this.second?.close();
  }

  /** Journal and second copy get what the other one has: a damaged journal begins empty. */
  private async uniteWith(second: SecondCopy | null): Promise<void> {
    if (!second) return;
    try {
      const lost = await second.besides((id) => this.heap.has(id));
      if (lost.length > 0) this.broughtBack = (await this.merge(lost)).added;
      this.second = second;
      await second.callDevice(this.device);
      await this.copy(await second.lackedOf(this.heap.entries()));
    } catch {
      // It is the journal that counts; without its copy it goes on.
      this.second = null;
      second.close();
    }
  }

  /** Write entries once more, after the journal has them on the disk. */
  private async copy(entries: readonly Entry[]): Promise<void> {
    if (entries.length === 0) return;
    try {
      await this.second?.keep(entries);
    } catch {
      this.second?.close();
      this.second = null;
    }
  }

  /** One transaction, whole or not at all; done when the browser says that it is on the disk. */
  private async write<T>(work: (writing: Writing) => Promise<T>): Promise<T> {
    try {
      const writing = this.db.transaction(["entries", "clashes"], "readwrite", {
        durability: "strict",
      });
      const onDisk = writing.done;
      onDisk.catch(() => undefined);
      let result: T;
      try {
        result = await work(writing);
      } catch (error) {
        await undone(writing);
        throw writing.error ?? error;
      }
      await onDisk;
      return result;
    } catch (error) {
      throw notKept(error, this.trouble === "closed");
    }
  }

  private takeIn(entries: readonly Entry[]): void {
    for (const entry of entries) this.heap.take(entry);
    this.channel?.postMessage("changed");
    this.tell();
  }

  /** Unite with what lies in the database. What this tab knows never gets less. */
  private async read(): Promise<void> {
    const [kept, clashing] = [await rowsOf(this.db, "entries"), await rowsOf(this.db, "clashes")];
    // A row is never changed: an id that is known needs no second look.
    for (const entry of kept.entries) if (!this.heap.has(entry.id)) this.heap.take(entry);
    for (const entry of clashing.entries) this.heap.take(entry);
    this.damaged = kept.damaged + clashing.damaged;
  }

  private async reload(): Promise<void> {
    try {
      await this.read();
    } catch {
      return;
    }
    this.tell();
  }

  private tell(): void {
    for (const listener of this.listeners) listener();
  }
}

/** The name of this device, made once; a journal that was lost gets back the one it had. */
async function deviceOf(db: Database, before: string | undefined): Promise<string> {
  const kept = await db.get("about", "device");
  if (typeof kept === "string") return kept;
  const making = db.transaction("about", "readwrite", { durability: "strict" });
  making.done.catch(() => undefined);
  const device = (await making.store.get("device")) ?? before ?? v4();
  await making.store.put(device, "device");
  await making.done;
  return device;
}

/** Add one row; what the browser refuses at once fails like what it refuses later. */
async function put(writing: Writing, to: "entries" | "clashes", entry: Entry): Promise<void> {
  await writing.objectStore(to).add(entry);
}

async function lastSeq(writing: Writing, device: string): Promise<number> {
  const own = IDBKeyRange.bound([device], [device, []]);
  const numbers = writing.objectStore("entries").index("number");
  const cursor = await numbers.openKeyCursor(own, "prev");
  const seq: unknown = cursor?.key[1];
  return typeof seq === "number" ? Math.trunc(seq) : 0;
}

async function newestId(writing: Writing): Promise<string | undefined> {
  const clocked = IDBKeyRange.bound("0", NO_CLOCK, false, true);
  let cursor = await writing.objectStore("entries").openKeyCursor(clocked, "prev");
  while (cursor && !isId(cursor.key)) cursor = await cursor.continue();
  return cursor?.key;
}

function note(known: Map<string, Entry[]>, row: Entry): void {
  const held = known.get(row.id);
  if (held) held.push(row);
  else known.set(row.id, [row]);
}

function takenAs(held: readonly Entry[] | undefined, entry: Entry): Taken {
  if (!held) return "added";
  const content = contentOf(entry);
  return held.some((row) => contentOf(row) === content) ? "here" : "clash";
}

async function undone(writing: Writing): Promise<void> {
  try {
    writing.abort();
  } catch {
    // It has been given up by the browser already.
  }
  await writing.done.catch(() => undefined);
}

async function promised(answer: () => Promise<boolean>): Promise<Keeping> {
  try {
    return (await answer()) ? "persistent" : "best effort";
  } catch {
    return "best effort";
  }
}
