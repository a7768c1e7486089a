import { describe, expect, test } from "vitest";
import { drivingOf as drivingOn } from "../../src/drive/drive_log.ts";
import { gateOf } from "../../src/drive/gate.ts";
import type { Sheet } from "../../src/engine/answers.ts";
import type { Fault } from "../../src/engine/engine.ts";
import type { Body, Entry } from "../../src/journal/event.ts";

function entries(...list: [kind: string, body: Body, tree?: string][]): Entry[] {
  return list.map(([kind, body, tree = "t1"], index) => ({
    id: `e${index}`,
    device: "phone",
    seq: index + 1,
    at: "2026-03-02T12:00:00Z",
    schema: 1,
    kind,
    tree,
    by: null,
    body,
  }));
}
/** Ground that nothing moves. */
const STILL = { newest: "", mark: "m" };
const drivingOf = (list: Entry[], tree: string) => drivingOn(list, tree, STILL);
const LOADED: [string, Body] = ["state", { state: "loaded" }];
const START: [string, Body] = ["drive", { stage: "start", turns: 0, device: "Dipper" }];

describe("the driving that is under way", () => {
  test("begins with its start and knows the newest stage and turns that were kept", () => {
    expect(drivingOf(entries(LOADED, START), "t1")).toMatchObject({ start: "e1", turns: 0 });
    const on = entries(LOADED, START, ["drive", { stage: "balance", turns: 2 }]);
    expect(drivingOf(on, "t1")).toEqual({
      start: "e1",
      device: "Dipper",
      stage: "balance",
      turns: 2,
      changed: false,
    });
  });

  test("goes on after the stop card was asked", () => {
    const on = entries(
      LOADED,
      START,
      ["drive", { stage: "balance", turns: 2 }],
      ["drive", { stage: "does not go", turns: 6 }],
    );
    expect(drivingOf(on, "t1")).toMatchObject({ stage: "balance", turns: 6 });
  });

  test.each([
    ["it ended", "drive", { stage: "end", turns: 9, went: true }],
    ["it is down", "state", { state: "down" }],
    ["it hangs", "state", { state: "hung" }],
    ["it is looked at anew", "state", { state: "looked at" }],
  ])("is over once %s", (_, kind, body) => {
    expect(drivingOf(entries(LOADED, START, [kind, body]), "t1")).toBeNull();
  });

  test("is not begun by a stage without a start, nor by another tree", () => {
    expect(drivingOf(entries(LOADED, ["drive", { stage: "goes", turns: 9 }]), "t1")).toBeNull();
    expect(drivingOf(entries(LOADED, START), "t2")).toBeNull();
  });

  test("knows that its ground moved after the start, and only after", () => {
    const list = entries(LOADED, START);
    const changed = (newest: string) => drivingOn(list, "t1", { newest, mark: "m" })?.changed;
    expect(changed("e0")).toBe(false);
    expect(changed("e2")).toBe(true);
    const marked = entries(LOADED, ["drive", { stage: "start", ground: "other" }]);
    expect(drivingOf(marked, "t1")?.changed).toBe(true);
  });

  test("is not begun by an entry that a newer version wrote", () => {
    const newer = entries(LOADED, START).map((entry) => ({ ...entry, schema: 2 }));
    expect(drivingOf(newer, "t1")).toBeNull();
  });
});

describe("the last look is offered", () => {
  const sheet = (cut: object | null) =>
    ({
      tip: { reasons: [{ code: "r", text: "Lift runs out." }] },
      shown: { verdict: "LEAVE", cut },
    }) as unknown as Sheet;
  const plan = { sheet: sheet({}), faults: [], whole: true, stale: false };

  test("where the whole answer shows marks", () => {
    expect(gateOf(plan, false).open).toBe(true);
  });

  test("not where the verdict shows none, and then it says which and why", () => {
    expect(gateOf({ ...plan, sheet: sheet(null) }, false)).toEqual({
      open: false,
      why: "no marks",
      verdict: "LEAVE",
      said: ["Lift runs out."],
    });
  });

  test("not while the answer is old, quick or absent, nor from a broken engine", () => {
    expect(gateOf({ ...plan, stale: true }, false)).toMatchObject({ why: "working" });
    expect(gateOf({ ...plan, whole: false }, false)).toMatchObject({ why: "working" });
    expect(gateOf({ ...plan, sheet: null }, false)).toMatchObject({ why: "working" });
    expect(gateOf(plan, true)).toMatchObject({ open: false, why: "broken" });
  });

  test("not where readings are refused", () => {
    const faults = [{ text: "dbh must be ..." }] as unknown as Fault[];
    expect(gateOf({ ...plan, faults }, false)).toMatchObject({
      open: false,
      why: "faults",
      said: ["dbh must be ..."],
    });
  });
});
