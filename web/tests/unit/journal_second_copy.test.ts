import { IDBFactory } from "fake-indexeddb";
import { deleteDB } from "idb";
import { beforeEach, describe, expect, it, vi } from "vitest";
import { openSecondCopy } from "../../src/journal/second_copy.ts";
import { entry, HARROWLEES_11 } from "./entries.ts";
import { databaseName, rows, tab } from "./tabs.ts";

let factory: IDBFactory;

beforeEach(() => {
  factory = new IDBFactory();
  vi.stubGlobal("navigator", {
    storageBuckets: { open: () => Promise.resolve({ indexedDB: factory }) },
  });
});

/** What a browser does that finds its database damaged. */
async function loseTheJournal(): Promise<void> {
  await deleteDB(databaseName());
}

const dbh = (value: number) => ({ path: "tree.dbh_cm", value, typed: String(value), how: null });

describe("a journal that the browser threw away", () => {
  it("comes back whole, under the same name of the device and with the next number", async () => {
    const first = await tab();
    await first.append("setting", null, { key: "by", value: "AB" });
    await first.append("reading", HARROWLEES_11, dbh(40));
    const before = first.entries();
    first.close();
    await loseTheJournal();
    const second = await tab();
    expect(second.entries()).toEqual(before);
    expect([second.broughtBack, second.device]).toEqual([2, first.device]);
    expect(await rows()).toEqual(before);
    expect(await second.append("reading", HARROWLEES_11, dbh(41))).toMatchObject({
      seq: 3,
      by: "AB",
    });
  });

  it("comes back with what was merged into it, both sides of a clash included", async () => {
    const first = await tab();
    const told = entry({ seq: 1, device: "other-phone" });
    await first.merge([told, { ...told, by: "XY" }]);
    first.close();
    await loseTheJournal();
    const second = await tab();
    expect(new Set(second.entries().map(({ by }) => by))).toEqual(new Set([told.by, "XY"]));
    expect(second.clashes).toBe(1);
  });

  it("tells of nothing where nothing was lost", async () => {
    const first = await tab();
    await first.append("reading", HARROWLEES_11, dbh(40));
    first.close();
    expect((await tab()).broughtBack).toBe(0);
  });
});

describe("the second copy", () => {
  it("gets what was written before there was one", async () => {
    vi.unstubAllGlobals();
    const first = await tab();
    const made = await first.append("reading", HARROWLEES_11, dbh(40));
    first.close();
    vi.stubGlobal("navigator", {
      storageBuckets: { open: () => Promise.resolve({ indexedDB: factory }) },
    });
    (await tab()).close();
    const copy = await openSecondCopy(databaseName());
    expect(await copy?.besides(() => false)).toEqual([made]);
    copy?.close();
  });

  it("is written only once the journal has the entry, and before the entry is shown", async () => {
    const journal = await tab();
    const order: string[] = [];
    const put = IDBObjectStore.prototype.put;
    vi.spyOn(IDBObjectStore.prototype, "put").mockImplementation(function (
      this: IDBObjectStore,
      ...row
    ) {
      order.push(`copied ${journal.entries().length}`);
      return put.apply(this, row as Parameters<typeof put>);
    });
    const add = IDBObjectStore.prototype.add;
    vi.spyOn(IDBObjectStore.prototype, "add").mockImplementation(function (
      this: IDBObjectStore,
      ...row
    ) {
      this.transaction.addEventListener("complete", () => order.push("kept"));
      return add.apply(this, row as Parameters<typeof add>);
    });
    await journal.append("reading", HARROWLEES_11, dbh(40));
    expect(order).toEqual(["kept", "copied 0"]);
    expect(journal.entries()).toHaveLength(1);
  });

  it("is done without when it fails: the entry is kept all the same", async () => {
    const journal = await tab();
    vi.spyOn(IDBObjectStore.prototype, "put").mockImplementation(() => {
      throw new DOMException("full", "QuotaExceededError");
    });
    const made = await journal.append("reading", HARROWLEES_11, dbh(40));
    expect(journal.entries()).toEqual([made]);
    expect(await rows()).toEqual([made]);
  });

  it("is not there where the browser has no place for it", async () => {
    expect(await openSecondCopy("journal", null)).toBeNull();
    const refusing = { open: () => Promise.reject(new Error("denied")) };
    expect(await openSecondCopy("journal", refusing)).toBeNull();
  });
});
