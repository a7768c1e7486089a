/// Readings that come as a list: leans and conductors. A list is kept whole, in the order taken.
import type { Body, Json } from "../journal/event.ts";
import type { TreeState } from "../journal/state.ts";
import { bearingIn, bearingKeys, type Bearing } from "./bearing.ts";
import { keyIn, PART, symbol, written, type Quantity } from "./quantities.ts";

export const LEAN = "tree.lean";
export const CONDUCTOR = "tree.conductor";
export const SIGHTED_AT = ["balance point", "top"] as const;
export type SightedAt = (typeof SIGHTED_AT)[number];

/** A number with the unit it was read in. */
export interface Measured {
  readonly value: number;
  readonly unit: string;
}

export function entriesOf(tree: Pick<TreeState, "readings">, path: string): Body[] {
  const value = tree.readings.get(path)?.value;
  return Array.isArray(value) ? value.filter(isTable) : [];
}

export function withEntry(entries: readonly Body[], entry: Body): Body[] {
  return [...entries, entry];
}

/** The list without one entry; null where none is left: the reading is withdrawn. */
export function withoutEntry(entries: readonly Body[], index: number): Body[] | null {
  const left = entries.filter((_, at) => at !== index);
  return left.length > 0 ? left : null;
}

export interface LeanDraft {
  readonly offset: Measured;
  readonly toward: Bearing;
  readonly sightedAt: SightedAt;
  readonly how: string | null;
  readonly error: Measured | null;
}

export function leanEntry(draft: LeanDraft): Body {
  return {
    ...numberKey(PART.offset, draft.offset),
    ...bearingKeys("toward", draft.toward),
    sighted_at: draft.sightedAt,
    ...(draft.how === null ? {} : { how: draft.how }),
    ...(draft.error === null ? {} : numberKey(PART.error, draft.error)),
  };
}

/** A lean as its parts are shown; null where an entry from elsewhere lacks the part. */
export interface ShownLean {
  readonly offset: string | null;
  readonly toward: Bearing | null;
  readonly sightedAt: SightedAt | null;
  readonly how: string | null;
  readonly error: string | null;
}

export function shownLean(entry: Body, language: string): ShownLean {
  const at = entry["sighted_at"];
  return {
    offset: numberText(entry, PART.offset, language),
    toward: bearingIn(entry, "toward"),
    sightedAt:
      SIGHTED_AT.find((known) => known === at) ?? (at === "balance" ? "balance point" : null),
    how: typeof entry["how"] === "string" ? entry["how"] : null,
    error: numberText(entry, PART.error, language),
  };
}

export function numberKey(wanted: Quantity, { value, unit }: Measured): Body {
  return { [keyIn(wanted, unit)]: value };
}

/** A number of an entry with its unit, as it was taken. */
export function numberText(entry: Body, wanted: Quantity, language: string): string | null {
  for (const unit of [wanted.metric, wanted.imperial]) {
    const value = entry[keyIn(wanted, unit)];
    if (typeof value === "number") return `${written(value, language)} ${symbol(unit)}`.trim();
  }
  return null;
}

function isTable(value: Json): value is Body {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

/** The words of a reading that is a list of them. */
export function wordsIn(tree: Pick<TreeState, "readings">, path: string): string[] {
  const value = tree.readings.get(path)?.value;
  return Array.isArray(value) ? value.filter((word) => typeof word === "string") : [];
}

/** The list with a word put in or taken out; null where none is left. */
export function toggled(words: readonly string[], word: string): string[] | null {
  const next = words.includes(word) ? words.filter((one) => one !== word) : [...words, word];
  return next.length > 0 ? next : null;
}

export interface ConductorDraft {
  readonly distance: Measured;
  readonly height: Measured | null;
  readonly voltage: Measured | null;
  readonly switchedOff: boolean | null;
}

export function conductorEntry(draft: ConductorDraft): Body {
  return {
    ...numberKey(PART.distance, draft.distance),
    ...(draft.height === null ? {} : numberKey(PART.lineHeight, draft.height)),
    ...(draft.voltage === null ? {} : numberKey(PART.voltage, draft.voltage)),
    ...(draft.switchedOff === null ? {} : { switched_off: draft.switchedOff }),
  };
}

/** A reading that is one table, such as the crown's shift. */
export function tableOf(tree: Pick<TreeState, "readings">, path: string): Body | null {
  const value = tree.readings.get(path)?.value ?? null;
  return isTable(value) ? value : null;
}
