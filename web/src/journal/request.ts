/// The request that the engine is asked with: readings as they were taken, in the shape of the files.
import type { Body, Json } from "./event.ts";
import { LAY, layIsContradicted } from "./lay.ts";
import type { State, TreeState } from "./state.ts";

export interface Manner {
  readonly language: string;
  readonly force: string;
  readonly imperial: boolean;
}

/** The tree table with `look`, `cut` and `day` beside it, as in a tree file. */
export function treeTables(tree: TreeState): Body {
  const whole: Record<string, Body> = { tree: {} };
  if (tree.name) (whole["tree"] as Body)["name"] = tree.name;
  const withoutLay = layIsContradicted(tree);
  for (const [path, { value }] of tree.readings) {
    if (withoutLay && path === LAY) continue;
    const [section, key] = path.split(".") as [string, string];
    (whole[section] ??= {})[key] = value;
  }
  return whole;
}

/** The kit without what is not in the van today; a tree may have a kit of its own. */
export function kitTables(state: State, tree: TreeState): Body {
  if (tree.kit) return tree.kit;
  const kit: Body = { ...(state.kit ?? {}) };
  const devices = kit["device"];
  if (Array.isArray(devices)) {
    kit["device"] = devices.filter((device) => !state.absent.has(nameOf(device)));
  }
  return kit;
}

function nameOf(device: Json): string {
  const name =
    device !== null && typeof device === "object" && !Array.isArray(device) && device["name"];
  return typeof name === "string" ? name : "";
}

export function requestFor(state: State, tree: TreeState, manner: Manner): Body {
  const profile = state.settings.get("profile");
  return {
    tree: treeTables(tree),
    kit: kitTables(state, tree),
    language: manner.language,
    force: manner.force,
    imperial: manner.imperial,
    ...(typeof profile === "string" && profile ? { profile } : {}),
  };
}
