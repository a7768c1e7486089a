"""The three cards of a tree that is stuck, as plain data. They come up whatever else is wrong."""

from collections.abc import Mapping

from fellwright.api.door import plan_from, style_from
from fellwright.errors import BadInput
from fellwright.planning.plan import Plan
from fellwright.planning.stuck_cards import CARDS, DOES_NOT_GO, StuckCard, plan_lines
from fellwright.words import METRIC, Style, Text, render, say

__all__ = ["STUCK_SCHEMA", "stuck_answer", "stuck_response"]

STUCK_SCHEMA = "fellwright/stuck/1"
LONGEST_POINT = 120


def stuck_answer(request: Mapping[str, object]) -> dict[str, object]:
    """Give the cards: does not go, hung, pinched bar.

    Parameters
    ----------
    request : mapping
        ``language``, ``force`` and ``imperial`` as for ``tip``; optional ``rescue_point``, a text;
        optional ``tree`` and ``kit`` as for ``tip``, for the line that its plan asks for.

    Returns
    -------
    dict
        See :func:`stuck_response`. A tree that cannot be read keeps back its line, never the cards.

    Raises
    ------
    BadInput
        If language or units are none.
    """
    style = style_from(request)
    plan: Plan | None = None
    note: Text | None = None
    if request.get("tree") is not None:
        try:
            plan = plan_from({**request, "bare": True})
        except BadInput:
            note = say("stuck.tree_unread")
    return stuck_response(plan, _point(request.get("rescue_point")), note, style)


def _point(raw: object) -> str | None:
    """Name of the rescue point with nothing in it that a screen would obey."""
    if not isinstance(raw, str) or not raw.strip():
        return None
    clean = "".join(
        letter if letter.isprintable() else "\N{REPLACEMENT CHARACTER}"
        for letter in " ".join(raw.split())
    )
    return clean[:LONGEST_POINT]


def stuck_response(
    plan: Plan | None, rescue_point: str | None, note: Text | None, style: Style = METRIC
) -> dict[str, object]:
    """Write the cards as the answer to ``stuck``.

    Parameters
    ----------
    plan : Plan or None
        The plan of the tree, if there is one.
    rescue_point : str or None
        Where rescuers are met.
    note : Text or None
        Why there is no line.
    style : Style
        Language and units.

    Returns
    -------
    dict
        ``cards`` with ``never``, ``now`` in order, ``who``, and ``line`` where the plan asks for
        one; ``call``: what to say on the phone; ``caution``.
    """
    lines = () if plan is None else plan_lines(plan)
    point = say("screen_stuck.no_point")
    if rescue_point is not None:
        point = say("screen_stuck.point", point=rescue_point)
    call = (say("screen_stuck.call_who"), point, say("screen_stuck.call_wait"))
    return {
        "schema": STUCK_SCHEMA,
        "tree": None if plan is None else plan.tree.name,
        "cards": [_card(card, lines if card.key == DOES_NOT_GO else (), style) for card in CARDS],
        "rescue_point": rescue_point,
        "call": [render(text, style) for text in call],
        "note": None if note is None else render(note, style),
        "caution": render(say("screen_stuck.caution"), style),
    }


def _card(card: StuckCard, lines: tuple[Text, ...], style: Style) -> dict[str, object]:
    return {
        "key": card.key,
        "title": render(card.title, style),
        "never": [render(text, style) for text in card.never],
        "now": [render(text, style) for text in card.now],
        "who": [render(text, style) for text in card.who],
        "line": [render(say("stuck.line", line=line), style) for line in lines],
    }
