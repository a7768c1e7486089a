/// A hand on the phone: taps and types by the words that stand there, and counts what it does.
import type { BrowserContext, Locator, Page } from "playwright-core";
import { anyOf, sayIn, sentences, type Language, type Say, type Values } from "./words.ts";
import { REPOSITORY } from "./serving.ts";

export const VAN = `${REPOSITORY}examples/van-2.toml`;
export const VERDICTS = ["ADDS UP", "TIGHT", "LINE", "LEAVE", "MEASURE"];

export const ITEMS = [
  "ring",
  "wind",
  "way_out",
  "overhead",
  "wedges",
  "battery",
  "signal",
] as const;
type Item = (typeof ITEMS)[number];

type Scope = Page | Locator;

export class Hand {
  /** Fields typed into and buttons tapped. */
  acts = 0;
  readonly say: Say;

  constructor(
    readonly page: Page,
    readonly language: Language = "en",
  ) {
    this.say = sayIn(language);
  }

  button(key: string, values: Values = {}, scope: Scope = this.page): Locator {
    return scope.getByRole("button", { name: this.say(key, values), exact: true });
  }

  async tap(key: string, values: Values = {}, scope: Scope = this.page): Promise<void> {
    this.acts += 1;
    await this.button(key, values, scope).tap();
  }

  /** One of the few answers to a question. */
  async choose(question: string, answer: string, scope: Scope = this.page): Promise<void> {
    await this.tap(answer, {}, this.group(question, scope));
  }

  group(question: string, scope: Scope = this.page): Locator {
    return scope.getByRole("group", { name: this.say(question), exact: true });
  }

  field(key: string, scope: Scope = this.page): Locator {
    return scope.getByRole("textbox", { name: this.say(key), exact: true });
  }

  async enter(key: string, text: string, scope: Scope = this.page): Promise<void> {
    this.acts += 1;
    const field = this.field(key, scope);
    await field.fill(text);
    await field.press("Enter");
  }

  /** Go by an address after the #. */
  async go(hash: string): Promise<void> {
    await this.page.evaluate((to) => (location.hash = to), hash);
  }

  async question(of: "measure" | "tip" | "cut" | "drive" | "happened"): Promise<void> {
    const nav = this.page.getByRole("navigation", { name: this.say("screen.questions") });
    await nav.getByRole("link", { name: this.say(`screen.short_${of}`), exact: true }).tap();
    await this.heading(`screen.ask_${of}`);
  }

  async heading(key: string): Promise<void> {
    await this.page.getByRole("heading", { name: this.say(key), exact: true, level: 1 }).waitFor();
  }

  async see(key: string, values: Values = {}, scope: Scope = this.page): Promise<void> {
    await scope.getByText(this.say(key, values), { exact: true }).first().waitFor();
  }

  /** Load a van from its file. */
  async loadVan(file = VAN, devices = 4): Promise<void> {
    await this.go("#/settings");
    await this.engine();
    await this.page
      .getByLabel(this.say("screen_settings.van_load"), { exact: true })
      .setInputFiles(file);
    await this.see("screen_settings.van_loaded", { count: devices });
  }

  /** The settings ask the engine for the rules it knows: once they are there, it answers. */
  async engine(): Promise<void> {
    const profile = this.page.getByLabel(this.say("screen_settings.profile"), { exact: true });
    await profile.locator("option").nth(1).waitFor({ state: "attached" });
  }

  async newTree(name: string): Promise<string> {
    await this.go("#/");
    await this.field("screen_trees.new_name").fill(name);
    await this.button("screen_trees.new_begin").tap();
    await this.heading("screen.ask_measure");
    return this.tree();
  }

  /** Id of the tree on the screen. */
  tree(): string {
    const id = /#\/tree\/([^/]+)/.exec(this.page.url())?.[1];
    if (!id) throw new Error(`no tree at ${this.page.url()}`);
    return id;
  }

  async pickSpecies(name: string): Promise<void> {
    this.acts += 1;
    const box = this.page.getByRole("combobox", { name: this.say("screen_measure.species") });
    await box.fill(name);
    await this.page.getByRole("option", { name }).first().waitFor();
    await box.press("Enter");
    await this.button("screen_measure.species_out").waitFor();
  }

  lean(): Locator {
    return this.page.getByRole("region", { name: this.say("screen_measure.lean"), exact: true });
  }

  /** A lean by the clock, sighted at the balance point. */
  async enterLean(offset: string, hour: number, how = ""): Promise<void> {
    const lean = this.lean();
    await this.enter("screen_measure.lean_offset", offset, lean);
    await this.tap("screen_measure.hour", { hour }, lean);
    if (how)
      await lean.getByLabel(this.say("screen_measure.lean_how"), { exact: true }).selectOption(how);
    await this.tap("screen_measure.at_balance", {}, lean);
    await this.button("screen_measure.lean_another", {}, lean).waitFor();
  }

  /** The five taps of the look, all of them good. */
  async lookClear(): Promise<void> {
    for (const item of ["sound", "clear_overhead", "no_conductor_in_reach", "ring_clear"]) {
      await this.choose(`screen_measure.look_at_${item}`, "screen_measure.look_yes");
    }
    await this.choose("screen_measure.look_at_ways_out", "screen_measure.look_two");
  }

  /** The word at the head of the screen, once there is one for the readings as they stand. */
  async verdict(): Promise<string> {
    const word = this.page.locator(".plan:not(.old) .verdict strong").first();
    await word.waitFor();
    return word.innerText();
  }

  /** The demo tree at its verdict, whole: advice and pictures included. */
  async demo(): Promise<void> {
    await this.go("#/demo");
    await this.whole();
  }

  /** Wait for the whole answer: what stands behind the figures comes last. */
  async whole(): Promise<void> {
    const assumed = anyOf(sentences(this.language)["screen_tip.assumed"] ?? "");
    await this.page.locator(".plan:not(.old)").getByText(assumed).waitFor();
  }

  yes(item: Item): Locator {
    const asked = this.page.getByRole("group", { name: this.say(`screen_drive.item_${item}`) });
    return this.button("screen_drive.yes", {}, asked);
  }

  /** The last look, item by item as a person takes it, from the one given on. */
  async lastLook(from = 0): Promise<void> {
    for (const [index, item] of ITEMS.entries()) {
      if (index < from) continue;
      await this.look(650);
      await this.yes(item).tap();
      await this.see("screen_drive.last_look", { done: index + 1, all: ITEMS.length });
    }
  }

  /** From the tree on the screen to the first turn of its wedge. */
  async startDriving(): Promise<void> {
    await this.question("drive");
    await this.see("screen_drive.last_look", { done: 0, all: ITEMS.length });
    await this.lastLook();
    await this.tap("screen_drive.begin");
    await this.page.locator("button.area").waitFor();
  }

  /** Let as much time go by as a person takes between two items; in a hurried browser it is skipped. */
  async look(ms: number): Promise<void> {
    const since = await this.page.evaluate((wait) => {
      const { skip } = globalThis as { skip?: (ms: number) => void };
      skip?.(wait);
      return skip ? performance.now() - wait : performance.now();
    }, ms);
    await this.page.waitForFunction(([from, wait]) => performance.now() - from >= wait, [
      since,
      ms,
    ] as const);
  }
}

/** Make a browser in which time can be skipped: what is timed by the clock of the page jumps on. */
export async function hurried(context: BrowserContext): Promise<void> {
  await context.addInitScript(() => {
    const now = performance.now.bind(performance);
    let skipped = 0;
    performance.now = () => now() + skipped;
    (globalThis as { skip?: (ms: number) => void }).skip = (ms) => void (skipped += ms);
  });
}
