"""The answer to `tip` as text in 80 columns: verdict, need, devices, cut, doubts."""

from __future__ import annotations

import math
from typing import Any

from fellwright.api import SHAPES, device_rows, need_rows, shown_choice, shown_verdict
from fellwright.cli.paragraph import WIDTH, beside, rule, wrapped
from fellwright.cli.show_mark import cut_lines
from fellwright.words import Style, listed, quantity, render, say, unit_name

MOST_REASONS = 4
MOST_HELPS = 4
BAR_CHARACTERS = 46


def tip_lines(r: dict[str, Any], style: Style) -> list[str]:
    """Lay the answer out, one string a line."""
    lines = heading_lines(r, style)
    if r["lift_mm"] is not None:
        if r["conditions"]:
            given = say("show.figures", conditions=listed(r["conditions"]))
            lines += ["", *wrapped(render(given, style), indent=0)]
        lines += ["", *_need_lines(r, style)]
    if r["devices"]:
        lines += ["", *_device_lines(r, style)]
    if r["marks"]:
        lines += ["", *cut_lines(r, style)]
    lines += ["", *_doubt_lines(r, style)]
    return lines


def heading_lines(r: dict[str, Any], style: Style) -> list[str]:
    """Name, lay, verdict in word and shape, and the reasons with the limiting one first."""
    lay = say("show.no_lay")
    if r["lay_deg"] is not None:
        lay = say("show.lay", lay=math.radians(r["lay_deg"]))
    name = r["tree"] or render(say("show.name_missing"), style)
    lines = [f"{name[: WIDTH - 20]}, {render(lay, style)}", rule()]
    word = f"{SHAPES[r['verdict']]}  {shown_verdict(r['verdict'], style)}"
    choice = shown_choice(r["choice"], style)
    asides = [] if choice is None else [choice]
    if r["if_clear"] != r["verdict"]:
        if_clear = say("show.if_clear", verdict=shown_verdict(r["if_clear"], style))
        asides.append(render(if_clear, style))
    lines += beside(word, asides)
    for reason in r["reasons"][:MOST_REASONS]:
        lines += wrapped(reason["text"], "- ", indent=6)
    if r["verdict"] == "LINE":
        for line in r["line"]:
            lines += wrapped(line["text"], "> ", indent=6)
    return lines


def _need_lines(r: dict[str, Any], style: Style) -> list[str]:
    """What the tree asks for, as P10, P50, P90."""
    head = f"  {render(say('show.asks'), style):<18}{'P10':>7}{'P50':>8}{'P90':>8}"
    return [
        head,
        *(
            f"  {row.name:<17}{row.p10:>8}{row.p50:>8}{row.p90:>8}  {row.unit}"
            for row in need_rows(r, style)
        ),
    ]


def _device_lines(r: dict[str, Any], style: Style) -> list[str]:
    """One line a device, and a bar of lift: the tree's band and what each device gives."""
    lift = render(say("show.lift_column", unit=unit_name("lift", style)), style)
    push = render(say("show.push_column", unit=unit_name("force", style)), style)
    verdict = render(say("show.verdict_column"), style)
    limit = render(say("show.limit_column"), style)
    rows = device_rows(r, style)
    wide = 2 + max(len(word) for word in (verdict, *(row.verdict for row in rows)))
    head = render(say("show.device"), style)
    lines = [f"  {head:<24}{lift:>9}{push:>11}  {verdict:<{wide}}{limit}"]
    for row in rows:
        figures = f"{row.lift:>9}{row.push:>11}"
        lines.append(f"  {row.name[:23]:<24}{figures}  {row.verdict:<{wide}}{row.limit}")
        if not row.gives:
            lines += wrapped(row.reason, indent=6)
    return [*lines, *_lift_bar(r, style)]


def _lift_bar(r: dict[str, Any], style: Style) -> list[str]:
    """Lift on one scale: = from P10 to P90 of let-go, | at P50, the first letter of each device."""
    band = r["lift_mm"]["let_go"]
    have = [(d["name"], d["usable_lift_mm"]) for d in r["devices"] if d["usable_lift_mm"]]
    if band["p90"] is None or not have:
        return []
    top = max(band["p90"], *(lift for _, lift in have)) * 1.05
    if top <= 0.0:
        return []

    def at(value: float) -> int:
        return min(BAR_CHARACTERS - 1, int(value / top * BAR_CHARACTERS))

    need = [" "] * BAR_CHARACTERS
    for i in range(at(band["p10"]), at(band["p90"]) + 1):
        need[i] = "="
    need[at(band["p50"])] = "|"
    give = [" "] * BAR_CHARACTERS
    for name, lift in have:
        give[at(lift)] = name[0].upper()
    scale = f"0{'':{BAR_CHARACTERS - 2}}{quantity(top / 1000.0, 'lift', style)}"
    rows = (("bar_need", "".join(need)), ("bar_give", "".join(give)))
    lines = [f"  {render(say(f'show.{name}'), style):<20}{bar}".rstrip() for name, bar in rows]
    return ["", *lines, f"{'':22}{scale}"]


def _doubt_lines(r: dict[str, Any], style: Style) -> list[str]:
    """Measure next, cautions, and what was assumed."""
    lines = []
    if r["measure_next"]:
        lines += wrapped(r["measure_next"]["text"], render(say("show.measure_next"), style))
    for help_ in r["helps"][:MOST_HELPS]:
        lines += wrapped(help_["text"], "+ ")
    if r["envelope"] and r["envelope"]["text"]:
        lines += wrapped(r["envelope"]["text"], "= ")
    for caution in r["cautions"]:
        lines += wrapped(caution["text"], "! ")
    read = [a["value"] for a in r["assumed"] if a["not_read"]]
    for text in read:
        lines += wrapped(text, render(say("show.assumed"), style))
    rest = len(r["assumed"]) - len(read)
    if rest:
        lines += wrapped(render(say("show.assumed_more", count=rest), style))
    return lines
