import { openDB } from "idb";
import { describe, expect, it, vi } from "vitest";
import { VERSION } from "../../src/journal/database.ts";
import { isEntry } from "../../src/journal/event.ts";
import { NotKept } from "../../src/journal/journal.ts";
import { chance, entry, HARROWLEES_11, MORNING, reading, shuffled } from "./entries.ts";
import { changed, databaseName, fillTheDisk, rows, tab } from "./tabs.ts";

describe("append", () => {
  it("asks for strict durability and resolves only when the transaction is complete", async () => {
    const journal = await tab();
    const asked = vi.spyOn(IDBDatabase.prototype, "transaction");
    const order: string[] = [];
    const writing = journal.append("reading", HARROWLEES_11, { path: "tree.dbh_cm", value: 40 });
    await vi.waitFor(() => expect(asked.mock.results.length).toBe(1));
    expect(asked.mock.calls[0]).toEqual([
      ["entries", "clashes"],
      "readwrite",
      { durability: "strict" },
    ]);
    const transaction = asked.mock.results[0]?.value as IDBTransaction;
    transaction.addEventListener("complete", () => order.push("complete"));
    await writing.then(() => order.push("resolved"));
    expect(order).toEqual(["complete", "resolved"]);
  });

  it("shows an entry to nobody before it is on the disk", async () => {
    const journal = await tab();
    const writing = journal.append("setting", null, { key: "by", value: "AB" });
    expect(journal.entries()).toEqual([]);
    const made = await writing;
    expect(journal.entries()).toEqual([made]);
    expect(await rows()).toEqual([made]);
  });

  it("gives numbers from one, a lasting device, local time and who confirmed", async () => {
    const first = await tab();
    await first.append("setting", null, { key: "by", value: "  AB\n" });
    first.close();
    const second = await tab();
    const made = await second.append("state", HARROWLEES_11, { state: "marked" });
    expect(made.device).toBe(first.device);
    expect(second.entries().map(({ seq, by }) => [seq, by])).toEqual([
      [1, null],
      [2, "AB"],
    ]);
    expect(made.at).toMatch(/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}[+-]\d\d:\d\d$/);
    expect(isEntry(made)).toBe(true);
  });

  it("keeps several entries all or none", async () => {
    const journal = await tab();
    const drafts = [
      { kind: "tree", tree: HARROWLEES_11, body: { name: "Harrowlees 11" } },
      { kind: "reading", tree: HARROWLEES_11, body: { path: "tree.dbh_cm", value: 40 } },
    ] as const;
    fillTheDisk();
    await expect(journal.appendAll(drafts)).rejects.toThrow(NotKept);
    expect(await rows()).toEqual([]);
    vi.restoreAllMocks();
    const made = await journal.appendAll(drafts);
    expect(made.map(({ seq }) => seq)).toEqual([1, 2]);
    expect(await rows()).toEqual(made);
  });

  it("takes a copy of what it is given, as a store can hold it", async () => {
    const journal = await tab();
    const watched = new Proxy({ path: "tree.defects", value: ["crack"] }, {});
    const made = await journal.append("reading", HARROWLEES_11, watched);
    watched.value.push("rot");
    expect(made.body["value"]).toEqual(["crack"]);
  });
});

describe("two tabs", () => {
  it("never share a number or an id, and both hear of every entry", async () => {
    const [one, two] = [await tab(), await tab()];
    await Promise.all(
      Array.from({ length: 20 }, (_, index) =>
        (index % 2 ? one : two).append("ready", HARROWLEES_11, { item: `${index}`, done: true }),
      ),
    );
    await vi.waitFor(() => expect([one.entries().length, two.entries().length]).toEqual([20, 20]));
    expect(one.device).toBe(two.device);
    expect(one.entries()).toEqual(two.entries());
    expect(one.entries().map(({ seq }) => seq)).toEqual(
      Array.from({ length: 20 }, (_, i) => i + 1),
    );
    expect(new Set(one.entries().map(({ id }) => id)).size).toBe(20);
  });

  it("make one device between them when both open a new journal at once", async () => {
    const [one, two] = await Promise.all([tab(), tab()]);
    expect(one.device).toBe(two.device);
  });

  it("an old tab stands aside for a newer version and says so", async () => {
    const old = await tab();
    await old.append("tree", HARROWLEES_11, { name: "Harrowlees 11" });
    const told = changed(old);
    const newer = await openDB(databaseName(), VERSION + 1);
    await told;
    expect(old.trouble).toBe("closed");
    await expect(old.append("state", HARROWLEES_11, { state: "down" })).rejects.toMatchObject({
      why: "closed",
    });
    expect(old.entries().length).toBe(1);
    newer.close();
    expect((await rows()).length).toBe(1);
  });
});

describe("a clock set back", () => {
  it("leaves order to number and id, and is told", async () => {
    let clock = MORNING;
    const journal = await tab({ now: () => clock });
    const before = await journal.append("reading", HARROWLEES_11, {
      path: "tree.dbh_cm",
      value: 40,
    });
    expect(journal.clockWentBack).toBe(false);
    clock = MORNING - 86_400_000;
    expect(journal.clockWentBack).toBe(true);
    const after = await journal.append("reading", HARROWLEES_11, {
      path: "tree.dbh_cm",
      value: 42,
    });
    expect(after.id > before.id).toBe(true);
    expect(Date.parse(after.at)).toBe(clock);
    expect(journal.entries()).toEqual([before, after]);
    journal.close();
    const again = await tab({ now: () => clock });
    expect(again.clockWentBack).toBe(true);
    const last = await again.append("reading", HARROWLEES_11, { path: "tree.dbh_cm", value: 43 });
    expect(last.id > after.id).toBe(true);
    expect(last.seq).toBe(3);
    clock = MORNING;
    expect(again.clockWentBack).toBe(false);
  });

  it("lets a correction follow what came from a phone that is ahead", async () => {
    const journal = await tab({ now: () => MORNING });
    const ahead = reading("tree.dbh_cm", 40, {
      id: "0fffffff-ffff-7000-8000-000000000000",
      device: "phone-that-is-ahead",
    });
    await journal.merge([ahead]);
    const made = await journal.append("reading", HARROWLEES_11, { path: "tree.dbh_cm", value: 42 });
    expect(made.id > ahead.id).toBe(true);
    expect(journal.clockWentBack).toBe(false);
  });

  it("does not count on from an id that no clock gave", async () => {
    const journal = await tab({ now: () => MORNING });
    await journal.merge([
      reading("tree.dbh_cm", 40, { id: "ffffffff-ffff-7fff-bfff-ffffffffffff" }),
    ]);
    const made = await journal.append("reading", HARROWLEES_11, { path: "tree.dbh_cm", value: 42 });
    expect(made.id.startsWith("019c")).toBe(true);
  });
});

describe("merge", () => {
  it("in any order, any number of times, keeps the same entries on the disk", async () => {
    const next = chance(7);
    const entries = Array.from({ length: 12 }, (_, index) =>
      reading("tree.dbh_cm", 30 + index),
    ).flatMap((one, index) => (index % 4 ? [one] : [one, { ...one, by: "CD" }]));
    const [one, two] = [await tab(), await tab({ elsewhere: true })];
    for (const journal of [one, two]) {
      await journal.merge(shuffled(entries, next));
      expect(await journal.merge(shuffled(entries, next))).toEqual({
        added: 0,
        here: entries.length,
        clashes: 0,
      });
    }
    expect(one.entries()).toHaveLength(entries.length);
    expect(one.entries()).toEqual(two.entries());
    const before = one.entries();
    one.close();
    expect((await tab()).entries()).toEqual(before);
  });

  it("keeps both entries of one id and never writes over the first", async () => {
    const journal = await tab();
    const mine = await journal.append("reading", HARROWLEES_11, { path: "tree.dbh_cm", value: 40 });
    const theirs = { ...mine, body: { ...mine.body, value: 44 } };
    expect(await journal.merge([theirs, mine])).toEqual({ added: 0, here: 1, clashes: 1 });
    expect(journal.clashes).toBe(1);
    journal.close();
    const again = await tab();
    expect(again.entries()).toEqual([mine, theirs]);
    expect(await rows()).toEqual([mine]);
  });

  it("reaches the other tab", async () => {
    const [one, two] = [await tab(), await tab()];
    const told = changed(two);
    const came = entry();
    await one.merge([came, { ...came, by: "CD" }]);
    await told;
    expect(two.entries()).toEqual(one.entries());
    expect(two.entries()).toHaveLength(2);
  });
});
