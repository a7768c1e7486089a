import { describe, expect, it } from "vitest";
import { devicesOf, nameOfFile, readKit } from "../../src/settings/kit.ts";

const DIPPER = { name: "Dipper", kind: "screw wedge" };

describe("the van in the settings", () => {
  it("lists devices by name and passes over what has none", () => {
    expect(devicesOf({ device: [DIPPER, { kind: "hand wedge" }, null, [], "Plover"] })).toEqual([
      DIPPER,
    ]);
    expect(devicesOf({})).toEqual([]);
    expect(devicesOf(null)).toEqual([]);
  });

  it.each([
    ["van-2.toml", "van-2"],
    ["Wagen 2", "Wagen 2"],
    [".toml", "kit"],
    ["a.b.toml", "a.b"],
  ])("from the file %j is called %j", (file, name) => {
    expect(nameOfFile(file)).toBe(name);
  });

  it("comes into force whole as the engine read it", async () => {
    const kit = { device: [DIPPER] };
    const read = await readKit("text", "van-2.toml", (_, { toml }) =>
      Promise.resolve({
        kind: "answer",
        answer: { kit: { ...kit, read: toml }, devices: [DIPPER] },
      }),
    );
    expect(read).toEqual({
      kind: "kit",
      devices: 1,
      draft: { kind: "kit", tree: null, body: { name: "van-2", kit: { ...kit, read: "text" } } },
    });
  });

  it("does not come into force where the engine finds faults", async () => {
    const fault = {
      file: "kit",
      row: 3,
      field: "lift_mm",
      value: "x",
      rule: "",
      remedy: "",
      code: "not-a-number",
      text: "f",
    };
    const read = await readKit("text", "van-2.toml", () =>
      Promise.resolve({ kind: "faults", faults: [fault] }),
    );
    expect(read).toEqual({ kind: "refused", faults: [fault] });
  });
});
