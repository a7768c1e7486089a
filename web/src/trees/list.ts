/// The list of trees: which come first, which are searched for, what is said of each.
import type { State, TreeStanding, TreeState } from "../journal/state.ts";
import type { Question } from "../shell/route.svelte.ts";
import { DEMO_TREE } from "./demo.ts";

export const STANDINGS: readonly TreeStanding[] = [
  "marked",
  "looked at",
  "carded",
  "loaded",
  "down",
  "hung",
  "left",
];
/** With more trees than this on the phone one wants to search. */
export const SEARCHED_FROM = 9;

const VERDICTS = ["ADDS UP", "TIGHT", "LINE", "LEAVE", "MEASURE"] as const;

/** A tree that is half cut or lodged: nobody may come near, it comes before all others. */
export function isUrgent(tree: TreeState): boolean {
  return tree.standing === "loaded" || tree.standing === "hung";
}

function rank(tree: TreeState): number {
  if (isUrgent(tree)) return 0;
  return tree.standing === "down" || tree.standing === "left" ? 2 : 1;
}

/** What one asks next of a tree that stands so. */
export function nextQuestion(tree: TreeState): Question {
  switch (tree.standing) {
    case "carded":
      return "tip";
    case "loaded":
      return "drive";
    case "down":
      return "happened";
    default:
      return "measure";
  }
}

/** Urgent ones first, those that are done with last, else the one worked on last before the others. */
export function listed(trees: Iterable<TreeState>): TreeState[] {
  return [...trees].sort((a, b) => rank(a) - rank(b) || (a.newest > b.newest ? -1 : 1));
}

/** Trees in whose name every word typed occurs. */
export function matching(trees: readonly TreeState[], typed: string): TreeState[] {
  const wanted = folded(typed).split(/\s+/).filter(Boolean);
  return trees.filter((tree) => wanted.every((word) => folded(tree.name).includes(word)));
}

function folded(text: string): string {
  return text.normalize("NFKC").toLowerCase();
}

/** Name for the next tree: one number on from the tree named last, past every number taken. */
export function nextName(trees: Iterable<TreeState>): string {
  const own = [...trees].filter((tree) => tree.id !== DEMO_TREE);
  const last = own.reduce<TreeState | null>(
    (found, tree) => (found === null || tree.newest > found.newest ? tree : found),
    null,
  );
  const before = last === null ? "" : numbered(last.name).before;
  const taken = own
    .map((tree) => numbered(tree.name))
    .filter((name) => name.before === before)
    .map((name) => name.number);
  return `${before}${Math.max(0, ...taken) + 1}`;
}

function numbered(name: string): { before: string; number: number } {
  const [, before, digits] = /^(.*?)(\d{1,9})$/.exec(name) ?? [];
  if (digits !== undefined) return { before: before ?? "", number: Number(digits) };
  return { before: name === "" ? "" : `${name} `, number: 0 };
}

export interface PlanSaid {
  readonly verdict: (typeof VERDICTS)[number];
  readonly at: string;
}

/**
 * The verdict kept last, with its time. Null where there is none, and where a reading or the van
 * has changed since: an old word is no word on this tree.
 */
export function planSaid(tree: TreeState, state: State): PlanSaid | null {
  const plan = tree.latest.get("plan");
  if (!plan || plan.id < tree.restsOn || (!tree.kit && plan.id < state.restsOn)) return null;
  const verdict = VERDICTS.find((known) => known === plan.body["verdict"]);
  return verdict ? { verdict, at: plan.at } : null;
}

/** Date and time of an entry as they are written in a language; empty where it has none. */
export function timeShown(at: string, language: string): string {
  const time = Date.parse(at);
  if (Number.isNaN(time)) return "";
  const shape = { dateStyle: "medium", timeStyle: "short" } as const;
  return new Intl.DateTimeFormat(language === "en" ? "en-GB" : language, shape).format(time);
}
