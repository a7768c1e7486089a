"""How far hinge and notch may be tried: the sizes that the planning itself would name."""

from typing import NamedTuple

from fellwright.planning.case import MOST_CUT_SHARE
from fellwright.planning.envelope import HINGE_LEAST_SHARE, HINGE_MOST_M
from fellwright.planning.helps import DEEPEST_NOTCH, SHALLOWEST_NOTCH
from fellwright.planning.plan import Plan

__all__ = ["CutRange", "cut_range"]


class CutRange(NamedTuple):
    """Least, present and most hinge [m] and notch share of the stump."""

    hinge_least_m: float
    hinge_m: float
    hinge_most_m: float
    notch_least_share: float
    notch_share: float
    notch_most_share: float


def cut_range(plan: Plan) -> CutRange | None:
    """Find how far hinge and notch of a plan may be tried.

    Nobody is offered a hinge that the envelope would not name, or a notch that no advice would;
    a cut that was read stays in reach wherever it lies.

    Parameters
    ----------
    plan : Plan
        The plan.

    Returns
    -------
    CutRange or None
        None where the verdict may show no cutting figures.
    """
    if not plan.may_cut or plan.cut is None or plan.model is None:
        return None
    hinge, notch, stump = plan.cut.hinge_m, plan.cut.notch_share, plan.model.stump_m
    thickest = min(HINGE_MOST_M, (MOST_CUT_SHARE - notch) * stump)
    deepest = min(DEEPEST_NOTCH, MOST_CUT_SHARE - hinge / stump)
    return CutRange(
        min(hinge, HINGE_LEAST_SHARE * stump),
        hinge,
        max(hinge, thickest),
        min(notch, SHALLOWEST_NOTCH),
        notch,
        max(notch, deepest),
    )
