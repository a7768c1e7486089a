/// The sentences of the app by their keys: a test says which sentence it means, not how it reads.
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { parse } from "smol-toml";
import { catalogue } from "../../../pack/words.ts";
import { PACKAGE } from "../../../vite.config.ts";

export type Language = "en" | "de";
export type Values = Readonly<Record<string, string | number>>;
export type Say = (key: string, values?: Values) => string;

export function sentences(language: Language): Readonly<Record<string, string>> {
  return catalogue(`${PACKAGE}/words`, language);
}

/** Those of the engine as well, which come rendered. */
export function everySentence(language: Language): Readonly<Record<string, string>> {
  const folder = join(PACKAGE, "words", language);
  const tables = readdirSync(folder).map((file) => {
    const table = parse(readFileSync(join(folder, file), "utf8"));
    const area = file.replace(/\.toml$/, "");
    return Object.entries(table).map(([key, text]) => [`${area}.${key}`, String(text)] as const);
  });
  return Object.fromEntries(tables.flat());
}

export function sayIn(language: Language): Say {
  const all = sentences(language);
  return (key, values = {}) => {
    const sentence = all[key];
    if (sentence === undefined) throw new Error(`no sentence ${key}`);
    return sentence.replace(/\{(\w+)\}/g, (whole, name: string) => String(values[name] ?? whole));
  };
}

/** A sentence with places in it, as what any filling of them matches. */
export function anyOf(sentence: string): RegExp {
  const parts = sentence
    .split(/\{[^}]*\}/)
    .map((part) => part.replace(/[\\^$.*+?()[\]{}|]/g, "\\$&"));
  return new RegExp(`^\\s*${parts.join(".*")}\\s*$`, "s");
}
