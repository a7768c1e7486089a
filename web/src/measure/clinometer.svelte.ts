/// The phone as a clinometer: asked for, tried on an edge both ways round, held still for a second.
import type { Json } from "../journal/event.ts";
import { browserTilt, type TiltSource } from "./tilt.ts";

/** A tap shakes the phone: what comes before this is left out [ms]. */
export const SETTLE_MS = 600;
export const HOLD_MS = 1000;
/** Without one angle in this time there is no sensor behind the interface [ms]. */
export const SILENT_MS = 2000;
/** A held phone swings by less; what swings more was not aimed [degrees from least to most]. */
export const MOST_SWING_DEG = 2;
export const LEAST_SAMPLES = 8;
/** Readings of the edge each way round that the level check wants. */
export const EACH_WAY = 3;

/** One second held: what was read, and how far it swung. */
export interface Hold {
  readonly meanDeg: number;
  readonly spreadDeg: number;
}

export type Failure = "unsteady" | "too_few";
export type Standing = "off" | "asking" | "denied" | "silent" | "on" | TiltSource["state"];
export type Way = "first" | "turned";

/** Zero and error as the engine found them on the edge. */
export interface Level {
  readonly zero_deg: number;
  readonly angle_error_deg: number;
}

/** Zero and error out of the engine's answer; null where it gave none. */
export function levelFrom(values: { readonly [key: string]: Json }): Level | null {
  const { zero_deg, angle_error_deg } = values;
  if (typeof zero_deg !== "number" || typeof angle_error_deg !== "number") return null;
  return { zero_deg, angle_error_deg };
}

/** Mean and spread of the samples of one hold. */
export function holdOf(samples: readonly number[]): Hold | Failure {
  if (samples.length < LEAST_SAMPLES) return "too_few";
  const mean = samples.reduce((sum, one) => sum + one, 0) / samples.length;
  if (Math.max(...samples) - Math.min(...samples) > MOST_SWING_DEG) return "unsteady";
  const squares = samples.reduce((sum, one) => sum + (one - mean) ** 2, 0);
  return { meanDeg: mean, spreadDeg: Math.sqrt(squares / (samples.length - 1)) };
}

/** What the phone is off by [degrees], and how far the hand shook on top of it. */
export function errorOfSights(level: Level, holds: readonly Hold[]): number {
  const shaken = Math.max(0, ...holds.map((hold) => hold.spreadDeg));
  return twoPlaces(Math.hypot(level.angle_error_deg, shaken));
}

/** Sensors tell more digits than they know. */
export function twoPlaces(deg: number): number {
  return Math.round(deg * 100) / 100;
}

export class Clinometer {
  standing = $state<Standing>("off");
  /** The angle as it comes, to one place; null while nothing is heard. */
  now = $state<number | null>(null);
  holding = $state(false);
  failure = $state<Failure | null>(null);
  first = $state.raw<readonly number[]>([]);
  turned = $state.raw<readonly number[]>([]);
  /** Found on this phone since the app was opened: it belongs to no tree and to no other phone. */
  level = $state.raw<Level | null>(null);
  /** What the engine said of the level check, or why it refused it. */
  said = $state.raw<readonly string[]>([]);
  private stop: (() => void) | null = null;
  private samples: number[] | null = null;

  constructor(private readonly source: TiltSource) {
    if (source.state !== "there") this.standing = source.state;
  }

  /** Which way round the next reading of the edge is; null: both are done. */
  get next(): Way | null {
    if (this.first.length < EACH_WAY) return "first";
    return this.turned.length < EACH_WAY ? "turned" : null;
  }

  get readings(): { first_deg: number[]; turned_deg: number[] } {
    return { first_deg: [...this.first], turned_deg: [...this.turned] };
  }

  /** Within a tap: ask where the system wants it, then listen. */
  async start(): Promise<void> {
    if (this.source.state !== "there" || this.standing === "on" || this.standing === "asking")
      return;
    this.standing = "asking";
    if ((await this.source.ask()) === "denied") {
      this.standing = "denied";
      return;
    }
    this.stop = this.source.listen((deg) => this.hear(deg));
    await after(SILENT_MS, () => this.now !== null);
    if (this.now === null) this.end("silent");
  }

  /** Stop listening: the sensors are off when no one looks. */
  end(standing: Standing = "off"): void {
    this.stop?.();
    this.stop = null;
    this.now = null;
    this.samples = null;
    if (this.source.state === "there") this.standing = standing;
  }

  /** Hold still for a second; null: it was not, and `failure` says why. */
  async hold(): Promise<Hold | null> {
    if (this.standing !== "on" || this.holding) return null;
    this.holding = true;
    this.failure = null;
    await after(SETTLE_MS);
    this.samples = [];
    await after(HOLD_MS);
    const found = holdOf(this.samples ?? []);
    this.samples = null;
    this.holding = false;
    if (typeof found === "string") {
      this.failure = found;
      return null;
    }
    return found;
  }

  /** One reading of the edge. */
  async readEdge(): Promise<void> {
    const way = this.next;
    const held = way === null ? null : await this.hold();
    if (held === null || way === null) return;
    const reading = twoPlaces(held.meanDeg);
    if (way === "first") this.first = [...this.first, reading];
    else this.turned = [...this.turned, reading];
  }

  /** Begin the level check anew; an old level counts no longer. */
  clear(): void {
    this.first = [];
    this.turned = [];
    this.level = null;
    this.said = [];
    this.failure = null;
  }

  private hear(deg: number): void {
    if (this.stop === null && this.standing !== "asking") return;
    this.standing = "on";
    this.now = Math.round(deg * 10) / 10;
    this.samples?.push(deg);
  }
}

/** Wait, or until it is so; looked at ten times. */
async function after(ms: number, done: () => boolean = () => false): Promise<void> {
  for (let step = 0; step < 10 && !done(); step += 1) {
    await new Promise((resolve) => setTimeout(resolve, ms / 10));
  }
}

let ours: Clinometer | undefined;

/** The one clinometer of this phone; its level outlasts the screen. */
export function clinometer(): Clinometer {
  return (ours ??= new Clinometer(browserTilt()));
}
