import { describe, expect, it } from "vitest";
import { contentOf, isEntry, type Entry } from "../../src/journal/event.ts";
import { MemoryJournal } from "../../src/journal/memory.ts";
import { plainText } from "../../src/journal/plain_text.ts";
import { localTime } from "../../src/journal/stamp.ts";
import { chance, entry, HARROWLEES_11, MORNING, reading, shuffled } from "./entries.ts";

/** Entries of three phones; every fifth shares its id with another one that says something else. */
function heap(): Entry[] {
  return Array.from({ length: 40 }, (_, index) => {
    const device = `phone-${index % 3}-of-the-crew`;
    return reading("tree.dbh_cm", 30 + index, { device });
  }).flatMap((one, index) =>
    index % 5 ? [one] : [one, { ...one, body: { ...one.body, value: 99 } }],
  );
}

describe("merge", () => {
  it("is a set union: order and repetition do not matter", async () => {
    const entries = heap();
    const next = chance(11);
    const wholes = await Promise.all(
      Array.from({ length: 50 }, async () => {
        const journal = new MemoryJournal();
        for (let round = 0; round < 3; round += 1) {
          const mixed = shuffled(entries, next);
          const cut = Math.floor(next() * mixed.length);
          await journal.merge(mixed.slice(0, cut));
          await journal.merge(round < 2 ? mixed.slice(0, cut) : mixed);
        }
        return journal.entries();
      }),
    );
    for (const whole of wholes) expect(whole).toEqual(wholes[0]);
    expect(wholes[0]).toHaveLength(entries.length);
  });

  it("counts what is new, what was here and what clashes", async () => {
    const journal = new MemoryJournal();
    const [one, two] = [entry(), entry()];
    const other = { ...one, by: "CD" };
    expect(await journal.merge([one, two])).toEqual({ added: 2, here: 0, clashes: 0 });
    expect(await journal.merge([two, other, one])).toEqual({ added: 0, here: 2, clashes: 1 });
    expect(await journal.merge([other])).toEqual({ added: 0, here: 1, clashes: 0 });
    expect(journal.clashes).toBe(1);
    expect(journal.entries()).toHaveLength(3);
  });

  it("takes two entries for one whatever the order of their keys", () => {
    const one = entry();
    const turned = Object.fromEntries(Object.entries(one).reverse()) as unknown as Entry;
    expect(contentOf(turned)).toBe(contentOf(one));
    expect(contentOf({ ...one, seq: one.seq + 1 })).not.toBe(contentOf(one));
  });
});

describe("append", () => {
  it("numbers on from what the device has, whatever came from others", async () => {
    const journal = new MemoryJournal({ device: "phone-of-van-2", now: () => MORNING });
    await journal.merge([entry({ device: "another-phone", seq: 70 }), entry({ seq: 7 })]);
    const made = await journal.append("state", HARROWLEES_11, { state: "down" });
    expect(made.seq).toBe(8);
    expect(journal.entries().at(-1)).toBe(made);
    expect(isEntry(made)).toBe(true);
  });

  it("never signs with initials that came from another phone", async () => {
    const journal = new MemoryJournal();
    await journal.merge([entry({ kind: "setting", tree: null, body: { key: "by", value: "CD" } })]);
    expect((await journal.append("ready", HARROWLEES_11, { item: "x", done: true })).by).toBe(null);
    await journal.append("setting", null, { key: "by", value: "AB" });
    expect((await journal.append("ready", HARROWLEES_11, { item: "x", done: true })).by).toBe("AB");
    await journal.append("setting", null, { key: "by", value: " " });
    expect((await journal.append("ready", HARROWLEES_11, { item: "x", done: true })).by).toBe(null);
  });

  it("tells every listener", async () => {
    const journal = new MemoryJournal();
    let told = 0;
    journal.onChange(() => (told += 1));
    await journal.append("ready", HARROWLEES_11, { item: "x", done: true });
    await journal.merge([entry()]);
    expect(told).toBe(2);
  });
});

describe("text from a field", () => {
  it.each([
    ["  Harrowlees \n 11 ", "Harrowlees 11"],
    ["a\u0000b\u202ec", "abc"],
    ["\ud83d\ude00\ud83d", "\ud83d\ude00"],
    ["Fichte am Weg, 3. Reihe", "Fichte am Weg, 3. Reihe"],
  ])("%j is kept as %j", (typed, kept) => {
    expect(plainText(typed, 40)).toBe(kept);
  });

  it("is cut between whole characters", () => {
    expect(plainText("\ud83d\ude00".repeat(5), 3)).toBe("\ud83d\ude00".repeat(3));
  });
});

describe("time", () => {
  it("is written as the clock of the place shows it, with its offset", () => {
    const written = localTime(MORNING);
    expect(Date.parse(written)).toBe(MORNING);
    expect(new Date(MORNING).getHours()).toBe(Number(written.slice(11, 13)));
    expect(written).toMatch(/[+-]\d\d:\d\d$/);
  });
});
