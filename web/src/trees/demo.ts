/// An invented tree with its readings and a kit of its own, to look at the app by. The same as
/// examples/harrowlees-11.toml with examples/van-2.toml.
import type { Body, Draft, Json } from "../journal/event.ts";

export const DEMO_TREE = "0190a000-0011-7000-8000-000000000011";

const NAME = "Harrowlees 11";
const KIT_NAME = "Van 2";

const READINGS: readonly (readonly [path: string, value: Json, typed?: string, how?: string])[] = [
  ["tree.species", "Norway spruce"],
  ["tree.dbh_cm", 40, "40"],
  ["tree.height_m", 25, "25"],
  ["tree.crown_base_m", 11, "11"],
  ["tree.crown_radius_m", 2.6, "2.6"],
  ["tree.stump_diameter_cm", 46, "46"],
  ["tree.cut_height_cm", 30, "30"],
  ["tree.flare", "trimmed"],
  ["tree.defects", []],
  [
    "tree.lean",
    [
      {
        offset_m: 0.5,
        toward_deg: 220,
        sighted_at: "balance point",
        how: "plumb line, two sides",
      },
    ],
  ],
  ["look.sound", true],
  ["look.clear_overhead", true],
  ["look.no_conductor_in_reach", true],
  ["look.ring_clear", true],
  ["look.ways_out", 2],
  ["cut.lay_deg", 40, "40"],
  ["cut.notch_share", 0.2, "0.2"],
  ["cut.hinge_mm", 46, "46"],
  ["cut.method", "half and half"],
  ["cut.preload", true],
  ["day.gust_m_s", 0, "0"],
  ["day.wind_from_deg", 40, "40"],
  ["day.temperature_degc", 12, "12"],
];

const KIT: Body = {
  device: [
    {
      name: "Dipper",
      kind: "screw wedge",
      rated_t: 9.5,
      lift_mm: 46,
      plate_mm: [65, 90],
      mm_per_turn: 2.2,
      turns_to_stop: 21,
      torque_limit_n_m: 850,
      hex_mm: [19],
      depth_full_mm: 130,
      mass_kg: 2.9,
      grease: "greased",
      outer_angle_deg: 8,
      state: "FIT",
    },
    {
      name: "Plover",
      kind: "screw wedge",
      rated_t: 13,
      lift_mm: 25,
      plate_mm: [70, 110],
      mm_per_turn: 1.3,
      turns_to_stop: 19,
      torque_limit_n_m: 820,
      hex_mm: [19],
      depth_full_mm: 130,
      mass_kg: 1.9,
      grease: "greased",
      outer_angle_deg: 5,
      state: "FIT",
    },
    {
      name: "Bittern",
      kind: "nut wedge",
      rated_t: 21,
      lift_mm: 50,
      plate_mm: [80, 150],
      mm_per_turn: 1.2,
      turns_to_stop: 42,
      torque_limit_n_m: 1350,
      hex_mm: [27],
      depth_full_mm: 200,
      mass_kg: 6.3,
      grease: "greased",
      outer_angle_deg: 7,
      state: "FIT",
    },
    {
      name: "Hand pair",
      kind: "hand wedge",
      thickness_mm: 48,
      stacked: 2,
      rated_t: 4,
      material: "plastic",
      state: "FIT",
    },
  ],
  hammer: [{ mass_kg: 3 }],
  wrench: [
    { name: "W8", torque_n_m: 800, drive_mm: 12.7 },
    { name: "W13", torque_n_m: 1300, drive_mm: 12.7 },
  ],
  socket: [
    { hex_mm: 19, drive_mm: 12.7 },
    { hex_mm: 27, drive_mm: 12.7 },
  ],
  pack: [{ energy_wh: 90, count: 2 }],
  rope: [{ name: "Rope set", puller_t: 1.6, strength_t: 6, length_m: 80, blocks: 1 }],
  saw: { bar_cm: 45, bar_depth_mm: 70, kerf_mm: 8 },
};

/**
 * Everything that makes the demo tree. The kit is this tree's alone: an invented wedge must never
 * count for a tree that somebody stands at.
 */
export function demoDrafts(): Draft[] {
  const about = { tree: DEMO_TREE } as const;
  return [
    { ...about, kind: "tree", body: { name: NAME } },
    { ...about, kind: "kit", body: { name: KIT_NAME, kit: KIT } },
    ...READINGS.map(([path, value, typed = null, how = null]): Draft => ({
      ...about,
      kind: "reading",
      body: { path, value, typed, how },
    })),
  ];
}
