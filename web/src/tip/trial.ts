/// Trying a hinge and a notch: quick figures while a slider moves, the whole verdict once it stands.
import type { NeedRow, Sheet, Slider, Sliders } from "../engine/answers.ts";
import type { Fault, Outcome } from "../engine/engine.ts";
import type { Body, Json } from "../journal/event.ts";
import { withoutUnit } from "../journal/state.ts";
import { CLOCK, Stillness, type Clock } from "./stillness.ts";

export type Part = keyof Sliders;
export const PARTS: readonly Part[] = ["hinge", "notch"];

/** Step of each slider. */
export type Stand = Readonly<Record<Part, number>>;

/** A reading as it would be if the trial were taken. */
export interface Change {
  readonly part: Part;
  readonly path: string;
  readonly value: number;
  readonly typed: string;
}

export interface Tried {
  readonly at: Stand;
  readonly changes: readonly Change[];
  /** Middle figures and the stand they belong to; the newest that have come. */
  readonly moving: { readonly at: Stand; readonly sheet: Sheet } | null;
  /** The whole verdict for exactly this stand; null while it moves or is worked out. */
  readonly still: Sheet | null;
  readonly faults: readonly Fault[];
}

export type AskTrial = (
  changes: readonly Change[],
  how: "moving" | "still",
) => Promise<Outcome<Sheet>>;

/** Where both sliders stand with the cut as planned. */
export function standOf(sliders: Sliders): Stand {
  return { hinge: sliders.hinge.at, notch: sliders.notch.at };
}

/** What differs from the plan: a slider back at its own step is the plan's own figure. */
export function changesAt(sliders: Sliders, at: Stand): Change[] {
  return PARTS.flatMap((part) => {
    const slider = sliders[part];
    const [value, typed] = [slider.values[at[part]], slider.typed[at[part]]];
    if (at[part] === slider.at || value === undefined || typed === undefined) return [];
    return [{ part, path: slider.path, value, typed }];
  });
}

/** Last step of a slider. */
export function lastOf(slider: Slider): number {
  return slider.values.length - 1;
}

export function stepFrom(slider: Slider, at: number, by: 1 | -1): number {
  return Math.min(lastOf(slider), Math.max(0, at + by));
}

/** The tables of a request with readings changed; in whatever unit the old one was, it goes. */
export function tablesWith(tables: Body, changes: readonly Change[]): Body {
  const changed: Body = { ...tables };
  for (const { path, value } of changes) {
    const [section, key] = path.split(".") as [string, string];
    const table = changed[section];
    const kept = Object.entries(isTable(table) ? table : {}).filter(
      ([name]) => withoutUnit(name) !== withoutUnit(key),
    );
    changed[section] = { ...Object.fromEntries(kept), [key]: value };
  }
  return changed;
}

export function isTable(value: Json | undefined): value is Body {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

/** The figures to show: those of the whole verdict once it is there, for they are the finer ones. */
export function figuresOf({ at, moving, still }: Tried): { at: Stand; sheet: Sheet } | null {
  return still ? { at, sheet: still } : moving;
}

const MOVING_ROWS = ["let_go_lift", "push", "side_use", "early_go"];

export interface MovingRow {
  readonly key: string;
  readonly name: string;
  readonly unit: string;
  readonly now: string;
  /** Null until it has come. */
  readonly then: string | null;
}

/** Middle figures now and then: nothing of a verdict is among them. */
export function movingRows(now: Sheet, then: Sheet | null): MovingRow[] {
  const row = (sheet: Sheet | null, key: string): NeedRow | undefined =>
    sheet?.shown.need.find((one) => one.key === key);
  return MOVING_ROWS.flatMap((key) => {
    const here = row(now, key);
    if (!here) return [];
    return [{ ...here, now: here.p50, then: then && (row(then, key)?.p50 ?? "-") }];
  });
}

export interface GivenRow {
  readonly key: "lift" | "push";
  readonly device: string;
  readonly unit: string;
  readonly now: string;
  readonly then: string | null;
}

/** What the device of the plan gives, now and then. */
export function givenRows(now: Sheet, then: Sheet | null): GivenRow[] {
  const name = now.tip.choice?.name;
  const of = (sheet: Sheet | null) => sheet?.shown.devices.find((one) => one.name === name);
  const here = of(now);
  if (!here?.gives) return [];
  const there = of(then);
  const given = (key: "lift" | "push", unit: string): GivenRow => ({
    key,
    device: here.name,
    unit,
    now: here[key],
    then: then && (there?.[key] ?? "-"),
  });
  return [given("lift", now.shown.lift_unit), given("push", now.shown.force_unit)];
}

export class Trial {
  private tried: Tried;
  /** Counts every move, so that an answer knows whether it is still asked for. */
  private turn = 0;
  private newest = 0;
  private readonly stillness: Stillness;

  constructor(
    private readonly sliders: Sliders,
    private readonly ask: AskTrial,
    private readonly show: (tried: Tried) => void,
    clock: Clock = CLOCK,
  ) {
    this.stillness = new Stillness(() => void this.stand(), clock);
    this.tried = this.asPlanned();
  }

  private asPlanned(): Tried {
    return { at: standOf(this.sliders), changes: [], moving: null, still: null, faults: [] };
  }

  move(part: Part, at: number): void {
    if (at === this.tried.at[part]) return;
    const stand = { ...this.tried.at, [part]: at };
    const changes = changesAt(this.sliders, stand);
    if (changes.length === 0) {
      this.reset();
      return;
    }
    this.turn += 1;
    this.put({ at: stand, changes, still: null, faults: [] });
    this.stillness.moved();
    void this.quick(this.turn, stand, changes);
  }

  /** Back to the cut as planned. */
  reset(): void {
    this.turn += 1;
    this.newest = this.turn;
    this.stillness.stop();
    this.put(this.asPlanned());
  }

  private put(change: Partial<Tried>): void {
    this.tried = { ...this.tried, ...change };
    this.show(this.tried);
  }

  private async quick(turn: number, at: Stand, changes: readonly Change[]): Promise<void> {
    const outcome = await this.ask(changes, "moving");
    if (turn < this.newest || outcome.kind === "superseded") return;
    this.newest = turn;
    if (outcome.kind === "answer") this.put({ moving: { at, sheet: outcome.answer } });
    else if (turn === this.turn) this.put({ moving: null, faults: outcome.faults });
  }

  private async stand(): Promise<void> {
    const turn = this.turn;
    const outcome = await this.ask(this.tried.changes, "still");
    if (turn !== this.turn || outcome.kind === "superseded") return;
    if (outcome.kind === "answer") this.put({ still: outcome.answer, faults: [] });
    else this.put({ still: null, faults: outcome.faults });
  }
}
