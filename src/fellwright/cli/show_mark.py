"""The cutting part of an answer as text in 80 columns: marks, sequence, turns."""

from __future__ import annotations

import math
from typing import Any

from fellwright.cli.paragraph import wrapped
from fellwright.words import Style, quantity, render, say

METHOD_KEYS = {
    "half and half": "half_and_half",
    "hinge first": "hinge_first",
    "normal back cut": "normal_back_cut",
    "felling lever": "felling_lever",
}


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
    cut, hinge, notch = r["cut"], r["hinge"], r["notch"]
    parts = [name for name, part in (("notch", notch), ("hinge", hinge)) if part["proposed"]]
    proposed = "none" if not parts else "both" if len(parts) == 2 else parts[0]
    sentence = say(
        "show.cut_line",
        method=say(f"cut.{METHOD_KEYS[cut['method']]}"),
        notch=notch["depth_mm"] / 1000.0,
        opening=math.radians(notch["opening_deg"]),
        hinge=hinge["thickness_mm"] / 1000.0,
        width=hinge["width_mm"] / 1000.0,
        proposed=say(f"show.proposed_{proposed}"),
        step=cut["step_mm"] / 1000.0,
    )
    lines = wrapped(render(sentence, style), render(say("show.cut"), style))
    lines.append(f"  {render(say('show.marks'), style)}")
    lines += [
        f"    {quantity(mark['from_front_mm'] / 1000.0, 'mark', style):>9}  {mark['name']}"
        for mark in r["marks"]
    ]
    if cut["bar_room_mm"] is not None:
        room = say("show.bar_room", room=cut["bar_room_mm"] / 1000.0)
        lines += wrapped(render(room, style))
    if r["turns"]:
        lines += _turn_lines(r["turns"], style)
    return lines


def _turn_lines(turns: dict[str, Any], style: Style) -> list[str]:
    balance, goes = turns["balance"], turns["let_go"]
    counted = say(
        "show.turns_line",
        bed=turns["bed_in"],
        balance=balance["p50"],
        balance_low=balance["p10"],
        balance_high=balance["p90"],
        goes=goes["p50"],
        goes_low=goes["p10"],
        goes_high=goes["p90"],
        stop=turns["stop"],
        away=say("show.away_by", turns=turns["leave_stump_by"]),
    )
    low, high = turns["seconds"]
    little, much = turns["energy_wh"]
    driven = say("show.drive_line", low=low, high=high, little=3600.0 * little, much=3600.0 * much)
    return [
        *wrapped(render(counted, style), render(say("show.turns"), style)),
        *wrapped(render(driven, style), render(say("show.drive"), style)),
    ]


def _sequence_lines(r: dict[str, Any], style: Style) -> list[str]:
    lines = [f"  {render(say('show.order'), style)}"]
    for number, step in enumerate(r["cut"]["sequence"], start=1):
        lines += wrapped(step, f"{number}. ", indent=4)
    return lines
