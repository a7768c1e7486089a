/// The nine entries of the stump record: their keys, steps of the buttons, and what is sent on.
import type { Body, Json } from "../journal/event.ts";
import { readNumber } from "../shell/number.ts";

interface Way {
  readonly key: string;
  readonly unit: string;
  /** What one tap on plus or minus changes. */
  readonly step: number;
}

export interface Quantity {
  readonly name: string;
  readonly metric: Way;
  readonly imperial: Way;
  /** The step of the back cut may lie below the notch floor. */
  readonly below?: true;
  /** Row of the comparison whose planned figure the buttons begin with. */
  readonly planned?: string;
}

const across = (name: string, planned?: string): Quantity => ({
  name,
  metric: { key: `${name}_mm`, unit: "mm", step: 1 },
  imperial: { key: `${name}_in`, unit: "in", step: 0.1 },
  ...(planned === undefined ? {} : { planned }),
});

export const HINGE = [
  across("hinge_left", "hinge"),
  across("hinge_mid", "hinge"),
  across("hinge_right", "hinge"),
] as const;

export const CUTS: readonly Quantity[] = [
  {
    name: "notch_depth",
    metric: { key: "notch_depth_cm", unit: "cm", step: 0.5 },
    imperial: { key: "notch_depth_in", unit: "in", step: 0.2 },
    planned: "notch",
  },
  across("notch_mismatch"),
  { ...across("step", "step"), below: true },
];

export const LIFT: Quantity = across("lift_used");

const plain = (key: string, step: number): Quantity => ({
  name: key,
  metric: { key, unit: "", step },
  imperial: { key, unit: "", step },
});
export const TURNS = plain("turns_used", 1);
export const LAY = plain("lay_error_deg", 0.5);

/** How it went, as the engine names it; the last is an answer of its own. */
export const WENT = [
  "fibre pull",
  "hinge tore",
  "early go",
  "sat back",
  "hung",
  "split",
  "device came out",
  "bar pinched",
  "no fault seen",
] as const;
export type Went = (typeof WENT)[number];
const NONE: Went = "no fault seen";

export type Side = "left" | "right";

/** What stands in the form: numbers as they were typed, by key. */
export interface Form {
  readonly typed: Readonly<Record<string, string>>;
  readonly side: Side | null;
  readonly went: readonly string[];
}

export const EMPTY: Form = { typed: {}, side: null, went: [] };

/** The key in use: the one that stands in the form, else the one of the units chosen. */
export function wayOf(quantity: Quantity, form: Form, imperial: boolean): Way {
  const { metric, imperial: other } = quantity;
  if (form.typed[metric.key] !== undefined) return metric;
  if (form.typed[other.key] !== undefined) return other;
  return imperial ? other : metric;
}

/** The form with one number set, or taken out. */
export function withNumber(form: Form, key: string, typed: string | null): Form {
  const rest = Object.entries(form.typed).filter(([other]) => other !== key);
  const entered = typed === null ? rest : [...rest, [key, typed] as const];
  return { ...form, typed: Object.fromEntries(entered) };
}

/** What went on, toggled; that nothing was seen stands alone. */
export function withWent(form: Form, word: Went): Form {
  const has = form.went.includes(word);
  const others = form.went.filter((one) => one !== word && one !== NONE);
  if (word === NONE) return { ...form, went: has ? [] : [NONE] };
  return { ...form, went: has ? others : [...others, word] };
}

/**
 * The number after a tap on plus or minus. The first tap begins with what was planned, so that it
 * is corrected rather than typed; where nothing was planned it begins at nought.
 */
export function stepped(
  typed: string | null,
  by: 1 | -1,
  { step, below, begin, language }: Stepping,
): string {
  const now = typed === null ? null : readNumber(typed);
  const value = now === null ? (begin ?? 0) : now + by * step;
  const held = below ? value : Math.max(0, value);
  return written(Math.round(held * 1000) / 1000, language);
}

/** A number as a person types it in a language. */
export function written(value: number, language: string): string {
  return language === "de" ? String(value).replace(".", ",") : String(value);
}

export interface Stepping {
  readonly step: number;
  readonly below: boolean;
  readonly begin: number | null;
  readonly language: string;
}

/** The entries as the engine reads them; an error of the lay goes along once its side is known. */
export function stumpOf(form: Form): Body {
  const stump: Body = {};
  for (const [key, typed] of Object.entries(form.typed)) {
    const value = readNumber(typed);
    if (value !== null) stump[key] = value;
  }
  if (form.side) stump["lay_side"] = form.side;
  if (form.went.length > 0) stump["went"] = [...form.went];
  return stump;
}

/** Nothing was entered: there is no record to keep. */
export function isEmpty(form: Form): boolean {
  return Object.keys(stumpOf(form)).length === 0;
}

/** An error of the lay without its side is of no use. */
export function lacksSide(form: Form): boolean {
  const error = readNumber(form.typed[LAY.metric.key] ?? "");
  return error !== null && error !== 0 && form.side === null;
}

/** The form that an older record fills: to correct it by a new one. */
export function formOf(body: Body | undefined, language: string): Form {
  if (!body) return EMPTY;
  const typed: Record<string, string> = {};
  for (const quantity of [...HINGE, ...CUTS, LIFT, TURNS, LAY]) {
    for (const { key } of [quantity.metric, quantity.imperial]) {
      const value = body[key];
      if (typeof value === "number") typed[key] = written(value, language);
    }
  }
  const side = body["lay_side"];
  return {
    typed,
    side: side === "left" || side === "right" ? side : null,
    went: words(body["went"]),
  };
}

function words(went: Json | undefined): string[] {
  return Array.isArray(went) ? went.filter((word) => typeof word === "string") : [];
}
