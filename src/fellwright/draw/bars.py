"""Need against have as two bars: where each end stands, as a share of one axis."""

from collections.abc import Callable

from fellwright.draw.lettering import LEAST, shorten
from fellwright.draw.scales import Unit, axis_to, force_unit, lift_unit, tick_text
from fellwright.draw.svg import clean
from fellwright.planning.chance import Doubt
from fellwright.planning.plan import Plan
from fellwright.words import Style, Text, say

__all__ = ["lay_bars"]

TICKS = 6
HEADROOM = 1.06
LEAST_NEED = 1e-6
NAME_MM = 26.0


def lay_bars(plan: Plan, style: Style) -> list[dict[str, object]]:
    """Lay out lift and push that the tree needs, and what the chosen device gives.

    Parameters
    ----------
    plan : Plan
        The plan.
    style : Style
        Units.

    Returns
    -------
    list of dict
        Lift and push; the need alone where nothing may be cut; empty where there are no figures
        or nothing is driven.
    """
    outcome = plan.outcome
    if outcome is None or not plan.drives_device:
        return []
    choice = outcome.choice if plan.may_cut else None
    lift = None if choice is None else choice.usable_lift_m
    push = None if choice is None else choice.available_n
    name = "" if choice is None else shorten(clean(choice.name), NAME_MM, LEAST)
    figures = outcome.figures
    both = (
        (say("card.lift"), figures.let_go_lift_m, lift, lift_unit(style), _lift_band),
        (say("card.push"), figures.push_n, push, force_unit(style), _push_band),
    )
    return [
        {"heading": heading, **_bar(need, have, unit, style, says), "name": name}
        for heading, need, have, unit, says in both
        if need.p90 > LEAST_NEED
    ]


def _lift_band(b: Doubt) -> Text:
    return say("pictures.lift_band", p10=b.p10, p50=b.p50, p90=b.p90)


def _push_band(b: Doubt) -> Text:
    return say("pictures.push_band", p10=b.p10, p50=b.p50, p90=b.p90)


def _bar(
    need: Doubt, have: Doubt | None, unit: Unit, style: Style, says: Callable[[Doubt], Text]
) -> dict[str, object]:
    most = need.p90 if have is None else max(need.p90, have.p90)
    axis = axis_to(HEADROOM * most, unit, TICKS)

    def shares(doubt: Doubt) -> list[float]:
        return [min(1.0, max(0.0, axis.share(value))) for value in doubt]

    return {
        "unit": unit.sign,
        "need": shares(need),
        "need_text": say("card.needs", band=says(need)),
        "have": None if have is None else shares(have),
        "have_text": "" if have is None else say("card.gives", band=says(have)),
        "ticks": [[tick / axis.top, tick_text(tick, style)] for tick in axis.ticks],
    }
