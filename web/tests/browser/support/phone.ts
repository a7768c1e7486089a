/// A phone: Chromium with a profile of its own that survives being killed.
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { chromium, type BrowserContext, type Page } from "playwright-core";
import { chromiumPath } from "../chromium.mjs";

const ARGUMENTS = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];
/** Nothing in the app takes longer; what does is a fault, and shall not hold up the run. */
const PATIENCE_MS = 20_000;

export interface Size {
  readonly width: number;
  readonly height: number;
}
export const PHONE: Size = { width: 360, height: 740 };
export const TABLET: Size = { width: 820, height: 1180 };

export interface Habits {
  readonly size?: Size;
  readonly locale?: string;
  readonly profile?: string;
  readonly dark?: boolean;
  /** Called before the first page is opened: what shall be otherwise in this browser. */
  readonly prepare?: (context: BrowserContext) => Promise<unknown>;
}

export interface Phone {
  readonly context: BrowserContext;
  readonly page: Page;
  readonly profile: string;
  /** What the page complained of: errors, refused scripts, failed requests. */
  readonly complaints: string[];
  close(): Promise<void>;
  /** End the browser as an empty battery does: nothing is written any more, nobody is told. */
  kill(): Promise<void>;
}

export function newProfile(): string {
  return mkdtempSync(join(tmpdir(), "fellwright-phone-"));
}

export function forget(profile: string): void {
  rmSync(profile, { recursive: true, force: true, maxRetries: 5 });
}

export async function openPhone(address: string, habits: Habits = {}): Promise<Phone> {
  const profile = habits.profile ?? newProfile();
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: chromiumPath(),
    args: ARGUMENTS,
    viewport: habits.size ?? PHONE,
    deviceScaleFactor: 2,
    hasTouch: true,
    isMobile: true,
    locale: habits.locale ?? "en-GB",
    colorScheme: habits.dark ? "dark" : "light",
  });
  context.setDefaultTimeout(PATIENCE_MS);
  await habits.prepare?.(context);
  const page = context.pages()[0] ?? (await context.newPage());
  const complaints = listen(page);
  const process_id = await processOf(context);
  await page.goto(address);
  return {
    context,
    page,
    profile,
    complaints,
    close: () => context.close(),
    kill: () =>
      new Promise((resolve) => {
        context.once("close", () => resolve());
        process.kill(process_id, "SIGKILL");
      }),
  };
}

/** What a page complains of, as it comes. */
export function listen(page: Page): string[] {
  const complaints: string[] = [];
  page.on("pageerror", (error) => complaints.push(String(error)));
  page.on("console", (message) => {
    if (message.type() === "error") complaints.push(message.text());
  });
  return complaints;
}

/** Id of the process of the browser itself, whose end is the end of all its pages. */
async function processOf(context: BrowserContext): Promise<number> {
  const session = await context.browser()?.newBrowserCDPSession();
  const told = await session?.send("SystemInfo.getProcessInfo");
  await session?.detach();
  const own = told?.processInfo.find(({ type }) => type === "browser");
  if (!own) throw new Error("the browser does not tell its process");
  return own.id;
}

/** Wait until all of the app lies on the phone. */
export async function keptOffline(page: Page): Promise<void> {
  await page.waitForFunction(async () => {
    const registration = await navigator.serviceWorker.ready;
    return registration.active?.state === "activated";
  });
}
