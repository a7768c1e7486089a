/// Sentences of the app in the language chosen: the catalogue is the engine's own.
import de from "virtual:words/de";
import en from "virtual:words/en";

export const LANGUAGES = { en: "English", de: "Deutsch" } as const;
export type Language = keyof typeof LANGUAGES;

const SENTENCES: Record<Language, Readonly<Record<string, string>>> = { en, de };

let language = $state<Language>("en");

export function speakIn(chosen: Language): void {
  language = chosen;
}

export function spoken(): Language {
  return language;
}

/** The language of the device, where the catalogue has it. */
export function deviceLanguage(wanted: readonly string[]): Language {
  for (const tag of wanted) {
    const short = tag.slice(0, 2).toLowerCase();
    if (short in SENTENCES) return short as Language;
  }
  return "en";
}

/** One sentence by its key; `{name}` stands for a value. */
export function t(key: string, values: Readonly<Record<string, string | number>> = {}): string {
  const sentence = SENTENCES[language][key];
  if (sentence === undefined) throw new Error(`no sentence ${key}`);
  return sentence.replace(/\{(\w+)\}/g, (_, name: string) => String(values[name] ?? `{${name}}`));
}
