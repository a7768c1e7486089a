import { describe, expect, test } from "vitest";
import type { Body, Entry } from "../../src/journal/event.ts";
import { addUp } from "../../src/journal/state.ts";
import { requestFor } from "../../src/journal/request.ts";
import { groundOf, hasMoved, type Ground } from "../../src/drive/changes.ts";
import {
  countYes,
  HOLDS_MS,
  isReady,
  ITEMS,
  lookedAt as lookedOn,
} from "../../src/drive/last_look.ts";

const NOON = Date.parse("2026-03-02T12:00:00Z");
const MINUTE = 60_000;

let made = 0;
function entry(kind: string, body: Body, tree: string | null = "t1", at = NOON): Entry {
  made += 1;
  return {
    id: `0195574e-3c80-7a31-8f5e-${String(made).padStart(12, "0")}`,
    device: "phone",
    seq: made,
    at: new Date(at).toISOString(),
    schema: 1,
    kind,
    tree,
    by: null,
    body,
  };
}
const MANNER = { language: "en", force: "kN", imperial: false };

/** The ground on which a tree stands after these entries. */
function groundAfter(entries: readonly Entry[], manner = MANNER): Ground {
  const state = addUp(entries, "phone");
  const tree = state.trees.get("t1");
  return tree ? groundOf(state, tree, requestFor(state, tree, manner)) : { newest: "", mark: "" };
}
const lookedAt = (entries: readonly Entry[], tree: string, now: number) =>
  lookedOn(entries, tree, groundAfter(entries), now);
const tick = (item: string, at = NOON, done = true) => entry("ready", { item, done }, "t1", at);
const allTicked = () => ITEMS.map((item) => tick(item));
const reading = (tree: string) => entry("reading", { path: "day.gust_m_s", value: 6 }, tree);
const staleOf = (entries: Entry[], now = NOON) => [
  ...new Set(lookedAt(entries, "t1", now).map(({ stale }) => stale)),
];

describe("the last look", () => {
  test("has seven items, and is not ready until the last of them is answered yes", () => {
    expect(ITEMS).toHaveLength(7);
    const ticks = allTicked();
    for (let count = 0; count < ticks.length; count += 1) {
      const looked = lookedAt(ticks.slice(0, count), "t1", NOON);
      expect(countYes(looked)).toBe(count);
      expect(isReady(looked)).toBe(false);
    }
    expect(isReady(lookedAt(ticks, "t1", NOON))).toBe(true);
  });

  test("of no entries at all is not ready", () => {
    expect(isReady(lookedAt([], "t1", NOON))).toBe(false);
    expect(isReady([])).toBe(false);
  });

  test("any no stops, however many yes there are, and holds until it is answered yes", () => {
    const ticks = [...allTicked(), tick("wind", NOON, false)];
    expect(isReady(lookedAt(ticks, "t1", NOON))).toBe(false);
    const later = lookedAt([...ticks, reading("t1")], "t1", NOON + 60 * MINUTE);
    expect(later.find(({ item }) => item === "wind")?.answer).toBe("no");
    expect(isReady(lookedAt([...ticks, tick("wind")], "t1", NOON))).toBe(true);
  });

  test("a yes holds for thirty minutes and not a millisecond longer", () => {
    expect(HOLDS_MS).toBe(30 * MINUTE);
    expect(isReady(lookedAt(allTicked(), "t1", NOON + HOLDS_MS))).toBe(true);
    expect(isReady(lookedAt(allTicked(), "t1", NOON + HOLDS_MS + 1))).toBe(false);
    expect(staleOf(allTicked(), NOON + HOLDS_MS + 1)).toEqual(["old"]);
  });

  test("a yes from ahead of the clock, or with no time at all, is none", () => {
    expect(staleOf(allTicked(), NOON - 2 * MINUTE)).toEqual(["clock"]);
    const timeless = allTicked().map((one) => ({ ...one, at: "one day" }));
    expect(staleOf(timeless)).toEqual(["clock"]);
  });

  test.each([
    ["a reading of this tree", () => reading("t1")],
    ["a trimmed flare", () => entry("trimmed", { stump_diameter_cm: 44 })],
    ["another kit", () => entry("kit", { name: "Van 3", kit: {} }, null)],
    ["a device out of the van", () => entry("van", { device: "Dipper", present: false }, null)],
    ["other rules", () => entry("setting", { key: "profile", value: null }, null)],
  ])("a yes made before %s must be made anew", (_, change) => {
    expect(staleOf([...allTicked(), change()])).toEqual(["changed"]);
  });

  test("a yes made after a change holds", () => {
    const change = reading("t1");
    expect(isReady(lookedAt([change, ...allTicked()], "t1", NOON))).toBe(true);
  });

  test("is taken anew item by item: one new tick makes one item good again", () => {
    const looked = lookedAt([...allTicked(), reading("t1"), tick("ring")], "t1", NOON);
    expect(countYes(looked)).toBe(1);
  });

  test.each([
    ["a reading of another tree", () => reading("t2")],
    ["another language", () => entry("setting", { key: "language", value: "de" }, null)],
    ["the aim of the notch", () => entry("notch", { aim_error_deg: 1, side: "left" })],
  ])("stands after %s", (_, change) => {
    expect(isReady(lookedAt([...allTicked(), change()], "t1", NOON))).toBe(true);
  });

  test("moves with a reading that a merge brings in, though it is older than the ticks", () => {
    const older = reading("t1");
    const before = groundAfter([reading("t1")]);
    const ticks = allTicked().map((one) => ({
      ...one,
      body: { ...one.body, ground: before.mark },
    }));
    const named = entry("tree", { name: "Harrowlees 11" });
    const change = { ...older, body: { path: "day.gust_m_s", value: 8 } };
    expect(staleOf([change, named, ...ticks])).toEqual(["changed"]);
  });

  test("takes no tick that a newer version wrote", () => {
    const ticks = allTicked().map((one) => ({ ...one, schema: 2 }));
    expect(countYes(lookedAt(ticks, "t1", NOON))).toBe(0);
  });

  test("the ground does not move with language or units of the answer", () => {
    const entries = [reading("t1")];
    const one = groundAfter(entries);
    const other = groundAfter(entries, { language: "de", force: "t", imperial: true });
    expect(one).toEqual(other);
    const made = { id: "z", body: { ground: one.mark } };
    expect(hasMoved(made, other)).toBe(false);
    expect(hasMoved({ ...made, body: { ground: "0" } }, other)).toBe(true);
  });

  test("takes no tick of another tree", () => {
    const others = ITEMS.map((item) => entry("ready", { item, done: true }, "t2"));
    expect(countYes(lookedAt(others, "t1", NOON))).toBe(0);
  });
});
