/// Text from a field as it goes into an entry: one line, nothing a screen would obey, whole characters.

/** Runs of blanks become one, what does not print goes, the rest is cut at `most` characters. */
export function plainText(text: string, most: number): string {
  const line = text.replace(/\s+/gu, " ").replace(/[\p{C}\p{Zl}\p{Zp}]/gu, "");
  return [...line].slice(0, most).join("").trim();
}
