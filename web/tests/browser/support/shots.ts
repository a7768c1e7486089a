/// Takes a picture of every screen: in both languages, on white and on black paper, as large as a phone.
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { Hand, hurried } from "./hand.ts";
import { startHosting } from "./hosting.ts";
import { forget, openPhone } from "./phone.ts";
import { walk } from "./walk.ts";
import type { Language } from "./words.ts";

const LOCALES: readonly (readonly [Language, string])[] = [
  ["en", "en-GB"],
  ["de", "de-DE"],
];

/** What a screen is shown for, where that is not its head. */
const SIGHTS: Readonly<Record<string, string>> = {
  "tip-trial": ".trial",
  "cut-after": ".both",
  "measure-fault": "[aria-invalid=true]",
  "settings-refused": "section:has(> h2 + .figures)",
  "settings-taken": "section:has(> h2 + .figures)",
  drive: ".area",
  "drive-stop": ".area",
  "happened-compared": ".compare:has(.real)",
  "happened-hung": "[aria-labelledby=keep]",
};

/** Let go of the last tap, and bring into sight what the picture is of. */
function settle(page: Page, screen: string): Promise<void> {
  return page.evaluate((sight) => {
    document.documentElement.style.setProperty("-webkit-tap-highlight-color", "transparent");
    (document.activeElement as HTMLElement | null)?.blur();
    scrollTo(0, 0);
    if (sight) document.querySelector(sight)?.scrollIntoView({ block: "start" });
  }, SIGHTS[screen] ?? "");
}

/** Into a folder, two files each: what the phone shows, and the whole page. Returns how many screens. */
export async function takeShots(folder: string): Promise<number> {
  mkdirSync(folder, { recursive: true });
  const hosting = await startHosting();
  let count = 0;
  for (const [language, locale] of LOCALES) {
    const phone = await openPhone(hosting.address, { locale, prepare: hurried });
    const { page } = phone;
    for await (const screen of walk(new Hand(page, language))) {
      count += 1;
      for (const colorScheme of ["light", "dark"] as const) {
        await page.emulateMedia({ colorScheme });
        const name = join(folder, `app-${screen}-${language}-${colorScheme}`);
        await page.screenshot({ path: `${name}-whole.png`, fullPage: true });
        await settle(page, screen);
        await page.screenshot({ path: `${name}.png` });
      }
      await page.emulateMedia({ colorScheme: "light" });
    }
    await phone.close();
    forget(phone.profile);
  }
  await hosting.stop();
  return count;
}
