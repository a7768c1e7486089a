import { describe, expect, test } from "vitest";
import { GAP_MS, TapGuard } from "../../src/drive/tap_guard.ts";

function guarded() {
  const hand = { now: 1000 };
  return { hand, guard: new TapGuard(() => hand.now) };
}

describe("taps on the last look", () => {
  test("the first is taken, and the next once the gap is over", () => {
    const { hand, guard } = guarded();
    expect(guard.tap()).toBeNull();
    hand.now += GAP_MS - 1;
    expect(guard.tap()).toBe("too fast");
    hand.now += GAP_MS;
    expect(guard.tap()).toBeNull();
  });

  test("a hand that drums gets nothing in, however long it drums", () => {
    const { hand, guard } = guarded();
    guard.tap();
    const answers = Array.from({ length: 50 }, () => {
      hand.now += GAP_MS / 2;
      return guard.tap();
    });
    expect(new Set(answers)).toEqual(new Set(["too fast"]));
  });

  test("seven items cannot be ticked in less than six gaps", () => {
    const { hand, guard } = guarded();
    let taken = 0;
    for (let ms = 0; ms < 6 * GAP_MS; ms += GAP_MS) {
      if (guard.tap() === null) taken += 1;
      hand.now += GAP_MS;
    }
    expect(taken).toBe(6);
  });

  test("with a second finger down none is taken, nor the one that it leaves behind", () => {
    const { guard } = guarded();
    expect(guard.down(1)).toBe(true);
    expect(guard.down(2)).toBe(false);
    expect(guard.tap()).toBe("second finger");
    guard.up(2);
    guard.up(1);
    expect(guard.tap()).toBe("second finger");
  });

  test("after both fingers are up, one finger counts again", () => {
    const { hand, guard } = guarded();
    guard.down(1);
    guard.down(2);
    guard.up(1);
    guard.up(2);
    guard.down(3);
    guard.up(3);
    hand.now += GAP_MS;
    expect(guard.tap()).toBeNull();
  });

  test("a clock that runs backwards takes nothing", () => {
    const { hand, guard } = guarded();
    guard.tap();
    hand.now -= 10_000;
    expect(guard.tap()).toBe("too fast");
  });
});
