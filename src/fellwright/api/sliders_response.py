"""The hinge and the notch as they may be tried on a screen: every step with its words."""

import math
from dataclasses import dataclass

from fellwright.planning.cut_range import cut_range
from fellwright.planning.plan import Plan
from fellwright.units import MM_PER_IN, MM_PER_M
from fellwright.words import METRIC, Style, quantity

__all__ = ["sliders_response"]

DIGITS = 4
"""A step is a whole tenth or hundredth; this takes the last bits of its float away."""


@dataclass(frozen=True, slots=True)
class _Scale:
    """Path of the reading, SI for one unit of it, step in that unit, kinds of label and entry."""

    path: str
    si: float
    step: float
    label: str
    typed: str


_HINGE_MM = _Scale("cut.hinge_mm", 1.0 / MM_PER_M, 1.0, "lift", "bare lift")
_HINGE_IN = _Scale("cut.hinge_in", MM_PER_IN / MM_PER_M, 0.1, "lift", "bare lift")
_NOTCH = _Scale("cut.notch_share", 1.0, 0.01, "percent", "n2")


def sliders_response(plan: Plan, style: Style = METRIC) -> dict[str, object] | None:
    """Write how far hinge and notch may be tried.

    Parameters
    ----------
    plan : Plan
        The plan.
    style : Style
        Language and units; the hinge is in inches in the imperial one.

    Returns
    -------
    dict or None
        ``hinge`` and ``notch``: ``path`` of the reading, ``least``, ``most``, ``step`` and ``now``
        in its unit, ``at`` the step nearest to now, and for each step ``values``, ``labels`` and
        ``typed``, how a person would enter it. None where no cutting figures may be shown.
    """
    found = cut_range(plan)
    if found is None:
        return None
    hinge = (found.hinge_least_m, found.hinge_m, found.hinge_most_m)
    notch = (found.notch_least_share, found.notch_share, found.notch_most_share)
    return {
        "hinge": _slider(_HINGE_IN if style.imperial else _HINGE_MM, hinge, style),
        "notch": _slider(_NOTCH, notch, style),
    }


def _slider(scale: _Scale, ends: tuple[float, float, float], style: Style) -> dict[str, object]:
    least, now, most = (value / scale.si for value in ends)
    # Whole steps inside the ends; a float that is whole but for its last bits is that step.
    first = math.ceil(round(least / scale.step, DIGITS))
    last = max(first, math.floor(round(most / scale.step, DIGITS)))
    values = [round(count * scale.step, DIGITS) for count in range(first, last + 1)]
    return {
        "path": scale.path,
        "least": values[0],
        "most": values[-1],
        "step": scale.step,
        "now": round(now, DIGITS),
        "at": min(range(len(values)), key=lambda index: abs(values[index] - now)),
        "values": values,
        "labels": [quantity(scale.si * value, scale.label, style) for value in values],
        "typed": [quantity(scale.si * value, scale.typed, style) for value in values],
    }
