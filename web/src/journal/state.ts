/// What the entries add up to. Entries from any number of devices, in any order, give one state.
import { byAge, SCHEMA, type Body, type Entry, type Json } from "./event.ts";

export interface Reading {
  readonly value: Json;
  readonly typed: string | null;
  readonly how: string | null;
}

export type TreeStanding = "marked" | "looked at" | "carded" | "loaded" | "down" | "hung" | "left";

export interface TreeState {
  readonly id: string;
  name: string;
  standing: TreeStanding;
  /** By path of the tree file: `tree.dbh_cm`, `tree.lean`, `look.sound`, `cut.hinge_mm`. */
  readonly readings: Map<string, Reading>;
  /** Newest entry of each kind that is about this tree as a whole. */
  readonly latest: Map<string, Entry>;
  /** Last-look items that are ticked. */
  readonly ready: Set<string>;
  /** A kit for this tree alone, in place of the van's. */
  kit: Body | null;
  changed: string;
  /** Id of the newest entry about this tree. */
  newest: string;
  /** Id of the newest entry about this tree that a plan rests on; empty before the first. */
  restsOn: string;
}

/** What another device says of itself: its van and its settings, never in force here unasked. */
export interface Elsewhere {
  kitName: string | null;
  kit: Body | null;
  readonly settings: Map<string, Json>;
  changed: string;
}

export interface State {
  readonly trees: Map<string, TreeState>;
  kitName: string | null;
  kit: Body | null;
  readonly absent: Set<string>;
  readonly settings: Map<string, Json>;
  /** By device; only where it is said which device is the own one. */
  readonly elsewhere: Map<string, Elsewhere>;
  /** Id of the newest entry about the van or the profile, on which every plan rests. */
  restsOn: string;
  unknown: number;
}

export function emptyState(): State {
  return {
    trees: new Map(),
    kitName: null,
    kit: null,
    absent: new Set(),
    settings: new Map(),
    elsewhere: new Map(),
    restsOn: "",
    unknown: 0,
  };
}

/**
 * Add up entries, whatever order they come in. With `own`, van and settings are those of that
 * device alone: a van that came along from another phone is not the one beside this tree.
 */
export function addUp(entries: Iterable<Entry>, own?: string): State {
  const state = emptyState();
  for (const entry of [...entries].sort(byAge)) {
    if (entry.schema > SCHEMA) state.unknown += 1;
    else if (entry.tree !== null) applyToTree(treeOf(state, entry), entry, state);
    else if (own === undefined || entry.device === own) applyToVan(state, entry);
    else note(state, entry);
  }
  return state;
}

function applyToVan(state: State, entry: Entry): void {
  const { body } = entry;
  if (entry.kind === "kit") {
    state.kitName = text(body["name"]);
    state.kit = table(body["kit"]);
    state.absent.clear();
    state.restsOn = entry.id;
  } else if (entry.kind === "van") {
    const device = text(body["device"]) ?? "";
    if (body["present"] === false) state.absent.add(device);
    else state.absent.delete(device);
    state.restsOn = entry.id;
  } else if (entry.kind === "setting") {
    const key = text(body["key"]);
    if (key !== null) state.settings.set(key, body["value"] ?? null);
    if (key === "profile") state.restsOn = entry.id;
  } else {
    state.unknown += 1;
  }
}

/** Remember what another device says of itself. */
function note(state: State, entry: Entry): void {
  const { body, device, kind } = entry;
  if (kind !== "kit" && kind !== "van" && kind !== "setting") {
    state.unknown += 1;
    return;
  }
  const other = state.elsewhere.get(device) ?? {
    kitName: null,
    kit: null,
    settings: new Map<string, Json>(),
    changed: entry.at,
  };
  state.elsewhere.set(device, other);
  other.changed = entry.at;
  if (kind === "kit") {
    other.kitName = text(body["name"]);
    other.kit = table(body["kit"]);
  }
  const key = kind === "setting" ? text(body["key"]) : null;
  if (key !== null) other.settings.set(key, body["value"] ?? null);
}

function treeOf(state: State, entry: Entry): TreeState {
  const id = entry.tree as string;
  let tree = state.trees.get(id);
  if (!tree) {
    tree = {
      id,
      name: "",
      standing: "marked",
      readings: new Map(),
      latest: new Map(),
      ready: new Set(),
      kit: null,
      changed: entry.at,
      newest: entry.id,
      restsOn: "",
    };
    state.trees.set(id, tree);
  }
  tree.changed = entry.at;
  tree.newest = entry.id;
  return tree;
}

function applyToTree(tree: TreeState, entry: Entry, state: State): void {
  const { body } = entry;
  switch (entry.kind) {
    case "tree":
      tree.name = text(body["name"]) ?? tree.name;
      break;
    case "reading":
      applyReading(tree, body);
      tree.restsOn = entry.id;
      break;
    case "kit":
      tree.kit = table(body["kit"]);
      tree.restsOn = entry.id;
      break;
    case "state":
      tree.standing = (text(body["state"]) as TreeStanding | null) ?? tree.standing;
      break;
    case "ready":
      applyReady(tree, body);
      break;
    case "trimmed":
      applyTrimmed(tree, body);
      tree.restsOn = entry.id;
      tree.latest.set(entry.kind, entry);
      break;
    case "plan":
    case "notch":
    case "drive":
    case "stump":
      tree.latest.set(entry.kind, entry);
      break;
    default:
      state.unknown += 1;
  }
}

/** The new stump width, in the unit in which it was read, in place of the old one. */
function applyTrimmed(tree: TreeState, body: Body): void {
  const key = "stump_diameter_in" in body ? "stump_diameter_in" : "stump_diameter_cm";
  const typed = body["typed"] ?? null;
  applyReading(tree, { path: `tree.${key}`, value: body[key] ?? null, typed, how: null });
  applyReading(tree, { path: "tree.flare", value: "trimmed", typed: null, how: null });
}

function applyReady(tree: TreeState, body: Body): void {
  const item = text(body["item"]) ?? "";
  if (body["done"] === true) tree.ready.add(item);
  else tree.ready.delete(item);
}

function applyReading(tree: TreeState, body: Body): void {
  const path = text(body["path"]);
  if (path === null) return;
  const quantity = withoutUnit(path);
  for (const known of [...tree.readings.keys()]) {
    if (withoutUnit(known) === quantity) tree.readings.delete(known);
  }
  const value = body["value"] ?? null;
  if (value === null) return;
  tree.readings.set(path, { value, typed: text(body["typed"]), how: text(body["how"]) });
}

/** A quantity read in another unit replaces the older reading. */
export function withoutUnit(path: string): string {
  return path.replace(/_(cm|mm|m|in|ft|m_s|mph|degc|degf|deg|clock)$/, "");
}

function text(value: Json | undefined): string | null {
  return typeof value === "string" ? value : null;
}

function table(value: Json | undefined): Body | null {
  return typeof value === "object" && value !== null && !Array.isArray(value) ? value : null;
}
