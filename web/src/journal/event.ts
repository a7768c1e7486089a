/// One confirmed entry. The shape is docs/bundle.md's; the engine checks what comes from outside.

export const SCHEMA = 1;

export type Json = null | boolean | number | string | Json[] | { [key: string]: Json };
export type Body = { [key: string]: Json };

export type Kind =
  | "tree"
  | "reading"
  | "kit"
  | "van"
  | "setting"
  | "plan"
  | "trimmed"
  | "notch"
  | "ready"
  | "drive"
  | "stump"
  | "state";

export interface Entry {
  readonly id: string;
  readonly device: string;
  readonly seq: number;
  readonly at: string;
  readonly schema: number;
  readonly kind: string;
  readonly tree: string | null;
  readonly by: string | null;
  readonly body: Body;
}

/** What a person confirmed, before the journal gives it its number, id and time. */
export interface Draft {
  readonly kind: Kind;
  readonly tree: string | null;
  readonly body: Body;
}

const UUID_7 = /^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/;

export function isId(value: unknown): value is string {
  return typeof value === "string" && UUID_7.test(value);
}

/** Whether a row can be read as an entry; one that cannot is kept where it lies, and counted. */
export function isEntry(value: unknown): value is Entry {
  if (typeof value !== "object" || value === null) return false;
  const row = value as Record<string, unknown>;
  const { id, seq, schema, body } = row;
  return (
    isId(id) &&
    Number.isSafeInteger(seq) &&
    Number.isSafeInteger(schema) &&
    ["device", "at", "kind"].every((key) => typeof row[key] === "string") &&
    ["tree", "by"].every((key) => row[key] === null || typeof row[key] === "string") &&
    typeof body === "object" &&
    body !== null &&
    !Array.isArray(body)
  );
}

/** Everything an entry says as one text: equal for entries that say the same. */
export function contentOf(entry: Entry): string {
  return JSON.stringify(entry, (_, value: unknown) => {
    if (typeof value !== "object" || value === null || Array.isArray(value)) return value;
    const table = value as Record<string, unknown>;
    return Object.fromEntries(
      Object.keys(table)
        .sort()
        .map((key) => [key, table[key]]),
    );
  });
}

/**
 * Older first. An id is later than every id that was known where it was made, whatever the clock
 * said there; so a correction comes after what it corrects, and every device orders alike.
 */
export function byAge(a: Entry, b: Entry): number {
  return compare(a.id, b.id) || (a === b ? 0 : compare(contentOf(a), contentOf(b)));
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
