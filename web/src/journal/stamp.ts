/// Gives an entry its id, number and time. An id is later than all that are known, whatever the clock says.
import { v7 } from "uuid";
import { SCHEMA, type Body, type Draft, type Entry } from "./event.ts";
import { plainText } from "./plain_text.ts";

const LONGEST_BY = 40;

/** Ids from here on stand for years past 6400: no clock gave them, and none is counted on from. */
export const NO_CLOCK = "80000000-0000-7000-8000-000000000000";

export interface Before {
  readonly device: string;
  readonly by: string | null;
  /** Newest number of this device; 0 before the first. */
  readonly seq: number;
  /** Newest id that is known, from whichever device. */
  readonly newest: string | undefined;
  readonly now: number;
}

/** Entries in the order of the drafts, to follow on what was there before. */
export function stamped(drafts: readonly Draft[], before: Before): Entry[] {
  let { newest } = before;
  return drafts.map(({ kind, tree, body }, index) => {
    newest = nextId(before.now, newest);
    return {
      id: newest,
      device: before.device,
      seq: before.seq + index + 1,
      at: localTime(before.now),
      schema: SCHEMA,
      kind,
      tree,
      by: before.by,
      body: plain(body),
    };
  });
}

/** A copy that a store can hold: a screen may hand over what it watches for changes. */
function plain(body: Body): Body {
  return JSON.parse(JSON.stringify(body)) as Body;
}

/** A UUIDv7 of this moment, or of the first one after the newest id where the clock is behind it. */
export function nextId(now: number, newest: string | undefined): string {
  const first = newest === undefined ? 0 : millisecondsOf(newest) + 1;
  return v7({ msecs: Math.max(now, first) });
}

function millisecondsOf(id: string): number {
  return Number.parseInt(id.slice(0, 8) + id.slice(9, 13), 16);
}

/** Date and time with the offset of the place: 2026-03-02T07:40:00.000+01:00. */
export function localTime(now: number): string {
  const offset = -new Date(now).getTimezoneOffset();
  const shifted = new Date(now + offset * 60_000).toISOString().slice(0, -1);
  const size = Math.abs(offset);
  const two = (value: number) => String(value).padStart(2, "0");
  return `${shifted}${offset < 0 ? "-" : "+"}${two(Math.floor(size / 60))}:${two(size % 60)}`;
}

/** Who confirms on this device: its own newest setting, never one that came from another. */
export function whoConfirms(entries: readonly Entry[], device: string): string | null {
  for (let index = entries.length - 1; index >= 0; index -= 1) {
    const entry = entries[index] as Entry;
    if (entry.kind === "setting" && entry.device === device && entry.body["key"] === "by") {
      const { value } = entry.body;
      return typeof value === "string" ? plainText(value, LONGEST_BY) || null : null;
    }
  }
  return null;
}
