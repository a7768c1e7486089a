"""What stands on a tree card, as plain strings and shares of a bar: the page only places them."""

import math

from fellwright import __version__
from fellwright.draw import draw_need_have, draw_shape, draw_stump, lay_bars
from fellwright.draw.svg import clean
from fellwright.planning.cautions import warn
from fellwright.planning.plan import Plan
from fellwright.planning.reasons import LINE, MEASURE, say_verdict
from fellwright.print.cut import lay_cut, lay_device, lay_marks, lay_turns
from fellwright.print.lean import say_lean
from fellwright.words import Style, Text, listed, render, say

__all__ = ["Card", "lay_out"]

Card = dict[str, object]

LONGEST_NAME = 70
LONGEST_RUN = 18
MOST_REASONS = 3
MOST_CAUTIONS = 3
MOST_ASSUMED = 3
STANDING = "local_law"
BLANKS = ("aim_at", "pull_point", "rescue", "signer", "date", "signature")
ZERO_WIDTH_SPACE = "\N{ZERO WIDTH SPACE}"


def lay_out(plan: Plan, style: Style, paper: str = "a5") -> Card:
    """Write what a plan says as the content of one card.

    Parameters
    ----------
    plan : Plan
        The plan, not a bare one: a bare one lacks marks and cautions.
    style : Style
        Language and units.
    paper : str
        The sheet; a larger one has room for a picture beside the card.

    Returns
    -------
    dict
        Plain data. No hinge, marks or turns where the verdict shows none.
    """
    may_cut = plan.may_cut and plan.marks is not None
    texts: dict[str, object] = {
        "name": _name(plan, style),
        "verdict": say_verdict(plan.verdict),
        "if_clear": _if_clear(plan),
        "no_cut": "" if may_cut else say("card.no_cut"),
        "reasons": [reason.text for reason in plan.reasons[:MOST_REASONS]],
        "where": [*_lay(plan), (say("card.lean"), say_lean(plan))],
        "figures": _conditions(plan),
        "bars": lay_bars(plan, style),
        "bars_word": "" if plan.drives_device or not may_cut else say("pictures.nothing_driven"),
        "device": [*lay_device(plan), *_lines(plan)] if may_cut else [],
        "marks": lay_marks(plan) if may_cut else None,
        "turns": lay_turns(plan, style) if may_cut else None,
        "cut": [*lay_cut(plan), *_envelope(plan)] if may_cut else [],
        "measure_next": _measure_next(plan),
        "cautions": _cautions(plan),
        "assumed": _assumed(plan),
        "standing": warn(STANDING).text,
        "blanks": [say(f"card.{name}") for name in BLANKS],
        "notes": say("card.notes"),
        "engine": _engine(plan),
    }
    written = _written(texts, style)
    assert isinstance(written, dict)
    picture = _picture(plan, style) if paper == "a4" else ""
    pictures = {"shape": draw_shape(plan.verdict), "picture": picture}
    return {**written, **pictures, "language": style.language}


def _written(value: object, style: Style) -> object:
    """Render every sentence in a tree of lists and tables, each as one line that can break."""
    if isinstance(value, Text | str):
        return _breakable(clean(render(value, style)))
    if isinstance(value, dict):
        return {key: _written(one, style) for key, one in value.items()}
    if isinstance(value, list | tuple):
        return [_written(one, style) for one in value]
    return value


def _breakable(text: str) -> str:
    """Let a run of letters without a space break, so that no name pushes others off the page."""
    return " ".join(
        word
        if len(word) <= 2 * LONGEST_RUN
        else ZERO_WIDTH_SPACE.join(
            word[i : i + LONGEST_RUN] for i in range(0, len(word), LONGEST_RUN)
        )
        for word in text.split(" ")
    )


def _name(plan: Plan, style: Style) -> str:
    name = " ".join((plan.tree.name or "").split()) or render(say("show.name_missing"), style)
    if len(name) <= LONGEST_NAME:
        return name
    return f"{name[: LONGEST_NAME - 1].rstrip()}\N{HORIZONTAL ELLIPSIS}"


def _if_clear(plan: Plan) -> Text | str:
    if plan.if_clear == plan.verdict:
        return ""
    return say("show.if_clear", verdict=say_verdict(plan.if_clear))


def _lay(plan: Plan) -> list[tuple[Text, Text]]:
    if plan.tree.cut.lay_deg is None:
        return [(say("card.lay"), say("card.no_lay"))]
    lay_rad = math.radians(plan.tree.cut.lay_deg)
    return [(say("card.lay"), say("card.lay_text", lay=lay_rad))]


def _conditions(plan: Plan) -> Text | str:
    """Under which conditions the figures hold, where there are figures and conditions."""
    if plan.outcome is None or not plan.conditions:
        return ""
    return say("show.figures", conditions=listed(plan.conditions))


def _lines(plan: Plan) -> list[tuple[Text, Text]]:
    if plan.verdict != LINE or plan.outcome is None:
        return []
    return [(say("card.line"), line.text) for line in plan.outcome.lines]


def _measure_next(plan: Plan) -> list[object]:
    """Name the next reading where the verdict waits for it."""
    if plan.verdict != MEASURE or plan.measure_next is None:
        return []
    return [say("show.measure_next"), plan.measure_next.text]


def _cautions(plan: Plan) -> dict[str, object]:
    """The sharpest cautions and how many more; the standing one has its own place."""
    cautions = [caution.text for caution in plan.cautions if caution.code != STANDING]
    more = len(cautions) - MOST_CAUTIONS
    return {
        "word": say("card.cautions"),
        "items": cautions[:MOST_CAUTIONS],
        "more": say("card.cautions_more", count=more) if more > 0 else "",
    }


def _envelope(plan: Plan) -> list[tuple[Text, Text]]:
    if plan.envelope is None or plan.envelope.text is None:
        return []
    return [(say("card.holds"), plan.envelope.text)]


def _assumed(plan: Plan) -> dict[str, object]:
    """What was not read, and how many figures more: all of it, and shorter where room is short."""
    unread = [assumed.value for assumed in plan.assumed if assumed.is_missing_reading]
    total = len(plan.assumed)
    choices = []
    for shown in range(min(MOST_ASSUMED, len(unread)), -1, -1):
        key = "card.assumed_more" if shown else "card.assumed_all"
        more = say(key, count=total - shown) if total > shown else ""
        choices.append({"items": unread[:shown], "more": more})
    return {"word": say("card.assumed"), "choices": choices if total else []}


def _engine(plan: Plan) -> Text:
    options, profile = plan.options, plan.options.profile
    return say(
        "card.engine",
        version=__version__,
        profile="" if profile is None else say("card.profile", name=profile.name),
        seed=options.seed,
        draws=options.draws,
    )


def _picture(plan: Plan, style: Style) -> str:
    """Draw what stands beside the card on a larger sheet: the stump, or the need alone."""
    if plan.may_cut:
        return draw_stump(plan, style)
    return "" if plan.outcome is None else draw_need_have(plan, style)
