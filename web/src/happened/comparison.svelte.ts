/// Predicted against real for the form as it stands.
import type { StumpAnswer } from "../engine/answers.ts";
import type { Fault } from "../engine/engine.ts";
import type { Body } from "../journal/event.ts";
import { app, t } from "../shell/app.svelte.ts";

export class Comparison {
  answer = $state.raw<StumpAnswer | null>(null);
  faults = $state.raw<readonly Fault[]>([]);
  /** True while the form has changed and the answer to it is not here. */
  stale = $state(true);
  private asked = "";

  /** Call from an effect; the request holds the entries as `stump`. */
  follow(request: Body): void {
    if (!app.engineReady) return;
    const asked = JSON.stringify(request);
    if (asked === this.asked) return;
    this.asked = asked;
    this.stale = true;
    void app.ask("stump", request, "stump").then((outcome) => {
      if (asked !== this.asked || outcome.kind === "superseded") return;
      this.faults = outcome.kind === "faults" ? outcome.faults : [];
      if (outcome.kind === "answer") this.answer = outcome.answer;
      this.stale = outcome.kind !== "answer";
    });
  }

  /** What was found wrong with one entry. */
  faultAt(key: string): string {
    const fault = this.faults.find(({ field }) => field === `stump.${key}`);
    if (!fault) return "";
    const { value, rule, remedy } = fault;
    return value === "" ? remedy : t("screen_happened.fault", { value, rule, remedy });
  }

  /** Faults of tree, kit or rules: no entry of this form is to blame. */
  get elsewhere(): readonly Fault[] {
    return this.faults.filter(({ field }) => !field.startsWith("stump."));
  }

  get hasFaultHere(): boolean {
    return this.elsewhere.length < this.faults.length;
  }
}
