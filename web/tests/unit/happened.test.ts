import { describe, expect, test } from "vitest";
import type { StumpRow } from "../../src/engine/answers.ts";
import { bandPicture } from "../../src/happened/band.ts";
import { basisOf, turnsCounted } from "../../src/happened/basis.ts";
import { draft, drafted } from "../../src/happened/draft.ts";
import {
  CUTS,
  EMPTY,
  formOf,
  HINGE,
  isEmpty,
  lacksSide,
  LIFT,
  stepped,
  stumpOf,
  wayOf,
  withNumber,
  withWent,
} from "../../src/happened/entries.ts";
import type { Body, Entry } from "../../src/journal/event.ts";
import { addUp, type TreeState } from "../../src/journal/state.ts";

function treeWith(...list: [kind: string, body: Body][]): TreeState {
  const entries: Entry[] = list.map(([kind, body], index) => ({
    id: `0195574e-3c80-7a31-8f5e-00000000000${index}`,
    device: "harrowlees",
    seq: index + 1,
    at: "2026-03-02T12:00:00Z",
    schema: 1,
    kind,
    tree: "t1",
    by: null,
    body,
  }));
  const tree = addUp(entries).trees.get("t1");
  if (!tree) throw new Error("no tree");
  return tree;
}
const named: [string, Body] = ["tree", { name: "Harrowlees 11" }];

describe("the entries of a stump record", () => {
  test("go to the engine as numbers, as they were typed, with comma or point", () => {
    let form = withNumber(EMPTY, "hinge_left_mm", "45,5");
    form = withNumber(form, "step_mm", "-12");
    expect(stumpOf(form)).toEqual({ hinge_left_mm: 45.5, step_mm: -12 });
    expect(stumpOf(withNumber(form, "hinge_left_mm", null))).toEqual({ step_mm: -12 });
  });

  test("may all be missing, and then there is nothing to keep", () => {
    expect(stumpOf(EMPTY)).toEqual({});
    expect(isEmpty(EMPTY)).toBe(true);
    expect(isEmpty(withWent(EMPTY, "no fault seen"))).toBe(false);
  });

  test("lack a side where an error of the lay has none, and not where it is nought", () => {
    expect(lacksSide(withNumber(EMPTY, "lay_error_deg", "3"))).toBe(true);
    expect(lacksSide(withNumber(EMPTY, "lay_error_deg", "0"))).toBe(false);
    expect(lacksSide({ ...withNumber(EMPTY, "lay_error_deg", "3"), side: "left" })).toBe(false);
    expect(lacksSide(EMPTY)).toBe(false);
  });

  test("take several words, but none beside: no fault seen", () => {
    const two = withWent(withWent(EMPTY, "hung"), "fibre pull");
    expect(two.went).toEqual(["hung", "fibre pull"]);
    expect(withWent(two, "hung").went).toEqual(["fibre pull"]);
    expect(withWent(two, "no fault seen").went).toEqual(["no fault seen"]);
    expect(withWent(withWent(two, "no fault seen"), "split").went).toEqual(["split"]);
  });

  test("stay in the unit in which they were read when the units are changed", () => {
    const form = withNumber(EMPTY, "lift_used_in", "1.2");
    expect(wayOf(LIFT, form, false).key).toBe("lift_used_in");
    expect(wayOf(LIFT, EMPTY, false).key).toBe("lift_used_mm");
    expect(wayOf(LIFT, EMPTY, true).key).toBe("lift_used_in");
  });

  test("of a kept record fill the form again", () => {
    const body: Body = {
      hinge_left_mm: 45.5,
      lay_error_deg: 3,
      lay_side: "left",
      went: ["hung"],
      answer: {},
    };
    const form = formOf(body, "de");
    expect(form.typed["hinge_left_mm"]).toBe("45,5");
    expect(stumpOf(form)).toEqual({
      hinge_left_mm: 45.5,
      lay_error_deg: 3,
      lay_side: "left",
      went: ["hung"],
    });
    expect(formOf(undefined, "en")).toEqual(EMPTY);
  });

  test("are nine: three of the hinge, three of the cuts, lift, lay and how it went", () => {
    expect([...HINGE, ...CUTS].map(({ metric }) => metric.key)).toEqual([
      "hinge_left_mm",
      "hinge_mid_mm",
      "hinge_right_mm",
      "notch_depth_cm",
      "notch_mismatch_mm",
      "step_mm",
    ]);
  });
});

describe("plus and minus", () => {
  const how = { step: 0.1, below: false, begin: 46, language: "en" };

  test("begin with what was planned, then go by steps, without a tail of digits", () => {
    expect(stepped(null, 1, how)).toBe("46");
    expect(stepped("46", 1, how)).toBe("46.1");
    expect(stepped("0.2", 1, how)).toBe("0.3");
    expect(stepped("45,5", -1, { ...how, step: 1, language: "de" })).toBe("44,5");
  });

  test("begin at nought where nothing was planned, and go below it only where that can be", () => {
    expect(stepped(null, 1, { ...how, begin: null })).toBe("0");
    expect(stepped("0", -1, how)).toBe("0");
    expect(stepped("0", -1, { ...how, step: 5, below: true })).toBe("-5");
  });

  test("begin anew over what is no number", () => {
    expect(stepped("4x", 1, how)).toBe("46");
  });
});

describe("the small picture of a band", () => {
  const row = (real: number | null, planned: number | null = null): StumpRow => ({
    key: "lift",
    name: "",
    predicted: { p10: 20, p50: 30, p90: 40 },
    planned,
    real,
    shown: { unit: "mm", p10: "", p50: "", p90: "", planned: null, real: null },
    place: null,
    text: "",
  });
  const share = (length: string | null | undefined) => Number.parseFloat(length ?? "NaN");

  test("sets band, middle and real value in their order, all within the axis", () => {
    for (const real of [-40, 20, 33, 40, 400]) {
      const picture = bandPicture(row(real));
      const from = share(picture?.from);
      const to = from + share(picture?.length);
      expect(share(picture?.middle)).toBeCloseTo((from + to) / 2, 1);
      expect(share(picture?.real) < from).toBe(real < 20);
      expect(share(picture?.real) > to + 0.01).toBe(real > 40);
      for (const at of [from, to, share(picture?.real)]) {
        expect(at).toBeGreaterThan(0);
        expect(at).toBeLessThan(100);
      }
    }
  });

  test("leaves out what was not read or planned, and is none without a prediction", () => {
    expect(bandPicture(row(null))).toMatchObject({ real: null, planned: null });
    expect(bandPicture({ ...row(3), predicted: null })).toBeNull();
  });

  test("of a band without width lies in the middle", () => {
    const flat = { ...row(null), predicted: { p10: 5, p50: 5, p90: 5 } };
    expect(bandPicture(flat)).toMatchObject({ from: "50.00%", length: "0.00%" });
  });
});

describe("what is compared with", () => {
  const manner = { language: "de", force: "t", imperial: false };

  test("is the verdict that was kept, told in the manner of today", () => {
    const request = { tree: { tree: { dbh_cm: 40 } }, kit: {}, language: "en" };
    const tree = treeWith(named, ["plan", { request, verdict: "TIGHT", engine: "0.1.0" }]);
    expect(basisOf(tree, { tree: {} }, manner)).toEqual({
      request: { tree: { tree: { dbh_cm: 40 } }, kit: {}, ...manner },
      kept: "2026-03-02T12:00:00Z",
    });
  });

  test("is the readings as they stand where none was kept, or where it holds no request", () => {
    const present = { tree: {} };
    expect(basisOf(treeWith(named), present, manner)).toEqual({ request: present, kept: null });
    const odd = treeWith(named, ["plan", { request: "none" }]);
    expect(basisOf(odd, present, manner).kept).toBeNull();
  });

  test("knows the turns that were counted only when it went by them", () => {
    const end = (went: boolean): [string, Body] => ["drive", { stage: "end", turns: 12, went }];
    expect(turnsCounted(treeWith(named, end(true)))).toBe(12);
    expect(turnsCounted(treeWith(named, end(false)))).toBeNull();
    expect(turnsCounted(treeWith(named))).toBeNull();
  });
});

describe("the form in this tab", () => {
  function shelf() {
    const kept = new Map<string, string>();
    return {
      getItem: (key: string) => kept.get(key) ?? null,
      setItem: (key: string, text: string) => void kept.set(key, text),
      removeItem: (key: string) => void kept.delete(key),
    };
  }
  const kept: [string, Body] = ["stump", { hinge_left_mm: 44 }];

  test("comes back after a reload, and once it is kept the record stands in its place", () => {
    const on = shelf();
    const tree = treeWith(named, kept);
    draft("t1", withNumber(EMPTY, "hinge_left_mm", "45"), on);
    expect(drafted(tree, "en", on).typed).toEqual({ hinge_left_mm: "45" });
    draft("t1", null, on);
    expect(drafted(tree, "en", on).typed).toEqual({ hinge_left_mm: "44" });
  });

  test("is empty for a tree without a record, and where the shelf holds rubbish", () => {
    expect(drafted(treeWith(named), "en", shelf())).toEqual(EMPTY);
    const broken = { ...shelf(), getItem: () => "{" };
    expect(drafted(treeWith(named), "en", broken)).toEqual(EMPTY);
    expect(drafted(treeWith(named), "en", null)).toEqual(EMPTY);
  });
});
