/// Where on this screen a fault of the engine is shown: at the field it is about, else on top.
import type { Fault } from "../engine/engine.ts";
import { isAbout, TREE, type Quantity } from "./quantities.ts";

/** Fields that are no plain number, by how the path of their faults begins. */
const OTHERS = [
  "tree.species",
  "tree.lean",
  "tree.flare",
  "tree.defects",
  "tree.crown_shift",
  "tree.conductor",
  "cut.method",
  "cut.preload",
  "day.wind_from",
  "look.sound",
  "look.clear_overhead",
  "look.no_conductor_in_reach",
  "look.ring_clear",
  "look.ways_out",
] as const;
export type Other = (typeof OTHERS)[number];

/** Faults of a list, of an entry of it or of a key in an entry; of a key with its unit. */
function begins(field: string, with_: string): boolean {
  return field.startsWith(with_) && /^($|[.[_])/.test(field.slice(with_.length));
}

export function faultsOf(faults: readonly Fault[], at: Quantity | Other): Fault[] {
  return faults.filter(({ field }) =>
    typeof at === "string" ? begins(field, at) : isAbout(field, at),
  );
}

/** Faults that no field of this screen shows. */
export function faultsOnTop(faults: readonly Fault[]): Fault[] {
  const shown = [...Object.values(TREE), ...OTHERS];
  const atFields = new Set(shown.flatMap((at) => faultsOf(faults, at)));
  return faults.filter((fault) => !atFields.has(fault));
}

/** Faults about one entry of a list (the engine counts from 1); null: about the list as a whole. */
export function faultsOfEntry(faults: readonly Fault[], index: number | null): Fault[] {
  return faults.filter(({ field }) => {
    const found = /\[(\d+)\]/.exec(field);
    return (found ? Number(found[1]) - 1 : null) === index;
  });
}
