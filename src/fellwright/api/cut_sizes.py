"""The sizes of a cut one by one, as a screen shows them large beside its marks."""

import math
from collections.abc import Mapping
from typing import Any

from fellwright.api.shown import METHOD_KEYS
from fellwright.words import METRIC, Style, quantity, render, say

__all__ = ["cut_sizes"]


def cut_sizes(answer: Mapping[str, Any], style: Style = METRIC) -> dict[str, object] | None:
    """Write the sizes of the cut of an answer.

    Parameters
    ----------
    answer : mapping
        The answer to ``tip``.
    style : Style
        Language and units.

    Returns
    -------
    dict or None
        ``method``, ``hinge``, ``hinge_width``, ``hinge_proposed``, ``notch``, ``opening``,
        ``notch_proposed``, ``step``, and ``release``, ``bar_room``, ``preload`` or None; None where
        the answer shows no cut.
    """
    if not answer["marks"]:
        return None
    cut, hinge, notch = answer["cut"], answer["hinge"], answer["notch"]

    def mm(length_mm: float | None) -> str | None:
        return None if length_mm is None else quantity(length_mm / 1000.0, "lift", style)

    preload = cut["preload_kn"]
    return {
        "method": render(say(f"cut.{METHOD_KEYS[cut['method']]}"), style),
        "hinge": mm(hinge["thickness_mm"]),
        "hinge_width": mm(hinge["width_mm"]),
        "hinge_proposed": hinge["proposed"],
        "notch": mm(notch["depth_mm"]),
        "opening": quantity(math.radians(notch["opening_deg"]), "angle", style),
        "notch_proposed": notch["proposed"],
        "step": mm(cut["step_mm"]),
        "release": mm(cut["release_step_mm"]),
        "bar_room": mm(cut["bar_room_mm"]),
        "preload": None if preload is None else quantity(1000.0 * preload, "force", style),
    }
