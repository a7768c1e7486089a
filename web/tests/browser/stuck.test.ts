/// From wherever one is, the stop cards are one tap away, and they need nothing that can be broken.
import { afterAll, beforeAll, expect, test } from "vitest";
import { DEMO_TREE } from "../../src/trees/demo.ts";
import { entriesOf } from "./support/entries.ts";
import { Hand, hurried } from "./support/hand.ts";
import { startHosting, type Hosting } from "./support/hosting.ts";
import { forget, openPhone, type Phone } from "./support/phone.ts";

const POINT = "Harrowlees gate, track 2, 54.1 N 2.3 W";
const SCREENS = ["#/", "#/settings", "#/tree/unknown/tip"].concat(
  ["measure", "tip", "cut", "drive", "happened"].map((of) => `#/tree/${DEMO_TREE}/${of}`),
);
const TITLES = ["goes_title", "hung_title", "bar_title"];

let hosting: Hosting;
beforeAll(async () => {
  hosting = await startHosting();
});
afterAll(() => hosting.stop());

async function withPhone(
  prepare: Parameters<typeof openPhone>[1],
  use: (hand: Hand, phone: Phone) => Promise<void>,
) {
  const phone = await openPhone(hosting.address, prepare);
  try {
    await use(new Hand(phone.page), phone);
  } finally {
    await phone.close();
    forget(phone.profile);
  }
}

async function enterPoint(hand: Hand): Promise<void> {
  await hand.go("#/settings");
  await hand.enter("screen_settings.rescue_point", POINT);
  await hand.enter("screen_settings.emergency_number", "112");
}

/** One tap on what stands at the foot of every screen. */
async function oneTap(hand: Hand): Promise<void> {
  await hand.page.getByRole("link", { name: hand.say("screen.ask_stuck"), exact: true }).tap();
  await hand.heading("screen.ask_stuck");
}

async function expectCards(hand: Hand): Promise<void> {
  const { page, say } = hand;
  await hand.see("screen_stuck.point", { point: POINT });
  expect(
    await page
      .getByRole("link", { name: say("screen_stuck.dial", { number: "112" }) })
      .getAttribute("href"),
  ).toBe("tel:112");
  for (const title of TITLES) {
    await hand.tap(`screen_stuck.${title}`);
    await page.locator("article .now p").waitFor();
    expect(await page.locator("article .never li").count()).toBeGreaterThanOrEqual(3);
    await hand.see("screen_stuck.never_unmarked");
  }
}

test("one tap from every screen shows the cards with the rescue point, and one tap leads back", async () => {
  await withPhone({}, async (hand) => {
    await hand.demo();
    await enterPoint(hand);
    for (const screen of SCREENS) {
      await hand.go(screen);
      await oneTap(hand);
      await hand.see("screen_stuck.point", { point: POINT });
      await hand.page.getByRole("link", { name: new RegExp(hand.say("screen_stuck.back")) }).tap();
      await expect.poll(() => hand.page.url()).toBe(`${hosting.address}${screen}`);
    }
    await oneTap(hand);
    await expectCards(hand);
  });
});

test("a wedge that does not do it is one tap from its card, and what happened is recorded", async () => {
  await withPhone({ prepare: hurried }, async (hand, phone) => {
    await enterPoint(hand);
    await hand.demo();
    await hand.startDriving();
    await hand.tap("screen_drive.does_not_go");
    await hand.heading("screen.ask_stuck");
    await hand.see("screen_stuck.goes_now_back");
    await hand.see("screen_stuck.point", { point: POINT });
    await expect
      .poll(async () => (await entriesOf(phone.page)).at(-1))
      .toMatchObject({ kind: "drive", body: { stage: "does not go" } });
    await hand.tap("screen_stuck.record_hung");
    await hand.go("#/");
    await hand.see("screen_trees.standing_hung");
  });
});

test("with the engine broken the cards are there all the same, and it is said that no verdict is", async () => {
  const prepare: NonNullable<Parameters<typeof openPhone>[1]> = {
    prepare: (context) => context.route(/\/py\//, (route) => route.abort()),
  };
  await withPhone(prepare, async (hand) => {
    await hand.see("screen.engine_broken");
    await hand.newTree("Harrowlees 12");
    await hand.question("tip");
    await hand.see("screen.engine_broken");
    expect(await hand.page.locator(".verdict").count()).toBe(0);
    await enterPoint(hand);
    await hand.page.goBack();
    await hand.heading("screen.ask_tip");
    await oneTap(hand);
    await expectCards(hand);
    await hand.see("screen.engine_broken");
  });
});
