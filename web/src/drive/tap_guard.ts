/// One finger, one item, one look: a hand that sweeps down the list ticks nothing.

export const GAP_MS = 600;

export type Refused = "too fast" | "second finger";

export class TapGuard {
  private readonly fingers = new Set<number>();
  private several = false;
  private last: number | null = null;

  constructor(private readonly clock: () => number) {}

  /** False: another finger is down already; a browser may make no tap of it at all. */
  down(finger: number): boolean {
    if (this.fingers.size === 0) this.several = false;
    this.fingers.add(finger);
    if (this.fingers.size > 1) this.several = true;
    return !this.several;
  }

  up(finger: number): void {
    this.fingers.delete(finger);
  }

  /** Null: the tap is taken. A tap that is not taken counts as the one before the next. */
  tap(): Refused | null {
    const now = this.clock();
    const since = this.last === null ? GAP_MS : now - this.last;
    this.last = now;
    if (this.several) return "second finger";
    return since >= GAP_MS ? null : "too fast";
  }
}
