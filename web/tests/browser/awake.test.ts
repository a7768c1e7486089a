/// The screen stays lit while a wedge is driven, or it is said that it will not.
import { afterAll, afterEach, beforeAll, expect, test } from "vitest";
import { Hand, hurried } from "./support/hand.ts";
import { startHosting, type Hosting } from "./support/hosting.ts";
import { forget, openPhone, type Phone } from "./support/phone.ts";

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

interface Locks {
  asked: string[];
  released: number;
}
const locks = () => phone.page.evaluate(() => (globalThis as unknown as { locks: Locks }).locks);

async function drivingWith(init: () => void): Promise<Hand> {
  phone = await openPhone(hosting.address, {
    prepare: async (context) => {
      await hurried(context);
      await context.addInitScript(init);
    },
  });
  const hand = new Hand(phone.page);
  await hand.demo();
  await hand.startDriving();
  return hand;
}

test("a lock on the screen is asked for when driving begins, and given back when it ends", async () => {
  const hand = await drivingWith(() => {
    const told: Locks = { asked: [], released: 0 };
    (globalThis as unknown as { locks: Locks }).locks = told;
    const request = (kind: string) => {
      told.asked.push(kind);
      const lock = Object.assign(new EventTarget(), {
        released: false,
        release: () => {
          told.released += 1;
          return Promise.resolve();
        },
      });
      return Promise.resolve(lock);
    };
    Object.defineProperty(navigator, "wakeLock", { value: { request } });
  });
  expect(await locks()).toEqual({ asked: ["screen"], released: 0 });
  for (const key of ["awake_absent", "awake_refused"]) {
    expect(await phone.page.getByText(hand.say(`screen_drive.${key}`)).count()).toBe(0);
  }
  await hand.tap("screen_drive.it_goes");
  await hand.heading("screen.ask_happened");
  expect(await locks()).toEqual({ asked: ["screen"], released: 1 });
});

test("a browser that keeps no screen lit is told while driving", async () => {
  const hand = await drivingWith(() =>
    Object.defineProperty(navigator, "wakeLock", { value: undefined }),
  );
  await hand.see("screen_drive.awake_absent");
});

test("a phone that refuses to keep the screen lit is told while driving", async () => {
  const hand = await drivingWith(() => {
    const request = () => Promise.reject(new DOMException("low battery", "NotAllowedError"));
    Object.defineProperty(navigator, "wakeLock", { value: { request } });
  });
  await hand.see("screen_drive.awake_refused");
});
