"""All that a screen shows of a plan in one answer: figures as strings, bars and pictures."""

from collections.abc import Mapping

from fellwright import __version__
from fellwright.api.cut_sizes import cut_sizes
from fellwright.api.door import FIGURE_NAMES, style_from
from fellwright.api.shown import need_rows, shown
from fellwright.api.sliders_response import sliders_response
from fellwright.api.tip_response import tip_response
from fellwright.draw import PICTURES, draw_shape, lay_bars
from fellwright.errors import BadInput
from fellwright.planning.plan import Plan
from fellwright.planning.practice import profile_title
from fellwright.records.fault_log import FaultLog
from fellwright.records.word_fields import WordList
from fellwright.words import Style, Text, render, say

__all__ = ["SHEET_SCHEMA", "sheet_response"]

SHEET_SCHEMA = "fellwright/sheet/1"
SHARE_DIGITS = 4
_WANTED = WordList("pictures", tuple(PICTURES), say("remedy.one_of_these"))


def sheet_response(plan: Plan, request: Mapping[str, object]) -> dict[str, object]:
    """Write a plan as one screen shows it.

    Parameters
    ----------
    plan : Plan
        The plan of the request.
    request : mapping
        As for :func:`fellwright.api.answer`, and ``pictures``: a list of names.

    Returns
    -------
    dict
        ``tip`` as for that question, ``shown`` as strings, ``profile`` as a person reads it,
        ``sizes`` of the cut one by one, ``bars`` as shares of an axis, ``sliders`` for trying
        hinge and notch, ``whys``: the figure to ask ``why`` for by row of what the tree asks,
        ``shape`` and ``pictures`` as SVG, and ``engine``, its version.

    Raises
    ------
    BadInput
        If a picture is asked for that there is not.
    """
    style = style_from(request)
    tip = tip_response(plan, style)
    return {
        "schema": SHEET_SCHEMA,
        "engine": __version__,
        "tip": tip,
        "shown": shown(tip, style),
        "profile": _profile(plan, style),
        "sizes": cut_sizes(tip, style),
        "bars": _written(lay_bars(plan, style), style),
        "sliders": sliders_response(plan, style),
        "whys": _whys(plan, tip),
        "shape": draw_shape(plan.verdict),
        "pictures": {name: PICTURES[name](plan, style) for name in _pictures(request)},
    }


def _profile(plan: Plan, style: Style) -> str | None:
    """Name of the practice profile as a person reads it."""
    profile = plan.options.profile
    return None if profile is None else render(profile_title(profile), style)


def _whys(plan: Plan, tip: Mapping[str, object]) -> dict[str, str]:
    """Name the figure behind each row; the splitting shown is that of the method planned."""
    hinge_first = plan.outcome is not None and plan.outcome.hinge_first
    named = {"splitting": "splitting_hinge_first"} if hinge_first else {}
    figures = {row.key: named.get(row.key, row.key) for row in need_rows(tip)}
    return {key: figure for key, figure in figures.items() if figure in FIGURE_NAMES}


def _written(value: object, style: Style) -> object:
    """Render every sentence and round every share in a tree of lists and tables."""
    if isinstance(value, Text):
        return render(value, style)
    if isinstance(value, dict):
        return {key: _written(one, style) for key, one in value.items()}
    if isinstance(value, list):
        return [_written(one, style) for one in value]
    return round(value, SHARE_DIGITS) if isinstance(value, float) else value


def _pictures(request: Mapping[str, object]) -> tuple[str, ...]:
    log = FaultLog(say("fault.request"))
    wanted = _WANTED.read(log, "request", request).get("pictures", ())
    if log.faults:
        raise BadInput(log.faults)
    return tuple(wanted)
