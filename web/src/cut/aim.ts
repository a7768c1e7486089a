/// How far the notch was found to point beside the mark: from the fields to the body of an entry.
import type { Body, Json } from "../journal/event.ts";

export type Way = "degrees" | "metres";
export type Side = "left" | "right";

export interface Entered {
  readonly value: number;
  readonly typed: string;
}

export interface Aim {
  readonly way: Way;
  readonly angle: Entered | null;
  readonly beside: Entered | null;
  readonly distance: Entered | null;
  readonly side: Side | null;
}

export const NO_AIM: Aim = {
  way: "degrees",
  angle: null,
  beside: null,
  distance: null,
  side: null,
};

/** The body of an entry; null while something is missing. A notch dead on its mark has no side. */
export function aimBody(aim: Aim, imperial: boolean): Body | null {
  const error = aim.way === "degrees" ? aim.angle : aim.beside;
  if (!error || (aim.way === "metres" && !aim.distance)) return null;
  if (error.value !== 0 && aim.side === null) return null;
  const side: Body = error.value !== 0 && aim.side !== null ? { side: aim.side } : {};
  if (aim.way === "degrees") return { aim_error_deg: error.value, ...side };
  const unit = imperial ? "ft" : "m";
  return {
    [`beside_${unit}`]: error.value,
    [`distance_${unit}`]: (aim.distance as Entered).value,
    ...side,
  };
}

/** A kept entry without what is no question to the engine. */
export function questionOf(body: Body): Body {
  const asked = /^(aim_error_deg|beside_(m|ft)|distance_(m|ft)|side)$/;
  return Object.fromEntries(
    Object.entries(body).filter((pair): pair is [string, Json] => asked.test(pair[0])),
  );
}
