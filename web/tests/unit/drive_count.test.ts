import { describe, expect, test } from "vitest";
import { moved, stageOf, standingAt, tapsFor } from "../../src/drive/count.ts";
import { keepCount, keptCount } from "../../src/drive/kept_count.ts";
import type { DriveTable } from "../../src/engine/answers.ts";

const row = (turns: number, stage: string, remote = false) => ({
  turns,
  opening: `${Math.round(2.2 * turns)} mm`,
  stage,
  remote,
  text: "",
});
const TABLE: DriveTable = {
  device: "Dipper",
  unit: "turns",
  rows: [
    row(0, "bed in"),
    row(1, "bed in"),
    row(2, "balance"),
    row(3, "balance", true),
    row(4, "goes", true),
    row(4.9, "stop", true),
  ],
  stages: [{ key: "goes", name: "geht", at: "", band: "", note: null }],
  leave_by: 3,
  leave_by_text: "",
  stop: 4.9,
  text: "",
};

describe("the count of turns", () => {
  test("stands in the row of its taps and tells what comes next", () => {
    expect(standingAt(TABLE, 0)).toMatchObject({ next: { stage: "balance", turns: 2 } });
    expect(standingAt(TABLE, 3)).toMatchObject({
      row: { remote: true },
      next: { stage: "goes", turns: 1 },
    });
  });

  test("never promises a whole turn before a stop that comes sooner", () => {
    expect(standingAt(TABLE, 4)).toMatchObject({ next: { stage: "stop", turns: 0 } });
  });

  test("stops at the stop: no tap leads past it", () => {
    const taps = Array.from({ length: 20 }).reduce<number>((at) => moved(TABLE, at, 1), 0);
    expect(standingAt(TABLE, taps)).toMatchObject({ atStop: true, next: null });
    expect(standingAt(TABLE, taps + 10)?.row.turns).toBe(4.9);
  });

  test("one back undoes one tap, and never goes below nought", () => {
    expect(moved(TABLE, moved(TABLE, 2, 1), -1)).toBe(2);
    expect(moved(TABLE, 0, -1)).toBe(0);
  });

  test("of turns that were kept is the last row that they reach", () => {
    expect(TABLE.rows.map(({ turns }) => tapsFor(TABLE, turns ?? 0))).toEqual([0, 1, 2, 3, 4, 5]);
    expect(tapsFor(TABLE, 3.5)).toBe(3);
    expect(tapsFor(TABLE, 99)).toBe(5);
  });

  test("has no standing where nothing is driven", () => {
    const none = { ...TABLE, rows: [] };
    expect(standingAt(none, 3)).toBeNull();
    expect(moved(none, 3, 1)).toBe(0);
    expect(tapsFor(none, 3)).toBe(0);
  });

  test("names a stage in the words of the table", () => {
    expect(stageOf(TABLE, "goes")?.name).toBe("geht");
    expect(stageOf(TABLE, "start")).toBeNull();
  });
});

describe("the count in this tab", () => {
  function shelf() {
    const kept = new Map<string, string>();
    return {
      getItem: (key: string) => kept.get(key) ?? null,
      setItem: (key: string, text: string) => void kept.set(key, text),
    };
  }

  test("comes back with its table after a reload", () => {
    const on = shelf();
    expect(keepCount(on, "t1", { start: "s1", taps: 7, table: TABLE })).toBe(true);
    expect(keptCount(on, "t1", "s1")).toEqual({ start: "s1", taps: 7, table: TABLE });
  });

  test("is none of another driving, nor of another tree", () => {
    const on = shelf();
    keepCount(on, "t1", { start: "s1", taps: 7, table: null });
    expect(keptCount(on, "t1", "s2")).toBeNull();
    expect(keptCount(on, "t2", "s1")).toBeNull();
  });

  test("is none where the shelf is denied, full or holds no count", () => {
    const full = {
      getItem: () => "{broken",
      setItem: () => {
        throw new Error("full");
      },
    };
    expect(keepCount(full, "t1", { start: "s1", taps: 7, table: null })).toBe(false);
    expect(keptCount(full, "t1", "s1")).toBeNull();
    expect(keepCount(null, "t1", { start: "s1", taps: 7, table: null })).toBe(false);
    expect(keptCount(null, "t1", "s1")).toBeNull();
  });
});
