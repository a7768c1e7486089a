/// A journal in memory alone: where the browser keeps nothing, and for tests.
import { v4 } from "uuid";
import type { Body, Draft, Entry, Kind } from "./event.ts";
import { Heap } from "./heap.ts";
import type { Journal, Keeping, Merged, Trouble } from "./journal.ts";
import { stamped, whoConfirms } from "./stamp.ts";

/** How far a clock may stand back before it is told: phones set theirs by a second or two all day. */
export const CLOCK_SLACK_MS = 2_000;

export class MemoryJournal implements Journal {
  readonly keeping: Keeping = "memory only";
  readonly damaged = 0;
  readonly broughtBack = 0;
  readonly device: string;
  readonly trouble: Trouble | null;
  private readonly heap = new Heap();
  private readonly listeners: (() => void)[] = [];
  private readonly now: () => number;

  constructor({
    device = v4(),
    trouble = null,
    now = Date.now,
  }: { device?: string; trouble?: Trouble | null; now?: () => number } = {}) {
    this.device = device;
    this.trouble = trouble;
    this.now = now;
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

  appendAll(drafts: readonly Draft[]): Promise<readonly Entry[]> {
    const { device, heap } = this;
    const added = stamped(drafts, {
      device,
      by: whoConfirms(heap.entries(), device),
      seq: heap.seqOf(device),
      newest: heap.newest(),
      now: this.now(),
    });
    for (const entry of added) heap.take(entry);
    this.tell();
    return Promise.resolve(added);
  }

  merge(entries: readonly Entry[]): Promise<Merged> {
    const count = { added: 0, here: 0, clash: 0 };
    for (const entry of entries) count[this.heap.take(entry)] += 1;
    this.tell();
    return Promise.resolve({ added: count.added, here: count.here, clashes: count.clash });
  }

  askToKeep(): Promise<Keeping> {
    return Promise.resolve(this.keeping);
  }

  onChange(listener: () => void): void {
    this.listeners.push(listener);
  }

  close(): void {
    this.listeners.length = 0;
  }

  private tell(): void {
    for (const listener of this.listeners) listener();
  }
}
