import { describe, expect, test } from "vitest";
import type { Sheet, Slider, Sliders } from "../../src/engine/answers.ts";
import type { Outcome } from "../../src/engine/engine.ts";
import { STILL_MS, Stillness, type Clock } from "../../src/tip/stillness.ts";
import {
  changesAt,
  figuresOf,
  givenRows,
  lastOf,
  movingRows,
  standOf,
  stepFrom,
  tablesWith,
  Trial,
  type Change,
  type Tried,
} from "../../src/tip/trial.ts";

/** A clock that goes only when told. */
class Watch implements Clock {
  now_ms = 0;
  private next = 1;
  private waiting = new Map<number, { at_ms: number; run: () => void }>();

  set(run: () => void, wait_ms: number): number {
    this.waiting.set(this.next, { at_ms: this.now_ms + wait_ms, run });
    return this.next++;
  }

  clear(id: number): void {
    this.waiting.delete(id);
  }

  pass(ms: number): void {
    this.now_ms += ms;
    for (const [id, { at_ms, run }] of [...this.waiting]) {
      if (at_ms > this.now_ms) continue;
      this.waiting.delete(id);
      run();
    }
  }
}

function slider(path: string, values: number[], at: number): Slider {
  const [least = 0, most = 0] = [values[0], values.at(-1)];
  return {
    path,
    values,
    at,
    least,
    most,
    step: 1,
    now: values[at] ?? 0,
    labels: values.map((value) => `${value} mm`),
    typed: values.map(String),
  };
}

const SLIDERS: Sliders = {
  hinge: slider("cut.hinge_mm", [40, 41, 42, 43, 44], 2),
  notch: slider("cut.notch_share", [0.19, 0.2, 0.21], 1),
};

function sheet(p50: string, lift = "41"): Sheet {
  const row = (key: string) => ({ key, name: key, unit: "mm", p10: "1", p50, p90: "9" });
  const need = ["balance_lift", "let_go_lift", "push", "side_use", "early_go", "mass"].map(row);
  const device = { name: "Dipper", lift, push: "83", verdict: "TIGHT", limit: "", reason: "" };
  return {
    tip: { choice: { name: "Dipper", kind: "screw wedge" }, verdict: "TIGHT" },
    shown: {
      verdict: "TIGHT",
      need,
      devices: [{ ...device, gives: true }],
      lift_unit: "mm",
      force_unit: "kN",
    },
  } as unknown as Sheet;
}

/** An engine that answers when told, in whatever order. */
class Desk {
  readonly asked: { changes: readonly Change[]; how: string }[] = [];
  private readonly open: ((outcome: Outcome<Sheet>) => void)[] = [];

  ask = (changes: readonly Change[], how: "moving" | "still"): Promise<Outcome<Sheet>> => {
    this.asked.push({ changes, how });
    return new Promise((resolve) => this.open.push(resolve));
  };

  async answer(index: number, answer: Sheet): Promise<void> {
    await this.settle(index, { kind: "answer", answer });
  }

  async settle(index: number, outcome: Outcome<Sheet>): Promise<void> {
    this.open[index]?.(outcome);
    await Promise.resolve();
    await Promise.resolve();
  }
}

function begun() {
  const desk = new Desk();
  const watch = new Watch();
  const shown: Tried[] = [];
  const trial = new Trial(SLIDERS, desk.ask, (tried) => shown.push(tried), watch);
  const last = (): Tried => shown.at(-1) as Tried;
  return { desk, watch, trial, shown, last };
}

describe("stillness", () => {
  test("is told once, when nothing has moved for the whole wait", () => {
    const watch = new Watch();
    let told = 0;
    const stillness = new Stillness(() => (told += 1), watch);
    stillness.moved();
    watch.pass(STILL_MS - 1);
    stillness.moved();
    watch.pass(STILL_MS - 1);
    expect(told).toBe(0);
    watch.pass(1);
    watch.pass(10 * STILL_MS);
    expect(told).toBe(1);
  });

  test("is not told after a stop", () => {
    const watch = new Watch();
    let told = 0;
    const stillness = new Stillness(() => (told += 1), watch);
    stillness.moved();
    stillness.stop();
    watch.pass(10 * STILL_MS);
    expect(told).toBe(0);
  });
});

describe("changes", () => {
  test("a slider at its own step changes nothing", () => {
    expect(changesAt(SLIDERS, standOf(SLIDERS))).toEqual([]);
  });

  test("only what was moved is changed", () => {
    expect(changesAt(SLIDERS, { hinge: 0, notch: 1 })).toEqual([
      { part: "hinge", path: "cut.hinge_mm", value: 40, typed: "40" },
    ]);
  });

  test("a step never leaves the slider", () => {
    expect(stepFrom(SLIDERS.hinge, 0, -1)).toBe(0);
    expect(stepFrom(SLIDERS.hinge, lastOf(SLIDERS.hinge), 1)).toBe(4);
    expect(stepFrom(SLIDERS.hinge, 1, 1)).toBe(2);
  });

  test("a reading in another unit gives way, and the tables given stay as they were", () => {
    const tables = { tree: { dbh_cm: 40 }, cut: { hinge_in: 2, lay_deg: 40 } };
    const changes = changesAt(SLIDERS, { hinge: 4, notch: 2 });
    expect(tablesWith(tables, changes)).toEqual({
      tree: { dbh_cm: 40 },
      cut: { lay_deg: 40, hinge_mm: 44, notch_share: 0.21 },
    });
    expect(tables.cut).toEqual({ hinge_in: 2, lay_deg: 40 });
  });

  test("a cut that nobody has read yet gets its table", () => {
    const changes = changesAt(SLIDERS, { hinge: 4, notch: 1 });
    expect(tablesWith({ tree: {} }, changes)).toEqual({ tree: {}, cut: { hinge_mm: 44 } });
  });
});

describe("rows", () => {
  test("middle figures only, and a dash where there is none any more", () => {
    const gone = { ...sheet("7"), shown: { ...sheet("7").shown, need: [] } } as Sheet;
    expect(movingRows(sheet("5"), null).map((row) => row.then)).toEqual([null, null, null, null]);
    expect(movingRows(sheet("5"), sheet("7"))[0]).toMatchObject({ now: "5", then: "7" });
    expect(movingRows(sheet("5"), gone)[0]).toMatchObject({ now: "5", then: "-" });
  });

  test("what the device of the plan gives, whichever a trial would choose", () => {
    const other = { ...sheet("7", "38"), tip: { choice: null } } as unknown as Sheet;
    expect(givenRows(sheet("5"), other).map(({ key, now, then }) => [key, now, then])).toEqual([
      ["lift", "41", "38"],
      ["push", "83", "83"],
    ]);
    expect(givenRows(other, null)).toEqual([]);
  });

  test("no word of a verdict is in a row", () => {
    const rows = [movingRows(sheet("5"), sheet("7")), givenRows(sheet("5"), sheet("7"))];
    expect(JSON.stringify(rows.map((list) => list.map((row) => [row.now, row.then])))).not.toMatch(
      /TIGHT/,
    );
  });
});

describe("a trial", () => {
  test("asks quickly at once and for the whole verdict only once it stands still", () => {
    const { desk, watch, trial } = begun();
    trial.move("hinge", 3);
    trial.move("hinge", 4);
    expect(desk.asked.map(({ how }) => how)).toEqual(["moving", "moving"]);
    watch.pass(STILL_MS);
    expect(desk.asked.map(({ how }) => how)).toEqual(["moving", "moving", "still"]);
    expect(desk.asked[2]?.changes).toEqual(changesAt(SLIDERS, { hinge: 4, notch: 1 }));
  });

  test("shows no verdict while it moves", async () => {
    const { desk, watch, trial, last } = begun();
    trial.move("hinge", 3);
    watch.pass(STILL_MS);
    await desk.answer(1, sheet("7"));
    expect(last().still).not.toBeNull();
    trial.move("hinge", 4);
    expect(last().still).toBeNull();
  });

  test("drops a verdict that comes after the slider has moved on", async () => {
    const { desk, watch, trial, last } = begun();
    trial.move("hinge", 3);
    watch.pass(STILL_MS);
    trial.move("hinge", 4);
    await desk.answer(1, sheet("7"));
    expect(last().still).toBeNull();
  });

  test("never puts older figures in place of newer ones, and says where figures belong", async () => {
    const { desk, trial, last } = begun();
    trial.move("hinge", 3);
    trial.move("hinge", 4);
    await desk.answer(1, sheet("8"));
    await desk.answer(0, sheet("7"));
    expect(last().moving?.at).toEqual({ hinge: 4, notch: 1 });
    expect(movingRows(sheet("5"), last().moving?.sheet ?? null)[0]?.then).toBe("8");
  });

  test("back at its own step it is the plan again, and a late answer changes nothing", async () => {
    const { desk, watch, trial, last } = begun();
    trial.move("hinge", 3);
    trial.move("hinge", 2);
    await desk.answer(0, sheet("7"));
    watch.pass(STILL_MS);
    expect(desk.asked).toHaveLength(1);
    expect(last()).toMatchObject({ changes: [], moving: null, still: null });
  });

  test("figures are those of the whole verdict once it is there", async () => {
    const { desk, watch, trial, last } = begun();
    trial.move("hinge", 3);
    await desk.answer(0, sheet("7"));
    expect(figuresOf(last())?.sheet.shown.need[1]?.p50).toBe("7");
    watch.pass(STILL_MS);
    await desk.answer(1, sheet("8"));
    expect(figuresOf(last())?.sheet.shown.need[1]?.p50).toBe("8");
    expect(figuresOf(last())?.at).toEqual({ hinge: 3, notch: 1 });
  });

  test("faults of a stand are shown with it and go with the next", async () => {
    const { desk, watch, trial, last } = begun();
    trial.move("notch", 2);
    watch.pass(STILL_MS);
    const fault = {
      file: "",
      row: null,
      field: "",
      value: "",
      rule: "",
      remedy: "",
      code: "",
      text: "no",
    };
    await desk.settle(1, { kind: "faults", faults: [fault] });
    expect(last()).toMatchObject({ still: null, faults: [fault] });
    trial.move("notch", 0);
    expect(last().faults).toEqual([]);
  });

  test("an answer that was given up changes nothing", async () => {
    const { desk, trial, shown } = begun();
    trial.move("hinge", 3);
    const before = shown.length;
    await desk.settle(0, { kind: "superseded" });
    expect(shown).toHaveLength(before);
  });
});
