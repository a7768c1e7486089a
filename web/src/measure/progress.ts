/// How far the measuring has come: seven inputs to a first verdict, five answers of the look.
import type { TreeState } from "../journal/state.ts";
import { bearingIn } from "./bearing.ts";
import { entriesOf, LEAN, numberText } from "./lists.ts";
import { PART, takenOf, TREE } from "./quantities.ts";

export const INPUTS = [
  "species",
  "dbh",
  "height",
  "stump",
  "lay",
  "lean_offset",
  "lean_toward",
] as const;
export type Input = (typeof INPUTS)[number];

export const LOOK = [
  "sound",
  "clear_overhead",
  "no_conductor_in_reach",
  "ring_clear",
  "ways_out",
] as const;
export type LookItem = (typeof LOOK)[number];

type Readings = Pick<TreeState, "readings">;

/** Inputs that are not taken yet, in the order of the screen. */
export function inputsOpen(tree: Readings): Input[] {
  const leans = entriesOf(tree, LEAN);
  const taken: Record<Input, boolean> = {
    species: tree.readings.has("tree.species"),
    dbh: takenOf(tree, TREE.dbh) !== null,
    height: takenOf(tree, TREE.height) !== null,
    stump: takenOf(tree, TREE.stump) !== null,
    lay: takenOf(tree, TREE.lay) !== null,
    lean_offset: leans.some((entry) => numberText(entry, PART.offset, "en") !== null),
    lean_toward: leans.some((entry) => bearingIn(entry, "toward") !== null),
  };
  return INPUTS.filter((input) => !taken[input]);
}

export function lookOpen(tree: Readings): LookItem[] {
  return LOOK.filter((item) => !tree.readings.has(`look.${item}`));
}

export interface Progress {
  readonly taken: number;
  readonly of: number;
  readonly looked: number;
  readonly looks: number;
}

export function progressOf(tree: Readings): Progress {
  return {
    taken: INPUTS.length - inputsOpen(tree).length,
    of: INPUTS.length,
    looked: LOOK.length - lookOpen(tree).length,
    looks: LOOK.length,
  };
}

/** How many of some paths hold a reading, whatever the unit: shown at a fold that is shut. */
export function countTaken(tree: Readings, stems: readonly string[]): number {
  return stems.filter((stem) =>
    [...tree.readings.keys()].some((path) => path === stem || path.startsWith(`${stem}_`)),
  ).length;
}
