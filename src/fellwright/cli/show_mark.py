"""The cutting part of an answer as text in 80 columns: marks, sequence, turns."""

from __future__ import annotations

from typing import Any

from fellwright.cli.paragraph import wrapped


def mark_lines(r: dict[str, Any]) -> list[str]:
    """Lay the answer to `mark` out, one string a line."""
    from fellwright.cli.show_tip import heading_lines

    lines = heading_lines(r)
    if not r["marks"]:
        lines += ["", *wrapped("No marks are printed for this verdict.")]
        if r["measure_next"]:
            lines += wrapped(r["measure_next"]["text"], "Measure next: ")
    else:
        lines += ["", *cut_lines(r), "", *_sequence_lines(r)]
    for caution in r["cautions"]:
        lines += wrapped(caution["text"], "! ")
    return lines


def cut_lines(r: dict[str, Any]) -> list[str]:
    """Method, bark marks from the front and turns of the spindle."""
    cut, hinge, notch = r["cut"], r["hinge"], r["notch"]
    proposed = [name for name, part in (("notch", notch), ("hinge", hinge)) if part["proposed"]]
    said = f" ({' and '.join(proposed)} proposed)" if proposed else ""
    lines = wrapped(
        f"{cut['method']}; notch {notch['depth_mm']:.0f} mm deep, {notch['opening_deg']:.0f} deg; "
        f"hinge {hinge['thickness_mm']:.0f} x {hinge['width_mm']:.0f} mm{said}; "
        f"step {cut['step_mm']:.0f} mm",
        "Cut: ",
    )
    lines.append("  Bark marks from the front, over bark:")
    for mark in r["marks"]:
        lines.append(f"    {mark['from_front_mm'] / 10:6.1f} cm  {mark['name']}")
    if cut["bar_room_mm"] is not None:
        lines += wrapped(f"room for the bar behind the hinge: {cut['bar_room_mm']:.0f} mm", "")
    turns = r["turns"]
    if turns:
        lines += wrapped(
            f"{turns['bed_in']:.0f} bed in, {turns['balance']['p50']:.0f} balance "
            f"({turns['balance']['p10']:.0f} to {turns['balance']['p90']:.0f}), "
            f"{turns['let_go']['p50']:.0f} goes ({turns['let_go']['p10']:.0f} to "
            f"{turns['let_go']['p90']:.0f}), {turns['stop']:.0f} STOP; "
            f"away from the stump by {turns['leave_stump_by']:.0f}",
            "Turns: ",
        )
        lines += wrapped(
            f"about {turns['seconds'][0]:.0f} to {turns['seconds'][1]:.0f} s, "
            f"{turns['energy_wh'][0]:.0f} to {turns['energy_wh'][1]:.0f} Wh",
            "Drive: ",
        )
    return lines


def _sequence_lines(r: dict[str, Any]) -> list[str]:
    lines = ["  In this order:"]
    for number, step in enumerate(r["cut"]["sequence"], start=1):
        lines += wrapped(step, f"{number}. ", indent=4)
    return lines
