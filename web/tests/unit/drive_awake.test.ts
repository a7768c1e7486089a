import { describe, expect, test } from "vitest";
import { keepAwake, type Awake, type Lock, type Screen } from "../../src/drive/awake.ts";

function faked({ refuse = false } = {}) {
  const told: Awake[] = [];
  const locks: { released: boolean; lose: () => void }[] = [];
  let seen: (() => void) | null = null;
  const page = {
    visibilityState: "visible" as DocumentVisibilityState,
    addEventListener: (_: string, listener: () => void) => (seen = listener),
    removeEventListener: () => (seen = null),
  };
  const wakeLock = {
    request: async () => {
      if (refuse) throw new Error("low battery");
      const listeners: (() => void)[] = [];
      const lock = {
        released: false,
        lose: () => {
          lock.released = true;
          listeners.forEach((listener) => listener());
        },
        release: async () => lock.lose(),
        addEventListener: (_: "release", listener: () => void) => void listeners.push(listener),
      };
      locks.push(lock);
      return lock as Lock;
    },
  };
  const show = async (state: DocumentVisibilityState) => {
    page.visibilityState = state;
    seen?.();
    await Promise.resolve();
    await Promise.resolve();
  };
  const screen = { wakeLock, page } as unknown as Screen;
  return { told, locks, screen, show, tell: (how: Awake) => told.push(how), isHeard: () => !!seen };
}

describe("the screen while driving", () => {
  test("is kept awake, taken back when out of sight, and asked for again", async () => {
    const { told, locks, screen, show, tell } = faked();
    keepAwake(tell, screen);
    await show("visible");
    expect(told).toEqual(["held"]);
    expect(locks).toHaveLength(1);
    await show("hidden");
    locks[0]?.lose();
    await show("visible");
    expect(told).toEqual(["held", "refused", "held"]);
    expect(locks).toHaveLength(2);
  });

  test("is let go at the end, and nothing is told after it", async () => {
    const { told, locks, screen, show, tell, isHeard } = faked();
    const end = keepAwake(tell, screen);
    await show("visible");
    end();
    expect(locks[0]?.released).toBe(true);
    expect(told).toEqual(["held"]);
    expect(isHeard()).toBe(false);
  });

  test("is let go at once where the end comes before the answer", async () => {
    const { told, locks, screen, show, tell } = faked();
    keepAwake(tell, screen)();
    await show("visible");
    expect(locks.every(({ released }) => released)).toBe(true);
    expect(told).toEqual([]);
  });

  test("says so where the phone refuses", async () => {
    const { told, screen, show, tell } = faked({ refuse: true });
    keepAwake(tell, screen);
    await show("visible");
    expect(new Set(told)).toEqual(new Set(["refused"]));
  });

  test("says so where the browser has no such thing", () => {
    const { told, screen, tell } = faked();
    keepAwake(tell, { ...screen, wakeLock: undefined });
    expect(told).toEqual(["absent"]);
  });
});
