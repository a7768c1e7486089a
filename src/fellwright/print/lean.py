"""Lean in metres, as an hour of a clock on which the lay is twelve, and toward which azimuth."""

import math

from fellwright.planning.chance import Doubt
from fellwright.planning.plan import Plan
from fellwright.words import Text, listed, say

__all__ = ["clock_hour", "lean_direction_rad", "say_lean"]

HOURS = 12
LEVEL_M = 0.05
"""OWN: below this no direction is named; a plumb line does not tell it."""


def lean_direction_rad(back_m: float, side_m: float) -> float:
    """Direction in which the balance point stands, clockwise from the lay.

    Parameters
    ----------
    back_m, side_m : float
        Offset behind the pith and to the right of the lay [m].

    Returns
    -------
    float
        Angle [rad], 0 to 2 pi.
    """
    return math.atan2(side_m, -back_m) % math.tau


def clock_hour(direction_rad: float) -> int:
    """Hour of the clock nearest to a direction from the lay, 1 to 12.

    Parameters
    ----------
    direction_rad : float
        Clockwise from the lay [rad].

    Returns
    -------
    int
        The hour.
    """
    return round(direction_rad / math.tau * HOURS) % HOURS or HOURS


def say_lean(plan: Plan) -> Text:
    """Lean of a plan in one sentence.

    Parameters
    ----------
    plan : Plan
        The plan.

    Returns
    -------
    Text
        Metres, hour and azimuth at P50, and the bands of back and side offset.
    """
    lay_deg = plan.tree.cut.lay_deg
    if plan.outcome is None or lay_deg is None:
        return say("card.no_lean")
    back, side = plan.outcome.figures.back_m, plan.outcome.figures.side_m
    bands = listed([_band(back, "back", "forward"), _band(side, "right", "left")])
    offset_m = math.hypot(back.p50, side.p50)
    if offset_m < LEVEL_M:
        return say("card.lean_level", bands=bands)
    direction = lean_direction_rad(back.p50, side.p50)
    toward = (math.radians(lay_deg) + direction) % math.tau
    return say(
        "card.lean_text",
        offset=offset_m,
        hour=clock_hour(direction),
        toward=toward,
        bands=bands,
    )


def _band(doubt: Doubt, positive: str, negative: str) -> Text:
    """Middle and band of an offset, counted toward the side on which its middle stands."""
    if doubt.p50 < 0.0:
        doubt, positive = Doubt(-doubt.p90, -doubt.p50, -doubt.p10), negative
    word = say(f"card.lean_{positive}")
    return say("card.lean_band", word=word, p10=doubt.p10, p50=doubt.p50, p90=doubt.p90)
