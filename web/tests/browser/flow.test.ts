/// One tree from the first entry to the stump record, as a feller does it, on a phone and on a tablet.
import { afterAll, beforeAll, expect, test } from "vitest";
import type { Page } from "playwright-core";
import { entriesOf, readingAt } from "./support/entries.ts";
import { Hand, hurried, ITEMS, VERDICTS } from "./support/hand.ts";
import { forget, openPhone, PHONE, TABLET, type Habits, type Phone } from "./support/phone.ts";
import { startServing, type Serving } from "./support/serving.ts";

/** Issue and guidance alike: so many inputs, and the taps of the look. */
const INPUTS = 7;
const LOOK = 5;

let serving: Serving;
beforeAll(async () => {
  serving = await startServing();
});
afterAll(() => serving.stop());

interface Moving {
  /** Middle figures that were shown while it moved. */
  readonly figures: string[];
  /** Verdict words that stood in the trial while it moved. */
  readonly words: string[];
  /** Longest time between two moves. */
  readonly longest_ms: number;
}

/** Move the slider of the hinge step by step, every tenth of a second, and note what is shown. */
function slide(page: Page, steps: number): Promise<Moving> {
  return page.evaluate(async (wanted) => {
    const input = document.querySelector<HTMLInputElement>("input[type=range]");
    if (!input) throw new Error("no slider");
    const [figures, words]: [Set<string>, Set<string>] = [new Set(), new Set()];
    let [moved, last, longest_ms] = [0, performance.now(), 0];
    const frame = () => new Promise<number>((resolve) => requestAnimationFrame(resolve));
    while (moved < wanted) {
      await frame();
      const trial = document.querySelector(".trial");
      const word = trial?.querySelector(".verdict")?.textContent?.trim();
      const figure = trial?.querySelector("tbody td:last-child")?.textContent?.trim();
      if (word && moved > 0) words.add(word);
      if (figure && figure !== "…") figures.add(figure);
      const now = performance.now();
      if (now - last < 100) continue;
      longest_ms = Math.max(longest_ms, moved > 0 ? now - last : 0);
      last = now;
      moved += 1;
      const down = Number(input.value) > 0;
      input.value = String(Number(input.value) + (down ? -1 : 1));
      input.dispatchEvent(new Event("input", { bubbles: true }));
    }
    return { figures: [...figures], words: [...words], longest_ms };
  }, steps);
}

async function firstVerdict(hand: Hand): Promise<void> {
  hand.acts = 0;
  await hand.pickSpecies("Norway spruce");
  await hand.enter("screen_measure.dbh", "40");
  await hand.enter("screen_measure.stump", "46");
  await hand.enter("screen_measure.lay", "40");
  await hand.enterLean("0,5", 6);
  await hand.lookClear();
}

async function driveUntil(hand: Hand, stage: string): Promise<number> {
  const { page } = hand;
  const area = page.locator("button.area");
  for (let turns = 0; ; turns += 1) {
    await area.locator(".count").getByText(String(turns), { exact: true }).waitFor();
    if ((await area.locator(".stage").innerText()) === stage) return turns;
    await area.tap();
  }
}

/** On the phone at the pace of a person; on the tablet the time between two taps is skipped. */
const SIZES: [string, Habits][] = [
  ["phone", { size: PHONE }],
  ["tablet", { size: TABLET, prepare: hurried }],
];

test.each(SIZES)(
  "a tree goes from its first entry to its stump record on a %s",
  async (_, habits) => {
    const phone: Phone = await openPhone(serving.address, habits);
    const { page } = phone;
    const hand = new Hand(page);
    const { say } = hand;

    await hand.loadVan();
    const tree = await hand.newTree("Harrowlees 40");

    // Seven inputs and five taps: a verdict.
    await firstVerdict(hand);
    expect(hand.acts).toBeLessThanOrEqual(INPUTS + LOOK);
    await hand.question("tip");
    const first = await hand.verdict();
    expect(first).toBe("LEAVE");
    expect(await page.locator(".reasons").innerText()).toContain("flare is not trimmed");

    // Where a verdict shows no marks, the screen says which verdict and why.
    await hand.question("cut");
    await hand.see("screen_cut.no_marks");
    expect(await page.locator(".strip").count()).toBe(0);
    await hand.question("drive");
    await hand.see("screen_drive.shut_marks", { verdict: "LEAVE" });

    // More readings, and the lean again with the way it was read.
    await hand.question("measure");
    await hand.enter("screen_measure.height", "25");
    await hand
      .lean()
      .getByRole("button", { name: /^Take out/ })
      .tap();
    await hand.enterLean("0.5", 6, "plumb line, two sides");
    await hand.see("screen_measure.progress", { taken: 7, of: 7, looked: 5, looks: 5 });

    // After trimming everything is worked out anew, the old word beside the new one.
    await hand.question("cut");
    await hand.enter("screen_cut.trimmed_width", "46");
    const both = page.locator(".both");
    await both.getByText("ADDS UP", { exact: true }).waitFor();
    await both.getByText("LEAVE", { exact: true }).waitFor();

    // A slider that moves changes figures and has no word; at rest it has one.
    await hand.question("tip");
    expect(await hand.verdict()).toBe("ADDS UP");
    await hand.whole();
    const moving = await slide(page, 8);
    expect(moving.longest_ms).toBeLessThan(400);
    expect(moving.words).toEqual([]);
    expect(moving.figures.length).toBeGreaterThan(1);
    const trial = page.locator(".trial");
    await trial.locator(".verdict strong").waitFor();
    expect(VERDICTS).toContain(await trial.locator(".verdict strong").innerText());
    await hand.tap("screen_tip.take_hinge");
    await trial.waitFor({ state: "detached" });
    const taken = readingAt(await entriesOf(page), "cut.hinge_mm");
    expect(taken?.body).toMatchObject({ how: "tapped", value: expect.any(Number) });
    await hand.whole();
    await hand.tap("screen_tip.keep");
    await hand.button("screen_tip.keep").waitFor({ state: "detached" });
    const word = await hand.verdict();

    // Marks, sizes, sequence.
    await hand.question("cut");
    await page.locator(".strip li").first().waitFor();
    expect(await page.locator(".strip li").count()).toBeGreaterThanOrEqual(3);
    const sizes = page.getByRole("region", { name: say("screen_cut.sizes") });
    expect(await sizes.innerText()).toContain(`${taken?.body["value"]} mm`);
    const steps = page.getByRole("region", { name: say("screen_cut.sequence") }).locator("li");
    expect(await steps.count()).toBeGreaterThanOrEqual(4);
    await page
      .getByRole("button", {
        name: say("screen.enlarge", { name: say("screen_cut.picture_stump") }),
      })
      .waitFor();

    // After the notch: what to shave on which side.
    await hand.enter("screen_cut.aim_angle", "2");
    await hand.choose("screen_cut.aim_side", "screen_cut.aim_left");
    await hand.tap("screen_cut.aim_check");
    await page.locator(".said .text").waitFor();
    expect(await page.locator(".said .text").innerText()).toMatch(/right end \d+ mm deeper/);

    // The last look, one tap at a time; a tap too soon is not taken.
    await hand.question("drive");
    await hand.see("screen_drive.last_look", { done: 0, all: ITEMS.length });
    await hand.yes("ring").tap();
    await hand.yes("wind").tap();
    await hand.see("screen_drive.refused_too_fast");
    await hand.see("screen_drive.last_look", { done: 1, all: ITEMS.length });
    expect(await hand.button("screen_drive.begin").count()).toBe(0);
    await hand.lastLook(1);

    // Driven turn by turn to where it may go.
    await hand.tap("screen_drive.begin");
    const turns = await driveUntil(hand, "goes");
    expect(turns).toBeGreaterThan(3);
    await hand.tap("screen_drive.undo");
    await page
      .locator("button.area .count")
      .getByText(String(turns - 1), { exact: true })
      .waitFor();
    await page.locator("button.area").tap();
    await hand.tap("screen_drive.it_goes");

    // The stump record: predicted beside real.
    await hand.heading("screen.ask_happened");
    const counted = `${say("screen_happened.turns_used")}, ${say("screen_happened.counted", { turns })}`;
    await page.getByText(counted, { exact: true }).waitFor();
    await hand.choose("screen_happened.lay", "screen_happened.lay_along");
    await hand.tap("screen_happened.went_no_fault_seen");
    for (const side of ["left", "mid", "right"]) {
      await hand.tap("screen_happened.more", { name: say(`screen_happened.hinge_${side}`) });
    }
    await hand.tap("screen_happened.more", { name: say("screen_happened.turns_used") });
    const compared = page.getByRole("region", { name: say("screen_happened.compared") });
    await compared.locator(".real").first().waitFor();
    await page.locator("[aria-busy=false]").waitFor();
    expect(await compared.locator(".real").count()).toBeGreaterThanOrEqual(2);
    await hand.tap("screen_happened.keep");
    await page.getByText(/Last kept on/).waitFor();

    await hand.go("#/");
    const row = page.getByRole("listitem").filter({ hasText: "Harrowlees 40" });
    await row
      .locator(".word")
      .getByText(say("screen_trees.standing_down"), { exact: true })
      .waitFor();
    expect(await row.innerText()).toContain(word);

    const kinds = (await entriesOf(page))
      .filter((entry) => entry.tree === tree)
      .map(({ kind }) => kind);
    for (const kind of [
      "reading",
      "trimmed",
      "plan",
      "notch",
      "ready",
      "drive",
      "stump",
      "state",
    ]) {
      expect(kinds).toContain(kind);
    }
    expect(phone.complaints).toEqual([]);
    await phone.close();
    forget(phone.profile);
  },
);
