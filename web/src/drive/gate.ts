/// Whether the last look is offered, and if not, why: only where the engine shows marks.
import type { Sheet } from "../engine/answers.ts";
import type { Fault } from "../engine/engine.ts";

export type Gate =
  | { readonly open: true; readonly sheet: Sheet }
  | {
      readonly open: false;
      readonly why: "broken" | "working" | "faults" | "no marks";
      /** Word of the verdict that shows no marks. */
      readonly verdict: string;
      readonly said: readonly string[];
    };

export interface PlanNow {
  readonly sheet: Sheet | null;
  readonly faults: readonly Fault[];
  readonly whole: boolean;
  readonly stale: boolean;
}

/** Marks come with the whole answer only; until it is here nothing is offered. */
export function gateOf(plan: PlanNow, engineBroken: boolean): Gate {
  const shut = { open: false, verdict: "", said: [] } as const;
  if (engineBroken) return { ...shut, why: "broken" };
  if (plan.stale) return { ...shut, why: "working" };
  if (plan.faults.length > 0) {
    return { ...shut, why: "faults", said: plan.faults.map(({ text }) => text) };
  }
  const { sheet } = plan;
  if (!sheet || !plan.whole) return { ...shut, why: "working" };
  if (sheet.shown.cut) return { open: true, sheet };
  const said = sheet.tip.reasons.map(({ text }) => text);
  return { ...shut, why: "no marks", verdict: sheet.shown.verdict, said };
}
