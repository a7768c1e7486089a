/// The lay, and the hours that were read with it at twelve.
import { describe, expect, test } from "vitest";
import type { Json } from "../../src/journal/event.ts";
import { CLOCK_ONLY, CLOCK_ONLY_LAY, LAY, layIsContradicted } from "../../src/journal/lay.ts";
import { requestFor } from "../../src/journal/request.ts";
import { addUp, type TreeState } from "../../src/journal/state.ts";
import { asksAboutHours, hoursOut } from "../../src/measure/laychange.ts";
import { LEAN_BY_CLOCK, LEAN_BY_COMPASS, tree } from "./measured.ts";

describe("a lay that is entered anew", () => {
  const clock = { value: CLOCK_ONLY_LAY, typed: null, how: CLOCK_ONLY };

  test("asks about hours that were read against another one, and only then", () => {
    const read = tree({ [LAY]: 40, "tree.lean": [LEAN_BY_CLOCK] });
    expect(asksAboutHours(read, { value: 100, typed: "100", how: null })).toBe(true);
    expect(asksAboutHours(read, { value: 40, typed: "40,0", how: null })).toBe(false);
    expect(asksAboutHours(read, clock)).toBe(true);
    expect(asksAboutHours(tree({ [LAY]: 40, "tree.lean": [LEAN_BY_COMPASS] }), clock)).toBe(false);
  });

  test("asks also where the old lay was taken out in between", () => {
    const read = tree({ "tree.lean": [LEAN_BY_CLOCK] });
    expect(asksAboutHours(read, { value: 40, typed: "40", how: null })).toBe(true);
  });

  test("nought degrees north is not the same as the clock alone", () => {
    const read = tree({
      [LAY]: { value: CLOCK_ONLY_LAY, how: CLOCK_ONLY },
      "tree.lean": [LEAN_BY_CLOCK],
    });
    expect(asksAboutHours(read, { value: 0, typed: "0", how: null })).toBe(true);
    expect(asksAboutHours(read, clock)).toBe(false);
  });

  test("takes out every hour and nothing else", () => {
    const read = tree({
      [LAY]: 40,
      "tree.lean": [LEAN_BY_CLOCK, LEAN_BY_COMPASS],
      "tree.crown_shift": { offset_m: 1, toward_clock: 3 },
      "day.wind_from_clock": 12,
    });
    expect(hoursOut(read)).toEqual([
      { path: "tree.lean", value: [LEAN_BY_COMPASS] },
      { path: "tree.crown_shift", value: null },
      { path: "day.wind_from_clock", value: null },
    ]);
  });
});

describe("a lay that is only twelve o'clock", () => {
  const manner = { language: "en", force: "kN", imperial: false };
  const lay = { value: CLOCK_ONLY_LAY, how: CLOCK_ONLY };

  function asked(read: TreeState): { [section: string]: Json } {
    const state = addUp([]);
    return requestFor(state, read, manner)["tree"] as { [section: string]: Json };
  }

  test("goes to the engine beside directions by the clock", () => {
    const read = tree({ [LAY]: lay, "tree.lean": [LEAN_BY_CLOCK] });
    expect(layIsContradicted(read)).toBe(false);
    expect(asked(read)["cut"]).toEqual({ lay_deg: 0 });
  });

  test.each([
    ["a lean", { "tree.lean": [LEAN_BY_CLOCK, LEAN_BY_COMPASS] }],
    ["a crown shift", { "tree.crown_shift": { offset_m: 1, toward_deg: 90 } }],
    ["the wind", { "day.wind_from_deg": 270 }],
  ])("is kept from the engine where %s stands in degrees", (_, readings) => {
    const read = tree({ [LAY]: lay, ...readings });
    expect(layIsContradicted(read)).toBe(true);
    expect(asked(read)["cut"]).toBeUndefined();
  });

  test("a compass lay goes along with degrees", () => {
    const read = tree({ [LAY]: { value: 0, typed: "0" }, "tree.lean": [LEAN_BY_COMPASS] });
    expect(layIsContradicted(read)).toBe(false);
    expect(asked(read)["cut"]).toEqual({ lay_deg: 0 });
  });
});
