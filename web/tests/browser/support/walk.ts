/// A walk over every screen of the app, each in the stands that look different.
import { DEMO_TREE } from "../../../src/trees/demo.ts";
import { otherPhone, reading, laidIn } from "./bundles.ts";
import type { Hand } from "./hand.ts";
import { forget, newProfile } from "./phone.ts";

/** Go from screen to screen; yields the name of the one that is shown, all of it there. */
export async function* walk(hand: Hand): AsyncGenerator<string> {
  const { page, say } = hand;
  await hand.heading("screen.ask_trees");
  yield "trees-none";
  await hand.loadVan();
  await hand.enter("screen_settings.by", "HB");
  yield "settings";
  await hand.enter("screen_settings.rescue_point", "Harrowlees gate");
  await hand.enter("screen_settings.emergency_number", "112");
  const folder = newProfile();
  const other = otherPhone("Plover Hag 4", [reading("tree.dbh_cm", 44)]);
  const bringIn = page.getByLabel(say("screen_data.bring_in"), { exact: true });
  await bringIn.setInputFiles(laidIn(folder, "damaged.json", other.text.slice(0, 300)));
  await hand.see("screen_data.refused");
  yield "settings-refused";
  await bringIn.setInputFiles(laidIn(folder, "other.json", other.text));
  await hand.see("screen_data.taken", { added: 2, here: 0 });
  forget(folder);
  yield "settings-taken";

  await hand.newTree("Harrowlees 40");
  await page.getByRole("combobox", { name: say("screen_measure.species") }).waitFor();
  yield "measure-empty";
  await hand.question("tip");
  await hand.verdict();
  await hand.whole();
  yield "tip-measure";
  await hand.question("measure");
  for (const fold of await page.locator("details > summary").all()) await fold.tap();
  yield "measure-unfolded";
  await hand.enter("screen_measure.dbh", "4000");
  await page.getByText(/4000/).first().waitFor();
  await page.locator(".fault, .faults, [role=alert]").first().waitFor();
  yield "measure-fault";
  await hand.question("tip");
  await page.getByText(say("screen_tip.faults"), { exact: true }).waitFor();
  yield "tip-fault";

  await hand.demo();
  yield "tip";
  await hand.page.locator(".line button").first().tap();
  await page.locator(".trial .verdict strong").waitFor();
  yield "tip-trial";
  await hand.tap("screen_tip.slide_back");
  await page.locator("[role=table] button").first().tap();
  await page.locator("dialog .formula").waitFor();
  yield "why";
  await hand.tap("screen.close");
  await hand.tap("screen_tip.keep");
  await hand.question("cut");
  await page.locator(".strip li").first().waitFor();
  await page
    .getByRole("button", { name: say("screen.enlarge", { name: say("screen_cut.picture_stump") }) })
    .waitFor();
  yield "cut";
  await hand.enter("screen_cut.trimmed_width", "47");
  await page.locator(".both .verdict strong").nth(1).waitFor();
  await hand.enter("screen_cut.aim_angle", "2");
  await hand.choose("screen_cut.aim_side", "screen_cut.aim_left");
  await hand.tap("screen_cut.aim_check");
  await page.locator(".said .text").waitFor();
  yield "cut-after";
  await hand.question("measure");
  yield "measure";
  await hand.question("drive");
  await hand.see("screen_drive.last_look", { done: 0, all: 7 });
  yield "last-look";
  await hand.lastLook();
  await hand.button("screen_drive.begin").waitFor();
  yield "last-look-done";
  await hand.tap("screen_drive.begin");
  await page.locator("button.area").waitFor();
  yield "drive";
  const area = page.locator("button.area");
  for (let turns = 1; (await area.count()) > 0; turns += 1) {
    await area.tap();
    await page
      .locator(".area .count")
      .getByText(String(turns), { exact: true })
      .or(page.locator(".area.stop"))
      .first()
      .waitFor();
  }
  yield "drive-stop";
  await hand.tap("screen_drive.does_not_go");
  for (const title of ["goes_title", "hung_title", "bar_title"]) {
    await hand.tap(`screen_stuck.${title}`);
    yield `stuck-${title}`;
  }
  await hand.go(`#/tree/${DEMO_TREE}/drive`);
  await hand.tap("screen_drive.it_goes");
  await hand.heading("screen.ask_happened");
  await page.locator("[aria-busy=false]").waitFor();
  yield "happened";
  await hand.choose("screen_happened.lay", "screen_happened.lay_along");
  for (const side of ["left", "mid", "right"]) {
    await hand.tap("screen_happened.more", { name: say(`screen_happened.hinge_${side}`) });
  }
  await hand.tap("screen_happened.went_hung");
  await page.locator(".real").first().waitFor();
  await page.locator("[aria-busy=false]").waitFor();
  yield "happened-compared";
  await hand.tap("screen_happened.keep_hung");
  await hand.see("screen_happened.hung_now");
  yield "happened-hung";
  await hand.go("#/");
  await hand.see("screen_trees.standing_hung");
  for (const fold of await page.locator("details > summary").all()) await fold.tap();
  yield "trees";
}
