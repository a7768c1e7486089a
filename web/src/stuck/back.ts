/// Where one came from: only a place of this app, and the tree that it is about.

const TREE = /^#\/tree\/([^/]+)/;

/** The way back; anything that is no place of this app leads to the trees. */
export function wayBack(back: string): string {
  return back.startsWith("#/") ? back : "#/";
}

/** Id of the tree one came from. */
export function treeOf(back: string): string | null {
  const id = TREE.exec(back)?.[1];
  if (id === undefined) return null;
  try {
    return decodeURIComponent(id);
  } catch {
    return null;
  }
}
