"""The check of a notch as plain data: what to shave on which side, and what that changes."""

import math
from collections.abc import Mapping
from typing import Any

from fellwright.api.door import plan_from, style_from
from fellwright.api.with_plan import plan_and
from fellwright.planning.notch_check import NotchCheck, check_notch
from fellwright.planning.plan import Plan
from fellwright.records.stump_fields import read_aim_check
from fellwright.words import METRIC, Style, render, say

__all__ = ["NOTCH_SCHEMA", "notch_answer", "notch_response"]

NOTCH_SCHEMA = "fellwright/notch/1"


def notch_answer(request: Mapping[str, object]) -> dict[str, object]:
    """Check the aim of a notch that is cut.

    Parameters
    ----------
    request : mapping
        As for ``tip``, with the depth of the notch as cut in ``cut.notch_share`` where it was
        measured; and ``notch``: ``aim_error_deg``, or ``beside_m`` and ``distance_m``; ``side``
        left or right of the mark.

    Returns
    -------
    dict
        See :func:`notch_response`.

    Raises
    ------
    BadInput
        With every fault of the request.
    """
    style = style_from(request)
    plan, check = plan_and(
        request, lambda: read_aim_check(request.get("notch"), say("fault.request"))
    )
    return notch_response(
        plan, check_notch(plan, check, lambda share: _deeper(request, share)), style
    )


def _deeper(request: Mapping[str, object], share: float) -> Plan:
    """Plan the same request with a deeper notch."""
    tree: Any = request["tree"]
    cut = {**(tree.get("cut") or {}), "notch_share": share}
    return plan_from({**request, "tree": {**tree, "cut": cut}, "bare": True})


def notch_response(plan: Plan, found: NotchCheck, style: Style = METRIC) -> dict[str, object]:
    """Write a check as the answer to ``notch``.

    Parameters
    ----------
    plan : Plan
        The plan with the notch as cut.
    found : NotchCheck
        What the check found.
    style : Style
        Language and units of its sentences; figures are metric whatever the style.

    Returns
    -------
    dict
        ``correction_cm`` is 0 where nothing is to be shaved and None where no cutting figure may be
        given; ``deepen`` is the end of the notch that goes back, None where neither.
    """
    then = found.plan_then
    return {
        "schema": NOTCH_SCHEMA,
        "tree": plan.tree.name,
        "verdict": plan.verdict,
        "verdict_then": None if then is None else then.verdict,
        "aim_error_deg": round(math.degrees(found.error_rad), 1),
        "side": found.side,
        "miss_m": _rounded(found.miss_m, 1.0, 1),
        "correction_cm": _rounded(found.correction_m, 100.0, 1),
        "deepen": found.deepen,
        "notch_depth_cm": _rounded(found.notch_m, 100.0, 1),
        "hinge_back_edge_cm": _rounded(found.hinge_back_m, 100.0, 1),
        "text": render(found.text, style),
        "cautions": [render(text, style) for text in found.cautions],
    }


def _rounded(value_m: float | None, scale: float, digits: int) -> float | None:
    return None if value_m is None else round(scale * value_m, digits)
