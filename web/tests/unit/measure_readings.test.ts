/// What the measure screen writes, and what it makes of what stands there.
import { describe, expect, test } from "vitest";
import type { Fault } from "../../src/engine/engine.ts";
import { addUp, type TreeState } from "../../src/journal/state.ts";
import {
  bearingIn,
  bearingKeys,
  bearingText,
  hourOf,
  HOURS,
  hourText,
  shownHour,
} from "../../src/measure/bearing.ts";
import { faultsOf, faultsOfEntry, faultsOnTop } from "../../src/measure/faults.ts";
import {
  conductorEntry,
  entriesOf,
  leanEntry,
  numberText,
  shownLean,
  toggled,
  withEntry,
  withoutEntry,
  wordsIn,
} from "../../src/measure/lists.ts";
import { answerOf, answersTo, valueOf } from "../../src/measure/look.ts";
import { countTaken, inputsOpen, LOOK, lookOpen, progressOf } from "../../src/measure/progress.ts";
import {
  isAbout,
  isBelow,
  isByEye,
  keyIn,
  PART,
  signed,
  signedText,
  symbol,
  takenOf,
  textOf,
  TREE,
  turnedBelow,
  unitOf,
} from "../../src/measure/quantities.ts";
import { entry, HARROWLEES_11 } from "./entries.ts";
import { LEAN_BY_CLOCK, LEAN_BY_COMPASS, tree } from "./measured.ts";

function fault(field: string): Fault {
  return { file: "", row: null, field, value: "9", rule: "r", remedy: "m", code: "c", text: "t" };
}

describe("a number stands under the key of its unit", () => {
  test("metric or imperial as wished, without a unit where there is none", () => {
    expect(keyIn(TREE.dbh, unitOf(TREE.dbh, false))).toBe("tree.dbh_cm");
    expect(keyIn(TREE.dbh, unitOf(TREE.dbh, true))).toBe("tree.dbh_in");
    expect(keyIn(TREE.gust, unitOf(TREE.gust, true))).toBe("day.gust_mph");
    expect(keyIn(TREE.notchShare, unitOf(TREE.notchShare, true))).toBe("cut.notch_share");
  });

  test("a reading is found in whichever unit it was taken, and stays in it", () => {
    const taken = takenOf(tree({ "tree.dbh_in": { value: 16, typed: "16" } }), TREE.dbh);
    expect(taken).toMatchObject({ path: "tree.dbh_in", unit: "in" });
    expect(taken && textOf(taken.reading, "de")).toBe("16");
    expect(takenOf(tree({}), TREE.dbh)).toBeNull();
  });

  test("an error is not taken for the quantity that it belongs to", () => {
    const erring = tree({ "tree.height_error_m": 2 });
    expect(takenOf(erring, TREE.height)).toBeNull();
    expect(takenOf(erring, TREE.heightError)?.unit).toBe("m");
    expect(isAbout("tree.height_error_m", TREE.height)).toBe(false);
    expect(isAbout("tree.height_ft", TREE.height)).toBe(true);
  });

  test("as it was typed, else every digit of the number with the comma of the language", () => {
    expect(textOf({ value: 40.5, typed: "40,50", how: null }, "en")).toBe("40,50");
    expect(textOf({ value: 24.31, typed: null, how: null }, "de")).toBe("24,31");
    expect(textOf({ value: 24.31, typed: null, how: null }, "en")).toBe("24.31");
  });

  test("units have their signs", () => {
    expect([symbol("m_s"), symbol("degc"), symbol("cm"), symbol("")]).toEqual([
      "m/s",
      "°C",
      "cm",
      "",
    ]);
  });

  test("a tap below nought turns number and text alike, and turns nothing twice", () => {
    expect(turnedBelow(8, "8,5")).toEqual([-8, "\u22128,5"]);
    expect(turnedBelow(-8, "-8")).toEqual([-8, "-8"]);
    expect(signed(-8, false)).toBe(8);
    expect(signedText("\u22128", false)).toBe("8");
    expect([isBelow(-1), isBelow(0), isBelow("x"), isBelow(undefined)]).toEqual([
      true,
      false,
      false,
      false,
    ]);
  });

  test("by eye is known from how it was taken", () => {
    expect(isByEye(tree({ "tree.height_m": { value: 25, how: "eye" } }), TREE.height)).toBe(true);
    expect(isByEye(tree({ "tree.height_m": 25 }), TREE.height)).toBe(false);
  });
});

describe("seven inputs and five answers", () => {
  test("nothing taken counts nothing", () => {
    expect(progressOf(tree({}))).toEqual({ taken: 0, of: 7, looked: 0, looks: 5 });
  });

  test("all seven, in any unit; the lean counts for how far and for toward where", () => {
    const whole = tree({
      "tree.species": "norway_spruce",
      "tree.dbh_in": 16,
      "tree.height_m": 25,
      "tree.stump_diameter_cm": 46,
      "cut.lay_deg": 0,
      "tree.lean": [LEAN_BY_CLOCK],
      "look.ways_out": 0,
      "look.sound": false,
    });
    expect(progressOf(whole)).toEqual({ taken: 7, of: 7, looked: 2, looks: 5 });
    expect(lookOpen(whole)).toEqual(["clear_overhead", "no_conductor_in_reach", "ring_clear"]);
  });

  test("an entry that lacks its direction leaves the direction open", () => {
    const open = inputsOpen(tree({ "tree.lean": [{ offset_m: 0.5, sighted_at: "top" }] }));
    expect(open).toContain("lean_toward");
    expect(open).not.toContain("lean_offset");
  });

  test("a withdrawn reading is open again", () => {
    const withdrawn = addUp([
      entry({ body: { path: "tree.dbh_cm", value: 40, typed: "40", how: null } }),
      entry({ body: { path: "tree.dbh_cm", value: null, typed: null, how: null } }),
    ]).trees.get(HARROWLEES_11) as TreeState;
    expect(inputsOpen(withdrawn)).toContain("dbh");
  });

  test("a fold counts what it holds, in any unit", () => {
    const more = tree({
      "tree.crown_base_ft": 36,
      "tree.crown_shift": { offset_m: 1, toward_deg: 3 },
    });
    const stems = ["tree.crown_base", "tree.crown_radius", "tree.crown_shift"];
    expect(countTaken(more, stems)).toBe(2);
  });
});

describe("the look", () => {
  test("every tap writes its answer and is found again; not looked writes none", () => {
    for (const item of LOOK) {
      for (const answer of answersTo(item)) {
        const value = valueOf(answer);
        expect(value === null).toBe(answer === "not_looked");
        const reading = value === null ? undefined : { value, typed: null, how: null };
        expect(answerOf(reading)).toBe(answer);
      }
    }
  });

  test("three ways out light the tap for two or more", () => {
    expect(answerOf({ value: 3, typed: null, how: null })).toBe("two");
  });

  test("what no tap writes lights none", () => {
    expect(answerOf({ value: "yes", typed: null, how: null })).toBeNull();
  });
});

describe("a direction", () => {
  test("each hour and half hour lights its own button", () => {
    for (const hour of HOURS) {
      for (const half of [false, true]) {
        expect(shownHour(hourOf(hour, half))).toEqual({ hour, half });
      }
    }
    expect(hourOf(12, true)).toBe(0.5);
  });

  test("a quarter hour lights no button, yet is written out", () => {
    expect(shownHour(5.25)).toBeNull();
    expect([hourText(5.25), hourText(0.5), hourText(12)]).toEqual(["5:15", "12:30", "12:00"]);
  });

  test("keys and back", () => {
    expect(bearingKeys("toward", { by: "clock", hour: 6 })).toEqual({ toward_clock: 6 });
    expect(bearingIn({ toward_deg: 220 }, "toward")).toEqual({ by: "degrees", deg: 220 });
    expect(bearingIn({}, "toward")).toBeNull();
    expect(bearingText({ by: "degrees", deg: 220 }, String)).toBe("220°");
  });
});

describe("lists", () => {
  const draft = {
    offset: { value: 2, unit: "ft" },
    toward: { by: "clock", hour: 6 },
    sightedAt: "balance point",
    how: "plumb line, two sides",
    error: { value: 0.2, unit: "m" },
  } as const;

  test("a lean goes in with the keys of its units, and comes out as it was taken", () => {
    const made = leanEntry(draft);
    expect(made).toEqual({
      offset_ft: 2,
      toward_clock: 6,
      sighted_at: "balance point",
      how: "plumb line, two sides",
      error_m: 0.2,
    });
    expect(shownLean(made, "de")).toEqual({
      offset: "2 ft",
      toward: { by: "clock", hour: 6 },
      sightedAt: "balance point",
      how: "plumb line, two sides",
      error: "0,2 m",
    });
  });

  test("what is not told is left out of the entry", () => {
    const made = leanEntry({ ...draft, how: null, error: null });
    expect(Object.keys(made)).toEqual(["offset_ft", "toward_clock", "sighted_at"]);
  });

  test("a second reading joins the first; the last one taken out withdraws the list", () => {
    const one = entriesOf(tree({ "tree.lean": [LEAN_BY_CLOCK] }), "tree.lean");
    const two = withEntry(one, LEAN_BY_COMPASS);
    expect(two).toEqual([LEAN_BY_CLOCK, LEAN_BY_COMPASS]);
    expect(withoutEntry(two, 0)).toEqual([LEAN_BY_COMPASS]);
    expect(withoutEntry(one, 0)).toBeNull();
  });

  test("a conductor says nothing of a switch-off that nobody told", () => {
    const distance = { value: 60, unit: "m" };
    expect(conductorEntry({ distance, height: null, voltage: null, switchedOff: null })).toEqual({
      distance_m: 60,
    });
    const told = conductorEntry({
      distance,
      height: null,
      voltage: { value: 20, unit: "kv" },
      switchedOff: false,
    });
    expect(told).toEqual({ distance_m: 60, voltage_kv: 20, switched_off: false });
    expect(numberText(told, PART.voltage, "en")).toBe("20 kV");
  });

  test("a defect is put in and taken out by the same tap", () => {
    const noted = wordsIn(tree({ "tree.defects": ["crack"] }), "tree.defects");
    expect(toggled(noted, "rot")).toEqual(["crack", "rot"]);
    expect(toggled(noted, "crack")).toBeNull();
  });
});

describe("faults", () => {
  const all = [
    fault("tree.dbh_in"),
    fault("tree.dbh_error_cm"),
    fault("tree.lean[2].offset_m"),
    fault("tree.lean"),
    fault("look.ways_out"),
    fault("kit.device[1].kind"),
    fault("tree.name"),
    fault("day.wind_from_clock"),
    fault("cut.lay_deg"),
  ];

  test("stand at the field they are about, in whichever unit", () => {
    expect(faultsOf(all, TREE.dbh).map(({ field }) => field)).toEqual(["tree.dbh_in"]);
    expect(faultsOf(all, "day.wind_from")).toHaveLength(1);
    expect(faultsOf(all, TREE.lay)).toHaveLength(1);
  });

  test("of a list stand at their entry, or at the list", () => {
    const lean = faultsOf(all, "tree.lean");
    expect(faultsOfEntry(lean, 1).map(({ field }) => field)).toEqual(["tree.lean[2].offset_m"]);
    expect(faultsOfEntry(lean, 0)).toEqual([]);
    expect(faultsOfEntry(lean, null).map(({ field }) => field)).toEqual(["tree.lean"]);
  });

  test("that no field shows stand on top, and no other", () => {
    expect(faultsOnTop(all).map(({ field }) => field)).toEqual(["kit.device[1].kind", "tree.name"]);
  });
});
