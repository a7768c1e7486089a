/// Every screen in German with no English left on it; numbers, units and directions as a person writes them.
import { readdirSync, readFileSync } from "node:fs";
import { afterAll, afterEach, beforeAll, expect, test } from "vitest";
import type { Page } from "playwright-core";
import { PACKAGE } from "../../vite.config.ts";
import { entriesOf, readingAt } from "./support/entries.ts";
import { Hand, hurried } from "./support/hand.ts";
import { startHosting, type Hosting } from "./support/hosting.ts";
import { forget, openPhone, type Phone } from "./support/phone.ts";
import { walk } from "./support/walk.ts";
import { anyOf, everySentence } from "./support/words.ts";

const FOLDER = `${PACKAGE}/tables`;
const TABLES = readdirSync(FOLDER)
  .filter((name) => name.endsWith(".csv"))
  .map((name) => readFileSync(`${FOLDER}/${name}`, "utf8"));
/** English notes that were met on the walk. */
const notes = new Set<string>();

let hosting: Hosting;
let phone: Phone;
beforeAll(async () => {
  hosting = await startHosting();
});
afterAll(() => hosting.stop());
afterEach(async () => {
  await phone.close();
  forget(phone.profile);
});

async function phoneIn(locale: string): Promise<Page> {
  phone = await openPhone(hosting.address, { locale, prepare: hurried });
  return phone.page;
}

/** All text a person sees or hears read out: text nodes, names, titles. */
function textsOf(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const found: string[] = [document.title];
    const nodes = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    while (nodes.nextNode()) found.push(nodes.currentNode.textContent ?? "");
    for (const element of document.querySelectorAll(
      "[aria-label],[alt],[aria-valuetext],[placeholder]",
    )) {
      for (const name of ["aria-label", "alt", "aria-valuetext", "placeholder"]) {
        found.push(element.getAttribute(name) ?? "");
      }
    }
    return found
      .map((text) => text.replace(/\s+/g, " ").trim())
      .filter((text) => /[a-z]{2}/i.test(text));
  });
}

/** English sentences that do not say the same in German, as what any filling of their places matches. */
function englishOnly(): [string, RegExp][] {
  const [en, de] = [everySentence("en"), everySentence("de")];
  const german = new Set(Object.values(de));
  return (
    Object.entries(en)
      .filter(([, sentence]) => !german.has(sentence))
      // What is places and signs alone says nothing of a language.
      .filter(([, sentence]) => /[a-z]{2}/i.test(sentence.replace(/\{[^}]*\}/g, "")))
      .map(([key, sentence]) => [`${key}: ${sentence}`, anyOf(sentence)])
  );
}

const ENGLISH_WORDS = /\b(the|of|and|is|are|with|from|to|at|by|not|for|on|this|as|it|its|one)\b/;

/** Notes of the data tables, which say of a figure what its source says of it. */
function isNote(text: string): boolean {
  return TABLES.some((table) => table.includes(text));
}

test("every screen speaks German to a German phone, with no English sentence left", async () => {
  const page = await phoneIn("de-DE");
  const hand = new Hand(page, "de");
  const english = englishOnly();
  const found: string[] = [];
  let texts = 0;
  notes.clear();
  for await (const screen of walk(hand)) {
    expect(await page.evaluate(() => document.documentElement.lang)).toBe("de");
    for (const text of await textsOf(page)) {
      texts += 1;
      const sentence = english.find(([, pattern]) => pattern.test(text))?.[0];
      const told = sentence ?? ENGLISH_WORDS.exec(text)?.[0];
      if (told === undefined) continue;
      if (isNote(text)) notes.add(text);
      else found.push(`${screen}: "${text}" is English: ${told}`);
    }
  }
  expect(found).toEqual([]);
  expect(texts).toBeGreaterThan(500);
});

// The tables hold their notes in English only: this must fail until they have them in German.
test.fails("the notes of the data tables are German on a German phone", () => {
  expect([...notes]).toEqual([]);
});

test("the look for English finds it where it is", async () => {
  const page = await phoneIn("en-GB");
  await new Hand(page).demo();
  const english = englishOnly();
  const texts = await textsOf(page);
  expect(
    texts.filter((text) => english.some(([, pattern]) => pattern.test(text))).length,
  ).toBeGreaterThan(30);
});

test("another language is taken by a tap, and a number keeps the comma it was typed with", async () => {
  const page = await phoneIn("en-GB");
  const hand = new Hand(page);
  const tree = await hand.newTree("Tarnshaw 9");
  await hand.enter("screen_measure.dbh", "40,5");
  await hand.go("#/settings");
  await page.getByRole("button", { name: "Deutsch", exact: true }).tap();
  const german = new Hand(page, "de");
  await german.heading("screen.ask_settings");
  await german.go(`#/tree/${tree}/measure`);
  await german.heading("screen.ask_measure");
  expect(await page.evaluate(() => document.documentElement.lang)).toBe("de");
  expect(await german.field("screen_measure.dbh").inputValue()).toBe("40,5");
  await german.enter("screen_measure.height", "25.5");
  await german.see("screen_measure.progress", { taken: 2, of: 7, looked: 0, looks: 5 });
  const entries = await entriesOf(page);
  expect(readingAt(entries, "tree.dbh_cm")?.body).toMatchObject({ value: 40.5, typed: "40,5" });
  expect(readingAt(entries, "tree.height_m")?.body).toMatchObject({ value: 25.5, typed: "25.5" });
  // What could be two numbers is none: it is said, and kept nowhere.
  await german.enter("screen_measure.stump", "1.046,5");
  await german.see("screen.not_a_number");
  expect(readingAt(await entriesOf(page), "tree.stump_diameter_cm")).toBeUndefined();
});

test("in feet and inches a tree is read, worked out and shown in them, and kept as it was read", async () => {
  const page = await phoneIn("en-GB");
  const hand = new Hand(page);
  await hand.loadVan();
  await hand.choose("screen_settings.units", "screen_settings.units_imperial");
  await hand.newTree("Tarnshaw 9");
  await hand.pickSpecies("Norway spruce");
  await hand.enter("screen_measure.dbh", "15,75");
  await hand.enter("screen_measure.height", "82");
  await hand.enter("screen_measure.stump", "18");
  await hand.enter("screen_measure.lay", "40");
  await hand.enterLean("1.6", 6, "plumb line, two sides");
  await hand.lookClear();
  const entries = await entriesOf(page);
  expect(readingAt(entries, "tree.dbh_in")?.body["value"]).toBe(15.75);
  expect(readingAt(entries, "tree.height_ft")?.body["value"]).toBe(82);
  expect(readingAt(entries, "tree.lean")?.body["value"]).toMatchObject([
    { offset_ft: 1.6, toward_clock: 6 },
  ]);
  await hand.question("cut");
  await hand.enter("screen_cut.trimmed_width", "18");
  await hand.question("tip");
  await hand.whole();
  expect(await hand.verdict()).toBe("ADDS UP");
  // A socket is called by its millimetres everywhere.
  const shown = (await page.locator(".plan").innerText()).replaceAll("19 mm socket", "");
  expect(shown).toMatch(/\d in\b/);
  expect(shown).not.toMatch(/\d (mm|cm|m)\b/);
});

test("directions go by the clock or in degrees, as it was chosen, and give the same verdict", async () => {
  const page = await phoneIn("en-GB");
  const hand = new Hand(page);
  await hand.loadVan();
  const figures: string[] = [];
  for (const by of ["clock", "degrees"] as const) {
    await hand.go("#/settings");
    await hand.choose("screen_settings.bearings", `screen_settings.bearings_${by}`);
    await hand.newTree("Tarnshaw 10");
    await hand.pickSpecies("Norway spruce");
    await hand.enter("screen_measure.dbh", "40");
    await hand.enter("screen_measure.stump", "46");
    await hand.enter("screen_measure.lay", "40");
    const lean = hand.lean();
    if (by === "clock") await hand.enterLean("0.5", 6);
    else {
      await hand.enter("screen_measure.lean_offset", "0.5", lean);
      await hand.enter("screen_measure.lean_toward", "220", lean);
      await hand.tap("screen_measure.at_balance", {}, lean);
      await hand.button("screen_measure.lean_another", {}, lean).waitFor();
    }
    await hand.lookClear();
    await hand.question("tip");
    await hand.whole();
    figures.push(await page.getByRole("table").innerText());
  }
  expect(figures[0]).toMatch(/\d/);
  expect(figures[1]).toBe(figures[0]);
  const leans = (await entriesOf(page)).filter(({ body }) => body["path"] === "tree.lean");
  expect(leans.map(({ body }) => body["value"])).toMatchObject([
    [{ toward_clock: 6 }],
    [{ toward_deg: 220 }],
  ]);
});

test("an hour that was read against another lay is dropped, and what was measured stays", async () => {
  const page = await phoneIn("en-GB");
  const hand = new Hand(page);
  await hand.newTree("Tarnshaw 11");
  await hand.enter("screen_measure.lay", "40");
  const lean = hand.lean();
  await hand.enter("screen_measure.lean_offset", "0.5", lean);
  await hand.tap("screen_measure.hour", { hour: 6 }, lean);
  const six = hand.button("screen_measure.hour", { hour: 6 }, lean);
  const balance = hand.button("screen_measure.at_balance", {}, lean);
  await expect.poll(() => six.getAttribute("aria-pressed")).toBe("true");
  expect(await balance.isEnabled()).toBe(true);
  await hand.enter("screen_measure.lay", "70");
  await expect.poll(() => six.getAttribute("aria-pressed")).toBe("false");
  expect(await balance.isEnabled()).toBe(false);
  expect(await hand.field("screen_measure.lean_offset", lean).inputValue()).toBe("0.5");
});
