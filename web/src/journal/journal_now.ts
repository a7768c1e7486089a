/// How the journal stands after its newest change. The journal itself stays one and the same: a
/// screen that shows this asks again whenever the state is a new one.
import type { Journal, Keeping, Trouble } from "./journal.ts";
import type { State } from "./state.ts";

export interface JournalNow {
  readonly keeping: Keeping;
  readonly trouble: Trouble | null;
  readonly clockWentBack: boolean;
  readonly count: number;
  readonly damaged: number;
  readonly broughtBack: number;
  readonly clashes: number;
  /** Entries of a kind that this version does not know. */
  readonly unknown: number;
}

export function journalNow(journal: Journal | null, state: State): JournalNow {
  return {
    keeping: journal?.keeping ?? "memory only",
    trouble: journal?.trouble ?? null,
    clockWentBack: journal?.clockWentBack ?? false,
    count: journal?.entries().length ?? 0,
    damaged: journal?.damaged ?? 0,
    broughtBack: journal?.broughtBack ?? 0,
    clashes: journal?.clashes ?? 0,
    unknown: state.unknown,
  };
}
