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
}

export interface Phone {
  readonly context: BrowserContext;
  readonly page: Page;
  readonly profile: string;
  /** What the page complained of: errors, refused scripts, failed requests. */
  readonly complaints: string[];
  close(): Promise<void>;
}

export function newProfile(): string {
  return mkdtempSync(join(tmpdir(), "fellwright-phone-"));
}

export function forget(profile: string): void {
  rmSync(profile, { recursive: true, force: true });
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
  const page = context.pages()[0] ?? (await context.newPage());
  const complaints: string[] = [];
  page.on("pageerror", (error) => complaints.push(String(error)));
  page.on("console", (message) => {
    if (message.type() === "error") complaints.push(message.text());
  });
  await page.goto(address);
  return { context, page, profile, complaints, close: () => context.close() };
}

/** Wait until all of the app lies on the phone. */
export async function keptOffline(page: Page): Promise<void> {
  await page.waitForFunction(async () => {
    const registration = await navigator.serviceWorker.ready;
    return registration.active?.state === "activated";
  });
}
