/// The browser is killed, as by an empty battery: nothing that stood there as confirmed is lost.
import { afterAll, beforeAll, expect, test } from "vitest";
import { isEntry, type Entry } from "../../src/journal/event.ts";
import { laidIn, otherPhone, reading } from "./support/bundles.ts";
import { entriesOf } from "./support/entries.ts";
import { Hand } from "./support/hand.ts";
import { startHosting, type Hosting } from "./support/hosting.ts";
import { forget, newProfile, openPhone, type Phone } from "./support/phone.ts";
import { anyOf, sentences } from "./support/words.ts";

const ROUNDS = 12;
/** Entries of a bundle: enough that it takes a while to keep them. */
const MANY = 3000;
let hosting: Hosting;
beforeAll(async () => {
  hosting = await startHosting();
});
afterAll(() => hosting.stop());

/** The same instants in every run. */
function instants(seed: number): (below_ms: number) => number {
  let state = seed;
  return (below_ms) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return (state / 2 ** 32) * below_ms;
  };
}

/** Kill at an instant that nothing on the screen has a part in: this is no wait for anything. */
function killAfter(phone: Phone, ms: number): Promise<void> {
  return new Promise((resolve, reject) => setTimeout(() => phone.kill().then(resolve, reject), ms));
}

/** Every row can be read, and the numbers of this device run from one without a gap. */
function expectWhole(entries: readonly Entry[]): void {
  expect(entries.filter((row) => !isEntry(row))).toEqual([]);
  const numbers = entries.map(({ seq }) => seq).sort((a, b) => a - b);
  expect(numbers).toEqual(numbers.map((_, index) => index + 1));
}

test(`in ${ROUNDS} rounds of entering and killing, everything shown as confirmed is there again`, async () => {
  const profile = newProfile();
  const random = instants(11);
  const confirmed: string[] = [];
  for (let round = 1; round <= ROUNDS; round += 1) {
    const phone = await openPhone(hosting.address, { profile });
    const hand = new Hand(phone.page);
    const tree = await hand.newTree(`Tarnshaw ${round}`);
    await hand.enter("screen_measure.dbh", String(30 + round));
    // How a number was taken is asked once it is kept.
    await phone.page
      .getByLabel(/^How taken/)
      .first()
      .waitFor();
    confirmed.push(`${tree} tree.dbh_cm ${30 + round}`);
    if (round % 2 === 0) {
      await hand.choose("screen_measure.look_at_sound", "screen_measure.look_yes");
      const sound = hand.group("screen_measure.look_at_sound");
      await sound
        .locator("[aria-pressed=true]", { hasText: hand.say("screen_measure.look_yes") })
        .waitFor();
      confirmed.push(`${tree} look.sound true`);
    }
    await killAfter(phone, round % 3 === 0 ? 0 : random(300));
  }
  const phone = await openPhone(hosting.address, { profile });
  const hand = new Hand(phone.page);
  const entries = await entriesOf(phone.page);
  const there = entries
    .filter(({ kind }) => kind === "reading")
    .map(({ tree, body }) => `${tree} ${body["path"]} ${body["value"]}`);
  expect(there).toEqual(confirmed);
  expectWhole(entries);
  await hand.see("screen_trees.shown", { shown: ROUNDS, all: ROUNDS });
  await phone.page.getByRole("link", { name: "Tarnshaw 7" }).tap();
  await hand.heading("screen.ask_measure");
  expect(await hand.field("screen_measure.dbh").inputValue()).toBe("37");
  await phone.close();
  forget(profile);
});

test("killed while entry follows entry, no row is torn and none that was shown is missing", async () => {
  const profile = newProfile();
  const random = instants(5);
  let shown = 0;
  for (let round = 0; round < 3; round += 1) {
    let here = 0;
    let reached = (): void => undefined;
    const many = new Promise<void>((resolve) => (reached = resolve));
    const phone = await openPhone(hosting.address, {
      profile,
      prepare: (context) =>
        context.exposeFunction("confirmed", (count: number) => {
          here = count;
          if (count === 25) reached();
        }),
    });
    await new Hand(phone.page).newTree(`Dipper Bank ${round + 1}`);
    // Tap yes and no by turns as fast as the journal keeps them.
    void phone.page
      .evaluate(async () => {
        const tell = (globalThis as unknown as { confirmed: (count: number) => void }).confirmed;
        const [yes, no] = document.querySelectorAll<HTMLElement>(
          "[aria-labelledby=measure-look] button",
        );
        for (let count = 1; yes && no; count += 1) {
          const button = count % 2 === 1 ? yes : no;
          button.click();
          while (button.ariaPressed !== "true") await new Promise(requestAnimationFrame);
          tell(count);
        }
      })
      .catch(() => undefined);
    await many;
    await killAfter(phone, random(200));
    shown += here + 1;
  }
  const phone = await openPhone(hosting.address, { profile });
  const entries = await entriesOf(phone.page);
  expect(shown).toBeGreaterThan(75);
  expect(entries.length).toBeGreaterThanOrEqual(shown);
  expectWhole(entries);
  await phone.close();
  forget(profile);
});

test("killed in the middle of a bundle being taken in, all of it is there or none, and all that was there before", async () => {
  const profile = newProfile();
  const random = instants(3);
  const many = Array.from({ length: MANY - 1 }, (_, index) =>
    reading("tree.dbh_cm", 20 + (index % 50)),
  );
  const { text, tree } = otherPhone("Plover Hag 4", many);
  const file = laidIn(profile, "bundle.json", text);
  let own = 0;
  for (let round = 1; round <= 3; round += 1) {
    let reached = (): void => undefined;
    const middle = new Promise<void>((resolve) => (reached = resolve));
    const phone = await openPhone(hosting.address, {
      profile,
      prepare: async (context) => {
        await context.exposeFunction("inTheMiddle", reached);
        await context.addInitScript((at) => {
          const add = IDBObjectStore.prototype.add;
          let count = 0;
          IDBObjectStore.prototype.add = function (...given: Parameters<typeof add>) {
            count += 1;
            if (count === at)
              void (globalThis as unknown as { inTheMiddle: () => void }).inTheMiddle();
            return add.apply(this, given);
          };
        }, MANY / 2);
      },
    });
    const hand = new Hand(phone.page);
    await hand.newTree(`Plover Hag ${10 + round}`);
    own += 1;
    await hand.go("#/settings");
    await phone.page
      .getByLabel(hand.say("screen_data.bring_in"), { exact: true })
      .setInputFiles(file);
    await middle;
    await killAfter(phone, random(5));
  }
  const phone = await openPhone(hosting.address, { profile });
  const entries = await entriesOf(phone.page);
  // A kill that came late found the whole of it on the disk.
  expect([0, MANY]).toContain(entries.filter((entry) => entry.tree === tree).length);
  const ours = entries.filter((entry) => entry.tree !== tree);
  expectWhole(ours);
  expect(ours.map(({ kind }) => kind)).toEqual(Array.from({ length: own }, () => "tree"));

  // Left alone the same file comes in whole.
  const hand = new Hand(phone.page);
  await hand.go("#/settings");
  await phone.page
    .getByLabel(hand.say("screen_data.bring_in"), { exact: true })
    .setInputFiles(file);
  await phone.page.getByText(anyOf(sentences("en")["screen_data.taken"] ?? "")).waitFor();
  expect((await entriesOf(phone.page)).length).toBe(own + MANY);
  await phone.close();
  forget(profile);
});
