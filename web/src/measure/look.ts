/// The five answers of the look: what a tap writes, and what stands there already.
import type { Json } from "../journal/event.ts";
import type { Reading } from "../journal/state.ts";
import type { LookItem } from "./progress.ts";

/** Not looked is no reading; it is never yes and never no. */
export type Answer = "yes" | "no" | "none" | "one" | "two" | "not_looked";

export const FLAG_ANSWERS = ["yes", "no", "not_looked"] as const;
export const WAYS_ANSWERS = ["none", "one", "two", "not_looked"] as const;

const WRITTEN: Readonly<Record<Answer, Json>> = {
  yes: true,
  no: false,
  none: 0,
  one: 1,
  two: 2,
  not_looked: null,
};

export function answersTo(item: LookItem): readonly Answer[] {
  return item === "ways_out" ? WAYS_ANSWERS : FLAG_ANSWERS;
}

export function valueOf(answer: Answer): Json {
  return WRITTEN[answer];
}

/** The tap that stands; null where something stands that no tap writes. */
export function answerOf(reading: Reading | undefined): Answer | null {
  const value = reading?.value ?? null;
  if (typeof value === "number" && Number.isInteger(value) && value > 2) return "two";
  return (Object.keys(WRITTEN) as Answer[]).find((answer) => WRITTEN[answer] === value) ?? null;
}
