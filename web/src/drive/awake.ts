/// Keeps the screen lit while a wedge is driven, where the browser can.

export type Awake =
  /** Not answered yet. */
  | "asked"
  | "held"
  /** The browser has no such thing. */
  | "absent"
  /** The phone said no, or took it back. */
  | "refused";

export interface Lock {
  readonly released: boolean;
  release(): Promise<void>;
  addEventListener(kind: "release", listener: () => void): void;
}

export interface Screen {
  readonly wakeLock: { request(kind: "screen"): Promise<Lock> } | undefined;
  readonly page: Pick<Document, "visibilityState" | "addEventListener" | "removeEventListener">;
}

/** The phone's own screen. */
export function thisScreen(): Screen {
  const { wakeLock } = navigator as { readonly wakeLock?: Screen["wakeLock"] };
  return { wakeLock, page: document };
}

/** Ask now and whenever the page is in sight again; the answer ends it. */
export function keepAwake(tell: (how: Awake) => void, screen: Screen): () => void {
  const { wakeLock, page } = screen;
  if (!wakeLock) {
    tell("absent");
    return () => undefined;
  }
  let lock: Lock | null = null;
  let over = false;
  let asking = false;
  const ask = async () => {
    if (over || asking || page.visibilityState !== "visible" || lock?.released === false) return;
    asking = true;
    try {
      const got = await wakeLock.request("screen");
      if (over) return void got.release();
      lock = got;
      got.addEventListener("release", () => {
        if (!over) tell("refused");
      });
      tell("held");
    } catch {
      if (!over) tell("refused");
    } finally {
      asking = false;
    }
  };
  const seen = () => void ask();
  page.addEventListener("visibilitychange", seen);
  void ask();
  return () => {
    over = true;
    page.removeEventListener("visibilitychange", seen);
    void lock?.release();
  };
}
