/// Entries go from phone to phone as one file: united, never replaced; what is not whole changes nothing.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from "vitest";
import { laidIn, otherPhone, reading } from "./support/bundles.ts";
import { entriesOf } from "./support/entries.ts";
import { Hand } from "./support/hand.ts";
import { startHosting, type Hosting } from "./support/hosting.ts";
import { forget, openPhone, type Phone } from "./support/phone.ts";

let hosting: Hosting;
let phones: Phone[] = [];
let phone: Phone;
let hand: Hand;

beforeAll(async () => {
  hosting = await startHosting();
});
afterAll(() => hosting.stop());
beforeEach(async () => {
  phone = await another();
  hand = new Hand(phone.page);
});
afterEach(async () => {
  for (const one of phones) {
    await one.close();
    forget(one.profile);
  }
  phones = [];
});

async function another(): Promise<Phone> {
  const opened = await openPhone(hosting.address);
  phones.push(opened);
  return opened;
}

async function bringIn(to: Hand, file: string): Promise<void> {
  await to.go("#/settings");
  await to.page.getByLabel(to.say("screen_data.bring_in"), { exact: true }).setInputFiles(file);
}

async function saved(from: Hand, name: string): Promise<string> {
  await from.go("#/settings");
  const [download] = await Promise.all([
    from.page.waitForEvent("download"),
    from.tap("screen_data.save"),
  ]);
  const file = join(phone.profile, name);
  await download.saveAs(file);
  expect(download.suggestedFilename()).toMatch(/^fellwright-\d{4}-\d\d-\d\d-\d{4}\.json$/);
  return file;
}

async function expectRefused(file: string, told: RegExp): Promise<void> {
  const before = await entriesOf(phone.page);
  await bringIn(hand, file);
  const notice = hand.page.getByRole("alert").filter({ hasText: told });
  await notice.waitFor();
  expect(await entriesOf(phone.page)).toEqual(before);
}

test("a bundle from one phone makes the union on another, and a second time changes nothing", async () => {
  await hand.newTree("Quernholt 3");
  await hand.enter("screen_measure.dbh", "52,5");
  await hand.go("#/settings");
  await hand.enter("screen_settings.rescue_point", "Gate 4, upper track");
  await hand.engine();
  const file = await saved(hand, "one.json");
  await hand.see("screen_data.read_back");
  const first = await entriesOf(phone.page);
  expect(JSON.parse(readFileSync(file, "utf8")).events).toEqual(first);

  const other = new Hand((await another()).page);
  await other.newTree("Quernholt 9");
  await bringIn(other, file);
  await other.see("screen_data.taken", { added: first.length, here: 0 });
  const united = await entriesOf(other.page);
  expect(united).toHaveLength(first.length + 1);
  expect(united).toEqual(expect.arrayContaining(first));
  // What another phone says of van and rescue point is offered, not put into force.
  await other.see("screen_data.other_rescue_point", { name: "Gate 4, upper track" });
  expect(await other.field("screen_settings.rescue_point").inputValue()).toBe("");

  await bringIn(other, file);
  await other.see("screen_data.taken", { added: 0, here: first.length });
  expect(await entriesOf(other.page)).toEqual(united);

  // And back again: both phones hold the same.
  const back = await saved(other, "two.json");
  await bringIn(hand, back);
  await hand.see("screen_data.taken", { added: 1, here: first.length });
  expect(await entriesOf(phone.page)).toEqual(united);
  await hand.go("#/");
  await hand.page.getByRole("link", { name: /Quernholt 9/ }).waitFor();
  await hand.page.getByRole("link", { name: /Quernholt 3/ }).tap();
  expect(await hand.field("screen_measure.dbh").inputValue()).toBe("52,5");
});

test("a bundle of a newer version is refused in words, and nothing is changed", async () => {
  await hand.newTree("Quernholt 3");
  const { text } = otherPhone("Quernholt 4", [reading("tree.dbh_cm", 44)]);
  const newer = text.replace("fellwright/bundle/1", "fellwright/bundle/2");
  await expectRefused(laidIn(phone.profile, "newer.json", newer), /newer|later|version/i);
  const newerEvents = text.replaceAll('"schema":1', '"schema":2');
  await expectRefused(laidIn(phone.profile, "events.json", newerEvents), /newer|later|version/i);
  await hand.see("screen_data.refused");
});

test("a damaged bundle is refused in words, and nothing is changed", async () => {
  await hand.newTree("Quernholt 3");
  const { text } = otherPhone("Quernholt 4", [reading("tree.dbh_cm", 44)]);
  const whole = JSON.parse(text);
  const refused = new RegExp(hand.say("screen_data.refused"));
  const cases: [string, string][] = [
    ["cut off", text.slice(0, text.length / 2)],
    ["no kind", JSON.stringify({ ...whole, events: [{ ...whole.events[0], kind: undefined }] })],
    [
      "no id",
      JSON.stringify({ ...whole, events: [whole.events[0], { ...whole.events[1], id: "7" }] }),
    ],
    ["not a bundle", '{"some": "file"}'],
    ["a control character in a name", text.replace("Quernholt 4", "Quern\\u0000holt")],
  ];
  for (const [name, damaged] of cases) {
    expect(damaged, name).not.toBe(text);
    await expectRefused(laidIn(phone.profile, `${name}.json`, damaged), refused);
  }
  const bytes = Buffer.from([0x7b, 0xff, 0xfe, 0x22]);
  const unread = new RegExp(hand.say("screen_data.unread_not_text"));
  await expectRefused(laidIn(phone.profile, "bytes.json", bytes), unread);
});

test("names that would be obeyed elsewhere are shown as the text they are", async () => {
  const image = '<img src=x onerror="window.obeyed=1">';
  const script = "<script>window.obeyed=2</script>";
  const { text, tree, entries } = otherPhone(image, [
    { kind: "reading", body: { path: "tree.species", value: script, typed: script, how: image } },
    { kind: "reading", body: { path: "tree.dbh_cm", value: 40, typed: script, how: script } },
  ]);
  await bringIn(hand, laidIn(phone.profile, "hostile.json", text));
  await hand.see("screen_data.taken", { added: entries.length, here: 0 });
  await hand.go("#/");
  await hand.page.getByText(image, { exact: true }).waitFor();
  await hand.go(`#/tree/${tree}/measure`);
  await hand.heading("screen.ask_measure");
  await hand.page.locator(".name").getByText(image, { exact: true }).waitFor();
  expect(await hand.page.title()).toContain(image);
  const box = hand.page.getByRole("combobox", { name: hand.say("screen_measure.species") });
  expect(await box.inputValue()).toBe(script);
  for (const of of ["tip", "cut", "drive", "happened"] as const) await hand.question(of);
  await hand.go(`#/stuck/${encodeURIComponent(`#/tree/${tree}/tip`)}`);
  await hand.heading("screen.ask_stuck");
  expect(
    await hand.page.evaluate(() => (globalThis as { obeyed?: number }).obeyed),
  ).toBeUndefined();
  expect(await hand.page.locator("img[src=x], main script").count()).toBe(0);
});
