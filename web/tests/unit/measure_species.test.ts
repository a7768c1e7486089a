/// Finding a species by any of its names.
import { expect, test } from "vitest";
import { isClass, matching, namedBy, stepped, type Species } from "../../src/measure/species.ts";

const SPRUCE: Species = {
  key: "norway_spruce",
  name: "Fichte",
  other: ["Gemeine Fichte"],
  latin: "Picea abies",
};
const FIR: Species = { key: "grand_fir", name: "Küstentanne", other: [], latin: "Abies grandis" };
const BEECH: Species = {
  key: "beech",
  name: "Buche",
  other: ["Rotbuche"],
  latin: "Fagus sylvatica",
};
const SOFTWOOD: Species = { key: "softwood", name: "Nadelholz", other: ["Nadelbaum"], latin: null };
const ALL = [BEECH, FIR, SOFTWOOD, SPRUCE];

test.each([
  ["fich", SPRUCE],
  ["PICEA", SPRUCE],
  ["gemeine f", SPRUCE],
  ["rotb", BEECH],
  ["kuesten", FIR],
  ["küsten", FIR],
  ["kusten", FIR],
  ["  tanne ", FIR],
  ["nadelb", SOFTWOOD],
])("%s finds it", (typed, species) => {
  expect(matching(ALL, typed)).toEqual([species]);
});

test("names that begin so come before names that hold it, classes of wood last", () => {
  const within: Species = { key: "a", name: "Rote Bu", other: [], latin: "x" };
  const begins: Species = { key: "b", name: "Buche", other: [], latin: "x" };
  const wood: Species = { key: "c", name: "Buntholz", other: [], latin: null };
  expect(matching([wood, within, begins], "bu")).toEqual([begins, within, wood]);
});

test("nothing typed lists all, classes last; nonsense lists none", () => {
  expect(matching(ALL, "")).toEqual([BEECH, FIR, SPRUCE, SOFTWOOD]);
  expect(matching(ALL, "baobab")).toEqual([]);
});

test("a reading is known by key and by any name, whole only", () => {
  expect(namedBy(ALL, "norway_spruce")).toBe(SPRUCE);
  expect(namedBy(ALL, "picea abies")).toBe(SPRUCE);
  expect(namedBy(ALL, "Fich")).toBeUndefined();
  expect(isClass(SOFTWOOD)).toBe(true);
  expect(isClass(SPRUCE)).toBe(false);
});

test("steps go round", () => {
  expect([stepped(-1, 1, 3), stepped(-1, -1, 3), stepped(2, 1, 3), stepped(0, -1, 3)]).toEqual([
    0, 2, 0, 2,
  ]);
  expect(stepped(-1, 1, 0)).toBe(-1);
});
