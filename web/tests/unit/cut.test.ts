import { describe, expect, test } from "vitest";
import { aimBody, NO_AIM, questionOf } from "../../src/cut/aim.ts";
import { standingOf } from "../../src/cut/standing.ts";
import { inHundred, layStrip } from "../../src/cut/strip.ts";
import { beforeTrimming, tablesBefore, trimmedBody, typedOf } from "../../src/cut/trimmed.ts";
import type { Sheet, Tip } from "../../src/engine/answers.ts";
import type { Body, Entry, Kind } from "../../src/journal/event.ts";
import { addUp } from "../../src/journal/state.ts";

type Laid = Pick<Tip, "marks" | "hinge" | "notch" | "cut">;

function laid(bar_room_mm: number | null): Laid {
  return {
    marks: [92, 138, 330, 410, 460].map((from_front_mm) => ({ name: "", from_front_mm })),
    hinge: { thickness_mm: 46, width_mm: 366, proposed: false },
    notch: { share: 0.2, depth_mm: 92, opening_deg: 45, height_mm: 92, proposed: false },
    cut: { bar_room_mm } as Tip["cut"],
  };
}

describe("the strip", () => {
  test("puts every mark at its share of the stump and every line in the middle of its row", () => {
    const strip = layStrip(laid(192));
    expect(strip?.marks.map((mark) => mark.share)).toEqual([0.2, 0.3, 330 / 460, 410 / 460, 1]);
    expect(strip?.marks.map((mark) => mark.line)).toEqual([0.1, 0.3, 0.5, 0.7, 0.9]);
    expect(inHundred(0.3)).toBe(30);
  });

  test("zones meet and fill the stump from front to back", () => {
    const zones = layStrip(laid(192))?.zones ?? [];
    expect(zones.map((zone) => zone.key)).toEqual(["notch", "hinge", "bar", "device"]);
    expect([zones[0]?.from, zones.at(-1)?.to]).toEqual([0, 1]);
    zones.slice(1).forEach((zone, index) => expect(zone.from).toBe(zones[index]?.to));
  });

  test("is wood behind the hinge where no device is seated", () => {
    const zones = layStrip(laid(null))?.zones ?? [];
    expect(zones.map((zone) => zone.key)).toEqual(["notch", "hinge", "wood"]);
  });

  test("a device that leaves the bar no room begins at the hinge", () => {
    const zones = layStrip(laid(-20))?.zones ?? [];
    expect(zones.map((zone) => zone.key)).toEqual(["notch", "hinge", "device"]);
  });

  test("is not drawn where no cut is shown", () => {
    expect(layStrip({ marks: [], hinge: null, notch: null, cut: null })).toBeNull();
  });
});

describe("standing", () => {
  const sheet = (cut: object | null, sliders: object | null) =>
    ({ shown: { cut }, sizes: cut, sliders }) as unknown as Sheet;

  test("a quick answer that may show a cut is waited for, and never shown as none", () => {
    expect(standingOf(sheet(null, {}), false)).toBe("working");
    expect(standingOf(sheet({}, {}), true)).toBe("marks");
  });

  test("a verdict without a cut says so at once", () => {
    expect(standingOf(sheet(null, null), false)).toBe("none");
    expect(standingOf(sheet(null, null), true)).toBe("none");
  });
});

describe("trimming", () => {
  let seq = 0;
  const entry = (kind: Kind, body: Body, tree: string | null = "t"): Entry => {
    seq += 1;
    const id = `018f0000-0000-7000-8000-${String(seq).padStart(12, "0")}`;
    const at = new Date(seq * 1000).toISOString();
    return { id, device: "a", seq, at, schema: 1, kind, tree, by: null, body };
  };
  const reading = (path: string, value: number | string): Entry =>
    entry("reading", { path, value, typed: null, how: null });

  const entries = [
    entry("tree", { name: "Harrowlees 11" }),
    reading("tree.dbh_cm", 40),
    reading("tree.stump_diameter_cm", 50),
    reading("tree.flare", "untrimmed"),
    entry("trimmed", trimmedBody(46.5, "46,5", false)),
    reading("day.gust_m_s", 2),
  ];

  test("is read in the unit it was taken in, with what was typed", () => {
    const metric = addUp(entries).trees.get("t");
    expect(metric?.readings.get("tree.stump_diameter_cm")).toMatchObject({
      value: 46.5,
      typed: "46,5",
    });
    expect(metric?.readings.get("tree.flare")?.value).toBe("trimmed");
    const inches = addUp([...entries, entry("trimmed", trimmedBody(18.3, "18.3", true))]);
    const read = inches.trees.get("t")?.readings;
    expect(read?.get("tree.stump_diameter_in")).toMatchObject({ value: 18.3, typed: "18.3" });
    expect(read?.has("tree.stump_diameter_cm")).toBe(false);
  });

  test("what was typed is shown only in its own unit", () => {
    const trimmed = entry("trimmed", trimmedBody(18.3, "18.3", true));
    expect([typedOf(trimmed, true), typedOf(trimmed, false)]).toEqual(["18.3", null]);
    expect(typedOf(undefined, true)).toBeNull();
  });

  test("before it the stump was as it was read, whatever came later", () => {
    const before = beforeTrimming(entries, "t");
    expect(before?.readings.get("tree.stump_diameter_cm")?.value).toBe(50);
    expect(beforeTrimming(entries, "another")).toBeUndefined();
    expect(beforeTrimming([...entries].reverse(), "t")?.readings).toEqual(before?.readings);
  });

  test("the old request differs from the new one in width and flare alone", () => {
    const before = beforeTrimming(entries, "t");
    const now: Body = {
      tree: { dbh_cm: 40, stump_diameter_in: 18.3, flare: "trimmed" },
      day: { gust_m_s: 2 },
    };
    expect(before && tablesBefore(now, before)).toEqual({
      tree: { dbh_cm: 40, stump_diameter_cm: 50, flare: "untrimmed" },
      day: { gust_m_s: 2 },
    });
  });
});

describe("the aim of the notch", () => {
  const entered = (value: number) => ({ value, typed: String(value) });

  test("is nothing until it is whole", () => {
    expect(aimBody(NO_AIM, false)).toBeNull();
    expect(aimBody({ ...NO_AIM, angle: entered(2) }, false)).toBeNull();
    expect(aimBody({ ...NO_AIM, side: "left" }, false)).toBeNull();
    const metres = { ...NO_AIM, way: "metres" as const, beside: entered(1), side: "left" as const };
    expect(aimBody(metres, false)).toBeNull();
  });

  test("is an angle and its side", () => {
    expect(aimBody({ ...NO_AIM, angle: entered(2.5), side: "right" }, false)).toEqual({
      aim_error_deg: 2.5,
      side: "right",
    });
  });

  test("is a length at a distance in the unit chosen, without an angle left from before", () => {
    const aim = {
      way: "metres" as const,
      angle: entered(4),
      beside: entered(1),
      distance: entered(30),
      side: "left" as const,
    };
    expect(aimBody(aim, false)).toEqual({ beside_m: 1, distance_m: 30, side: "left" });
    expect(aimBody(aim, true)).toEqual({ beside_ft: 1, distance_ft: 30, side: "left" });
  });

  test("dead on the mark it has no side", () => {
    expect(aimBody({ ...NO_AIM, angle: entered(0), side: "left" }, false)).toEqual({
      aim_error_deg: 0,
    });
  });

  test("of a kept entry only the question goes to the engine", () => {
    expect(questionOf({ aim_error_deg: 2, side: "left", later: "x" })).toEqual({
      aim_error_deg: 2,
      side: "left",
    });
  });
});
