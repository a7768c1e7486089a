/// Shapes of the engine's answers, as far as a screen reads them; the schemas lie in the Python package.
import type { Json } from "../journal/event.ts";
import type { DriveTable, KitForm, StuckAnswer, StumpAnswer } from "./work_answers.ts";

export type * from "./work_answers.ts";

export interface Band {
  readonly p10: number | null;
  readonly p50: number | null;
  readonly p90: number | null;
}

export type Verdict = "ADDS UP" | "TIGHT" | "LINE" | "LEAVE" | "MEASURE";

export interface Said {
  readonly code: string;
  readonly text: string;
}

export interface Assumed {
  readonly name: string;
  readonly value: string;
  readonly mark: string;
  readonly reason: string;
  readonly not_read: boolean;
}

export interface Help {
  readonly code: string;
  readonly verdict: Verdict;
  readonly text: string;
}

export interface Tip {
  readonly tree: string | null;
  readonly lay_deg: number | null;
  readonly verdict: Verdict;
  readonly if_clear: Verdict;
  readonly reasons: readonly Said[];
  readonly conditions: readonly string[];
  readonly lift_mm: { readonly balance: Band; readonly let_go: Band } | null;
  readonly hinge: {
    readonly thickness_mm: number;
    readonly width_mm: number;
    readonly proposed: boolean;
  } | null;
  readonly notch: {
    readonly share: number;
    readonly depth_mm: number;
    readonly opening_deg: number;
    readonly height_mm: number | null;
    readonly proposed: boolean;
  } | null;
  readonly marks: readonly { readonly name: string; readonly from_front_mm: number }[];
  readonly cut: {
    readonly method: string;
    readonly step_mm: number;
    readonly release_step_mm: number | null;
    readonly bar_room_mm: number | null;
    readonly preload_kn: number | null;
    readonly sequence: readonly string[];
  } | null;
  readonly turns: {
    readonly bed_in: number;
    readonly balance: Band;
    readonly let_go: Band;
    readonly stop: number;
    readonly leave_stump_by: number;
    readonly seconds: readonly [number, number];
    readonly energy_wh: readonly [number, number];
  } | null;
  readonly choice: { readonly name: string; readonly kind: string } | null;
  readonly line: readonly { readonly purpose: string; readonly text: string }[];
  readonly measure_next: {
    readonly reading: string;
    readonly how: string;
    readonly text: string;
  } | null;
  readonly helps: readonly Help[];
  readonly envelope: { readonly text: string | null } | null;
  readonly cautions: readonly Said[];
  readonly profile: string | null;
  readonly practice: readonly {
    readonly clause: string;
    readonly text: string;
    readonly status: string;
    readonly force: string;
  }[];
  readonly assumed: readonly Assumed[];
}

export interface NeedRow {
  readonly key: string;
  readonly name: string;
  readonly p10: string;
  readonly p50: string;
  readonly p90: string;
  readonly unit: string;
}

export interface DeviceRow {
  readonly name: string;
  readonly lift: string;
  readonly push: string;
  readonly verdict: string;
  readonly limit: string;
  readonly reason: string;
  readonly gives: boolean;
}

/** Need against have on one axis: every figure a share of its length. */
export interface Bar {
  readonly heading: string;
  readonly name: string;
  readonly unit: string;
  readonly need: readonly [number, number, number];
  readonly need_text: string;
  readonly have: readonly [number, number, number] | null;
  readonly have_text: string;
  readonly ticks: readonly (readonly [number, string])[];
}

/** The cutting part as strings in the units chosen. */
export interface ShownCut {
  readonly line: string;
  readonly marks: readonly { readonly at: string; readonly name: string }[];
  readonly bar_room: string | null;
  readonly turns: string | null;
  readonly drive: string | null;
}

/** Sizes of the cut one by one, with their units. */
export interface CutSizes {
  readonly method: string;
  readonly hinge: string;
  readonly hinge_width: string;
  readonly hinge_proposed: boolean;
  readonly notch: string;
  readonly opening: string;
  readonly notch_proposed: boolean;
  readonly step: string;
  readonly release: string | null;
  readonly bar_room: string | null;
  readonly preload: string | null;
}

/** One reading that can be tried: its steps in the unit of its path, with their words. */
export interface Slider {
  readonly path: string;
  readonly least: number;
  readonly most: number;
  readonly step: number;
  /** As planned, which need not be a whole step. */
  readonly now: number;
  /** The step nearest to now. */
  readonly at: number;
  readonly values: readonly number[];
  readonly labels: readonly string[];
  readonly typed: readonly string[];
}

export interface Sliders {
  readonly hinge: Slider;
  readonly notch: Slider;
}

export interface Sheet {
  /** Version of the engine. */
  readonly engine: string;
  readonly tip: Tip;
  /** Name of the practice profile as a person reads it. */
  readonly profile: string | null;
  /** Null where no cut is shown, and in a bare answer. */
  readonly sizes: CutSizes | null;
  /** Null where the verdict may show no cutting figures. */
  readonly sliders: Sliders | null;
  /** By row of `need`: the figure to ask `why` for. */
  readonly whys: Readonly<Record<string, string>>;
  readonly shown: {
    readonly verdict: string;
    readonly shape: string;
    readonly if_clear: string | null;
    readonly choice: string | null;
    readonly need: readonly NeedRow[];
    readonly devices: readonly DeviceRow[];
    readonly cut: ShownCut | null;
    readonly lift_unit: string;
    readonly force_unit: string;
  };
  readonly bars: readonly Bar[];
  /** SVG. */
  readonly shape: string;
  readonly pictures: Readonly<Partial<Record<PictureName, string>>>;
}

export type PictureName = "tipping" | "need-have" | "stump" | "push-lift";

export interface Why {
  readonly name: string;
  readonly device: string | null;
  readonly value: { readonly p10: string; readonly p50: string; readonly p90: string };
  readonly middle: string;
  /** Where the middle lies on the axis of the sensitivities; null where nothing moves it. */
  readonly middle_share: number | null;
  readonly formula: string;
  readonly inputs: readonly {
    readonly name: string;
    readonly value: string;
    readonly sigma: string | null;
  }[];
  readonly sources: readonly {
    readonly name: string;
    readonly value: string;
    readonly mark: string;
    readonly source: string;
  }[];
  readonly sensitivity: readonly {
    readonly name: string;
    readonly low: string;
    readonly high: string;
    readonly shares: readonly [number | null, number | null];
  }[];
}

export interface SpeciesList {
  readonly species: readonly {
    readonly key: string;
    readonly name: string;
    readonly other: readonly string[];
    readonly latin: string | null;
  }[];
}

export interface SightAnswer {
  readonly values: { readonly [key: string]: Json };
  /** One sigma of each value, in its unit. */
  readonly errors: { readonly [key: string]: number };
  readonly text: string;
  /** Sentences: what the error is made of. */
  readonly errors_from: readonly string[];
  readonly cautions: readonly string[];
}

/** A word as a file takes it, and what a person calls it. */
export interface Word {
  readonly word: string;
  readonly name: string;
}

export interface Vocabulary {
  readonly defects: readonly Word[];
  readonly flare: readonly Word[];
  readonly methods: readonly Word[];
  readonly how: readonly Word[];
  readonly profiles: readonly { readonly name: string; readonly title: string }[];
}

export interface NotchAnswer {
  readonly correction_cm: number | null;
  readonly deepen: "left" | "right" | null;
  readonly text: string;
  readonly cautions: readonly string[];
}

interface Answers {
  sheet: Sheet;
  tip: Tip;
  why: Why;
  species: SpeciesList;
  vocabulary: Vocabulary;
  sight: SightAnswer;
  stuck: StuckAnswer;
  notch: NotchAnswer;
  drive: DriveTable;
  stump: StumpAnswer;
  bundle: {
    readonly events: readonly Json[];
    readonly clashes: readonly Json[];
    readonly unknown_kinds: number;
  };
  kit_form: KitForm;
  kit: {
    readonly kit: { [key: string]: Json };
    readonly devices: readonly { readonly name: string; readonly kind: string }[];
  };
}
export type Question = keyof Answers;
export type Answer<Q extends Question> = Answers[Q];
