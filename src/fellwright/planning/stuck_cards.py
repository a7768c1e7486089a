"""What now? Three cards for a tree that does not do what was planned.

PRACTICE throughout: what the trade forbids, the one next step, and who stands where. No force is
worked out here; a line that the plan itself asks for is told on the first card.
"""

from dataclasses import dataclass

from fellwright.planning.plan import Plan
from fellwright.words import Text, say

__all__ = ["CARDS", "DOES_NOT_GO", "StuckCard", "plan_lines"]

DOES_NOT_GO = "does not go"


@dataclass(frozen=True, slots=True)
class StuckCard:
    """One card: what is never done, what is done now in this order, who stands where."""

    key: str
    title: Text
    never: tuple[Text, ...]
    now: tuple[Text, ...]
    who: tuple[Text, ...]


CARDS = (
    StuckCard(
        DOES_NOT_GO,
        say("screen_stuck.goes_title"),
        (
            say("screen_stuck.goes_never_saw"),
            say("screen_stuck.goes_never_ahead"),
            say("screen_stuck.goes_never_stop"),
            say("screen_stuck.never_unmarked"),
        ),
        (
            say("screen_stuck.goes_now_back"),
            say("screen_stuck.goes_now_wedge"),
            say("screen_stuck.goes_now_line"),
        ),
        (
            say("screen_stuck.who_decides"),
            say("screen_stuck.who_helpers"),
            say("screen_stuck.who_rope"),
        ),
    ),
    StuckCard(
        "hung",
        say("screen_stuck.hung_title"),
        (
            say("screen_stuck.hung_never_climb"),
            say("screen_stuck.hung_never_holder"),
            say("screen_stuck.hung_never_another"),
            say("screen_stuck.hung_never_under"),
            say("screen_stuck.never_unmarked"),
        ),
        (
            say("screen_stuck.hung_now_out"),
            say("screen_stuck.hung_now_look"),
            say("screen_stuck.hung_now_means"),
        ),
        (
            say("screen_stuck.who_decides"),
            say("screen_stuck.hung_who_watch"),
            say("screen_stuck.who_rope"),
            say("screen_stuck.who_helpers"),
        ),
    ),
    StuckCard(
        "pinched bar",
        say("screen_stuck.bar_title"),
        (
            say("screen_stuck.bar_never_tear"),
            say("screen_stuck.bar_never_second"),
            say("screen_stuck.bar_never_loose"),
            say("screen_stuck.never_unmarked"),
        ),
        (
            say("screen_stuck.bar_now_off"),
            say("screen_stuck.bar_now_open"),
            say("screen_stuck.bar_now_leave"),
        ),
        (
            say("screen_stuck.bar_who_one"),
            say("screen_stuck.hung_who_watch"),
            say("screen_stuck.who_helpers"),
        ),
    ),
)


def plan_lines(plan: Plan) -> tuple[Text, ...]:
    """Lines that a plan asks for and the kit serves.

    Parameters
    ----------
    plan : Plan
        The plan of the tree.

    Returns
    -------
    tuple of Text
        What each takes; empty where the plan asks for none or the kit lacks what it takes.
    """
    if plan.outcome is None or plan.outcome.lines_missing:
        return ()
    return tuple(line.text for line in plan.outcome.lines)
