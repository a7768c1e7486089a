/// From what is typed into a helper to the question for the engine; nothing is worked out here.
import type { Body, Json } from "../../journal/event.ts";
import { bearingKeys, type Bearing } from "../bearing.ts";
import { errorOfSights, twoPlaces, type Hold, type Level } from "../clinometer.svelte.ts";
import { numberKey, type Measured, type SightedAt } from "../lists.ts";
import { PART, signed, written } from "../quantities.ts";

/** A number on its way: as typed, with the unit it was typed in. */
export interface Draft extends Measured {
  readonly typed: string;
}

export type Maybe = Draft | null;

export const DISTANCE_IS = ["level", "along the ground", "eye to foot"] as const;
export type DistanceIs = (typeof DISTANCE_IS)[number];
export const ANGLE_BY = ["hand clinometer", "phone"] as const;
export type AngleBy = (typeof ANGLE_BY)[number];
export const DISTANCE_BY = ["tape", "paces"] as const;
export type DistanceBy = (typeof DISTANCE_BY)[number];
export type Side = "left" | "right";
export type AboveBelow = "above" | "below";

/** A held angle as if it were typed; its side of the eye stands beside it. */
export function draftOfHold(hold: Hold, language: string): Draft {
  const value = twoPlaces(Math.abs(hold.meanDeg));
  return { value, typed: written(value, language), unit: "" };
}

export function sideOfHold(hold: Hold): AboveBelow {
  return hold.meanDeg < 0 ? "below" : "above";
}

export interface HeightDraft {
  readonly distanceIs: DistanceIs | null;
  readonly distanceBy: DistanceBy | null;
  readonly distance: Maybe;
  readonly paces: Maybe;
  readonly paceLength: Maybe;
  readonly top: Maybe;
  readonly topSide: AboveBelow | null;
  readonly foot: Maybe;
  readonly footSide: AboveBelow | null;
  readonly angleBy: AngleBy | null;
  readonly angleError: Maybe;
  readonly eyeHeight: Maybe;
  /** Of the phone, where its angles were read through this app. */
  readonly level: Level | null;
  readonly holds: readonly Hold[];
}

/** What is not given stays out: the engine names it. An angle without its side is not given. */
export function heightRequest(draft: HeightDraft): Body {
  const byPhone = draft.angleBy === "phone" && draft.level !== null && draft.holds.length > 0;
  return {
    sight: "height",
    ...given("distance_is", draft.distanceIs),
    ...(draft.distanceBy === "tape" ? measured(PART.distance, draft.distance) : {}),
    ...(draft.distanceBy === "paces" ? given("paces", draft.paces?.value) : {}),
    ...(draft.distanceBy === "paces" ? measured(PART.paceLength, draft.paceLength) : {}),
    ...given("top_deg", angle(draft.top, draft.topSide)),
    ...given("foot_deg", angle(draft.foot, draft.footSide)),
    ...given("angle_by", draft.angleBy),
    ...measured(PART.eyeHeight, draft.eyeHeight),
    ...(byPhone && draft.level !== null
      ? {
          zero_deg: draft.level.zero_deg,
          angle_error_deg: errorOfSights(draft.level, draft.holds),
        }
      : given("angle_error_deg", draft.angleError?.value)),
  };
}

export interface StationDraft {
  readonly bearing: Bearing | null;
  readonly right: Maybe;
  readonly side: Side | null;
  readonly distance: Maybe;
}

export function noStation(): StationDraft {
  return { bearing: null, right: null, side: null, distance: null };
}

export interface PlumbDraft {
  readonly sightedAt: SightedAt | null;
  readonly inWidths: boolean;
  readonly stations: readonly StationDraft[];
  /** The diameter as it was taken, for stem widths. */
  readonly dbh: Measured | null;
}

export function plumbRequest(draft: PlumbDraft): Body {
  return {
    sight: "plumb",
    ...given("sighted_at", draft.sightedAt),
    ...(draft.inWidths && draft.dbh !== null ? numberKey(DBH, draft.dbh) : {}),
    station: draft.stations.filter(isBegun).map((station) => stationTable(station, draft.inWidths)),
  };
}

const DBH = { stem: "dbh", metric: "cm", imperial: "in" };

function stationTable(station: StationDraft, inWidths: boolean): Body {
  const across = acrossOf(station);
  return {
    ...(station.bearing === null ? {} : bearingKeys("bearing", station.bearing)),
    ...(inWidths
      ? given("right_widths", across)
      : across === undefined || station.right === null
        ? {}
        : numberKey(PART.right, { value: across, unit: station.right.unit })),
    ...measured(PART.distance, station.distance),
  };
}

/** Right of the foot is positive; how far without which side is not given, but for nought. */
function acrossOf({ right, side }: StationDraft): number | undefined {
  if (right === null) return undefined;
  if (right.value === 0) return 0;
  return side === null ? undefined : signed(right.value, side === "left");
}

function isBegun(station: StationDraft): boolean {
  return station.bearing !== null || station.right !== null || station.distance !== null;
}

export function girthRequest(girth: Maybe): Body {
  return { sight: "girth", ...measured(PART.girth, girth) };
}

export function crownRequest(paces: readonly Maybe[], paceLength: Maybe): Body {
  const counted = paces.flatMap((one) => (one === null ? [] : [one.value]));
  return {
    sight: "crown",
    ...(counted.length > 0 ? { paces: counted } : {}),
    ...measured(PART.paceLength, paceLength),
  };
}

export function boreRequest(bores: readonly Maybe[], overBark: boolean | null, bark: Maybe): Body {
  const bored = bores.flatMap((one) => (one === null ? [] : [one]));
  const unit = bored[0]?.unit;
  return {
    sight: "bore",
    ...(unit === undefined
      ? {}
      : { [`${PART.bores.stem}_${unit}`]: bored.map((one) => one.value) }),
    ...given("over_bark", overBark),
    ...(overBark === true ? measured(PART.bark, bark) : {}),
  };
}

/** An angle with its sign; which side of the eye is told by a tap, never guessed from the number. */
function angle(typed: Maybe, side: AboveBelow | null): number | undefined {
  if (typed === null) return undefined;
  if (typed.value === 0) return 0;
  return side === null ? undefined : signed(typed.value, side === "below");
}

function given(key: string, value: Json | undefined): Body {
  return value === null || value === undefined ? {} : { [key]: value };
}

function measured(wanted: Parameters<typeof numberKey>[0], draft: Maybe): Body {
  return draft === null ? {} : numberKey(wanted, draft);
}
