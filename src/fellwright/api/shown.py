"""Figures of an answer as they are shown: every face prints these strings, so all digits agree."""

import math
from collections.abc import Mapping, Sequence
from typing import Any, NamedTuple

from fellwright.planning.reasons import say_verdict
from fellwright.words import METRIC, Style, Text, quantity, render, say, unit_name

__all__ = [
    "METHOD_KEYS",
    "SHAPES",
    "BandRow",
    "DeviceRow",
    "device_rows",
    "need_rows",
    "shown",
    "shown_choice",
    "shown_cut",
    "shown_verdict",
]

Response = Mapping[str, Any]

SHAPES = {
    "ADDS UP": "[==]",
    "TIGHT": "[/\\]",
    "LINE": "[--]",
    "LEAVE": "[XX]",
    "MEASURE": "[??]",
}
"""A shape for each verdict word, so that it never hangs on colour."""

METHOD_KEYS = {
    "half and half": "half_and_half",
    "hinge first": "hinge_first",
    "normal back cut": "normal_back_cut",
    "felling lever": "felling_lever",
}
"""Key in the catalogue by method of cutting."""

NO_FIGURE = "-"
J_PER_WH = 3600.0


class BandRow(NamedTuple):
    """One figure that the tree asks for, as P10, P50 and P90 without their unit."""

    key: str
    name: str
    p10: str
    p50: str
    p90: str
    unit: str


class DeviceRow(NamedTuple):
    """One device: what it gives, its verdict word and what limits it."""

    name: str
    lift: str
    push: str
    verdict: str
    limit: str
    reason: str
    gives: bool


class _Figure(NamedTuple):
    name: str
    band: Mapping[str, float | None]
    scale: float
    kind: str
    unit: Text | None = None


def shown_verdict(verdict: str, style: Style = METRIC) -> str:
    """Word of a verdict in the language of the style."""
    return render(say_verdict(verdict), style)


def need_rows(answer: Response, style: Style = METRIC) -> list[BandRow]:
    """Write what the tree asks for.

    Parameters
    ----------
    answer : mapping
        The answer to ``tip``.
    style : Style
        Language and units.

    Returns
    -------
    list of BandRow
        Empty where the answer holds no figures; a dash for a figure that cannot be had.
    """
    if answer["lift_mm"] is None:
        return []
    lift = unit_name("lift", style)
    figures = (
        _Figure("balance_lift", answer["lift_mm"]["balance"], 1e-3, "lift"),
        _Figure("let_go_lift", answer["lift_mm"]["let_go"], 1e-3, "lift"),
        _Figure("push", answer["push_kn"], 1e3, "force"),
        _Figure("back_offset", answer["back_offset_m"], 1.0, "offset"),
        _Figure("side_offset", answer["side_offset_m"], 1.0, "offset"),
        _Figure("side_use", answer["side_use"], 1.0, "n2", say("show.side_use_unit")),
        _Figure(
            "early_go", answer["early_go_mm"], 1e-3, "lift", say("show.early_go_unit", unit=lift)
        ),
        _Figure("splitting", answer["splitting_index"], 1.0, "n2", say("show.splitting_unit")),
        _Figure("mass", answer["mass_kg"], 1.0, "mass"),
    )
    return [_band_row(figure, style) for figure in figures]


def _band_row(figure: _Figure, style: Style) -> BandRow:
    unit = unit_name(figure.kind, style) if figure.unit is None else render(figure.unit, style)
    p10, p50, p90 = (
        _bare(figure.band[key], figure.scale, figure.kind, style) for key in ("p10", "p50", "p90")
    )
    return BandRow(figure.name, render(say(f"show.{figure.name}"), style), p10, p50, p90, unit)


def _bare(value: float | None, scale: float, kind: str, style: Style) -> str:
    """One figure without its unit, a dash where there is none."""
    return NO_FIGURE if value is None else quantity(scale * value, f"bare {kind}", style)


def device_rows(answer: Response, style: Style = METRIC) -> list[DeviceRow]:
    """Write what each device gives.

    Parameters
    ----------
    answer : mapping
        The answer to ``tip``.
    style : Style
        Language and units.

    Returns
    -------
    list of DeviceRow
        In the order of the answer.
    """
    return [
        DeviceRow(
            d["name"],
            _bare(d["usable_lift_mm"], 1e-3, "lift", style),
            _bare(d["available_push_kn"], 1e3, "force", style),
            shown_verdict(d["verdict"], style),
            render(say(f"limit.{d['limit']}"), style),
            d["reason"],
            d["usable_lift_mm"] is not None,
        )
        for d in answer["devices"]
    ]


def shown_choice(choice: Response | None, style: Style = METRIC) -> str | None:
    """Name the chosen device and what drives it; None where nothing is driven."""
    if choice is None:
        return None
    if choice["wrench"]:
        drive = say(
            "show.drive_wrench",
            wrench=choice["wrench"],
            hex=choice["socket_hex_mm"] / 1000.0,
            grease=say(f"kit.{choice['grease']}"),
        )
    else:
        drive = say("show.hammer", mass=choice["hammer_kg"])
    return f"{choice['name']} ({render(drive, style)})"


def shown_cut(answer: Response, style: Style = METRIC) -> dict[str, Any] | None:
    """Write the cutting part of an answer.

    Parameters
    ----------
    answer : mapping
        The answer to ``tip`` or ``mark``.
    style : Style
        Language and units.

    Returns
    -------
    dict or None
        ``line`` (method, notch, hinge, step), ``marks`` (``at`` from the front, ``name``),
        ``bar_room``, ``turns`` and ``drive``; None where the answer shows no cut.
    """
    if not answer["marks"]:
        return None
    room, turns = answer["cut"]["bar_room_mm"], answer["turns"]
    return {
        "line": render(_cut_sentence(answer), style),
        "marks": [
            {
                "at": quantity(mark["from_front_mm"] / 1000.0, "mark", style),
                "name": mark["name"],
            }
            for mark in answer["marks"]
        ],
        "bar_room": None
        if room is None
        else render(say("show.bar_room", room=room / 1000.0), style),
        "turns": None if turns is None else render(_turns_sentence(turns), style),
        "drive": None if turns is None else render(_drive_sentence(turns), style),
    }


def _cut_sentence(answer: Response) -> Text:
    cut, hinge, notch = answer["cut"], answer["hinge"], answer["notch"]
    parts = [name for name, part in (("notch", notch), ("hinge", hinge)) if part["proposed"]]
    proposed = "none" if not parts else "both" if len(parts) == 2 else parts[0]
    return say(
        "show.cut_line",
        method=say(f"cut.{METHOD_KEYS[cut['method']]}"),
        notch=notch["depth_mm"] / 1000.0,
        opening=math.radians(notch["opening_deg"]),
        hinge=hinge["thickness_mm"] / 1000.0,
        width=hinge["width_mm"] / 1000.0,
        proposed=say(f"show.proposed_{proposed}"),
        step=cut["step_mm"] / 1000.0,
    )


def _turns_sentence(turns: Response) -> Text:
    balance, goes = turns["balance"], turns["let_go"]
    return say(
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


def _drive_sentence(turns: Response) -> Text:
    low, high = turns["seconds"]
    little, much = turns["energy_wh"]
    return say(
        "show.drive_line",
        low=low,
        high=high,
        little=J_PER_WH * little,
        much=J_PER_WH * much,
    )


def shown(answer: Response, style: Style = METRIC) -> dict[str, object]:
    """Write the figures of an answer as strings.

    Parameters
    ----------
    answer : mapping
        The answer to ``tip``.
    style : Style
        Language and units; the sentences of the answer itself are in the style it was asked in.

    Returns
    -------
    dict
        ``verdict``, ``shape``, ``if_clear``, ``choice``, ``need``, ``devices``, ``cut`` and the
        units of lift and force.
    """
    unclear = answer["if_clear"] != answer["verdict"]
    return {
        "verdict": shown_verdict(answer["verdict"], style),
        "shape": SHAPES[answer["verdict"]],
        "if_clear": shown_verdict(answer["if_clear"], style) if unclear else None,
        "choice": shown_choice(answer["choice"], style),
        "need": _tables(need_rows(answer, style)),
        "devices": _tables(device_rows(answer, style)),
        "cut": shown_cut(answer, style),
        "lift_unit": unit_name("lift", style),
        "force_unit": unit_name("force", style),
    }


def _tables(rows: Sequence[BandRow] | Sequence[DeviceRow]) -> list[dict[str, object]]:
    return [row._asdict() for row in rows]
