/// The plan of the tree on the screen: a quick verdict at once, the whole answer when it is there.
import type { Fault } from "../engine/engine.ts";
import type { PictureName, Sheet } from "../engine/answers.ts";
import type { Body } from "../journal/event.ts";
import { app } from "./app.svelte.ts";

const PICTURES: PictureName[] = ["tipping", "stump"];

class PlanOnScreen {
  /** Newest answer to the readings as they stand; null while there is none. */
  sheet = $state.raw<Sheet | null>(null);
  faults = $state.raw<readonly Fault[]>([]);
  /** True once helps, envelope, measure next and pictures are in the sheet. */
  whole = $state(false);
  /** True while readings have changed and the answer to them is not here. */
  stale = $state(true);
  private tree = "";
  private asked = "";

  /** Follow one tree; call from an effect, it reads the journal's state. */
  follow(id: string): void {
    if (id !== this.tree) {
      this.tree = id;
      this.asked = "";
      this.sheet = null;
      this.faults = [];
      this.whole = false;
    }
    const tree = app.tree(id);
    if (!tree || !app.engineReady) return;
    const request = app.request(tree);
    const asked = JSON.stringify(request);
    if (asked === this.asked) return;
    this.asked = asked;
    this.stale = true;
    void this.answer(request, asked);
  }

  private async answer(request: Body, asked: string): Promise<void> {
    for (const changes of [{ bare: true }, { pictures: PICTURES }]) {
      const outcome = await app.ask("sheet", { ...request, ...changes }, "sheet");
      if (asked !== this.asked || outcome.kind === "superseded") return;
      this.faults = outcome.kind === "faults" ? outcome.faults : [];
      this.sheet = outcome.kind === "answer" ? outcome.answer : null;
      this.stale = false;
      this.whole = outcome.kind === "answer" && !("bare" in changes);
      if (outcome.kind === "faults") return;
    }
  }
}

export const plan = new PlanOnScreen();
