/// A newer version waits until a person takes it; a broken one never comes; no entry is lost over it.
import { afterEach, beforeEach, expect, test } from "vitest";
import type { Page } from "playwright-core";
import { entriesOf } from "./support/entries.ts";
import { Hand } from "./support/hand.ts";
import { startHosting, type Hosting } from "./support/hosting.ts";
import { makeNewer, NEWER_WORDS } from "./support/newer.ts";
import { forget, keptOffline, openPhone, type Phone } from "./support/phone.ts";
import { sentences } from "./support/words.ts";

const OLD_WORDS = sentences("en")["screen_trees.demo_what"] ?? "";
const BRINGS = "It brings a test.";
let hosting: Hosting;
let phone: Phone;
let hand: Hand;

beforeEach(async () => {
  hosting = await startHosting();
  phone = await openPhone(hosting.address);
  hand = new Hand(phone.page);
  await keptOffline(phone.page);
  await hand.newTree("Bittern Slack 2");
  await hand.enter("screen_measure.dbh", "41");
  await phone.page
    .getByLabel(/^How taken/)
    .first()
    .waitFor();
  await hand.go("#/");
});
afterEach(async () => {
  await phone.close();
  forget(phone.profile);
  await hosting.stop();
});

const says = (page: Page, words: string) => page.getByText(words, { exact: true }).waitFor();

const newerWaits = (version: string) =>
  says(phone.page, `${hand.say("screen.version_waits", { version })} ${BRINGS}`);

async function expectEntries(page: Page): Promise<void> {
  expect((await entriesOf(page)).map(({ kind }) => kind)).toEqual(["tree", "reading"]);
  await page.getByRole("link", { name: /Bittern Slack 2/ }).waitFor();
}

/** Load anew until the host has been asked for a path, which is part of a look for a newer version. */
async function lookUntilAsked(path: string): Promise<void> {
  await phone.page.reload();
  await expect.poll(() => hosting.asked.includes(path), { timeout: 20_000 }).toBe(true);
}

test("a newer version says which it is and what it brings, and runs only once it is taken", async () => {
  const { page } = phone;
  makeNewer(hosting.folder, "9.1.0", BRINGS);
  await page.reload();
  await newerWaits("9.1.0");
  await hand.see("screen.version_keeps");
  await says(page, OLD_WORDS);

  // Not by loading again, and not in a second tab either.
  await page.reload();
  await says(page, OLD_WORDS);
  const second = await phone.context.newPage();
  await second.goto(hosting.address);
  await says(second, OLD_WORDS);

  // A person taps what is in front.
  await page.bringToFront();
  await hand.tap("screen.version_take");
  await says(page, NEWER_WORDS);
  await says(second, NEWER_WORDS);
  const runs = `${hand.say("screen.version_runs", { version: "9.1.0" })} ${BRINGS}`;
  await Promise.any([says(page, runs), says(second, runs)]);
  await expectEntries(page);
  expect(await hand.button("screen.version_take").count()).toBe(0);
  await hand.go("#/settings");
  await page.getByText(/build [0-9a-f]{8}/).waitFor();
  await hand.demo();
  expect(await hand.verdict()).toBe("ADDS UP");
});

test("a newer version with a file missing never takes over, and comes once it is whole", async () => {
  const { page } = phone;
  const script = makeNewer(hosting.folder, "9.2.0", BRINGS);
  hosting.missing.add(script);
  await lookUntilAsked(script);
  await page.waitForFunction(async () => {
    const registration = await navigator.serviceWorker.getRegistration();
    return registration?.installing === null && registration.waiting === null;
  });
  await page.reload();
  await says(page, OLD_WORDS);
  expect(await hand.button("screen.version_take").count()).toBe(0);
  await hand.demo();
  expect(await hand.verdict()).toBe("ADDS UP");

  hosting.missing.delete(script);
  await hand.go("#/");
  await page.reload();
  await hand.tap("screen.version_take");
  await says(page, NEWER_WORDS);
  await page.getByRole("link", { name: /Bittern Slack 2/ }).waitFor();
});

test("started again with a newer version waiting, the app says which version runs, and every entry is there", async () => {
  makeNewer(hosting.folder, "9.3.0", BRINGS);
  await phone.page.reload();
  await newerWaits("9.3.0");
  const { profile } = phone;
  await phone.kill();
  phone = await openPhone(hosting.address, { profile });
  hand = new Hand(phone.page);
  // With every page closed a browser changes over by itself: then it must not go unsaid.
  await says(phone.page, NEWER_WORDS);
  await says(phone.page, `${hand.say("screen.version_runs", { version: "9.3.0" })} ${BRINGS}`);
  await hand.see("screen.version_keeps");
  await expectEntries(phone.page);
  await phone.page.reload();
  await says(phone.page, NEWER_WORDS);
  await hand.go("#/settings");
  await phone.page.getByText(/build [0-9a-f]{8}/).waitFor();
  expect(await phone.page.getByText(hand.say("screen.version_keeps")).count()).toBe(0);
});
