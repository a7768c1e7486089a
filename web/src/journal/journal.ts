/// What the app needs of a journal; `store.ts` keeps one in IndexedDB, `memory.ts` one in memory.
import type { Body, Draft, Entry, Kind } from "./event.ts";

/** Where the entries lie, and how far that can be trusted. */
export type Keeping =
  /** Kept, and the browser has promised not to clear it by itself. */
  | "persistent"
  /** Kept, but the browser may clear it when space runs short. */
  | "best effort"
  /** Nothing is kept: storage is denied or the window is private. */
  | "memory only";

/** Why nothing is kept, or nothing more. */
export type Trouble =
  /** The browser denies storage, or it does not answer. */
  | "denied"
  /** There is no room on the phone to begin a journal. */
  | "full"
  /** A newer version of the app wrote the journal; this one leaves it as it is. */
  | "newer"
  /** Another tab with an older version holds the journal. */
  | "blocked"
  /** The connection was closed: another tab brought a newer version, or the browser cleared it. */
  | "closed";

export interface Merged {
  readonly added: number;
  /** Entries that were here already, word for word. */
  readonly here: number;
  /** Entries that bear the id of one that is kept here, with other content: both are kept. */
  readonly clashes: number;
}

/** Why an entry was not kept; it is still in the form, and nothing kept before is touched. */
export class NotKept extends Error {
  constructor(
    readonly why: "full" | "denied" | "closed",
    cause?: unknown,
  ) {
    super(why, { cause });
  }
}

export interface Journal {
  readonly device: string;
  readonly keeping: Keeping;
  readonly trouble: Trouble | null;
  /** Rows that cannot be read: they stay where they lie and are skipped. */
  readonly damaged: number;
  /** Entries that the browser had lost and that came back from the second copy. */
  readonly broughtBack: number;
  /** Entries that share their id with another one. */
  readonly clashes: number;
  /** True when the clock stands before an entry of this device: order goes on by number. */
  readonly clockWentBack: boolean;
  /** Every entry, oldest first; those that clash as well. */
  entries(): readonly Entry[];
  /** Keep one entry; resolves only when it is on the disk. Throws `NotKept`. */
  append(kind: Kind, tree: string | null, body: Body): Promise<Entry>;
  /** Keep several entries, all or none. Throws `NotKept`. */
  appendAll(drafts: readonly Draft[]): Promise<readonly Entry[]>;
  /** Take in entries from elsewhere: a set union. Throws `NotKept`; then none is taken in. */
  merge(entries: readonly Entry[]): Promise<Merged>;
  /** Ask the browser once more not to clear the entries by itself. */
  askToKeep(): Promise<Keeping>;
  /** Called after every change, from whichever tab it came. */
  onChange(listener: () => void): void;
  close(): void;
}
