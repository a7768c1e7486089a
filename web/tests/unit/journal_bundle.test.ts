import { afterEach, describe, expect, it, vi } from "vitest";
import {
  bundleName,
  bundleText,
  canShare,
  readText,
  share,
  takeIn,
  type Ask,
} from "../../src/journal/bundle.ts";
import { isEntry, type Entry, type Json } from "../../src/journal/event.ts";
import { NotKept } from "../../src/journal/journal.ts";
import { MemoryJournal } from "../../src/journal/memory.ts";
import type { Fault } from "../../src/engine/engine.ts";
import { entry, MORNING, reading } from "./entries.ts";

afterEach(() => vi.unstubAllGlobals());

/** Reads a bundle as the engine does where all is well: events each once. */
const reads: Ask = (_, { bundle }) => {
  const { events } = JSON.parse(bundle) as { events: Json[] };
  return Promise.resolve({ kind: "answer", answer: { events, clashes: [], unknown_kinds: 0 } });
};

const TOO_NEW: Fault = {
  file: "bundle",
  row: null,
  field: "schema",
  value: "fellwright/bundle/2",
  rule: "",
  remedy: "",
  code: "too-new",
  text: "A newer version wrote it. Nothing was changed.",
};

async function journalOf(entries: readonly Entry[]): Promise<MemoryJournal> {
  const journal = new MemoryJournal({ device: "phone-of-van-2", now: () => MORNING });
  await journal.merge(entries);
  return journal;
}

describe("a bundle", () => {
  it("carries every entry to another device and back", async () => {
    const one = entry();
    const entries = [
      one,
      { ...one, by: "CD" },
      reading("tree.species", "Bergahorn \u00e4\u00f6\u00fc"),
      entry({ kind: "weather" }),
    ];
    const journal = await journalOf(entries);
    const text = bundleText(journal.entries(), journal.device, MORNING);
    const other = new MemoryJournal();
    expect(await takeIn(text, other, reads)).toEqual({
      kind: "taken",
      added: 3,
      here: 0,
      clashes: 1,
      unknown: 0,
    });
    expect(other.entries()).toEqual(journal.entries());
    expect(await takeIn(text, other, reads)).toMatchObject({ added: 0, here: 4, clashes: 0 });
    expect(bundleText(other.entries(), "phone-of-van-2", MORNING)).toBe(text);
  });

  it("says what it is, who wrote it and when", async () => {
    const journal = await journalOf([entry()]);
    const whole = JSON.parse(bundleText(journal.entries(), journal.device, MORNING)) as Record<
      string,
      Json
    >;
    expect(Object.keys(whole)).toEqual(["schema", "engine", "exported_at", "device", "events"]);
    expect(whole).toMatchObject({ schema: "fellwright/bundle/1", device: "phone-of-van-2" });
    expect(Date.parse(whole["exported_at"] as string)).toBe(MORNING);
    expect((whole["events"] as Json[]).every(isEntry)).toBe(true);
    expect(bundleName(MORNING)).toMatch(/^fellwright-2026-03-0\d-\d{4}$/);
  });

  it("of a newer version is refused in the engine's words and changes nothing", async () => {
    const journal = await journalOf([entry()]);
    const before = [...journal.entries()];
    const refuses: Ask = () => Promise.resolve({ kind: "faults", faults: [TOO_NEW] });
    const taken = await takeIn("{}", journal, refuses);
    expect(taken).toEqual({ kind: "refused", faults: [TOO_NEW] });
    expect(journal.entries()).toEqual(before);
  });

  it("that cannot be kept is not half taken in", async () => {
    const journal = await journalOf([]);
    vi.spyOn(journal, "merge").mockRejectedValue(new NotKept("full"));
    const text = bundleText([entry(), entry()], "phone-of-van-2", MORNING);
    await expect(takeIn(text, journal, reads)).rejects.toMatchObject({ why: "full" });
    expect(journal.entries()).toEqual([]);
  });

  it("with rows that the journal could not keep takes in none of them", async () => {
    const journal = await journalOf([]);
    const text = bundleText([entry(), { ...entry(), id: "7" }], "phone-of-van-2", MORNING);
    await expect(takeIn(text, journal, reads)).rejects.toThrow();
    expect(journal.entries()).toEqual([]);
  });
});

describe("a file", () => {
  it("is read as UTF-8, with or without its mark", async () => {
    for (const text of ["B\u00e4ume", "\ufeffB\u00e4ume"]) {
      expect(await readText(new Blob([text]))).toEqual({ kind: "text", text: "B\u00e4ume" });
    }
  });

  it("that is no UTF-8 is refused, not guessed at", async () => {
    const latin1 = new Uint8Array([0x42, 0xe4, 0x75, 0x6d, 0x65]);
    expect(await readText(new Blob([latin1]))).toEqual({ kind: "unread", why: "not_text" });
  });

  it("that is too large is not loaded", async () => {
    const file = { size: 2 ** 30, arrayBuffer: vi.fn() };
    expect(await readText(file as unknown as Blob)).toEqual({ kind: "unread", why: "too_large" });
    expect(file.arrayBuffer).not.toHaveBeenCalled();
  });

  it("that has gone meanwhile is told", async () => {
    const file = {
      size: 9,
      arrayBuffer: () => Promise.reject(new DOMException("", "NotFoundError")),
    };
    expect(await readText(file as unknown as Blob)).toEqual({ kind: "unread", why: "gone" });
  });
});

describe("handing on", () => {
  it("offers to share only where files can be shared", () => {
    vi.stubGlobal("navigator", {});
    expect(canShare()).toBe(false);
    vi.stubGlobal("navigator", {
      canShare: ({ files }: ShareData) => files?.[0]?.name.endsWith(".txt"),
    });
    expect(canShare()).toBe(true);
  });

  it("says when the person gave it up", async () => {
    vi.stubGlobal("navigator", { share: () => Promise.reject(new DOMException("", "AbortError")) });
    expect(await share("{}", "fellwright-2026-03-02-0740")).toBe("given up");
  });

  it("shares the very text that is saved", async () => {
    const passed: ShareData[] = [];
    vi.stubGlobal("navigator", {
      share: (data: ShareData) => Promise.resolve(void passed.push(data)),
    });
    expect(await share('{"a":1}', "fellwright-2026-03-02-0740")).toBe("shared");
    expect(await passed[0]?.files?.[0]?.text()).toBe('{"a":1}');
  });
});
