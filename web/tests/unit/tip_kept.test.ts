import { describe, expect, test } from "vitest";
import type { Sheet } from "../../src/engine/answers.ts";
import type { Body, Entry } from "../../src/journal/event.ts";
import { isKept, planBody, writtenTime } from "../../src/tip/kept.ts";
import { length, place } from "../../src/tip/share.ts";

const SHEET = { engine: "0.1.0", tip: { verdict: "TIGHT", tree: "Harrowlees 11" } } as Sheet;
const REQUEST: Body = { tree: { tree: { dbh_cm: 40 } }, language: "en" };

function entry(body: Body): Entry {
  const at = "2026-04-02T09:30:00Z";
  return { id: "1", device: "a", seq: 1, at, schema: 1, kind: "plan", tree: "t", by: null, body };
}

describe("a verdict kept", () => {
  test("holds request, verdict, version and answer", () => {
    expect(planBody(REQUEST, SHEET)).toEqual({
      request: REQUEST,
      verdict: "TIGHT",
      engine: "0.1.0",
      answer: SHEET.tip,
    });
  });

  test("is the one on the screen only for this request, verdict and version", () => {
    const kept = entry(planBody(REQUEST, SHEET));
    expect(isKept(kept, REQUEST, SHEET)).toBe(true);
    expect(isKept(undefined, REQUEST, SHEET)).toBe(false);
    expect(isKept(kept, { ...REQUEST, language: "de" }, SHEET)).toBe(false);
    expect(isKept(kept, REQUEST, { ...SHEET, engine: "0.2.0" })).toBe(false);
    const bolder = { ...SHEET, tip: { ...SHEET.tip, verdict: "ADDS UP" as const } };
    expect(isKept(kept, REQUEST, bolder)).toBe(false);
  });

  test("its time is written in the language", () => {
    expect(writtenTime("2026-04-02T09:30:00Z", "de")).toMatch(/2\.?04\.2026|02\.04\.2026/);
    expect(writtenTime("2026-04-02T09:30:00Z", "en")).toMatch(/2 Apr 2026/);
  });
});

describe("shares", () => {
  test("become places within the axis", () => {
    expect([place(0.25), place(-1), place(2), place(0.7, 0.3)]).toEqual([
      "25.00%",
      "0.00%",
      "100.00%",
      "30.00%",
    ]);
  });

  test("lengths are the same either way round and end with the axis", () => {
    expect([length(0.2, 0.5), length(0.5, 0.2), length(0.9, 1.4)]).toEqual([
      "30.00%",
      "30.00%",
      "10.00%",
    ]);
  });
});
