// The catalogue of sentences, read from the Python package: one source for every face.
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { parse } from "smol-toml";
import type { Plugin } from "vite";

export const LANGUAGES = ["en", "de"] as const;
const PREFIX = "virtual:words/";

/** Areas that the app itself speaks; everything else comes rendered from the engine. */
const AREA = /^screen.*\.toml$/;

export function catalogue(words: string, language: string): Record<string, string> {
  const folder = join(words, language);
  const sentences: Record<string, string> = {};
  for (const file of readdirSync(folder)
    .filter((name) => AREA.test(name))
    .sort()) {
    const area = file.replace(/\.toml$/, "");
    const table = parse(readFileSync(join(folder, file), "utf8"));
    for (const [key, sentence] of Object.entries(table)) {
      sentences[`${area}.${key}`] = String(sentence);
    }
  }
  return sentences;
}

/** Vite plugin: `import en from "virtual:words/en"`. */
export function words(folder: string): Plugin {
  return {
    name: "fellwright-words",
    resolveId: (id) => (id.startsWith(PREFIX) ? `\0${id}` : null),
    load(id) {
      if (!id.startsWith(`\0${PREFIX}`)) return null;
      const language = id.slice(PREFIX.length + 1);
      for (const file of readdirSync(join(folder, language))) {
        this.addWatchFile(join(folder, language, file));
      }
      return `export default ${JSON.stringify(catalogue(folder, language))}`;
    },
  };
}
