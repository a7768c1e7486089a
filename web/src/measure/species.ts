/// Finding a species by what a person types: any of its names, accents and case left aside.
import type { SpeciesList } from "../engine/answers.ts";

export type Species = SpeciesList["species"][number];

const SPELLED: Readonly<Record<string, string>> = { ä: "ae", ö: "oe", ü: "ue", ß: "ss" };

function letters(text: string): string {
  return text.normalize("NFKD").replace(/[^\p{L}\p{N}]/gu, "");
}

/** "Küstentanne" is found by "kuesten" and by "kusten". */
function foldings(text: string): [string, string] {
  const lower = text.normalize("NFC").toLowerCase();
  return [letters(lower.replace(/[äöüß]/g, (one) => SPELLED[one] ?? one)), letters(lower)];
}

function namesOf(species: Species): string[] {
  return [species.name, ...species.other, ...(species.latin === null ? [] : [species.latin])];
}

/** A class of wood stands for species that nobody can name; it has no Latin name. */
export function isClass(species: Species): boolean {
  return species.latin === null;
}

/** Those whose name begins with what was typed, then those that hold it; classes last. */
export function matching(all: readonly Species[], typed: string): Species[] {
  const wanted = foldings(typed);
  const rank = (species: Species): number => {
    const folded = namesOf(species).flatMap(foldings);
    if (folded.some((name) => wanted.some((one) => name.startsWith(one)))) return 0;
    return folded.some((name) => wanted.some((one) => name.includes(one))) ? 1 : 2;
  };
  const ranked = all.map((species) => ({
    species,
    rank: rank(species),
    last: isClass(species) ? 1 : 0,
  }));
  return ranked
    .filter((one) => one.rank < 2)
    .sort((a, b) => a.last - b.last || a.rank - b.rank)
    .map((one) => one.species);
}

/** The species that a reading names, by its key or by any of its names; undefined: not in the list. */
export function namedBy(all: readonly Species[], value: string): Species | undefined {
  const wanted = foldings(value)[0];
  return all.find((species) =>
    [species.key, ...namesOf(species)].some((name) => foldings(name)[0] === wanted),
  );
}

/** The next place in a list of so many, round and round; from -1 the first or the last. */
export function stepped(at: number, by: 1 | -1, count: number): number {
  if (count === 0) return -1;
  if (at < 0) return by === 1 ? 0 : count - 1;
  return (at + by + count) % count;
}
