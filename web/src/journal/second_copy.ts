/// The journal once more, in a store of its own. A browser that is killed while it writes may find its
/// database damaged at the next start, and then throws it away whole. The two are never written at the
/// same time, so one of them is whole always.
import { wrap, type DBSchema, type IDBPDatabase } from "idb";
import { contentOf, isEntry, type Entry } from "./event.ts";

interface Stores extends DBSchema {
  /** Entries by id; one that clashes stands under its id and all that it says. */
  rows: { key: string; value: Entry };
  about: { key: string; value: string };
}

/** Stores apart from the page's own: only some browsers have them. */
export interface Buckets {
  open(name: string, options: { persisted: boolean }): Promise<{ readonly indexedDB: IDBFactory }>;
}

const VERSION = 1;
const DEVICE = "device";
const ID_LENGTH = 36;
/** Entries wait for this copy; one that does not answer is done without. */
const PATIENCE_MS = 3_000;

/** Open the second copy of a journal; null where the browser has no place for one. */
export async function openSecondCopy(
  name: string,
  buckets: Buckets | null = ofBrowser(),
): Promise<SecondCopy | null> {
  if (!buckets) return null;
  try {
    return new SecondCopy(await inTime(opened(name, buckets)));
  } catch {
    return null;
  }
}

function ofBrowser(): Buckets | null {
  return (
    (globalThis as { navigator?: { storageBuckets?: Buckets } }).navigator?.storageBuckets ?? null
  );
}

async function opened(name: string, buckets: Buckets): Promise<IDBPDatabase<Stores>> {
  const bucket = await buckets.open("second-copy", { persisted: true });
  const opening = bucket.indexedDB.open(name, VERSION);
  opening.onupgradeneeded = () => {
    opening.result.createObjectStore("rows");
    opening.result.createObjectStore("about");
  };
  const db = (await wrap(opening)) as unknown as IDBPDatabase<Stores>;
  // A newer version that wants to come in is let in.
  db.addEventListener("versionchange", () => db.close());
  return db;
}

export class SecondCopy {
  constructor(private readonly db: IDBPDatabase<Stores>) {}

  /** What this device was called when the copy was written last. */
  device(): Promise<string | undefined> {
    return inTime(this.db.get("about", DEVICE));
  }

  async callDevice(device: string): Promise<void> {
    await inTime(this.db.put("about", device, DEVICE));
  }

  /** Entries of the copy under ids that are not known. */
  async besides(isKnown: (id: string) => boolean): Promise<readonly Entry[]> {
    const keys = await inTime(this.db.getAllKeys("rows"));
    const wanted = keys.filter((key) => !isKnown(key.slice(0, ID_LENGTH)));
    const rows = await Promise.all(wanted.map((key) => this.db.get("rows", key)));
    return rows.filter(isEntry);
  }

  /** Those of some entries whose ids the copy does not have. */
  async lackedOf(entries: readonly Entry[]): Promise<readonly Entry[]> {
    const keys = new Set<unknown>(await inTime(this.db.getAllKeys("rows")));
    return entries.filter(({ id }) => !keys.has(id));
  }

  /** Copy entries; what is there already stays as it is. */
  async keep(entries: readonly Entry[]): Promise<void> {
    await inTime(this.write(entries));
  }

  private async write(entries: readonly Entry[]): Promise<void> {
    const writing = this.db.transaction("rows", "readwrite", { durability: "strict" });
    const onDisk = writing.done;
    onDisk.catch(() => undefined);
    for (const entry of entries) {
      const held = await writing.store.get(entry.id);
      if (!held) await writing.store.put(entry, entry.id);
      else if (contentOf(held) !== contentOf(entry)) {
        await writing.store.put(entry, `${entry.id} ${contentOf(entry)}`);
      }
    }
    await onDisk;
  }

  close(): void {
    this.db.close();
  }
}

/** Its result, or a failure when it takes too long. */
async function inTime<T>(work: Promise<T>): Promise<T> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new Error("the second copy does not answer")), PATIENCE_MS);
  });
  try {
    return await Promise.race([work, late]);
  } finally {
    clearTimeout(timer);
  }
}
