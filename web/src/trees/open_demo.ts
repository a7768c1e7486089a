/// Opens the demo tree; the first time it is put into the journal, whole or not at all.
import { app } from "../shell/app.svelte.ts";
import { address } from "../shell/route.svelte.ts";
import { DEMO_TREE, demoDrafts } from "./demo.ts";

let loading: Promise<boolean> | null = null;

/** Go to the demo tree's verdict. Called twice it is still loaded once. */
export async function openDemo(): Promise<void> {
  if (!app.tree(DEMO_TREE)) {
    loading ??= app.recordAll(demoDrafts());
    const isKept = await loading;
    loading = null;
    if (!isKept) return;
  }
  const to = address({ at: "tree", tree: DEMO_TREE, question: "tip" });
  // An address that only loads something must not lie on the way back.
  if (location.hash === "#/demo") location.replace(to);
  else location.hash = to;
}
