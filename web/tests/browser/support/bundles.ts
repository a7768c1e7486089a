/// Bundles of another phone, made by the app's own parts.
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { v4, v7 } from "uuid";
import { bundleText } from "../../../src/journal/bundle.ts";
import type { Draft, Entry } from "../../../src/journal/event.ts";
import { stamped } from "../../../src/journal/stamp.ts";

const NOON = Date.parse("2026-03-02T12:00:00Z");

export interface Other {
  readonly tree: string;
  readonly entries: readonly Entry[];
  readonly text: string;
}

/** A tree on another phone, with what was confirmed about it there. */
export function otherPhone(name: string, drafts: readonly Omit<Draft, "tree">[]): Other {
  const [tree, device] = [v7({ msecs: NOON }), v4()];
  const all: Draft[] = [
    { kind: "tree", tree, body: { name } },
    ...drafts.map((draft) => ({ ...draft, tree })),
  ];
  const entries = stamped(all, { device, by: "R", seq: 0, newest: undefined, now: NOON });
  return { tree, entries, text: bundleText(entries, device, NOON) };
}

export function reading(path: string, value: number | boolean): Omit<Draft, "tree"> {
  return { kind: "reading", body: { path, value, typed: String(value), how: null } };
}

/** Lay a text into a folder, as a file to be chosen. */
export function laidIn(folder: string, name: string, text: string | Uint8Array): string {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}
