"""The stump from above in metres: where marks, hinge, back cut, wedge and bar room lie.

Frame: x along the lay, y to the left of it, from the middle of the stump over bark.
"""

import math
from typing import NamedTuple

from fellwright.planning.marks import FIRST_PART_SHARE, HALF_AND_HALF, HINGE_FIRST
from fellwright.planning.plan import Plan
from fellwright.units import MM_PER_M

__all__ = ["SIDE_READ_M", "Chord", "StumpPoints", "WedgeSeat", "half_chord_m", "stump_points"]

MARK_WEDGE_TIP = "tip_full"
MARK_SEAT = "tip_seated"
MARK_STRAP = "strap_front"
SIDE_READ_M = 0.05
"""OWN: a side offset below what a plumb line tells is no side to lean to."""
FIRST_PART_MOST = 0.60
"""PRACTICE: 50 to 60 % of the width; more where the plate needs it, never past this."""
PLATE_CLEAR_M = 0.005
"""OWN: the plate stands at least so far from wood still uncut."""


class Chord(NamedTuple):
    """A line across the stump: key of its mark, distance from the front, half its length [m]."""

    key: str
    from_front_m: float
    x_m: float
    half_m: float


class WedgeSeat(NamedTuple):
    """The plate of the device [m]: tip when seated and at full travel, and across the lay."""

    seated_x_m: float
    full_x_m: float
    right_y_m: float
    left_y_m: float
    depth_m: float


class StumpPoints(NamedTuple):
    """Everything that the stump plan shows [m]; None where the cut has no such thing.

    ``first_side`` is +1 where the first half of the back cut is the left one, -1 the right one, 0
    where the back cut is not halved.
    """

    radius_m: float
    wood_radius_m: float
    cavity_radius_m: float
    marks: tuple[Chord, ...]
    apex_x_m: float
    hinge_back_x_m: float
    strap_x_m: float | None
    first_side: float
    divide_y_m: float
    wedge: WedgeSeat | None
    bar_room_m: float | None
    lean_toward_rad: float | None


def half_chord_m(radius_m: float, x_m: float) -> float:
    """Half the width of a disc at a distance from its middle."""
    return math.sqrt(max(0.0, radius_m * radius_m - x_m * x_m))


def stump_points(plan: Plan) -> StumpPoints | None:
    """Work out the stump plan.

    Parameters
    ----------
    plan : Plan
        The plan.

    Returns
    -------
    StumpPoints or None
        None where the plan has no marks.
    """
    if plan.marks is None or plan.cut is None or plan.model is None or plan.outcome is None:
        return None
    radius = 0.5 * plan.model.stump_m
    at = {mark.key: mark.from_front_mm / MM_PER_M for mark in plan.marks.marks}
    apex = radius - plan.marks.notch_depth_mm / MM_PER_M
    side = plan.outcome.figures.side_m.p50
    # Left of the lay is positive here; a side offset counts to the right.
    first_side = 0.0
    if plan.marks.method == HALF_AND_HALF:
        first_side = -1.0 if side > SIDE_READ_M else 1.0
    strap = at.get(MARK_STRAP) if plan.marks.method == HINGE_FIRST else None
    wood_radius = 0.5 * plan.model.wood_m
    wall = plan.tree.cavity_wall_cm
    cavity = 0.0 if wall is None else max(0.0, wood_radius - wall / 100.0)
    divide, seat = _wedge(plan, at, radius, first_side)
    room = plan.marks.bar_room_mm
    return StumpPoints(
        radius,
        wood_radius,
        cavity,
        tuple(
            Chord(key, far, radius - far, half_chord_m(radius, radius - far))
            for key, far in at.items()
        ),
        apex,
        apex - plan.cut.hinge_m,
        None if strap is None else radius - strap,
        first_side,
        divide,
        seat,
        None if room is None else room / MM_PER_M,
        _lean_toward(plan),
    )


def _wedge(
    plan: Plan, at: dict[str, float], radius: float, first_side: float
) -> tuple[float, WedgeSeat | None]:
    """Where the halves of the back cut part, and where the plate lies in the first one."""
    least = (FIRST_PART_SHARE - 0.5) * 2.0 * radius
    most = (FIRST_PART_MOST - 0.5) * 2.0 * radius
    choice = None if plan.outcome is None else plan.outcome.choice
    if MARK_SEAT not in at or choice is None or choice.driven is None:
        return -first_side * least, None
    figures = choice.driven.figures
    half = 0.5 * figures.width_m
    reach = min(max(least, half + PLATE_CLEAR_M), most)
    # A plate too wide for sixty per cent moves to the side that is cut first.
    shift = first_side * max(0.0, half + PLATE_CLEAR_M - reach)
    seated = radius - at[MARK_SEAT]
    full = radius - at.get(MARK_WEDGE_TIP, at[MARK_SEAT])
    return -first_side * reach, WedgeSeat(seated, full, shift - half, shift + half, figures.depth_m)


def _lean_toward(plan: Plan) -> float | None:
    """Direction in which the balance point stands from the pith, left of the lay positive [rad]."""
    assert plan.outcome is not None
    back, side = plan.outcome.figures.back_m.p50, plan.outcome.figures.side_m.p50
    if max(abs(back), abs(side)) <= SIDE_READ_M:
        return None
    return math.atan2(-side if abs(side) > SIDE_READ_M else 0.0, -back)
