import { expect, it } from "vitest";
import { readNumber } from "../../src/shell/number.ts";

it.each([
  ["40", 40],
  ["40,5", 40.5],
  ["40.5", 40.5],
  [" 40 ", 40],
  ["1\u202f234", 1234],
  ["1\u00a0234,5", 1234.5],
  ["+2", 2],
  ["-2,5", -2.5],
  ["\u22122,5", -2.5],
  ["0", 0],
  ["007", 7],
  ["1234567", 1234567],
])("%j is the number %d", (typed, number) => {
  expect(readNumber(typed)).toBe(number);
});

it.each([
  "",
  " ",
  "-",
  ",5",
  ".5",
  "5,",
  "5.",
  "1.234,5",
  "1,234.5",
  "1,2,3",
  "1e3",
  "0x10",
  "12345678",
  "0.1234567",
  "40cm",
  "40 - 2",
  "\u0664\u0660",
  "NaN",
  "Infinity",
  "half",
])("%j is no number and none is guessed", (typed) => {
  expect(readNumber(typed)).toBe(null);
});
