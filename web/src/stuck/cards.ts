/// The three cards as the app holds them: they come up while the engine is still loading, or broken.
/// Which sentence stands where is `planning/stuck_cards.py`'s; a test holds the two alike.

export const NAMES = ["does not go", "hung", "pinched bar"] as const;
export type Name = (typeof NAMES)[number];

export interface Card {
  readonly title: string;
  readonly never: readonly string[];
  readonly now: readonly string[];
  readonly who: readonly string[];
}

/** Keys in the area `screen_stuck` of the catalogue. */
export const CARDS: Readonly<Record<Name, Card>> = {
  "does not go": {
    title: "goes_title",
    never: ["goes_never_saw", "goes_never_ahead", "goes_never_stop", "never_unmarked"],
    now: ["goes_now_back", "goes_now_wedge", "goes_now_line"],
    who: ["who_decides", "who_helpers", "who_rope"],
  },
  hung: {
    title: "hung_title",
    never: [
      "hung_never_climb",
      "hung_never_holder",
      "hung_never_another",
      "hung_never_under",
      "never_unmarked",
    ],
    now: ["hung_now_out", "hung_now_look", "hung_now_means"],
    who: ["who_decides", "hung_who_watch", "who_rope", "who_helpers"],
  },
  "pinched bar": {
    title: "bar_title",
    never: ["bar_never_tear", "bar_never_second", "bar_never_loose", "never_unmarked"],
    now: ["bar_now_off", "bar_now_open", "bar_now_leave"],
    who: ["bar_who_one", "hung_who_watch", "who_helpers"],
  },
};
