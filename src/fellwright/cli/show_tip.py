"""The answer to `tip` as text in 80 columns: verdict, need, devices, cut, doubts."""

from __future__ import annotations

from typing import Any

from fellwright.cli.paragraph import WIDTH, rule, wrapped
from fellwright.cli.show_mark import cut_lines

SHAPES = {
    "ADDS UP": "[==]",
    "TIGHT": "[/\\]",
    "LINE": "[--]",
    "LEAVE": "[XX]",
    "MEASURE": "[??]",
}
"""A shape for each verdict word, so that it never hangs on colour."""

MOST_REASONS = 4
BAR_CHARACTERS = 46


def tip_lines(r: dict[str, Any]) -> list[str]:
    """Lay the answer out, one string a line."""
    lines = heading_lines(r)
    if r["lift_mm"] is not None:
        if r["conditions"]:
            lines += ["", *wrapped("Figures " + ", ".join(r["conditions"]) + ":", indent=0)]
        lines += ["", *_need_lines(r)]
    if r["devices"]:
        lines += ["", *_device_lines(r)]
    if r["marks"]:
        lines += ["", *cut_lines(r)]
    lines += ["", *_doubt_lines(r)]
    return lines


def heading_lines(r: dict[str, Any]) -> list[str]:
    """Name, lay, verdict in word and shape, and the reasons with the limiting one first."""
    lay = "no lay" if r["lay_deg"] is None else f"lay {r['lay_deg']:g} deg"
    name = r["tree"] or "tree without a name"
    lines = [f"{name[: WIDTH - 20]}, {lay}", rule()]
    word = f"{SHAPES[r['verdict']]}  {r['verdict']}"
    choice = r["choice"]
    if choice and r["verdict"] in ("ADDS UP", "TIGHT", "LINE"):
        drive = (
            f"{choice['wrench']}, {choice['socket_hex_mm']:g} mm socket, {choice['grease']}"
            if choice["wrench"]
            else f"{choice['hammer_kg']:g} kg hammer"
        )
        word += f"   {choice['name']} ({drive})"
    if r["if_clear"] != r["verdict"]:
        word += f"   (were the look clear: {r['if_clear']})"
    lines.append(word)
    for reason in r["reasons"][:MOST_REASONS]:
        lines += wrapped(reason["text"], "- ", indent=6)
    if r["verdict"] == "LINE":
        for line in r["line"]:
            lines += wrapped(line["text"], "> ", indent=6)
    return lines


def _need_lines(r: dict[str, Any]) -> list[str]:
    """What the tree asks for, as P10, P50, P90."""
    push = r["push_kn"]
    tonnes = {k: None if v is None else v / 9.80665 for k, v in push.items()}
    rows = [
        ("balance lift", r["lift_mm"]["balance"], "mm", 0),
        ("let-go lift", r["lift_mm"]["let_go"], "mm", 0),
        ("push", push, "kN", 0),
        ("", tonnes, "t", 1),
        ("back offset", r["back_offset_m"], "m", 2),
        ("side offset", r["side_offset_m"], "m", 2),
        ("side use", r["side_use"], "of the hinge's sideways strength", 2),
        ("early-go", r["early_go_mm"], "mm uncut when it starts", 0),
        ("splitting", r["splitting_index"], "index, splits at 1", 2),
        ("mass", r["mass_kg"], "kg", 0),
    ]
    lines = [f"  {'The tree asks':<16}{'P10':>8}{'P50':>8}{'P90':>8}"]
    for name, band, unit, digits in rows:
        figures = "".join(
            f"{'-' if band[key] is None else format(band[key], f'.{digits}f'):>8}"
            for key in ("p10", "p50", "p90")
        )
        lines.append(f"  {name:<16}{figures}  {unit}")
    return lines


def _device_lines(r: dict[str, Any]) -> list[str]:
    """One line a device, and a bar of lift: the tree's band and what each device gives."""
    lines = [f"  {'This van gives':<22}{'lift mm':>8}{'push kN':>9}  {'verdict':<8} limit"]
    for d in r["devices"]:
        lift = "-" if d["usable_lift_mm"] is None else f"{d['usable_lift_mm']:.0f}"
        push = "-" if d["available_push_kn"] is None else f"{d['available_push_kn']:.0f}"
        lines.append(f"  {d['name'][:20]:<22}{lift:>8}{push:>9}  {d['verdict']:<8} {d['limit']}")
        if d["usable_lift_mm"] is None:
            lines += wrapped(d["reason"], indent=6)
    return [*lines, *_lift_bar(r)]


def _lift_bar(r: dict[str, Any]) -> list[str]:
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
    scale = f"0{'':{BAR_CHARACTERS - 2}}{top:.0f} mm"
    return [
        "",
        f"  lift to let-go  {''.join(need)}",
        f"  devices give    {''.join(give)}",
        f"                  {scale}",
    ]


def _doubt_lines(r: dict[str, Any]) -> list[str]:
    """Measure next, cautions, and what was assumed."""
    lines = []
    if r["measure_next"]:
        lines += wrapped(r["measure_next"]["text"], "Measure next: ")
    for caution in r["cautions"]:
        lines += wrapped(caution["text"], "! ")
    read = [a["value"] for a in r["assumed"] if a["name"] == "not read"]
    for text in read:
        lines += wrapped(text, "assumed: ")
    rest = len(r["assumed"]) - len(read)
    if rest:
        lines += wrapped(f"{rest} more assumed figures behind this: see assumed in --json.")
    return lines
