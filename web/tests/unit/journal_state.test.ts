import { describe, expect, it } from "vitest";
import type { Entry } from "../../src/journal/event.ts";
import { requestFor } from "../../src/journal/request.ts";
import { addUp, emptyState } from "../../src/journal/state.ts";
import { chance, entry, HARROWLEES_11, HARROWLEES_12, reading, shuffled } from "./entries.ts";

const MANNER = { language: "en", force: "kN", imperial: false };
const VAN_2 = {
  device: [
    { name: "Dipper", kind: "screw wedge" },
    { name: "Hand pair", kind: "hand wedge" },
  ],
};

function kit(name: string, changes: Partial<Entry> = {}): Entry {
  return entry({ kind: "kit", tree: null, body: { name, kit: VAN_2 }, ...changes });
}
function van(device: string, present: boolean, changes: Partial<Entry> = {}): Entry {
  return entry({ kind: "van", tree: null, body: { device, present }, ...changes });
}
function setting(key: string, value: string, changes: Partial<Entry> = {}): Entry {
  return entry({ kind: "setting", tree: null, body: { key, value }, ...changes });
}

describe("what the entries add up to", () => {
  it("does not depend on the order in which they come", () => {
    const entries = [
      entry({ kind: "tree", body: { name: "Harrowlees 11" } }),
      reading("tree.dbh_cm", 40),
      reading("tree.dbh_in", 15.7),
      reading("look.sound", true),
      reading("look.sound", null),
      entry({ kind: "tree", tree: HARROWLEES_12, body: { name: "Harrowlees 12" } }),
      reading("tree.height_m", 25, { tree: HARROWLEES_12 }),
      entry({ kind: "state", body: { state: "loaded" } }),
      entry({ kind: "ready", body: { item: "crew", done: true } }),
      entry({ kind: "trimmed", body: { stump_diameter_cm: 44 } }),
      kit("Van 2"),
      van("Dipper", false),
      kit("Van 3", { device: "another-phone" }),
      van("Hand pair", false),
      setting("language", "de"),
      entry({ kind: "weather", tree: null }),
    ];
    const clashing = { ...(entries[1] as Entry), body: { path: "tree.dbh_cm", value: 41 } };
    const next = chance(4);
    const whole = addUp([...entries, clashing]);
    for (let round = 0; round < 100; round += 1) {
      expect(addUp(shuffled([...entries, clashing], next))).toEqual(whole);
    }
    expect(whole.trees.get(HARROWLEES_11)?.readings.get("tree.dbh_in")?.value).toBe(15.7);
    expect(whole.trees.get(HARROWLEES_11)?.readings.has("tree.dbh_cm")).toBe(false);
    expect(whole.trees.get(HARROWLEES_11)?.readings.has("look.sound")).toBe(false);
    expect(whole.kitName).toBe("Van 3");
    expect(whole.unknown).toBe(1);
  });

  it("lets a correction win though the clock stood earlier", () => {
    const first = reading("tree.dbh_cm", 40, { at: "2026-03-02T09:00:00.000+01:00" });
    const later = reading("tree.dbh_cm", 42, { at: "2026-03-01T09:00:00.000+01:00" });
    expect(addUp([later, first]).trees.get(HARROWLEES_11)?.readings.get("tree.dbh_cm")?.value).toBe(
      42,
    );
  });

  it("keeps the van and the settings of another phone apart from those of this one", () => {
    const own = "phone-of-van-2";
    const mine = [kit("Van 2"), van("Dipper", false), setting("language", "de")];
    const theirs = [
      kit("Van 7", { device: "another-phone" }),
      van("Hand pair", false, { device: "another-phone" }),
      setting("rescue_point", "Gate 4", { device: "another-phone" }),
    ];
    const state = addUp([...mine, ...theirs], own);
    expect([state.kitName, [...state.absent]]).toEqual(["Van 2", ["Dipper"]]);
    expect([...state.settings]).toEqual([["language", "de"]]);
    const other = state.elsewhere.get("another-phone");
    expect([other?.kitName, other?.settings.get("rescue_point")]).toEqual(["Van 7", "Gate 4"]);
    expect(addUp(theirs, own)).toMatchObject({ kitName: null, kit: null });
  });

  it("leaves out what a newer version wrote, and counts it", () => {
    const state = addUp([entry({ schema: 2 })]);
    expect(state).toEqual({ ...emptyState(), unknown: 1 });
  });

  it("knows what a plan rests on", () => {
    const [dbh, state] = [
      reading("tree.dbh_cm", 40),
      entry({ kind: "state", body: { state: "carded" } }),
    ];
    const [loaded, left] = [kit("Van 2"), van("Dipper", false)];
    const whole = addUp([dbh, state, loaded, left, setting("paper", "dark")]);
    expect(whole.trees.get(HARROWLEES_11)?.restsOn).toBe(dbh.id);
    expect(whole.restsOn).toBe(left.id);
  });
});

describe("the request", () => {
  it("leaves out what is not in the van today", () => {
    const state = addUp([kit("Van 2"), van("Dipper", false), reading("tree.dbh_cm", 40)]);
    const tree = state.trees.get(HARROWLEES_11);
    if (!tree) throw new Error("no tree");
    expect(requestFor(state, tree, MANNER)["kit"]).toEqual({
      device: [{ name: "Hand pair", kind: "hand wedge" }],
    });
  });

  it("takes a tree's own kit for that tree and for no other", () => {
    const entries = [
      kit("Demo van", { tree: HARROWLEES_11 }),
      reading("tree.dbh_cm", 40, { tree: HARROWLEES_12 }),
    ];
    const state = addUp(entries);
    const kits = [HARROWLEES_11, HARROWLEES_12].map((id) => {
      const tree = state.trees.get(id);
      return tree && requestFor(state, tree, MANNER)["kit"];
    });
    expect(kits).toEqual([VAN_2, {}]);
    expect(state.kit).toBe(null);
  });
});
