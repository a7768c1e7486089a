/// From what is typed on the form of a van to the tables of a kit; nothing is left to guess.
import type { KitField, KitSection } from "../engine/answers.ts";
import type { Body, Json } from "../journal/event.ts";
import { readNumber } from "../shell/number.ts";

/** What stands in the fields of one item, as it was typed. */
export type Typed = Readonly<Record<string, string>>;

/** Second half of a pair of figures, beside the first. */
export const secondOf = (key: string): string => `${key} 2`;

export interface ItemRead {
  readonly item: Body;
  /** Keys whose text is no number. */
  readonly broken: readonly string[];
}

export function readItem(fields: readonly KitField[], typed: Typed): ItemRead {
  const item: Body = {};
  const broken: string[] = [];
  for (const field of fields) {
    const value = valueOf(field, typed);
    if (value === undefined) broken.push(field.key);
    else if (value !== null) item[field.key] = value;
  }
  return { item, broken };
}

/** Null: nothing typed. Undefined: what is typed is no number. */
function valueOf(field: KitField, typed: Typed): Json | undefined {
  const text = (typed[field.key] ?? "").trim();
  if (field.entry === "pair") {
    const second = (typed[secondOf(field.key)] ?? "").trim();
    if (text === "" && second === "") return null;
    return numbers([text, second]);
  }
  if (text === "") return null;
  if (field.entry === "list") return numbers(text.split(/[\s;/]+/).filter(Boolean));
  if (field.entry === "number") return readNumber(text) ?? undefined;
  return text;
}

function numbers(texts: readonly string[]): number[] | undefined {
  const read = texts.map(readNumber);
  return read.every((number) => number !== null) ? (read as number[]) : undefined;
}

/** The kit with one more item; of what there is one only, in place of the old one. */
export function withItem(kit: Body | null, section: KitSection, item: Body): Body {
  if (section.single) return { ...kit, [section.key]: item };
  return { ...kit, [section.key]: [...itemsOf(kit, section.key), item] };
}

export function withoutItem(kit: Body | null, section: KitSection, index: number): Body {
  const left = itemsOf(kit, section.key).filter((_, at) => at !== index);
  const rest = Object.fromEntries(
    Object.entries(kit ?? {}).filter(([key]) => key !== section.key),
  ) as Body;
  return section.single || left.length === 0 ? rest : { ...rest, [section.key]: left };
}

/** Items of one section, in their order. */
export function itemsOf(kit: Body | null, key: string): Json[] {
  const held = kit?.[key];
  if (held === undefined || held === null) return [];
  return Array.isArray(held) ? held : [held];
}

/** An item in one line: its name, or its figures with their units. */
export function told(section: KitSection, item: Json): string {
  if (item === null || typeof item !== "object" || Array.isArray(item)) return "";
  const name = item["name"];
  if (typeof name === "string") return name;
  return section.fields
    .filter(({ key }) => key in item)
    .map(({ key, unit }) => `${String(item[key])} ${unit}`.trim())
    .join(", ");
}
