"""The envelope: how far each figure may move before the plan's verdict no longer stands."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from fellwright.physics.lean import back_and_side_m
from fellwright.planning.case import Case
from fellwright.planning.chance import Points
from fellwright.planning.limits import LARGEST_LEAN_DEG
from fellwright.planning.reasons import boldness
from fellwright.planning.situation import CutPlan
from fellwright.words import Text, say

__all__ = ["Envelope", "find_envelope"]

GUST_STEP_M_PER_S = 0.5
GUST_MOST_M_PER_S = 12.0
OFFSET_STEP_M = 0.05
HINGE_STEP_M = 0.001
HINGE_LEAST_SHARE = 0.08
"""PRACTICE: nobody is told that a hinge under 8 % of the stump would do."""
HINGE_MOST_M = 0.150


@dataclass(frozen=True, slots=True)
class Envelope:
    """Bounds within which the verdict stands, one at a time; None where not even today's stands.

    Each is found by bisection with fewer draws than the verdict and rounded to the careful side.
    """

    back_offset_least_m: float | None
    back_offset_most_m: float | None
    side_offset_m: float | None
    head_gust_m_per_s: float | None
    hinge_least_m: float | None
    hinge_most_m: float | None

    @property
    def text(self) -> Text | None:
        """One sentence, None where a bound is missing."""
        if None in (self.back_offset_least_m, self.back_offset_most_m, self.side_offset_m):
            return None
        if None in (self.head_gust_m_per_s, self.hinge_least_m, self.hinge_most_m):
            return None
        return say(
            "envelope.holds",
            forward=self.back_offset_least_m,
            back=self.back_offset_most_m,
            side=self.side_offset_m,
            gust=self.head_gust_m_per_s,
            least=self.hinge_least_m,
            most=self.hinge_most_m,
        )


def find_envelope(
    case: Case,
    verdict: str,
    points: Sequence[Points],
    lawful: Callable[[CutPlan], bool] = lambda _: True,
) -> Envelope:
    """Find how far lean, gust and hinge may move with the verdict still standing.

    Parameters
    ----------
    case : Case
        The tree with its van and cut.
    verdict : str
        The verdict that must stand.
    points : sequence of Points
        Draws, common to every trial.
    lawful : callable
        Whether a cut keeps to the practice profile.

    Returns
    -------
    Envelope
        Least (forward) and most back offset, largest side offset and head gust; least and most
        hinge.
    """
    gust = case.tree.day.gust_m_s or 0.0

    def stands(trial: Case, gust_m_per_s: float = gust) -> bool:
        return boldness(trial.worst(points, gust_m_per_s).verdict) >= boldness(verdict)

    if not stands(case):
        return Envelope(None, None, None, None, None, None)
    lean = case.stand_in.lean
    assert lean is not None
    lay = math.radians(case.cut.lay_deg)
    back, side = back_and_side_m(lean.east_m, lean.north_m, lay)
    most = case.model.balance_height_m * math.tan(math.radians(LARGEST_LEAN_DEG.value))
    hinge = case.cut.hinge_m
    least_hinge = min(hinge, HINGE_LEAST_SHARE * case.model.stump_m)
    away = 1.0 if side >= 0.0 else -1.0

    def leaning(back_m: float, side_m: float) -> Case:
        east = -back_m * math.sin(lay) + side_m * math.cos(lay)
        north = -back_m * math.cos(lay) - side_m * math.sin(lay)
        moved = replace(case.stand_in, lean=replace(lean, east_m=east, north_m=north))
        return replace(case, stand_in=moved)

    def hinge_stands(hinge_m: float) -> bool:
        cut = replace(case.cut, hinge_m=hinge_m)
        return lawful(cut) and stands(replace(case, cut=cut))

    head = replace(case, tree=replace(case.tree, day=replace(case.tree.day, wind_from_deg=None)))

    def back_stands(back_m: float) -> bool:
        return stands(leaning(back_m, side))

    return Envelope(
        back_offset_least_m=_furthest(back, min(back, -most), OFFSET_STEP_M, back_stands),
        back_offset_most_m=_furthest(back, max(back, most), OFFSET_STEP_M, back_stands),
        side_offset_m=_furthest(
            abs(side),
            max(abs(side), most),
            OFFSET_STEP_M,
            lambda x: stands(leaning(back, away * x)),
        ),
        head_gust_m_per_s=_furthest(
            0.0, GUST_MOST_M_PER_S, GUST_STEP_M_PER_S, lambda x: stands(head, x)
        ),
        hinge_least_m=_furthest(hinge, least_hinge, HINGE_STEP_M, hinge_stands),
        hinge_most_m=_furthest(hinge, max(hinge, HINGE_MOST_M), HINGE_STEP_M, hinge_stands),
    )


def _furthest(start: float, end: float, step: float, stands: Callable[[float], bool]) -> float:
    """Furthest whole step from a start that stands towards an end, by bisection."""
    count = max(0, math.floor(abs(end - start) / step + 1e-9))
    direction = math.copysign(step, end - start)
    low, high = 0, count + 1
    while high - low > 1:
        middle = (low + high) // 2
        if stands(start + middle * direction):
            low = middle
        else:
            high = middle
    return start + low * direction
