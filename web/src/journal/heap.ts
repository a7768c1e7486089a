/// Entries in memory as a set: nothing is in it twice, nothing ever leaves it.
import { byAge, contentOf, type Entry } from "./event.ts";
import { NO_CLOCK } from "./stamp.ts";

export type Taken = "added" | "here" | "clash";

export class Heap {
  clashes = 0;
  private readonly byId = new Map<string, Entry[]>();
  private ordered: Entry[] = [];
  private sorted = true;
  private readonly latest = new Map<string, { seq: number; at: number }>();

  /** Unite with one entry. */
  take(entry: Entry): Taken {
    const held = this.byId.get(entry.id);
    if (!held) {
      this.byId.set(entry.id, [entry]);
      this.put(entry);
      return "added";
    }
    const content = contentOf(entry);
    if (held.some((other) => contentOf(other) === content)) return "here";
    held.push(entry);
    this.clashes += 1;
    this.put(entry);
    return "clash";
  }

  has(id: string): boolean {
    return this.byId.has(id);
  }

  /** Oldest first. */
  entries(): readonly Entry[] {
    if (!this.sorted) {
      this.ordered = [...this.ordered].sort(byAge);
      this.sorted = true;
    }
    return this.ordered;
  }

  /** Newest id that a clock can have given. */
  newest(): string | undefined {
    const entries = this.entries();
    let index = entries.length - 1;
    while (index >= 0 && (entries[index] as Entry).id >= NO_CLOCK) index -= 1;
    return entries[index]?.id;
  }

  /** Newest number of a device; 0 before the first. */
  seqOf(device: string): number {
    return this.latest.get(device)?.seq ?? 0;
  }

  /** Latest time that a device has written down, in ms since 1970. */
  timeOf(device: string): number {
    return this.latest.get(device)?.at ?? Number.NEGATIVE_INFINITY;
  }

  private put(entry: Entry): void {
    const { seq, at } = this.latest.get(entry.device) ?? { seq: 0, at: Number.NEGATIVE_INFINITY };
    const time = Date.parse(entry.at);
    this.latest.set(entry.device, {
      seq: Math.max(seq, entry.seq),
      at: Number.isNaN(time) ? at : Math.max(at, time),
    });
    const last = this.ordered.at(-1);
    this.sorted &&= last === undefined || byAge(last, entry) < 0;
    this.ordered.push(entry);
  }
}
