import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { catalogue, LANGUAGES } from "../../pack/words.ts";
import { treeOf, wayBack } from "../../src/stuck/back.ts";
import { CARDS, NAMES } from "../../src/stuck/cards.ts";
import { dialled } from "../../src/stuck/dial.ts";

const PACKAGE = new URL("../../../src/fellwright/", import.meta.url);
const PLANNING = readFileSync(new URL("planning/stuck_cards.py", PACKAGE), "utf8");

describe("the stop cards", () => {
  test("hold the same sentences in the same order as the engine's", () => {
    const engine = [...PLANNING.matchAll(/say\("(?:screen_)?stuck\.(\w+)"\)/g)].map(
      ([, key]) => key,
    );
    const app = NAMES.map((name) => CARDS[name]).flatMap(({ title, never, now, who }) => [
      title,
      ...never,
      ...now,
      ...who,
    ]);
    expect(app.length).toBeGreaterThan(30);
    expect(app).toEqual(engine);
  });

  test.each(LANGUAGES)("find every sentence without an engine: %s", (language) => {
    const words = catalogue(new URL("words", PACKAGE).pathname, language);
    const keys = NAMES.flatMap((name) => Object.values(CARDS[name]).flat());
    expect(keys.filter((key) => !words[`screen_stuck.${key}`])).toEqual([]);
  });
});

describe("the way back", () => {
  test("leads where one came from, and to its tree", () => {
    expect(wayBack("#/tree/a%20b/drive")).toBe("#/tree/a%20b/drive");
    expect(treeOf("#/tree/a%20b/drive")).toBe("a b");
  });

  test.each(["", "javascript:alert(1)", "https://example.org", "#tree"])(
    "leads to the trees from what is no place of the app: %s",
    (back) => {
      expect(wayBack(back)).toBe("#/");
      expect(treeOf(back)).toBeNull();
    },
  );

  test("knows no tree where there is none, or where its name is broken", () => {
    expect(treeOf("#/settings")).toBeNull();
    expect(treeOf("#/tree/%E0%A4%A/cut")).toBeNull();
  });
});

describe("the emergency number", () => {
  test.each([
    ["112", "tel:112"],
    ["+44 (0)1632 960-001", "tel:+4401632960001"],
  ])("%s is dialled", (text, address) => {
    expect(dialled(text)).toBe(address);
  });

  test.each(["", "1", "ask Hanna", "112 or radio 4", "javascript:1"])(
    "%s is shown, not dialled",
    (text) => {
      expect(dialled(text)).toBeNull();
    },
  );
});
