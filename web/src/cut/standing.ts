/// Whether there are marks to show: a quick answer has none yet, and many verdicts never have.
import type { Sheet } from "../engine/answers.ts";

export type Standing = "marks" | "working" | "none";

export function standingOf(sheet: Sheet, whole: boolean): Standing {
  if (sheet.shown.cut && sheet.sizes) return "marks";
  return !whole && sheet.sliders !== null ? "working" : "none";
}
