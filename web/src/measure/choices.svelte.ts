/// What the engine lets a person choose from, asked once a language.
import type { Vocabulary } from "../engine/answers.ts";
import { app } from "../shell/app.svelte.ts";
import type { Species } from "./species.ts";

class Choices {
  species = $state.raw<readonly Species[]>([]);
  vocabulary = $state.raw<Vocabulary | null>(null);
  private language = "";

  /** Call from an effect: it reads the language and whether the engine is there. */
  follow(): void {
    const { language } = app.wishes;
    if (!app.engineReady || language === this.language) return;
    this.language = language;
    void this.ask(language);
  }

  private async ask(language: string): Promise<void> {
    const [species, vocabulary] = [await app.ask("species", {}), await app.ask("vocabulary", {})];
    if (language !== this.language) return;
    if (species.kind === "answer") this.species = species.answer.species;
    if (vocabulary.kind === "answer") this.vocabulary = vocabulary.answer;
  }
}

export const choices = new Choices();
