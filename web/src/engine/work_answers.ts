/// Shapes of the answers while the tree is worked on: stop cards, driving, stump record.
import type { Said } from "./answers.ts";

export interface StuckCard {
  readonly key: string;
  readonly title: string;
  readonly never: readonly string[];
  readonly now: readonly string[];
  readonly who: readonly string[];
  readonly line?: readonly string[];
}

export interface StuckAnswer {
  readonly cards: readonly StuckCard[];
  /** Why no line is told. */
  readonly note: string | null;
}

export interface DriveRow {
  /** Null where openings are counted. */
  readonly turns: number | null;
  readonly opening: string;
  readonly stage: string;
  /** Driven from the pull point. */
  readonly remote: boolean;
  readonly text: string;
}

/** Without rows nothing is driven, and the text says why. */
export interface DriveTable {
  readonly device: string | null;
  readonly unit: "turns" | "mm" | null;
  readonly rows: readonly DriveRow[];
  readonly stages: readonly {
    readonly key: string;
    readonly name: string;
    readonly at: string;
    readonly band: string;
    readonly note: string | null;
  }[];
  readonly leave_by: number | null;
  readonly leave_by_text: string | null;
  readonly stop: number | null;
  readonly text: string;
}

export interface StumpRow {
  readonly key: string;
  readonly name: string;
  readonly predicted: { readonly p10: number; readonly p50: number; readonly p90: number } | null;
  readonly planned: number | null;
  readonly real: number | null;
  readonly shown: {
    readonly unit: string;
    readonly p10: string | null;
    readonly p50: string | null;
    readonly p90: string | null;
    readonly planned: string | null;
    readonly real: string | null;
  };
  readonly place: "in" | "below" | "above" | null;
  readonly text: string;
}

/** Predicted against real, and what to look at before the next tree. */
export interface StumpAnswer {
  readonly device: string | null;
  readonly rows: readonly StumpRow[];
  readonly lay: { readonly text: string } | null;
  readonly flags: readonly Said[];
  readonly notes: readonly string[];
}

export interface KitField {
  readonly key: string;
  readonly label: string;
  readonly unit: string;
  readonly entry: "number" | "pair" | "list" | "choice" | "text";
  readonly required: boolean;
  readonly words: readonly { readonly word: string; readonly name: string }[];
}

export interface KitSection {
  readonly key: string;
  readonly title: string;
  /** True where a van has one at most. */
  readonly single: boolean;
  readonly fields: readonly KitField[];
}

export interface KitForm {
  readonly sections: readonly KitSection[];
  readonly kinds: readonly {
    readonly word: string;
    readonly name: string;
    readonly keys: readonly string[];
    readonly required: readonly string[];
  }[];
}
