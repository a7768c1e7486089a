/// Where in the app one is, kept behind the # of the address: it works from any folder and offline.

export const QUESTIONS = ["measure", "tip", "cut", "drive", "happened"] as const;
export type Question = (typeof QUESTIONS)[number];

export type Place =
  | { readonly at: "trees" }
  /** The example tree, made if it is not there. */
  | { readonly at: "demo" }
  | { readonly at: "settings" }
  | { readonly at: "stuck"; readonly back: string }
  | { readonly at: "tree"; readonly tree: string; readonly question: Question };

function parse(hash: string): Place {
  const [first, second, third] = hash.replace(/^#\/?/, "").split("/").map(decodeURIComponent);
  if (first === "settings") return { at: "settings" };
  if (first === "demo") return { at: "demo" };
  if (first === "stuck") return { at: "stuck", back: second ?? "" };
  if (first === "tree" && second) {
    const question = QUESTIONS.find((known) => known === third) ?? "measure";
    return { at: "tree", tree: second, question };
  }
  return { at: "trees" };
}

let place = $state.raw<Place>(parse(location.hash));
addEventListener("hashchange", () => (place = parse(location.hash)));

export function here(): Place {
  return place;
}

export function address(to: Place): string {
  if (to.at === "tree") return `#/tree/${encodeURIComponent(to.tree)}/${to.question}`;
  if (to.at === "stuck") return `#/stuck/${encodeURIComponent(to.back)}`;
  return to.at === "trees" ? "#/" : `#/${to.at}`;
}

export function go(to: Place): void {
  location.hash = address(to);
}

/** The stop cards, with the way back to where one was. */
export function stuckAddress(): string {
  return place.at === "stuck" ? location.hash : address({ at: "stuck", back: location.hash });
}
