/// The phone as a clinometer: tried on an edge, held on top and foot; by hand where there is no sensor.
import { afterAll, afterEach, beforeAll, expect, test } from "vitest";
import type { BrowserContext, Locator, Page } from "playwright-core";
import { HOLD_MS, SETTLE_MS, SILENT_MS } from "../../src/measure/clinometer.svelte.ts";
import { entriesOf, readingAt } from "./support/entries.ts";
import { Hand } from "./support/hand.ts";
import { startHosting, type Hosting } from "./support/hosting.ts";
import { forget, openPhone, type Phone } from "./support/phone.ts";

/** Ample for the tap to settle and for one hold. */
const HELD_MS = SETTLE_MS + HOLD_MS + 200;

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

interface Faked {
  tilt: number;
}

/** A sensor that tells twenty times a second how the phone is held, with a little shaking. */
async function fakeSensor(context: BrowserContext): Promise<void> {
  await context.addInitScript(() => {
    const held = globalThis as unknown as Faked;
    held.tilt = 0;
    let turn = 0;
    setInterval(() => {
      turn += 1;
      const beta = held.tilt + 0.05 * Math.sin(turn);
      dispatchEvent(new DeviceOrientationEvent("deviceorientation", { alpha: 0, beta, gamma: 0 }));
    }, 50);
  });
}

const tilt = (page: Page, deg: number) =>
  page.evaluate((to) => void ((globalThis as unknown as Faked).tilt = to), deg);

async function openHeight(
  prepare: (context: BrowserContext) => Promise<unknown>,
): Promise<{ hand: Hand; panel: Locator }> {
  phone = await openPhone(hosting.address, {
    prepare: async (context) => {
      await context.clock.install();
      await prepare(context);
    },
  });
  const hand = new Hand(phone.page);
  await hand.newTree("Bittern Slack 5");
  const panel = phone.page.locator("details").filter({
    hasText: hand.say("screen_sights.work_out", { what: hand.say("screen_sights.height") }),
  });
  await panel.locator("summary").first().tap();
  await hand.choose("screen_sights.distance_is", "screen_sights.distance_level", panel);
  await hand.choose("screen_sights.distance_by", "screen_sights.by_tape", panel);
  await hand.enter("screen_sights.distance", "20", panel);
  await hand.choose("screen_sights.angle_by", "screen_sights.angle_phone", panel);
  return { hand, panel };
}

/** A tap, and the phone held as it is until the second is over. */
async function held(hand: Hand, panel: Locator, key: string, count = 0): Promise<void> {
  await hand.tap(key, { count, of: 3 }, panel);
  await phone.page.clock.runFor(HELD_MS);
}

const readEdge = (hand: Hand, panel: Locator, count: number) =>
  held(hand, panel, "screen_sights.phone_read_edge", count);

test("tried on an edge both ways round and held on top and foot, the phone gives the height with its error", async () => {
  const { hand, panel } = await openHeight(fakeSensor);
  const { page } = phone;
  await hand.tap("screen_sights.phone_start", {}, panel);
  // This phone reads one degree too much, on an edge that rises by half a degree.
  await tilt(page, 1.5);
  for (const count of [0, 1, 2]) await readEdge(hand, panel, count);
  await hand.see("screen_sights.phone_edge_turned", {}, panel);
  await tilt(page, 0.5);
  for (const count of [0, 1, 2]) await readEdge(hand, panel, count);
  await hand.button("screen_sights.phone_top", {}, panel).waitFor();
  const told = await panel.locator("[aria-live=polite] > p").allInnerTexts();
  expect(told.join(" ")).toMatch(/1\.0/);

  // 45 degrees up and 5 down from 20 m: 20 (tan 45 + tan 5) = 21.7 m, as a phone reads it that tells 1 too much.
  await tilt(page, 46);
  await held(hand, panel, "screen_sights.phone_top");
  await expect
    .poll(() => hand.field("screen_sights.top", panel).inputValue(), { timeout: 10_000 })
    .toMatch(/^4[56]/);
  await tilt(page, -4);
  await held(hand, panel, "screen_sights.phone_foot");
  await expect
    .poll(() => hand.field("screen_sights.foot", panel).inputValue(), { timeout: 10_000 })
    .toMatch(/^4|^3\.9/);
  await hand.tap("screen_sights.ask", {}, panel);
  const answer = panel.locator(".notice strong");
  await answer.waitFor();
  const height_m = 20 * (Math.tan(Math.PI / 4) + Math.tan((5 * Math.PI) / 180));
  expect(await answer.innerText()).toContain(height_m.toFixed(1));
  await hand.tap("screen_sights.take_over", {}, panel);
  await hand.see("screen_sights.taken_over", { what: hand.say("screen_sights.height") });
  const taken = readingAt(await entriesOf(page), "tree.height_m");
  expect(taken?.body["how"]).toBe("two angles");
  expect(Number(taken?.body["value"])).toBeCloseTo(height_m, 1);
  const error = readingAt(await entriesOf(page), "tree.height_error_m");
  expect(Number(error?.body["value"])).toBeGreaterThan(0);
});

test("a phone that is not held still gives no angle, and says why", async () => {
  const { hand, panel } = await openHeight((context) => fakeSensor(context));
  await hand.tap("screen_sights.phone_start", {}, panel);
  await hand.button("screen_sights.phone_read_edge", { count: 0, of: 3 }, panel).waitFor();
  await phone.page.evaluate(() => {
    const held = globalThis as unknown as Faked;
    setInterval(() => (held.tilt = held.tilt > 0 ? -4 : 4), 120);
  });
  await readEdge(hand, panel, 0);
  await hand.see("screen_sights.phone_unsteady", {}, panel);
  await hand.button("screen_sights.phone_read_edge", { count: 0, of: 3 }, panel).waitFor();
});

test("without such sensors the app says by hand, and takes angles typed in", async () => {
  const { hand, panel } = await openHeight((context) =>
    context.addInitScript(() => {
      Object.defineProperty(globalThis, "DeviceOrientationEvent", { value: undefined });
    }),
  );
  await hand.see("screen_sights.phone_absent", {}, panel);
  expect(await hand.button("screen_sights.phone_start", {}, panel).count()).toBe(0);
  await hand.choose("screen_sights.angle_by", "screen_sights.angle_hand", panel);
  await hand.enter("screen_sights.top", "45", panel);
  await hand.enter("screen_sights.foot", "5", panel);
  const sides = panel.getByRole("group", { name: hand.say("screen_sights.which_side_of_eye") });
  await hand.tap("screen_sights.above_eye", {}, sides.nth(0));
  await hand.tap("screen_sights.below_eye", {}, sides.nth(1));
  await hand.tap("screen_sights.ask", {}, panel);
  await panel.locator(".notice strong").waitFor();
  expect(await panel.locator(".notice strong").innerText()).toContain("21.7");
});

test("sensors that stay silent are told after a while, and angles are typed in", async () => {
  const { hand, panel } = await openHeight(async () => undefined);
  await hand.tap("screen_sights.phone_start", {}, panel);
  await phone.page.clock.runFor(SILENT_MS);
  await hand.see("screen_sights.phone_silent", {}, panel);
});
