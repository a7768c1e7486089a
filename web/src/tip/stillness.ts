/// Tells when something that moves has stood still for a while.

export interface Clock {
  set(run: () => void, wait_ms: number): number;
  clear(id: number): void;
}

export const CLOCK: Clock = {
  set: (run, wait_ms) => window.setTimeout(run, wait_ms),
  clear: (id) => window.clearTimeout(id),
};

export const STILL_MS = 400;

export class Stillness {
  private waiting: number | null = null;

  constructor(
    private readonly whenStill: () => void,
    private readonly clock: Clock = CLOCK,
    private readonly wait_ms: number = STILL_MS,
  ) {}

  /** It moved: the wait begins anew. */
  moved(): void {
    this.stop();
    this.waiting = this.clock.set(() => {
      this.waiting = null;
      this.whenStill();
    }, this.wait_ms);
  }

  stop(): void {
    if (this.waiting !== null) this.clock.clear(this.waiting);
    this.waiting = null;
  }
}
