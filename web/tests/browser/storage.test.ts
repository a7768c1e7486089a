/// Storage that is denied, full, shared, newer or out of time is said plainly, and takes nothing away.
import { afterAll, afterEach, beforeAll, expect, test } from "vitest";
import type { BrowserContext, Page } from "playwright-core";
import { entriesOf } from "./support/entries.ts";
import { Hand } from "./support/hand.ts";
import { startHosting, type Hosting } from "./support/hosting.ts";
import { forget, openPhone, type Phone } from "./support/phone.ts";

let hosting: Hosting;
let phones: Phone[] = [];
beforeAll(async () => {
  hosting = await startHosting();
});
afterAll(() => hosting.stop());
afterEach(async () => {
  for (const one of phones) {
    await one.close();
    forget(one.profile);
  }
  phones = [];
});

async function phoneWith(prepare?: (context: BrowserContext) => Promise<unknown>): Promise<Hand> {
  const phone = await openPhone(hosting.address, prepare ? { prepare } : {});
  phones.push(phone);
  return new Hand(phone.page);
}

async function confirmedDbh(hand: Hand, text: string): Promise<void> {
  await hand.enter("screen_measure.dbh", text);
  await hand.page
    .getByLabel(/^How taken/)
    .first()
    .waitFor();
}

const DENIALS: [string, () => void][] = [
  ["absent", () => Object.defineProperty(globalThis, "indexedDB", { value: undefined })],
  [
    "denied",
    () => {
      IDBFactory.prototype.open = () => {
        throw new DOMException("denied", "SecurityError");
      };
    },
  ],
];
test.each(DENIALS)(
  "with storage %s the app says that it keeps nothing, and works",
  async (_, deny) => {
    const hand = await phoneWith((context) => context.addInitScript(deny));
    await hand.see("screen.memory_only");
    await hand.see("screen_data.trouble_denied");
    await hand.newTree("Dipper Bank 1");
    await confirmedDbh(hand, "40");
    await hand.demo();
    expect(await hand.verdict()).toBe("ADDS UP");
    await hand.see("screen.memory_only");
    // What is in memory can still be sent off.
    await hand.go("#/settings");
    await hand.see("screen_data.keeping_memory_only");
    const [download] = await Promise.all([
      hand.page.waitForEvent("download"),
      hand.tap("screen_data.save"),
    ]);
    expect(await download.failure()).toBeNull();
  },
);

/** Let the disk be full from now on, or have room again. */
const fill = (page: Page, full: boolean) =>
  page.evaluate((to) => void ((globalThis as { full?: boolean }).full = to), full);

test("with the storage full an entry is said not to be kept and stays in the field, and earlier ones stay", async () => {
  const hand = await phoneWith((context) =>
    context.addInitScript(() => {
      const add = IDBObjectStore.prototype.add;
      IDBObjectStore.prototype.add = function (...row: Parameters<typeof add>) {
        if ((globalThis as { full?: boolean }).full)
          throw new DOMException("full", "QuotaExceededError");
        return add.apply(this, row);
      };
    }),
  );
  const { page } = hand;
  await hand.newTree("Dipper Bank 1");
  await confirmedDbh(hand, "40");
  const before = await entriesOf(page);

  await fill(page, true);
  await hand.enter("screen_measure.height", "25");
  await hand.see("screen.not_kept_full");
  expect(await hand.field("screen_measure.height").inputValue()).toBe("25");
  await hand.choose("screen_measure.look_at_sound", "screen_measure.look_yes");
  expect(
    await hand.group("screen_measure.look_at_sound").locator("[aria-pressed=true]").innerText(),
  ).toBe(hand.say("screen_measure.look_not_looked"));
  await hand.see("screen_measure.progress", { taken: 1, of: 7, looked: 0, looks: 5 });
  expect(await entriesOf(page)).toEqual(before);

  await fill(page, false);
  await hand.field("screen_measure.height").press("Enter");
  await hand.see("screen_measure.progress", { taken: 2, of: 7, looked: 0, looks: 5 });
  expect(await page.getByText(hand.say("screen.not_kept_full")).count()).toBe(0);
  await page.reload();
  expect(await hand.field("screen_measure.height").inputValue()).toBe("25");
  expect(await entriesOf(page)).toHaveLength(before.length + 1);
});

test("two tabs write at once: every entry is kept once, and each tab shows those of the other", async () => {
  const hand = await phoneWith();
  const { page } = hand;
  const tree = await hand.newTree("Dipper Bank 1");
  const second = await page.context().newPage();
  await second.goto(`${hosting.address}#/tree/${tree}/measure`);
  const other = new Hand(second);
  await other.heading("screen.ask_measure");
  await Promise.all([
    hand.enter("screen_measure.dbh", "40"),
    other.enter("screen_measure.height", "25"),
  ]);
  await Promise.all([
    hand.enter("screen_measure.stump", "46"),
    other.enter("screen_measure.lay", "40"),
  ]);
  for (const one of [hand, other]) {
    await one.see("screen_measure.progress", { taken: 4, of: 7, looked: 0, looks: 5 });
    expect(await one.field("screen_measure.dbh").inputValue()).toBe("40");
    expect(await one.field("screen_measure.height").inputValue()).toBe("25");
  }
  const entries = await entriesOf(page);
  expect(entries.map(({ seq }) => seq).sort()).toEqual([1, 2, 3, 4, 5]);
  expect(new Set(entries.map(({ id }) => id)).size).toBe(5);
});

test("a clock that was set back is told, and the newest entry still counts", async () => {
  const hand = await phoneWith((context) =>
    context.addInitScript(() => {
      const { now } = Date;
      const back = () => Number(sessionStorage.getItem("back") ?? 0);
      Date.now = () => now() - back();
    }),
  );
  const { page } = hand;
  await hand.newTree("Dipper Bank 1");
  await confirmedDbh(hand, "40");
  await page.evaluate(() => sessionStorage.setItem("back", String(86_400_000)));
  await page.reload();
  await hand.see("screen.clock_went_back");
  await hand.enter("screen_measure.dbh", "41");
  await expect.poll(async () => (await entriesOf(page)).length).toBe(3);
  const [, before, after] = await entriesOf(page);
  expect(Date.parse(after?.at ?? "")).toBeLessThan(Date.parse(before?.at ?? ""));
  expect([before?.seq, after?.seq]).toEqual([2, 3]);
  await page.reload();
  expect(await hand.field("screen_measure.dbh").inputValue()).toBe("41");
});

test("a journal of a newer version is left untouched, and the app says so", async () => {
  const hand = await phoneWith();
  const { page } = hand;
  await hand.newTree("Dipper Bank 1");
  await confirmedDbh(hand, "40");
  const before = await entriesOf(page);
  // Another tab raises the version: this one stands aside and says it.
  const second = await page.context().newPage();
  await second.goto(`${hosting.address}icon.svg`);
  await second.evaluate(
    () =>
      new Promise<void>((resolve, reject) => {
        const opening = indexedDB.open("fellwright", 99);
        opening.onerror = () => reject(opening.error);
        opening.onsuccess = () => resolve(opening.result.close());
      }),
  );
  await hand.see("screen_data.trouble_closed");
  await hand.enter("screen_measure.height", "25");
  await hand.see("screen.not_kept_closed");
  await page.reload();
  await hand.see("screen_data.trouble_newer");
  await hand.see("screen.memory_only");
  await hand.newTree("Dipper Bank 2");
  expect(await entriesOf(page)).toEqual(before);
});

test("a journal that the browser threw away comes back from its second copy, and that is said", async () => {
  const hand = await phoneWith();
  const { page } = hand;
  const tree = await hand.newTree("Dipper Bank 1");
  await confirmedDbh(hand, "40");
  const before = await entriesOf(page);
  await page.goto(`${hosting.address}icon.svg`);
  await page.evaluate(
    () =>
      new Promise<void>((resolve, reject) => {
        const asked = indexedDB.deleteDatabase("fellwright");
        asked.onerror = () => reject(asked.error);
        asked.onsuccess = () => resolve();
      }),
  );
  await page.goto(`${hosting.address}#/tree/${tree}/measure`);
  await hand.see("screen_data.brought_back", { count: before.length });
  expect(await hand.field("screen_measure.dbh").inputValue()).toBe("40");
  expect(await entriesOf(page)).toEqual(before);
  await page.reload();
  await hand.heading("screen.ask_measure");
  expect(
    await page.getByText(hand.say("screen_data.brought_back", { count: before.length })).count(),
  ).toBe(0);
});
