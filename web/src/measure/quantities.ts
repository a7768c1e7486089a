/// Which number stands under which key: the unit at the end of a key is the unit it was read in.
import type { Json } from "../journal/event.ts";
import { withoutUnit, type Reading, type TreeState } from "../journal/state.ts";

/** A number of the tree file: its key without the unit, and the unit in each system. */
export interface Quantity {
  readonly stem: string;
  readonly metric: string;
  readonly imperial: string;
}

function quantity(stem: string, metric = "", imperial = metric): Quantity {
  return { stem, metric, imperial };
}

export const TREE = {
  dbh: quantity("tree.dbh", "cm", "in"),
  dbhError: quantity("tree.dbh_error", "cm", "in"),
  height: quantity("tree.height", "m", "ft"),
  heightError: quantity("tree.height_error", "m", "ft"),
  stump: quantity("tree.stump_diameter", "cm", "in"),
  crownBase: quantity("tree.crown_base", "m", "ft"),
  crownRadius: quantity("tree.crown_radius", "m", "ft"),
  cutHeight: quantity("tree.cut_height", "cm", "in"),
  wall: quantity("tree.cavity_wall", "cm", "in"),
  lay: quantity("cut.lay", "deg"),
  notchShare: quantity("cut.notch_share"),
  hinge: quantity("cut.hinge", "mm", "in"),
  gust: quantity("day.gust", "m_s", "mph"),
  temperature: quantity("day.temperature", "degc", "degf"),
} as const;

/** Numbers that stand in an entry of a list, or in the request of a helper. */
export const PART = {
  offset: quantity("offset", "m", "ft"),
  error: quantity("error", "m", "ft"),
  distance: quantity("distance", "m", "ft"),
  lineHeight: quantity("height", "m", "ft"),
  voltage: quantity("voltage", "kv"),
  girth: quantity("girth", "cm", "in"),
  bark: quantity("bark", "cm", "in"),
  bores: quantity("bores", "cm", "in"),
  paceLength: quantity("pace_length", "m", "ft"),
  eyeHeight: quantity("eye_height", "m", "ft"),
  right: quantity("right", "m", "ft"),
} as const;

const SYMBOLS: Readonly<Record<string, string>> = {
  m_s: "m/s",
  degc: "°C",
  degf: "°F",
  deg: "°",
  kv: "kV",
};

export function symbol(unit: string): string {
  return SYMBOLS[unit] ?? unit;
}

export function unitOf(wanted: Quantity, imperial: boolean): string {
  return imperial ? wanted.imperial : wanted.metric;
}

export function keyIn(wanted: Quantity, unit: string): string {
  return unit ? `${wanted.stem}_${unit}` : wanted.stem;
}

export interface Taken {
  readonly path: string;
  readonly unit: string;
  readonly reading: Reading;
}

/** The reading of a quantity, in the unit it was taken in. */
export function takenOf(tree: Pick<TreeState, "readings">, wanted: Quantity): Taken | null {
  for (const unit of new Set([wanted.metric, wanted.imperial])) {
    const path = keyIn(wanted, unit);
    const reading = tree.readings.get(path);
    if (reading) return { path, unit, reading };
  }
  return null;
}

/** Whether a field of a fault is about this quantity, in whichever unit. */
export function isAbout(field: string, wanted: Quantity): boolean {
  return withoutUnit(field) === wanted.stem || field === wanted.stem;
}

/** A number as it is written in the language, every digit of it. */
export function written(value: Json, language: string): string {
  const plain = String(value);
  return language === "de" && typeof value === "number" ? plain.replace(".", ",") : plain;
}

/** As it was typed; where nobody typed it, as the number it is. */
export function textOf(reading: Reading, language: string): string {
  return reading.typed ?? written(reading.value, language);
}

/** The same number with its sign as told: phones have no minus on their key pad for numbers. */
export function signed(value: number, below: boolean): number {
  return below ? -Math.abs(value) : Math.abs(value);
}

/** Whether a number stands below nought. */
export function isBelow(value: Json | undefined): boolean {
  return typeof value === "number" && value < 0;
}

/** A number and its text below nought, unless they stand there already. */
export function turnedBelow(value: number, typed: string): readonly [number, string] {
  return value > 0 ? [signed(value, true), signedText(typed, true)] : [value, typed];
}

export function signedText(typed: string, below: boolean): string {
  const plain = typed.replace(/^\s*[+\-\u2212]/, "");
  return below ? `\u2212${plain}` : plain;
}

/** Whether a number was only judged: then how far it may be off must be told with it. */
export function isByEye(tree: Pick<TreeState, "readings">, wanted: Quantity): boolean {
  return takenOf(tree, wanted)?.reading.how === "eye";
}
