import { readFileSync } from "node:fs";
import { parse } from "smol-toml";
import { describe, expect, it } from "vitest";
import { isEntry, type Entry } from "../../src/journal/event.ts";
import { MemoryJournal } from "../../src/journal/memory.ts";
import { kitTables, treeTables } from "../../src/journal/request.ts";
import { addUp } from "../../src/journal/state.ts";
import { DEMO_TREE, demoDrafts } from "../../src/trees/demo.ts";
import { listed, matching, nextName, planSaid, timeShown } from "../../src/trees/list.ts";
import { entry, HARROWLEES_11, HARROWLEES_12, reading } from "./entries.ts";

function example(name: string): Record<string, unknown> {
  return parse(readFileSync(new URL(`../../../examples/${name}.toml`, import.meta.url), "utf8"));
}

function named(names: readonly string[]) {
  return addUp(
    names.map((name, index) =>
      entry({
        kind: "tree",
        tree: `0190a000-0000-7000-8000-0000000001${10 + index}`,
        body: { name },
      }),
    ),
  ).trees;
}

describe("the demo tree", () => {
  it("is word for word the example tree with the example kit", async () => {
    const journal = new MemoryJournal();
    const made = await journal.appendAll(demoDrafts());
    expect(made.every(isEntry)).toBe(true);
    const state = addUp(journal.entries(), journal.device);
    const tree = state.trees.get(DEMO_TREE);
    if (!tree) throw new Error("no demo tree");
    expect(treeTables(tree)).toEqual(example("harrowlees-11"));
    expect(kitTables(state, tree)).toEqual(example("van-2"));
  });

  it("lends its wedges to no other tree and leaves the van alone", async () => {
    const journal = new MemoryJournal();
    await journal.appendAll(demoDrafts());
    await journal.append("tree", HARROWLEES_12, { name: "Harrowlees 12" });
    const state = addUp(journal.entries(), journal.device);
    const other = state.trees.get(HARROWLEES_12);
    expect(other && kitTables(state, other)).toEqual({});
    expect([state.kit, state.kitName]).toEqual([null, null]);
  });
});

describe("the list", () => {
  it("puts loaded and hung trees first and those that are done with last", () => {
    const states = ["down", "marked", "hung", "left", "carded", "loaded"];
    const entries = states.flatMap((state, index) => {
      const tree = `0190a000-0000-7000-8000-0000000002${10 + index}`;
      return [
        entry({ kind: "tree", tree, body: { name: state } }),
        entry({ kind: "state", tree, body: { state } }),
      ];
    });
    const names = listed(addUp(entries).trees.values()).map(({ name }) => name);
    expect(names).toEqual(["loaded", "hung", "carded", "marked", "left", "down"]);
  });

  it("finds a tree by parts of its name in any case", () => {
    const trees = listed(named(["Harrowlees 11", "Quernholt 17", "B\u00e4renbruch 4"]).values());
    const found = (typed: string) => matching(trees, typed).map(({ name }) => name);
    expect(found("17 quern")).toEqual(["Quernholt 17"]);
    expect(found("B\u00c4REN")).toEqual(["B\u00e4renbruch 4"]);
    expect(found("  ")).toHaveLength(3);
    expect(found("oak")).toEqual([]);
  });

  it.each([
    [[], "1"],
    [["7"], "8"],
    [["Harrowlees 11"], "Harrowlees 12"],
    [["Harrowlees 12", "Harrowlees 11"], "Harrowlees 13"],
    [["Harrowlees 12", "Quernholt 17"], "Quernholt 18"],
    [["The old oak"], "The old oak 1"],
    [[""], "1"],
    [["12345678901"], "12345678902"],
  ])("after %j the next tree is %j", (names, next) => {
    expect(nextName(named(names).values())).toBe(next);
  });

  it("does not count on from the demo tree", async () => {
    const journal = new MemoryJournal();
    await journal.appendAll(demoDrafts());
    expect(nextName(addUp(journal.entries()).trees.values())).toBe("1");
  });
});

describe("a verdict kept with a tree", () => {
  const plan = () =>
    entry({ kind: "plan", body: { verdict: "ADDS UP", request: {}, answer: {}, engine: "0.1.0" } });
  const said = (entries: readonly Entry[]) => {
    const state = addUp(entries);
    const tree = state.trees.get(HARROWLEES_11);
    return tree && planSaid(tree, state);
  };

  it("is shown with its time", () => {
    const [dbh, kept] = [reading("tree.dbh_cm", 40), plan()];
    expect(said([dbh, kept])).toEqual({ verdict: "ADDS UP", at: kept.at });
  });

  it("is not shown once a reading, the van or the profile has changed", () => {
    const kept = plan();
    const after = [
      reading("tree.dbh_cm", 42),
      entry({ kind: "trimmed", body: { stump_diameter_cm: 44 } }),
      entry({ kind: "kit", tree: null, body: { name: "Van 2", kit: {} } }),
      entry({ kind: "van", tree: null, body: { device: "Dipper", present: false } }),
      entry({ kind: "setting", tree: null, body: { key: "profile", value: "germany" } }),
    ];
    for (const change of after) expect(said([kept, change]), change.kind).toBe(null);
  });

  it("stays when only the way of reading or the standing has changed", () => {
    const kept = plan();
    const after = [
      entry({ kind: "setting", tree: null, body: { key: "paper", value: "dark" } }),
      entry({ kind: "state", body: { state: "carded" } }),
    ];
    expect(said([kept, ...after])).not.toBe(null);
  });

  it("of a word that is not known is not shown", () => {
    expect(said([entry({ kind: "plan", body: { verdict: "FINE" } })])).toBe(null);
    expect(said([reading("tree.dbh_cm", 40)])).toBe(null);
  });
});

it("a time that cannot be read is left out", () => {
  expect(timeShown("yesterday", "en")).toBe("");
  expect(timeShown("2026-03-02T07:40:00.000+01:00", "de")).toMatch(/2026/);
});
