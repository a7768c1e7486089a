/// What the helpers ask the engine, and what of its answer goes into the journal.
import { describe, expect, test } from "vitest";
import type { SightAnswer } from "../../src/engine/answers.ts";
import type { Reading } from "../../src/journal/state.ts";
import {
  boreRequest,
  crownRequest,
  draftOfHold,
  girthRequest,
  heightRequest,
  noStation,
  plumbRequest,
  sideOfHold,
  type Draft,
  type HeightDraft,
} from "../../src/measure/sights/requests.ts";
import { entriesFrom } from "../../src/measure/sights/takeover.ts";

function draft(value: number, unit = ""): Draft {
  return { value, unit, typed: String(value) };
}

const HEIGHT: HeightDraft = {
  distanceIs: "along the ground",
  distanceBy: "tape",
  distance: draft(30, "m"),
  paces: null,
  paceLength: null,
  top: draft(42),
  topSide: "above",
  foot: draft(5),
  footSide: "below",
  angleBy: "hand clinometer",
  angleError: null,
  eyeHeight: null,
  level: null,
  holds: [],
};

describe("height", () => {
  test("two angles and a distance, the foot below the eye", () => {
    expect(heightRequest(HEIGHT)).toEqual({
      sight: "height",
      distance_is: "along the ground",
      distance_m: 30,
      top_deg: 42,
      foot_deg: -5,
      angle_by: "hand clinometer",
    });
  });

  test("level or along the slope is never filled in, nor the side of an angle", () => {
    const asked = heightRequest({ ...HEIGHT, distanceIs: null, footSide: null, angleBy: null });
    expect(asked).not.toHaveProperty("distance_is");
    expect(asked).not.toHaveProperty("foot_deg");
    expect(asked).not.toHaveProperty("angle_by");
  });

  test("an angle of nought needs no side", () => {
    expect(heightRequest({ ...HEIGHT, foot: draft(0), footSide: null })["foot_deg"]).toBe(0);
  });

  test("a minus that was typed does not turn the tap round", () => {
    expect(heightRequest({ ...HEIGHT, foot: draft(-5) })["foot_deg"]).toBe(-5);
  });

  test("paces go with their length, and the tape that was typed before stays out", () => {
    const asked = heightRequest({
      ...HEIGHT,
      distanceBy: "paces",
      paces: draft(40),
      paceLength: draft(2.5, "ft"),
    });
    expect(asked).toMatchObject({ paces: 40, pace_length_ft: 2.5 });
    expect(asked).not.toHaveProperty("distance_m");
  });

  test("a phone's zero and error go along only with angles that it held", () => {
    const level = { zero_deg: 0.4, angle_error_deg: 0.6 };
    const holds = [
      { meanDeg: 42, spreadDeg: 0.1 },
      { meanDeg: -5, spreadDeg: 0.8 },
    ];
    const byPhone = { ...HEIGHT, angleBy: "phone", level } as const;
    expect(heightRequest({ ...byPhone, holds })).toMatchObject({
      zero_deg: 0.4,
      angle_error_deg: 1,
    });
    expect(heightRequest({ ...byPhone, holds: [] })).not.toHaveProperty("zero_deg");
    expect(heightRequest({ ...byPhone, holds: [] })).not.toHaveProperty("angle_error_deg");
    const byHand = heightRequest({ ...HEIGHT, level, holds, angleError: draft(0.5) });
    expect(byHand).not.toHaveProperty("zero_deg");
    expect(byHand["angle_error_deg"]).toBe(0.5);
  });

  test("a hold reads as if it were typed, its sign as a side", () => {
    const held = { meanDeg: -5.128, spreadDeg: 0.1 };
    expect(draftOfHold(held, "de")).toEqual({ value: 5.13, typed: "5,13", unit: "" });
    expect(sideOfHold(held)).toBe("below");
    expect(sideOfHold({ ...held, meanDeg: 42 })).toBe("above");
  });
});

describe("plumb line", () => {
  const first = {
    ...noStation(),
    bearing: { by: "clock", hour: 12 } as const,
    right: draft(0.5),
    side: "left",
  } as const;

  test("left of the foot is negative; widths go with the diameter as it was taken", () => {
    const dbh = { value: 16, unit: "in" };
    expect(
      plumbRequest({ sightedAt: "top", inWidths: true, stations: [first, noStation()], dbh }),
    ).toEqual({
      sight: "plumb",
      sighted_at: "top",
      dbh_in: 16,
      station: [{ bearing_clock: 12, right_widths: -0.5 }],
    });
  });

  test("lengths go in their unit, with the distance of the place", () => {
    const second = {
      bearing: { by: "degrees", deg: 90 } as const,
      right: draft(1, "ft"),
      side: "right" as const,
      distance: draft(80, "ft"),
    };
    const asked = plumbRequest({ sightedAt: null, inWidths: false, stations: [second], dbh: null });
    expect(asked).toEqual({
      sight: "plumb",
      station: [{ bearing_deg: 90, right_ft: 1, distance_ft: 80 }],
    });
  });

  test("how far without which side is not given, but for nought", () => {
    const station = (right: Draft) =>
      plumbRequest({
        sightedAt: null,
        inWidths: true,
        dbh: null,
        stations: [{ ...first, right, side: null }],
      })["station"];
    expect(station(draft(0.5))).toEqual([{ bearing_clock: 12 }]);
    expect(station(draft(0))).toEqual([{ bearing_clock: 12, right_widths: 0 }]);
  });
});

test("girth, crown and bores go as typed; what is open stays out", () => {
  expect(girthRequest(draft(126, "cm"))).toEqual({ sight: "girth", girth_cm: 126 });
  expect(girthRequest(null)).toEqual({ sight: "girth" });
  expect(crownRequest([draft(3), null, draft(4)], draft(0.75, "m"))).toEqual({
    sight: "crown",
    paces: [3, 4],
    pace_length_m: 0.75,
  });
  expect(boreRequest([draft(12, "cm"), null], null, draft(2, "cm"))).toEqual({
    sight: "bore",
    bores_cm: [12],
  });
  expect(boreRequest([draft(5, "in")], true, draft(1, "in"))).toEqual({
    sight: "bore",
    bores_in: [5],
    over_bark: true,
    bark_in: 1,
  });
  expect(boreRequest([draft(5, "in")], false, draft(1, "in"))).not.toHaveProperty("bark_in");
});

describe("taking over", () => {
  const answer = (values: SightAnswer["values"]): SightAnswer => ({
    values,
    errors: {},
    text: "",
    errors_from: [],
    cautions: [],
  });

  test("writes the error before the value, under the keys of a tree", () => {
    const none = { readings: new Map<string, Reading>() };
    expect(entriesFrom(answer({ height_m: 24.3, height_error_m: 0.9 }), none)).toEqual([
      { path: "tree.height_error_m", value: 0.9 },
      { path: "tree.height_m", value: 24.3 },
    ]);
  });

  test("puts a lean beside those that were taken before", () => {
    const before = { offset_m: 0.4, toward_deg: 220, sighted_at: "top" };
    const found = { offset_m: 0.5, toward_deg: 210, sighted_at: "balance point" };
    const tree = {
      readings: new Map<string, Reading>([
        ["tree.lean", { value: [before], typed: null, how: null }],
      ]),
    };
    expect(entriesFrom(answer({ lean: found }), tree)).toEqual([
      { path: "tree.lean", value: [before, found] },
    ]);
  });

  test("of one place alone writes nothing", () => {
    expect(entriesFrom(answer({}), { readings: new Map<string, Reading>() })).toEqual([]);
  });
});
