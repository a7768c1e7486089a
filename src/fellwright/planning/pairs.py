"""Devices that work as one where none reaches alone: two side by side, or one in two stages.

Neither is ever bolder than TIGHT.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

from fellwright.physics.off_centre import eased_side_use_ratio
from fellwright.physics.two_stage import first_stage_m, follow_up_holds, two_stage_lift_m
from fellwright.planning import limits
from fellwright.planning.chance import Doubt, doubt
from fellwright.planning.device_kinds import KINDS
from fellwright.planning.drawn import Drawn
from fellwright.planning.drive_train import Driven
from fellwright.planning.judge_device import (
    LEAST_SHARE,
    DeviceOutcome,
    DeviceTally,
    NeedSummary,
    judge_device,
)
from fellwright.planning.need import Need
from fellwright.planning.reasons import ADDS_UP, LEAVE, TIGHT, Reason
from fellwright.words import Text, say

__all__ = [
    "PAIR_SHARE",
    "SIDE_BY_SIDE",
    "TWO_STAGES",
    "Tried",
    "eased_side_use",
    "joined_outcomes",
]

SIDE_BY_SIDE = "side by side"
TWO_STAGES = "two stages"
PAIR_SHARE = 0.7
"""OWN: share of the sum of two pushes; one always carries more than the other."""


@dataclass(frozen=True, slots=True)
class Tried:
    """A device that can be driven, and how it did alone."""

    driven: Driven
    tally: DeviceTally


def joined_outcomes(
    drawn: Drawn, tried: Sequence[Tried], need: NeedSummary, *, calm: bool
) -> list[DeviceOutcome]:
    """Find what serves jointly where no device does alone.

    Parameters
    ----------
    drawn : Drawn
        The tree in every draw.
    tried : sequence of Tried
        Devices that can be driven.
    need : NeedSummary
        What the tree asks for.
    calm : bool
        Whether no gust is in the draws; a device is set anew in calm only.

    Returns
    -------
    list of DeviceOutcome
        The lightest pair and the lightest device in two stages that reach TIGHT, or none.
    """
    joins = sorted(
        (one for one in tried if KINDS[one.driven.device.kind].joins),
        key=lambda one: one.driven.device.mass_kg or 99.0,
    )
    found = [_first(_pair(drawn, a, b, need) for a, b in combinations(joins, 2))]
    if calm:
        wedges = [one for one in tried if one.driven.device.kind == "hand wedge"]
        found.append(
            _first(_in_two_stages(drawn, one, wedge, need) for one in joins for wedge in wedges)
        )
    return [outcome for outcome in found if outcome is not None]


def _first(outcomes: Iterable[DeviceOutcome | None]) -> DeviceOutcome | None:
    return next((o for o in outcomes if o is not None and o.verdict != LEAVE), None)


def _pair(drawn: Drawn, a: Tried, b: Tried, need: NeedSummary) -> DeviceOutcome | None:
    """Two devices side by side; None where it is plain beforehand that they do not reach."""
    most = PAIR_SHARE * (a.tally.available_n.p90 + b.tally.available_n.p90)
    lifts = all(_travel_m(one) >= need.let_go_lift_m.p50 for one in (a, b))
    if not (lifts and _fits(a) and _fits(b) and most >= need.push_p75_n):
        return None
    first, second = a.driven, b.driven
    tally = drawn.pair(first.figures, second.figures, PAIR_SHARE)
    worse = min(first, second, key=lambda d: d.efficiency.low)
    driven = replace(
        first,
        device=replace(
            first.device,
            name=f"{first.device.name} + {second.device.name}",
            mass_kg=_both_kg(first, second),
        ),
        figures=first.figures._replace(
            rated_n=PAIR_SHARE * (first.figures.rated_n + second.figures.rated_n),
            depth_m=max(first.figures.depth_m, second.figures.depth_m),
            length_m=min(first.figures.length_m, second.figures.length_m),
            collar_m=max(first.figures.collar_m, second.figures.collar_m),
        ),
        drive=first.drive if first.drive.wrench is not None else second.drive,
        grease=worse.grease,
        efficiency=worse.efficiency,
        joined=(first.device.name, second.device.name),
    )
    return _joined(judge_device(driven, tally, need), SIDE_BY_SIDE, say("kinds.side_by_side"))


def _in_two_stages(
    drawn: Drawn, one: Tried, wedge: Tried, need: NeedSummary
) -> DeviceOutcome | None:
    """One device twice, a wedge holding in between; None where that is plainly no way."""
    holding = wedge.driven.figures
    first_m = first_stage_m(
        one.tally.usable_lift_m.p10,
        holding.lift_m,
        holding.lost_m,
        need.balance_lift_m.p10,
        limits.TRIGGER_SHARE.value,
    )
    hold_n = min(holding.rated_n, wedge.tally.bearing_n.p10)
    # The wedge holds in nine of ten draws or it is not left alone with the tree.
    holds = wedge.tally.shares["expulsion"] >= limits.JOINT_SHARE.value and follow_up_holds(
        need.push_n.p90, hold_n, 0.0, 1.0
    )
    # No least stage: a tree a little further back would pass it and come out bolder.
    if not (first_m > 0.0 and holds and _fits(one)):
        return None
    figures = one.driven.figures
    both = figures._replace(
        lift_m=two_stage_lift_m(first_m, figures.lift_m, figures.lost_m, 0.0), lost_m=0.0
    )
    device = one.driven.device
    names = (device.name, wedge.driven.device.name)
    driven = replace(
        one.driven,
        device=replace(device, name=" + ".join(names), mass_kg=_both_kg(one.driven, wedge.driven)),
        figures=both,
        joined=names,
    )
    text = say("kinds.two_stages", name=names[0], wedge=names[1], stop=first_m)
    return _joined(judge_device(driven, drawn.device(both), need), TWO_STAGES, text)


def _travel_m(one: Tried) -> float:
    return one.driven.figures.lift_m - one.driven.figures.lost_m


def _fits(one: Tried) -> bool:
    shares = one.tally.shares
    return shares["room"] >= LEAST_SHARE and shares["expulsion"] >= LEAST_SHARE


def _both_kg(first: Driven, second: Driven) -> float | None:
    masses = (first.device.mass_kg, second.device.mass_kg)
    return None if None in masses else sum(mass or 0.0 for mass in masses)


def _joined(outcome: DeviceOutcome, kind: str, text: Text) -> DeviceOutcome:
    """Name the way of working and hold it at TIGHT."""
    verdict = TIGHT if outcome.verdict == ADDS_UP else outcome.verdict
    reasons = (Reason(kind.replace(" ", "_"), text), *outcome.reasons)
    return replace(outcome, kind=kind, verdict=verdict, reasons=reasons)


def eased_side_use(needs: Sequence[Need], offset_m: float) -> Doubt:
    """Side use while a device carries that stands off the centre line.

    Parameters
    ----------
    needs : sequence of Need
        The tree in every draw.
    offset_m : float
        Offset towards the side that the tree leans to at the median [m].

    Returns
    -------
    Doubt
        It holds while the device carries the push, no longer at let-go. A draw that leans the other
        way is made worse by it.
    """
    right = sum(need.side_m > 0.0 for need in needs) * 2 >= len(needs)
    return doubt(
        [
            eased_side_use_ratio(
                need.side_use,
                need.side_n_m,
                need.checked_push_n,
                offset_m if (need.side_m > 0.0) == right else -offset_m,
            )
            for need in needs
        ]
    )
