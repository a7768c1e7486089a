"""After the notch is cut: how far it points beside the mark, and what to shave on which side."""

import math
from collections.abc import Callable
from dataclasses import dataclass

from fellwright.physics.aim_error import (
    aim_error_rad,
    corrected_notch_m,
    miss_m,
    notch_correction_m,
)
from fellwright.planning.plan import Plan
from fellwright.planning.reasons import boldness, say_verdict
from fellwright.records.stump_fields import AimCheck
from fellwright.words import Text, say

__all__ = ["NotchCheck", "check_notch"]

MOST_ERROR_DEG = 10.0
"""OWN: past it the mended notch would be a sixth of its chord deeper on one side: plan anew."""
LEAST_CORRECTION_M = 0.005
"""PRACTICE: the two cuts of a notch meet within 5 mm; nobody shaves less."""
DEEPEST_SHARE = 0.5
"""OWN: a notch past the pith leaves too little behind it for hinge and device."""
USUAL_SHARE = 1.0 / 3.0
"""PRACTICE: a fifth of the stump down to a third."""


@dataclass(frozen=True, slots=True)
class NotchCheck:
    """What the check of a notch found, lengths [m] along the lay over bark.

    ``correction_m`` is 0 where nothing is to be shaved, None where no cutting figure may be given;
    ``deepen`` names the end of the apex line that goes back; ``plan_then`` is the plan with the
    deeper notch.
    """

    error_rad: float
    side: str | None
    miss_m: float | None
    correction_m: float | None
    deepen: str | None
    notch_m: float | None
    hinge_back_m: float | None
    plan_then: Plan | None
    text: Text
    cautions: tuple[Text, ...]


def check_notch(plan: Plan, check: AimCheck, replan: Callable[[float], Plan]) -> NotchCheck:
    """Turn a sight along the notch edge into what is to be shaved.

    Parameters
    ----------
    plan : Plan
        The plan of the tree with its notch as cut.
    check : AimCheck
        Angle, or metres beside the mark at a distance, and the side to which the notch points.
    replan : callable
        Plans the same tree with another depth of the notch, as a share of the stump.

    Returns
    -------
    NotchCheck
        The correction; none where the verdict shows no cutting figures, the error is past what
        shaving mends, or the deeper notch would not stand.
    """
    error = _error_rad(check)
    if not plan.may_cut or plan.model is None or plan.cut is None:
        return _refused(plan, check, say("notch.no_cut", verdict=say_verdict(plan.verdict)))
    # Written as 'not at most', so that a NaN refuses.
    if not error <= math.radians(MOST_ERROR_DEG) * (1.0 + 1e-9):
        most = math.radians(MOST_ERROR_DEG)
        return _refused(plan, check, say("notch.too_far", error=error, most=most))
    stump = plan.model.stump_m
    notch = plan.cut.notch_share * stump
    correction = notch_correction_m(stump, notch, error)
    if correction < LEAST_CORRECTION_M:
        text = say("notch.near_enough", error=error, least=LEAST_CORRECTION_M)
        return _result(plan, check, text, (0.0, None, notch, None))
    depth = corrected_notch_m(stump, notch, error)
    if not depth <= DEEPEST_SHARE * stump:
        return _refused(plan, check, say("notch.too_deep", depth=depth))
    then = replan(depth / stump)
    if not then.may_cut:
        verdict = say_verdict(then.verdict)
        return _refused(plan, check, say("notch.then_not", depth=depth, verdict=verdict))
    deepen = "left" if check.side == "right" else "right"
    # Its two sentences are written out: a side is said differently in every place.
    text = say(
        "notch.shave_left" if deepen == "left" else "notch.shave_right",
        error=error,
        correction=correction,
    )
    return _result(plan, check, text, (correction, deepen, depth, then))


def _error_rad(check: AimCheck) -> float:
    if check.aim_error_deg is not None:
        return math.radians(check.aim_error_deg)
    assert check.beside_m is not None
    assert check.distance_m is not None
    return aim_error_rad(check.beside_m, check.distance_m)


def _miss(plan: Plan, error_rad: float) -> float | None:
    return None if plan.model is None else miss_m(plan.model.height_m, error_rad)


def _refused(plan: Plan, check: AimCheck, text: Text) -> NotchCheck:
    error = _error_rad(check)
    side = check.side if error > 0.0 else None
    return NotchCheck(
        error, side, _miss(plan, error), None, None, None, None, None, text, (_LAW, *_drift(plan))
    )


def _result(
    plan: Plan,
    check: AimCheck,
    text: Text,
    found: tuple[float, str | None, float, Plan | None],
) -> NotchCheck:
    correction, deepen, depth, then = found
    assert plan.cut is not None
    error = _error_rad(check)
    cautions = [_LAW]
    if plan.cut.notch_is_proposed and plan.model is not None:
        taken = plan.cut.notch_share * plan.model.stump_m
        cautions.append(say("notch.depth_taken", depth=taken))
    if then is not None:
        cautions += _after_shaving(plan, then, depth)
    hinge = (plan if then is None or then.cut is None else then).cut
    assert hinge is not None
    return NotchCheck(
        error,
        check.side if error > 0.0 else None,
        _miss(plan, error),
        correction,
        deepen,
        depth,
        depth + hinge.hinge_m,
        then,
        text,
        (*cautions, *_drift(plan)),
    )


_LAW = say("caution.local_law")


def _after_shaving(plan: Plan, then: Plan, depth_m: float) -> list[Text]:
    """What the deeper notch changes."""
    assert plan.model is not None
    assert plan.cut is not None
    assert then.cut is not None
    moved = depth_m - plan.cut.notch_share * plan.model.stump_m
    found = [
        say("notch.meet", least=LEAST_CORRECTION_M),
        say("notch.hinge_back", moved=moved, hinge=then.cut.hinge_m),
    ]
    if then.cut.notch_share > USUAL_SHARE * (1.0 + 1e-9):
        found.append(say("notch.deep", depth=depth_m))
    if boldness(then.verdict) < boldness(plan.verdict):
        found.append(say("notch.verdict_then", verdict=say_verdict(then.verdict)))
    return found


def _drift(plan: Plan) -> list[Text]:
    """Side lean whose side is beyond doubt: it pulls the tree off any aim."""
    if plan.outcome is None:
        return []
    side = plan.outcome.figures.side_m
    if side.p10 > 0.0:
        return [say("notch.drift_right", offset=side.p50)]
    if side.p90 < 0.0:
        return [say("notch.drift_left", offset=-side.p50)]
    return []
