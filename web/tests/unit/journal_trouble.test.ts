import { openDB } from "idb";
import { describe, expect, it, vi } from "vitest";
import { VERSION } from "../../src/journal/database.ts";
import { isEntry } from "../../src/journal/event.ts";
import { entry, HARROWLEES_11 } from "./entries.ts";
import { databaseName, fillTheDisk, rows, tab } from "./tabs.ts";

describe("what goes wrong", () => {
  it("a full disk: the entry is not kept, what was kept is untouched, and it goes on after", async () => {
    const journal = await tab();
    const kept = await journal.append("tree", HARROWLEES_11, { name: "Harrowlees 11" });
    fillTheDisk();
    await expect(journal.append("state", HARROWLEES_11, { state: "down" })).rejects.toMatchObject({
      why: "full",
    });
    await expect(journal.merge([entry(), entry()])).rejects.toMatchObject({ why: "full" });
    expect(journal.entries()).toEqual([kept]);
    expect(await rows()).toEqual([kept]);
    vi.restoreAllMocks();
    expect((await journal.append("state", HARROWLEES_11, { state: "down" })).seq).toBe(2);
  });

  it("a write that the browser refuses for another reason", async () => {
    const journal = await tab();
    vi.spyOn(IDBObjectStore.prototype, "add").mockImplementation(() => {
      throw new DOMException("no", "UnknownError");
    });
    await expect(journal.append("state", HARROWLEES_11, { state: "down" })).rejects.toMatchObject({
      why: "denied",
    });
    expect(await rows()).toEqual([]);
  });

  it("a write that is refused halfway leaves nothing behind", async () => {
    const journal = await tab();
    const add = IDBObjectStore.prototype.add;
    let written = 0;
    vi.spyOn(IDBObjectStore.prototype, "add").mockImplementation(function (
      this: IDBObjectStore,
      ...row: [unknown]
    ) {
      written += 1;
      if (written === 2) throw new DOMException("no", "DataError");
      return add.apply(this, row);
    });
    await expect(journal.merge([entry(), entry()])).rejects.toMatchObject({ why: "denied" });
    expect(journal.entries()).toEqual([]);
    expect(await rows()).toEqual([]);
  });

  it("a closed journal keeps nothing and says so", async () => {
    const journal = await tab();
    journal.close();
    await expect(journal.append("state", HARROWLEES_11, { state: "down" })).rejects.toMatchObject({
      why: "closed",
    });
  });

  it("a damaged row is kept, skipped and counted", async () => {
    (await tab()).close();
    const db = await openDB(databaseName());
    const whole = entry();
    const damaged = [{ id: "3 is no id" }, { ...entry(), seq: "7" }, { ...entry(), body: null }];
    for (const row of [whole, ...damaged]) await db.add("entries", row);
    db.close();
    const journal = await tab();
    expect(journal.entries()).toEqual([whole]);
    expect(journal.damaged).toBe(3);
    const made = await journal.append("state", HARROWLEES_11, { state: "down" });
    expect(isEntry(made)).toBe(true);
    expect(made.id > whole.id).toBe(true);
    expect(await rows()).toHaveLength(5);
  });

  it("an entry with the id of a damaged row is kept beside it", async () => {
    (await tab()).close();
    const whole = entry();
    const db = await openDB(databaseName());
    await db.add("entries", { ...whole, body: null });
    db.close();
    const journal = await tab();
    expect(await journal.merge([whole])).toEqual({ added: 0, here: 0, clashes: 1 });
    expect(journal.entries()).toEqual([whole]);
    journal.close();
    expect((await tab()).entries()).toEqual([whole]);
    expect(await rows()).toEqual([{ ...whole, body: null }]);
  });

  it("a row that the browser itself cannot read does not hide the others", async () => {
    const first = await tab();
    const kept = [await first.append("ready", null, {}), await first.append("ready", null, {})];
    first.close();
    const get = IDBObjectStore.prototype.get;
    vi.spyOn(IDBObjectStore.prototype, "getAll").mockImplementation(() => {
      throw new DOMException("cannot read", "DataError");
    });
    vi.spyOn(IDBObjectStore.prototype, "get").mockImplementation(function (
      this: IDBObjectStore,
      key: IDBValidKey | IDBKeyRange,
    ) {
      if (key === kept[0]?.id) throw new DOMException("cannot read", "DataError");
      return get.call(this, key);
    });
    const second = await tab();
    expect(second.entries()).toEqual([kept[1]]);
    expect(second.damaged).toBe(1);
    expect(second.keeping).not.toBe("memory only");
  });

  it("a database of a newer version is left as it is", async () => {
    const first = await tab();
    const kept = await first.append("tree", HARROWLEES_11, { name: "Harrowlees 11" });
    first.close();
    (await openDB(databaseName(), VERSION + 1)).close();
    const journal = await tab();
    expect([journal.keeping, journal.trouble]).toEqual(["memory only", "newer"]);
    await journal.append("state", HARROWLEES_11, { state: "down" });
    expect(await rows()).toEqual([kept]);
    const db = await openDB(databaseName());
    expect(db.version).toBe(VERSION + 1);
    db.close();
  });

  it("denied storage leaves a journal in memory", async () => {
    vi.stubGlobal("indexedDB", {
      open: () => {
        throw new DOMException("denied", "SecurityError");
      },
    });
    const journal = await tab();
    expect([journal.keeping, journal.trouble]).toEqual(["memory only", "denied"]);
    const made = await journal.append("tree", HARROWLEES_11, { name: "Harrowlees 11" });
    expect(journal.entries()).toEqual([made]);
    expect(await journal.askToKeep()).toBe("memory only");
  });

  it("no room to begin a journal is told as such", async () => {
    vi.spyOn(IDBObjectStore.prototype, "put").mockImplementation(() => {
      throw new DOMException("full", "QuotaExceededError");
    });
    const journal = await tab();
    expect([journal.keeping, journal.trouble]).toEqual(["memory only", "full"]);
  });

  it("a tab that does not let go is not waited for without end", async () => {
    const holding = await openDB(databaseName(), VERSION);
    await new Promise<void>((resolve) => {
      const deleting = indexedDB.deleteDatabase(databaseName());
      deleting.onblocked = () => resolve();
    });
    const journal = await tab({ patience_ms: 20 });
    expect([journal.keeping, journal.trouble]).toEqual(["memory only", "denied"]);
    holding.close();
  });
});

describe("keeping", () => {
  function storage(persisted: boolean, granted: boolean) {
    const persist = vi.fn(() => Promise.resolve(granted));
    vi.stubGlobal("navigator", {
      storage: { persist, persisted: () => Promise.resolve(persisted) },
    });
    return persist;
  }

  it("asks the browser at the start not to clear it, and tells when it is granted", async () => {
    const persist = storage(false, true);
    const journal = await tab();
    await vi.waitFor(() => expect(journal.keeping).toBe("persistent"));
    expect(persist).toHaveBeenCalledTimes(1);
  });

  it("says best effort when the browser refuses, and can ask again", async () => {
    const persist = storage(false, false);
    const journal = await tab();
    expect(await journal.askToKeep()).toBe("best effort");
    expect(persist).toHaveBeenCalledTimes(2);
  });

  it("does not wait for a person who is asked", async () => {
    vi.stubGlobal("navigator", {
      storage: {
        persist: () => new Promise(() => undefined),
        persisted: () => Promise.resolve(false),
      },
    });
    expect((await tab()).keeping).toBe("best effort");
  });
});
