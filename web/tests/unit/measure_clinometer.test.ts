/// The phone as a clinometer, with a sensor that is played.
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import {
  Clinometer,
  errorOfSights,
  HOLD_MS,
  holdOf,
  LEAST_SAMPLES,
  levelFrom,
  MOST_SWING_DEG,
  SETTLE_MS,
  SILENT_MS,
  type Hold,
} from "../../src/measure/clinometer.svelte.ts";
import { browserTilt, elevationDeg, type Asked, type TiltSource } from "../../src/measure/tilt.ts";

const EVERY_MS = 20;

/** A sensor that tells one angle after another, from when it is listened to. */
class Played implements TiltSource {
  state: TiltSource["state"] = "there";
  answer: Asked = "granted";
  asked = 0;
  heard = 0;
  private timer: ReturnType<typeof setInterval> | null = null;

  constructor(public angle: () => number | null) {}

  ask(): Promise<Asked> {
    this.asked += 1;
    return Promise.resolve(this.answer);
  }
  listen(angle: (deg: number) => void): () => void {
    this.timer = setInterval(() => {
      const deg = this.angle();
      if (deg !== null) {
        this.heard += 1;
        angle(deg);
      }
    }, EVERY_MS);
    return () => {
      if (this.timer !== null) clearInterval(this.timer);
    };
  }
}

async function started(source: Played): Promise<Clinometer> {
  const phone = new Clinometer(source);
  const start = phone.start();
  await vi.advanceTimersByTimeAsync(SILENT_MS + EVERY_MS);
  await start;
  return phone;
}

async function held(phone: Clinometer): Promise<Hold | null> {
  const hold = phone.hold();
  await vi.advanceTimersByTimeAsync(SETTLE_MS + HOLD_MS + EVERY_MS);
  return hold;
}

beforeEach(() => vi.useFakeTimers());
afterEach(() => vi.useRealTimers());

describe("the elevation of the long edge", () => {
  test.each([
    [0, 0],
    [30, 30],
    [-12, -12],
    [90, 90],
    [150, 30],
    [-150, -30],
    [180, 0],
  ])("beta %d is %d above level", (beta, elevation) => {
    expect(elevationDeg(beta)).toBeCloseTo(elevation, 9);
  });

  test("is told by the events of the browser, and by none that holds no angle", () => {
    const page = new EventTarget() as Window & typeof globalThis;
    Object.assign(page, { DeviceOrientationEvent: vi.fn(), isSecureContext: true });
    const heard: number[] = [];
    const stop = browserTilt(page).listen((deg) => heard.push(deg));
    const tell = (beta: number | null) =>
      page.dispatchEvent(Object.assign(new Event("deviceorientation"), { beta }));
    tell(10);
    tell(null);
    tell(Number.NaN);
    stop();
    tell(20);
    expect(heard).toHaveLength(1);
    expect(heard[0]).toBeCloseTo(10, 9);
  });
});

describe("a browser", () => {
  function page(more: object): Window & typeof globalThis {
    return Object.assign(new EventTarget(), more) as unknown as Window & typeof globalThis;
  }

  test("without the interface has no sensors; without HTTPS it may not be asked", () => {
    expect(browserTilt(page({ isSecureContext: true })).state).toBe("absent");
    const insecure = page({ DeviceOrientationEvent: vi.fn(), isSecureContext: false });
    expect(browserTilt(insecure).state).toBe("insecure");
  });

  test.each([
    ["granted", () => Promise.resolve("granted"), "granted"],
    ["refused", () => Promise.resolve("denied"), "denied"],
    ["asked outside a tap", () => Promise.reject(new Error("gesture")), "denied"],
  ])("that wants to be asked and is %s", async (_, requestPermission, answer) => {
    const kind = Object.assign(vi.fn(), { requestPermission });
    const source = browserTilt(page({ DeviceOrientationEvent: kind, isSecureContext: true }));
    expect(source.state).toBe("there");
    expect(await source.ask()).toBe(answer);
  });

  test("that need not be asked grants", async () => {
    const source = browserTilt(page({ DeviceOrientationEvent: vi.fn(), isSecureContext: true }));
    expect(await source.ask()).toBe("granted");
  });
});

describe("starting", () => {
  test("says what there is, and asks nothing before the tap", () => {
    const source = new Played(() => 0);
    expect(new Clinometer(source).standing).toBe("off");
    expect(source.asked).toBe(0);
    source.state = "insecure";
    expect(new Clinometer(source).standing).toBe("insecure");
  });

  test("absent sensors are not asked for", async () => {
    const source = new Played(() => 0);
    source.state = "absent";
    const phone = new Clinometer(source);
    await phone.start();
    expect([phone.standing, source.asked]).toEqual(["absent", 0]);
  });

  test("refused is said, and may be asked again", async () => {
    const source = new Played(() => 0);
    source.answer = "denied";
    const phone = new Clinometer(source);
    await phone.start();
    expect(phone.standing).toBe("denied");
    source.answer = "granted";
    const again = phone.start();
    await vi.advanceTimersByTimeAsync(SILENT_MS);
    await again;
    expect(phone.standing).toBe("on");
  });

  test("an interface with no sensor behind it is silent", async () => {
    const phone = await started(new Played(() => null));
    expect(phone.standing).toBe("silent");
    expect(phone.now).toBeNull();
  });

  test("angles come; ended, none is heard any more", async () => {
    const source = new Played(() => 12.34);
    const phone = await started(source);
    expect([phone.standing, phone.now]).toEqual(["on", 12.3]);
    phone.end();
    const { heard } = source;
    await vi.advanceTimersByTimeAsync(1000);
    expect([phone.standing, phone.now, source.heard]).toEqual(["off", null, heard]);
  });
});

describe("holding still", () => {
  test("gives mean and spread of a second, without the shake of the tap", async () => {
    let at = 0;
    const source = new Played(() => 40 + (at++ % 2 === 0 ? 0.5 : -0.5));
    const phone = await started(source);
    const steady = source.angle;
    source.angle = () => 70;
    const hold = phone.hold();
    await vi.advanceTimersByTimeAsync(SETTLE_MS - EVERY_MS);
    source.angle = steady;
    await vi.advanceTimersByTimeAsync(HOLD_MS + 3 * EVERY_MS);
    const found = await hold;
    expect(found?.meanDeg).toBeCloseTo(40, 1);
    expect(found?.spreadDeg).toBeCloseTo(0.5, 1);
    expect(phone.failure).toBeNull();
  });

  test("a phone that swings is not taken", async () => {
    let at = 0;
    const phone = await started(new Played(() => 10 + 0.2 * at++));
    expect(await held(phone)).toBeNull();
    expect([phone.failure, phone.holding]).toEqual(["unsteady", false]);
  });

  test("a sensor that stops is not taken", async () => {
    const source = new Played(() => 10);
    const phone = await started(source);
    source.angle = () => null;
    expect(await held(phone)).toBeNull();
    expect(phone.failure).toBe("too_few");
  });

  test("nothing is held where nothing is heard", async () => {
    expect(await new Clinometer(new Played(() => 0)).hold()).toBeNull();
  });

  test("mean and sample spread, as worked out by hand", () => {
    const samples = [1, 2, 1, 2, 1, 2, 1, 2];
    const found = holdOf(samples) as Hold;
    expect(found.meanDeg).toBe(1.5);
    expect(found.spreadDeg).toBeCloseTo(Math.sqrt(2 / 7), 12);
    expect(holdOf(samples.slice(0, LEAST_SAMPLES - 1))).toBe("too_few");
    expect(holdOf([...samples, 1 + MOST_SWING_DEG + 0.1])).toBe("unsteady");
  });
});

describe("the level check", () => {
  test("takes three readings each way, then no more", async () => {
    const source = new Played(() => 2.504);
    const phone = await started(source);
    const read = async () => {
      const done = phone.readEdge();
      await vi.advanceTimersByTimeAsync(SETTLE_MS + HOLD_MS + EVERY_MS);
      await done;
    };
    for (const way of ["first", "first", "first", "turned", "turned", "turned"]) {
      expect(phone.next).toBe(way);
      if (way === "turned") source.angle = () => -1.5;
      await read();
    }
    expect(phone.next).toBeNull();
    await read();
    expect(phone.readings).toEqual({
      first_deg: [2.5, 2.5, 2.5],
      turned_deg: [-1.5, -1.5, -1.5],
    });
    phone.level = { zero_deg: 0.5, angle_error_deg: 0.5 };
    phone.clear();
    expect([phone.next, phone.level]).toEqual(["first", null]);
  });

  test("a reading that swung is not counted", async () => {
    let at = 0;
    const phone = await started(new Played(() => at++));
    const read = phone.readEdge();
    await vi.advanceTimersByTimeAsync(SETTLE_MS + HOLD_MS + EVERY_MS);
    await read;
    expect(phone.first).toEqual([]);
  });

  test("the error of the sights is never less than the level's, and grows with the hand", () => {
    const level = { zero_deg: 0.2, angle_error_deg: 0.6 };
    const hold = (spreadDeg: number) => ({ meanDeg: 0, spreadDeg });
    expect(errorOfSights(level, [])).toBe(0.6);
    expect(errorOfSights(level, [hold(0), hold(0.8)])).toBe(1);
  });

  test("an answer that holds no level gives none", () => {
    expect(levelFrom({ zero_deg: 0.2, angle_error_deg: 0.6 })).toEqual({
      zero_deg: 0.2,
      angle_error_deg: 0.6,
    });
    expect(levelFrom({ zero_deg: 0.2 })).toBeNull();
  });
});
