"""The cutting part of an answer as text in 80 columns: marks, sequence, turns."""

from __future__ import annotations

from typing import Any

from fellwright.api import shown_cut
from fellwright.cli.paragraph import wrapped
from fellwright.words import Style, render, say


def mark_lines(r: dict[str, Any], style: Style) -> list[str]:
    """Lay the answer to `mark` out below its heading, one string a line."""
    if not r["marks"]:
        lines = ["", *wrapped(render(say("show.no_marks"), style))]
        if r["measure_next"]:
            lines += wrapped(r["measure_next"]["text"], render(say("show.measure_next"), style))
    else:
        lines = ["", *cut_lines(r, style), "", *_sequence_lines(r, style)]
    for caution in r["cautions"]:
        lines += wrapped(caution["text"], "! ")
    return lines


def cut_lines(r: dict[str, Any], style: Style) -> list[str]:
    """Method, bark marks from the front and turns of the spindle."""
    cut = shown_cut(r, style)
    if cut is None:
        return []
    lines = wrapped(cut["line"], render(say("show.cut"), style))
    lines.append(f"  {render(say('show.marks'), style)}")
    lines += [f"    {mark['at']:>9}  {mark['name']}" for mark in cut["marks"]]
    if cut["bar_room"] is not None:
        lines += wrapped(cut["bar_room"])
    if cut["turns"] is not None:
        lines += wrapped(cut["turns"], render(say("show.turns"), style))
        lines += wrapped(cut["drive"], render(say("show.drive"), style))
    return lines


def _sequence_lines(r: dict[str, Any], style: Style) -> list[str]:
    lines = [f"  {render(say('show.order'), style)}"]
    for number, step in enumerate(r["cut"]["sequence"], start=1):
        lines += wrapped(step, f"{number}. ", indent=4)
    return lines
