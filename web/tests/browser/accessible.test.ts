/// Every screen for eyes, thumbs, keys and readers: contrast, names, sizes, large text.
import { afterAll, beforeAll, expect, test } from "vitest";
import type { Page } from "playwright-core";
import { Hand, hurried, VERDICTS } from "./support/hand.ts";
import { startHosting, type Hosting } from "./support/hosting.ts";
import { lostAtLargeText, smallTargets, violations } from "./support/looking.ts";
import { forget, openPhone } from "./support/phone.ts";
import { walk } from "./support/walk.ts";

let hosting: Hosting;
const found = {
  light: [] as string[],
  dark: [] as string[],
  small: [] as string[],
  large: [] as string[],
};
let screens = 0;

beforeAll(async () => {
  hosting = await startHosting();
  const phone = await openPhone(hosting.address, { prepare: hurried });
  const { page } = phone;
  for await (const screen of walk(new Hand(page))) {
    screens += 1;
    const note = (to: string[], lines: string[]) =>
      to.push(...lines.map((line) => `${screen}: ${line}`));
    note(found.light, await violations(page));
    note(found.small, await smallTargets(page));
    note(found.large, await lostAtLargeText(page));
    await page.emulateMedia({ colorScheme: "dark" });
    note(found.dark, await violations(page));
    await page.emulateMedia({ colorScheme: "light" });
  }
  await phone.close();
  forget(phone.profile);
}, 240_000);
afterAll(() => hosting.stop());

test("axe-core finds nothing against any screen on white paper", () => {
  expect(screens).toBeGreaterThan(20);
  expect(found.light).toEqual([]);
});
test("axe-core finds nothing against any screen on black paper", () => {
  expect(found.dark).toEqual([]);
});
test("everything that is tapped is twelve millimetres wide and high", () => {
  expect(found.small).toEqual([]);
});
test("with text twice as large no screen scrolls sideways and no text is cut off", () => {
  expect(found.large).toEqual([]);
});

test("axe-core, thumb and large text find what is wrong with a page that is wrong", async () => {
  const phone = await openPhone(hosting.address);
  await new Hand(phone.page).heading("screen.ask_trees");
  await phone.page.evaluate(() => {
    const add = (name: string, text: string, look: Record<string, string>) => {
      const element = document.createElement(name);
      element.textContent = text;
      for (const [key, value] of Object.entries(look)) element.style.setProperty(key, value);
      document.querySelector("main")?.prepend(element);
    };
    add("p", "Grey on grey", { color: "#777", background: "#888" });
    const small = { "min-height": "20px", height: "20px", "white-space": "nowrap" };
    add("button", "Unreadableandtoolongwithoutanyplacetobreakitinto", small);
  });
  expect((await violations(phone.page)).join()).toContain("Grey on grey");
  expect((await smallTargets(phone.page)).join()).toContain("Unreadable");
  expect((await lostAtLargeText(phone.page)).join()).toContain("Unreadable");
  await phone.close();
  forget(phone.profile);
});

interface Focused {
  readonly label: string;
  readonly group: string;
  /** It has its outline, and nothing lies upon it. */
  readonly seen: boolean;
}

/** Runs in the page: what has the focus there. */
function focused(): Focused | null {
  const element = document.activeElement as HTMLInputElement | null;
  if (!element || element === document.body) return null;
  const label =
    element.getAttribute("aria-label") ?? element.labels?.[0]?.innerText ?? element.innerText;
  const group = element.closest("fieldset")?.querySelector("legend")?.innerText ?? "";
  const { outlineStyle, outlineWidth } = getComputedStyle(element);
  const outlined = outlineStyle !== "none" && Number.parseFloat(outlineWidth) >= 2;
  const { left, top, width, height } = element.getBoundingClientRect();
  const there = document.elementFromPoint(left + width / 2, top + height / 2);
  const own = [element, ...(element.labels ?? [])];
  return {
    label: label.trim(),
    group: group.trim(),
    seen: outlined && there !== null && own.some((one) => one.contains(there)),
  };
}

/** Tab on until what has the focus is called so; every stop on the way must be seen to have it. */
async function tabTo(page: Page, name: string): Promise<void> {
  const met: string[] = [];
  const focus = () => page.evaluate(focused);
  for (let presses = 0; presses < 80; presses += 1) {
    await page.keyboard.press("Tab");
    const at = await focus();
    if (!at) continue;
    met.push(at.label);
    await expect
      .poll(async () => (await focus())?.seen, { message: `the focus on ${at.label} is seen` })
      .toBe(true);
    if (at.label === name || `${at.group}: ${at.label}` === name) return;
  }
  throw new Error(`no ${name} among ${met.join(" | ")}`);
}

test("by keys alone a tree is begun, measured, looked at and gets its verdict", async () => {
  const phone = await openPhone(hosting.address);
  const { page } = phone;
  const hand = new Hand(page);
  const { say } = hand;
  const type = async (key: string, text: string) => {
    await tabTo(page, say(key));
    await page.keyboard.type(text);
  };
  await type("screen_trees.new_name", "Harrowlees 40");
  await page.keyboard.press("Enter");
  await hand.heading("screen.ask_measure");
  await type("screen_measure.species", "Norway");
  await page.getByRole("option").first().waitFor();
  await page.keyboard.press("ArrowDown");
  await page.keyboard.press("Enter");
  await hand.button("screen_measure.species_out").waitFor();
  await type("screen_measure.dbh", "40");
  await type("screen_measure.stump", "46");
  await type("screen_measure.lay", "40");
  await page.keyboard.press("Enter");
  const lean = hand.lean();
  await hand.button("screen_measure.hour", { hour: 6 }, lean).waitFor();
  await type("screen_measure.lean_offset", "0.5");
  await tabTo(page, say("screen_measure.hour", { hour: 6 }));
  await page.keyboard.press("Space");
  await tabTo(page, say("screen_measure.at_balance"));
  await page.keyboard.press("Enter");
  await hand.button("screen_measure.lean_another", {}, lean).waitFor();
  for (const item of ["sound", "clear_overhead", "no_conductor_in_reach", "ring_clear"]) {
    await tabTo(
      page,
      `${say(`screen_measure.look_at_${item}`)}: ${say("screen_measure.look_yes")}`,
    );
    await page.keyboard.press("Space");
  }
  await tabTo(page, say("screen_measure.look_two"));
  await page.keyboard.press("Space");
  await hand.see("screen_measure.progress", { taken: 6, of: 7, looked: 5, looks: 5 });
  await tabTo(page, say("screen.ask_tip"));
  await page.keyboard.press("Enter");
  expect(VERDICTS).toContain(await hand.verdict());
  await phone.close();
  forget(phone.profile);
});
