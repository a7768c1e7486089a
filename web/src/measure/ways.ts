/// How a number was taken, as the journal keeps it.

/** Offered for every number; the ways of reading a lean are the engine's own. */
export const WAYS = ["measured", "eye", "told"] as const;

/** Ways that a helper writes, by the end of their key among the sentences. */
const WORKED: Readonly<Record<string, string>> = {
  girth: "girth",
  "two angles": "two_angles",
  paces: "paces",
  "test bore": "test_bore",
  "no compass": "no_compass",
};

/** End of the key of the sentence for a way; null: a way from elsewhere, shown as it stands. */
export function wayKey(how: string): string | null {
  return WAYS.find((way) => way === how) ?? WORKED[how] ?? null;
}
