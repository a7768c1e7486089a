/// Once it has been loaded, the app needs nobody: no host, no network, not even the same browser run.
import { afterEach, expect, test } from "vitest";
import type { BrowserContext, Request } from "playwright-core";
import { DEMO_TREE } from "../../src/trees/demo.ts";
import { Hand, VERDICTS } from "./support/hand.ts";
import { startHosting } from "./support/hosting.ts";
import { forget, keptOffline, openPhone, type Phone } from "./support/phone.ts";
import { startServing } from "./support/serving.ts";

const opened: Phone[] = [];
const stops: (() => Promise<void>)[] = [];
afterEach(async () => {
  for (const phone of opened.splice(0)) {
    await phone.close().catch(() => undefined);
    forget(phone.profile);
  }
  for (const stop of stops.splice(0)) await stop();
});

async function phoneAt(address: string, watched: Request[] = [], profile?: string): Promise<Phone> {
  const prepare = (context: BrowserContext) => watch(context, watched);
  const phone = await openPhone(address, {
    prepare,
    ...(profile === undefined ? {} : { profile }),
  });
  opened.push(phone);
  return phone;
}

/** Every request of every page, worker and service worker. */
async function watch(context: BrowserContext, requests: Request[]): Promise<void> {
  context.on("request", (request) => requests.push(request));
}

const isInPage = (request: Request) => /^(data|blob):/.test(request.url());
const isLookForNewer = (request: Request) => request.url().endsWith("/service-worker.js");

const addressesOf = (requests: readonly Request[]) =>
  requests.filter((request) => !isInPage(request)).map((request) => request.url());

/** What did not come from the files on the phone: the service worker's own requests are all of that kind. */
async function askedOfNetwork(requests: readonly Request[]): Promise<string[]> {
  const found: string[] = [];
  for (const request of requests) {
    if (isInPage(request) || isLookForNewer(request)) continue;
    const response = request.serviceWorker() ? null : await request.response();
    if (!response?.fromServiceWorker()) found.push(request.url());
  }
  return found;
}

test("the first load asks no host but its own, for files alone", async () => {
  const serving = await startServing();
  stops.push(serving.stop);
  const requests: Request[] = [];
  const { page } = await phoneAt(`${serving.address}#/demo`, requests);
  expect(VERDICTS).toContain(await new Hand(page).verdict());
  await keptOffline(page);
  const urls = addressesOf(requests);
  // It would prove little if the service worker's own requests were not seen.
  expect(
    requests.some((request) => request.serviceWorker() && request.url().endsWith("engine.zip")),
  ).toBe(true);
  expect(urls.filter((url) => !url.startsWith(serving.address))).toEqual([]);
  expect(requests.every((request) => request.method() === "GET")).toBe(true);
});

test("with the host gone, reload, deep link, second tab and a killed and restarted browser all get their verdict", async () => {
  const serving = await startServing();
  const requests: Request[] = [];
  let phone = await phoneAt(serving.address, requests);
  await keptOffline(phone.page);
  await serving.stop();
  await expect(fetch(serving.address)).rejects.toThrow();
  requests.length = 0;

  let hand = new Hand(phone.page);
  await hand.demo();
  expect(await hand.verdict()).toBe("ADDS UP");

  await phone.page.reload();
  await hand.whole();
  expect(await hand.verdict()).toBe("ADDS UP");

  const second = await phone.context.newPage();
  await second.goto(`${serving.address}#/tree/${DEMO_TREE}/cut`);
  await second.locator(".strip li").first().waitFor();
  await second.goto(`${serving.address}#/stuck/`);
  await new Hand(second).heading("screen.ask_stuck");

  expect(await askedOfNetwork(requests)).toEqual([]);
  expect(addressesOf(requests).length).toBeGreaterThan(10);

  const { profile } = phone;
  await phone.kill();
  const after: Request[] = [];
  phone = await phoneAt(`${serving.address}#/tree/${DEMO_TREE}/tip`, after, profile);
  hand = new Hand(phone.page);
  await hand.whole();
  expect(await hand.verdict()).toBe("ADDS UP");
  expect(await askedOfNetwork(after)).toEqual([]);
});

test("with the host there, nothing but the look for a newer version reaches it after the first load", async () => {
  const hosting = await startHosting();
  stops.push(hosting.stop);
  const { page, context } = await phoneAt(hosting.address);
  await keptOffline(page);
  const hand = new Hand(page);
  await hand.demo();
  expect(hosting.asked.length).toBeGreaterThan(10);
  hosting.asked.length = 0;

  await page.reload();
  await hand.whole();
  for (const of of ["measure", "cut", "drive", "happened"] as const) await hand.question(of);
  const second = await context.newPage();
  await second.goto(`${hosting.address}#/settings`);
  await new Hand(second).engine();
  expect([...new Set(hosting.asked)].filter((path) => path !== "service-worker.js")).toEqual([]);
});
