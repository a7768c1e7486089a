/// From what a person types to a number: decimal comma or point, blanks allowed, nothing guessed.

const NUMBER = /^[+\-\u2212]?\d{1,7}(?:[.,]\d{1,6})?$/;

/** Null where it is not one plain number: "1.234,5" could be two things and is none here. */
export function readNumber(text: string): number | null {
  const plain = text.replace(/[\s\u00a0\u202f]/g, "");
  if (!NUMBER.test(plain)) return null;
  return Number(plain.replace(",", ".").replace("\u2212", "-"));
}
