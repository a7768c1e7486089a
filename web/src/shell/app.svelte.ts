/// The one place that joins journal, engine and screens. It works out nothing itself.
import { startEngine, type Engine, type Fault, type Outcome } from "../engine/engine.ts";
import type { Answer, Question } from "../engine/answers.ts";
import type { Body, Draft, Json, Kind } from "../journal/event.ts";
import { NotKept, type Journal } from "../journal/journal.ts";
import { requestFor, type Manner } from "../journal/request.ts";
import { addUp, emptyState, type State, type TreeState } from "../journal/state.ts";
import { deviceLanguage, speakIn, spoken, t, type Language } from "../words/speak.svelte.ts";

export type Force = "kN" | "t";
export type Bearings = "clock" | "degrees";
export type Paper = "device" | "light" | "dark";

/** How this person wants to read and write; kept as settings in the journal. */
export interface Wishes {
  readonly language: Language;
  readonly imperial: boolean;
  readonly force: Force;
  readonly bearings: Bearings;
  readonly paper: Paper;
}

class App {
  journal = $state.raw<Journal | null>(null);
  state = $state.raw<State>(emptyState());
  /** Why the last entry was not kept, as a sentence; null when all is kept. */
  notKept = $state<string | null>(null);
  /** Set when the engine cannot start or breaks. */
  engineFault = $state<string | null>(null);
  engineReady = $state(false);
  private engine: Engine | null = null;

  readonly wishes: Wishes = $derived.by(() => {
    const settings = this.state.settings;
    const chosen = settings.get("language");
    return {
      language:
        chosen === "en" || chosen === "de"
          ? chosen
          : deviceLanguage(globalThis.navigator.languages),
      imperial: settings.get("units") === "imperial",
      force: settings.get("force") === "t" ? "t" : "kN",
      bearings: settings.get("bearings") === "degrees" ? "degrees" : "clock",
      paper: paperOf(settings.get("paper")),
    };
  });

  start(journal: Journal): void {
    this.journal = journal;
    this.refresh();
    journal.onChange(() => this.refresh());
    this.engine = startEngine();
    this.engine.ready.then(
      () => (this.engineReady = true),
      (error: unknown) => (this.engineFault = String(error)),
    );
  }

  private refresh(): void {
    this.state = addUp(this.journal?.entries() ?? [], this.journal?.device);
    speakIn(this.wishes.language);
  }

  get manner(): Manner {
    const { language, force, imperial } = this.wishes;
    return { language, force, imperial };
  }

  tree(id: string): TreeState | undefined {
    return this.state.trees.get(id);
  }

  /** Keep one entry. False: it was not kept, the reason is shown, and the form still holds it. */
  record(kind: Kind, tree: string | null, body: Body): Promise<boolean> {
    return this.recordAll([{ kind, tree, body }]);
  }

  /** Keep several entries, all or none of them. */
  async recordAll(drafts: readonly Draft[]): Promise<boolean> {
    if (!this.journal) return false;
    try {
      await this.journal.appendAll(drafts);
      this.notKept = null;
      return true;
    } catch (error) {
      this.notKept = t(`screen.not_kept_${error instanceof NotKept ? error.why : "closed"}`);
      return false;
    }
  }

  /** Keep one reading; a null value withdraws it. */
  read(tree: string, path: string, value: Json, typed: string | null, how: string | null = null) {
    return this.record("reading", tree, { path, value, typed, how });
  }

  setting(key: string, value: Json) {
    return this.record("setting", null, { key, value });
  }

  /** The request for a tree as its readings stand, with changes on top: `{ draws: 128, bare: true }`. */
  request(tree: TreeState, changes: Body = {}): Body {
    return { ...requestFor(this.state, tree, this.manner), ...changes };
  }

  /** Ask the engine. Of questions in one lane only the newest is answered. */
  async ask<Q extends Question>(
    question: Q,
    request: Body,
    lane?: string,
  ): Promise<Outcome<Answer<Q>>> {
    if (!this.engine) throw new Error("asked before the start");
    try {
      return await this.engine.ask<Answer<Q>>(question, { ...this.manner, ...request }, lane);
    } catch (error) {
      this.engineFault = String(error);
      const fault: Fault = {
        file: "",
        row: null,
        field: "",
        value: "",
        rule: "",
        remedy: "",
        code: "engine",
        text: t("screen.engine_broken"),
      };
      return { kind: "faults", faults: [fault] };
    }
  }
}

function paperOf(value: Json | undefined): Paper {
  return value === "light" || value === "dark" ? value : "device";
}

export const app = new App();
export { spoken, t };
