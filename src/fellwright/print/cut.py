"""What a card says of device, marks, turns and cut: only for a verdict that may show them."""

from fellwright.planning.chance import Doubt
from fellwright.planning.judge_device import DeviceOutcome
from fellwright.planning.marks import HALF_AND_HALF, HINGE_FIRST, LEVER, NORMAL, Marks, Turns
from fellwright.planning.plan import Plan
from fellwright.words import Style, Text, quantity, say

__all__ = ["lay_cut", "lay_device", "lay_marks", "lay_turns"]

J_PER_WH = 3600.0
METHOD_KEYS = {
    HALF_AND_HALF: "half_and_half",
    HINGE_FIRST: "hinge_first",
    NORMAL: "normal_back_cut",
    LEVER: "felling_lever",
}

Row = tuple[Text, Text]


def lay_device(plan: Plan) -> list[Row]:
    """Name the device with socket, wrench and battery, or hammer; nothing where none is driven."""
    choice = _driven_choice(plan)
    if choice is None or choice.driven is None:
        return []
    drive = choice.driven.drive
    if drive.wrench is not None and drive.socket_hex_mm is not None:
        text = say(
            "card.screw",
            name=choice.name,
            hex=drive.socket_hex_mm / 1000.0,
            wrench=drive.wrench.name,
            grease=say(f"kit.{choice.driven.grease}"),
            battery=_battery(drive.charge_wh, plan.marks),
        )
    elif drive.hammer_kg is not None:
        hammer = say("show.hammer", mass=drive.hammer_kg)
        text = say("card.hammer", name=choice.name, hammer=hammer)
    else:
        text = say("card.other_drive", name=choice.name)
    return [(say("card.device"), text)]


def _driven_choice(plan: Plan) -> DeviceOutcome | None:
    if plan.outcome is None or not plan.drives_device:
        return None
    return plan.outcome.choice


def _battery(have_wh: float, marks: Marks | None) -> Text:
    have = have_wh * J_PER_WH
    if marks is None or marks.turns is None:
        return say("card.battery_have", have=have)
    little, much = (J_PER_WH * energy for energy in marks.turns.energy_wh)
    return say("card.battery_need", have=have, little=little, much=much)


def lay_marks(plan: Plan) -> dict[str, object]:
    """Hinge, and the bark marks in their order from the front."""
    marks, cut = plan.marks, plan.cut
    assert marks is not None
    assert cut is not None
    return {
        "hinge": say("card.hinge", hinge=cut.hinge_m),
        "width": say("card.hinge_width", width=marks.hinge_width_mm / 1000.0),
        "proposed": say("card.proposed") if cut.hinge_is_proposed else "",
        "word": say("card.marks"),
        "rows": [
            [
                say("pictures.mark_distance", distance=mark.from_front_mm / 1000.0),
                mark_name(mark.key),
            ]
            for mark in marks.marks
        ],
    }


def mark_name(key: str) -> Text:
    """Name of a bark mark."""
    return say(f"mark.{key}")


def lay_turns(plan: Plan, style: Style) -> dict[str, object] | None:
    """Turns in the order in which they come, or the opening where no spindle is turned."""
    choice = _driven_choice(plan)
    if choice is None or plan.marks is None or plan.outcome is None:
        return None
    turns = plan.marks.turns
    if turns is not None:
        return {"word": say("card.turns"), "rows": _turn_rows(turns, style)}
    if choice.usable_lift_m is None:
        return None
    figures = plan.outcome.figures
    rows = [
        _opening("turn_balance", figures.balance_lift_m, style),
        _opening("turn_let_go", figures.let_go_lift_m, style),
        _opening("turn_gives", choice.usable_lift_m, style),
    ]
    return {"word": say("card.opening"), "rows": rows}


def _turn_rows(turns: Turns, style: Style) -> list[list[object]]:
    def row(name: str, count: float, band: tuple[float, float] | None = None) -> list[object]:
        between = "" if band is None else say("card.turn_range", low=band[0], high=band[1])
        return [quantity(count, "n0", style), between, say(f"card.turn_{name}")]

    balance, let_go = turns.balance, turns.let_go
    return [
        row("bed_in", turns.bed_in),
        row("away", turns.leave_by),
        row("balance", balance[1], (balance[0], balance[2])),
        row("let_go", let_go[1], (let_go[0], let_go[2])),
        row("stop", turns.stop),
    ]


def _opening(name: str, lift: Doubt, style: Style) -> list[object]:
    between = say("card.turn_range_lift", low=lift.p10, high=lift.p90)
    return [quantity(lift.p50, "lift", style), between, say(f"card.{name}")]


def lay_cut(plan: Plan) -> list[Row]:
    """Method, notch, step and what stands by."""
    marks, cut = plan.marks, plan.cut
    assert marks is not None
    assert cut is not None
    release: Text | str = ""
    if marks.release_step_mm is not None:
        release = say("card.release", release=marks.release_step_mm / 1000.0)
    rows = [
        (
            say("card.cut"),
            say(
                "card.cut_text",
                method=say(f"cut.{METHOD_KEYS[marks.method]}"),
                notch=marks.notch_depth_mm / 1000.0,
                opening=cut.opening_rad,
                proposed=say("card.proposed") if cut.notch_is_proposed else "",
            ),
        ),
        (
            say("card.step"),
            say("card.step_text", step=marks.step_mm / 1000.0, release=release),
        ),
    ]
    means = _back_up(marks)
    if means is not None:
        rows.append((say("card.back_up"), means))
    return rows


def _back_up(marks: Marks) -> Text | None:
    """What the sequence has the feller lay ready."""
    for step in marks.sequence:
        means = dict(step.values).get("means")
        if step.key == "cut.lay_ready" and isinstance(means, Text):
            return means
    return None
