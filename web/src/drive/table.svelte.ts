/// The driving table of the tree on the screen, for its readings as they stand.
import type { DriveTable } from "../engine/answers.ts";
import type { Fault } from "../engine/engine.ts";
import type { TreeState } from "../journal/state.ts";
import { app } from "../shell/app.svelte.ts";

export class TableOnScreen {
  table = $state.raw<DriveTable | null>(null);
  faults = $state.raw<readonly Fault[]>([]);
  private asked = "";

  /** Call from an effect: it reads the journal's state. */
  follow(tree: TreeState): void {
    if (!app.engineReady) return;
    const request = app.request(tree);
    const asked = JSON.stringify(request);
    if (asked === this.asked) return;
    this.asked = asked;
    this.table = null;
    this.faults = [];
    void app.ask("drive", request, "drive").then((outcome) => {
      if (asked !== this.asked || outcome.kind === "superseded") return;
      if (outcome.kind === "faults") this.faults = outcome.faults;
      else this.table = outcome.answer;
    });
  }
}
