import { expect, test } from "vitest";
import type { KitField, KitSection } from "../../src/engine/answers.ts";
import {
  itemsOf,
  readItem,
  secondOf,
  told,
  withItem,
  withoutItem,
} from "../../src/settings/kit_entry.ts";

const field = (key: string, entry: KitField["entry"], unit = ""): KitField => ({
  key,
  label: key,
  unit,
  entry,
  required: false,
  words: [],
});
const FIELDS = [
  field("name", "text"),
  field("lift_mm", "number", "mm"),
  field("plate_mm", "pair", "mm"),
  field("hex_mm", "list", "mm"),
];
const DEVICES: KitSection = { key: "device", title: "Devices", single: false, fields: FIELDS };
const SAW: KitSection = {
  key: "saw",
  title: "Saw",
  single: true,
  fields: [field("bar_cm", "number", "cm")],
};

test("typed figures become numbers, with comma or point; empty fields become nothing", () => {
  const typed = {
    name: " Dipper ",
    lift_mm: "46,5",
    plate_mm: "65",
    [secondOf("plate_mm")]: "90",
    hex_mm: "19 / 27",
  };
  expect(readItem(FIELDS, typed)).toEqual({
    item: { name: "Dipper", lift_mm: 46.5, plate_mm: [65, 90], hex_mm: [19, 27] },
    broken: [],
  });
  expect(readItem(FIELDS, { name: "" })).toEqual({ item: {}, broken: [] });
});

test("what is no number is named and never left out silently", () => {
  const typed = { lift_mm: "about 46", plate_mm: "65", hex_mm: "19 x" };
  expect(readItem(FIELDS, typed)).toEqual({
    item: {},
    broken: ["lift_mm", "plate_mm", "hex_mm"],
  });
});

test("an item is added to the van and taken out again; the van before is not touched", () => {
  const before = { device: [{ name: "Plover" }] };
  const more = withItem(before, DEVICES, { name: "Dipper" });
  expect(itemsOf(more, "device")).toEqual([{ name: "Plover" }, { name: "Dipper" }]);
  expect(before).toEqual({ device: [{ name: "Plover" }] });
  expect(withoutItem(more, DEVICES, 0)).toEqual({ device: [{ name: "Dipper" }] });
  expect(withoutItem(before, DEVICES, 0)).toEqual({});
});

test("of what there is one only, the new one takes the place of the old", () => {
  const one = withItem(null, SAW, { bar_cm: 45 });
  expect(withItem(one, SAW, { bar_cm: 60 })).toEqual({ saw: { bar_cm: 60 } });
  expect(withoutItem(one, SAW, 0)).toEqual({});
});

test("an item is told by its name, or else by its figures with their units", () => {
  expect(told(DEVICES, { name: "Dipper", lift_mm: 46 })).toBe("Dipper");
  expect(told(SAW, { bar_cm: 45 })).toBe("45 cm");
});
