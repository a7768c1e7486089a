/// A number as a phone dials it; null for what is no number, which is then only shown.

const NUMBER = /^[+]?[\d\s()/.-]{2,30}$/;

export function dialled(text: string): string | null {
  if (!NUMBER.test(text)) return null;
  const digits = text.replace(/[^\d+]/g, "");
  return digits.length < 2 ? null : `tel:${digits}`;
}
