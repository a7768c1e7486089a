"""Where to cut: bark marks from the front, step, sequence of cuts, turns of the spindle."""

import math
from dataclasses import dataclass

from fellwright.physics.balance import lever_m
from fellwright.physics.hinge import hinge_area_m2
from fellwright.physics.notch import notch_height_m
from fellwright.physics.power_screw import turns_count
from fellwright.physics.preload import preload_force_n, uncut_moment_n_m
from fellwright.planning import bands, limits
from fellwright.planning.chance import Doubt
from fellwright.planning.device_kinds import KINDS, STEEL_KINDS
from fellwright.planning.drive_train import Driven
from fellwright.planning.judge_device import DeviceOutcome
from fellwright.planning.judge_tree import TreeFigures
from fellwright.planning.line import LineNeed
from fellwright.planning.situation import CutPlan
from fellwright.planning.tree_model import TreeModel
from fellwright.words import Text, say

__all__ = ["Mark", "Marks", "Provision", "Turns", "pick_method", "plan_marks", "small_tree_ways"]

HALF_AND_HALF = "half and half"
HINGE_FIRST = "hinge first"
NORMAL = "normal back cut"
LEVER = "felling lever"
LEVER_MOST_CM = 20.0
"""PRACTICE: a turned-in felling lever serves up to about 20 cm dbh."""
SLOT_CLEARANCE_MM = 2.0
RELEASE_CLEARANCE_MM = 10.0
"""PRACTICE: wood between the release cut and the closed device."""
FIRST_PART_SHARE = 0.55
"""PRACTICE: first part of a half-and-half cut, 50 to 60 % of the width."""
STRAP_SHARE = 0.10
"""PRACTICE: rear strap left by a hinge-first cut, a tenth of the stump."""
TURN_SECONDS = (0.45, 1.5)
"""PRACTICE: seconds a turn, empty and under load."""


@dataclass(frozen=True, slots=True)
class Mark:
    """One bark mark: ``mark.<key>`` in the catalogue, distance from the front over bark [mm]."""

    key: str
    from_front_mm: float


@dataclass(frozen=True, slots=True)
class Turns:
    """Turns of the spindle counted from the first contact, P10, P50, P90, and the stop."""

    bed_in: float
    balance: tuple[float, float, float]
    let_go: tuple[float, float, float]
    stop: float
    leave_by: float
    seconds: tuple[float, float]
    energy_wh: tuple[float, float]


@dataclass(frozen=True, slots=True)
class Marks:
    """Everything a feller chalks on the bark, in the order of the saw."""

    method: str
    marks: tuple[Mark, ...]
    hinge_width_mm: float
    notch_depth_mm: float
    notch_height_mm: float
    step_mm: float
    release_step_mm: float | None
    bar_room_mm: float | None
    preload_kn: float | None
    sequence: tuple[Text, ...]
    turns: Turns | None


@dataclass(frozen=True, slots=True)
class Provision:
    """Preload before the release cut, hinge bored first, what stands by, lines to rig."""

    preload: bool
    hinge_first: bool
    back_up: Text
    lines: tuple[LineNeed, ...]
    goes_by_itself: bool


def pick_method(cut: CutPlan, hinge_first: bool, choice: DeviceOutcome | None) -> str:
    """Method of the back cut: as the feller names it, else as tree and device ask."""
    if cut.method is not None:
        return cut.method
    if hinge_first:
        return HINGE_FIRST
    if choice is not None and choice.kind != "hand wedge":
        return HALF_AND_HALF
    # A hand wedge and the bar need more room than a small stem has: one side after the other.
    if choice is not None and choice.room_m is not None and choice.room_m < 0.05:
        return HALF_AND_HALF
    return NORMAL


def plan_marks(
    model: TreeModel,
    cut: CutPlan,
    figures: TreeFigures,
    choice: DeviceOutcome | None,
    provision: Provision,
) -> Marks:
    """Lay out the marks and the sequence of cuts.

    Parameters
    ----------
    model : TreeModel
        The tree above the cut.
    cut : CutPlan
        Notch, hinge and method.
    figures : TreeFigures
        Quantiles of the tree.
    choice : DeviceOutcome or None
        The device that was chosen.
    provision : Provision
        Preload, what stands by, lines to rig.

    Returns
    -------
    Marks
        Distances from the front of the stump over bark.
    """
    method = pick_method(cut, provision.hinge_first, choice)
    stump = model.stump_m
    bark = 0.5 * (stump - model.wood_m)
    notch = cut.notch_share * stump
    back_edge = notch + cut.hinge_m
    driven = None if choice is None or provision.goes_by_itself else choice.driven
    steel = driven is not None and driven.device.kind in STEEL_KINDS
    points = [("notch_apex", notch), ("hinge_back_edge", back_edge)]
    bar_room = preload_kn = None
    if driven is not None:
        depth = driven.figures.depth_m
        seat = min(limits.LEAST_SEAT_MM.value / 1000.0, depth)
        if depth > seat:
            points.append(("tip_full", stump - depth))
        points.append(("tip_seated", stump - seat))
        bar_room = stump - depth - back_edge
    if method == HINGE_FIRST:
        points.append(("strap_front", stump * (1.0 - STRAP_SHARE)))
    points.append(("back", stump))
    points.sort(key=lambda point: point[1])
    points.sort(key=lambda point: point[1])
    if steel and provision.preload:
        preload_kn = _preload_n(model, cut, figures, notch - bark) / 1000.0
    area = hinge_area_m2(model.wood_m, 0.0, max(0.0, notch - bark), cut.hinge_m)
    release = _release_step_mm(driven) if steel and driven is not None else None
    return Marks(
        method=method,
        marks=tuple(Mark(name, 1000.0 * at) for name, at in points),
        hinge_width_mm=1000.0 * area / cut.hinge_m,
        notch_depth_mm=1000.0 * notch,
        notch_height_mm=1000.0 * notch_height_m(notch, cut.opening_rad),
        step_mm=1000.0 * cut.step_m,
        release_step_mm=release,
        bar_room_mm=None if bar_room is None else 1000.0 * bar_room,
        preload_kn=preload_kn,
        sequence=_sequence(method, choice, provision, _sizes(notch, cut, release, preload_kn)),
        turns=None if driven is None or not _counts_turns(driven) else _turns(driven, figures),
    )


def _preload_n(model: TreeModel, cut: CutPlan, figures: TreeFigures, notch_m: float) -> float:
    """Preload within what the wood still uncut carries [N]."""
    uncut = uncut_moment_n_m(
        model.species.strength.mor_mpa * 1e6,
        model.wood_m,
        max(0.01, notch_m),
        1.0 - FIRST_PART_SHARE,
    )
    lever = lever_m(model.wood_m, notch_m, cut.hinge_m, limits.RIM_MM.value / 1000.0)
    return preload_force_n(figures.push_n.p50, uncut, lever)


def _release_step_mm(driven: Driven) -> float:
    """Distance of the release cut from the plane of the steel [mm]."""
    half_body = 500.0 * driven.figures.collar_m
    return max(limits.STEEL_STEP_MM.value, limits.STEP_MM.value, half_body + RELEASE_CLEARANCE_MM)


def _counts_turns(driven: Driven) -> bool:
    """Whether one spindle's turns tell the lift: not of a ram, nor of devices that work as one."""
    return driven.drive.wrench is not None and not driven.joined


def _turns(driven: Driven, figures: TreeFigures) -> Turns:
    """Turns of the spindle to bed in, to balance, to let-go and to the stop."""
    per_turn = driven.figures.lift_per_turn_m
    bed_in = turns_count(driven.figures.lost_m, per_turn)

    def reach(lift: Doubt) -> tuple[float, float, float]:
        p10, p50, p90 = (bed_in + turns_count(value, per_turn) for value in lift)
        return p10, p50, p90

    balance, let_go = reach(figures.balance_lift_m), reach(figures.let_go_lift_m)
    low, high = driven.efficiency.low, driven.efficiency.high
    good = figures.work_j.p10 / high / bands.BATTERY_SHARE.high / 3600.0
    bad = figures.work_j.p90 / low / bands.BATTERY_SHARE.low / 3600.0
    return Turns(
        bed_in=bed_in,
        balance=balance,
        let_go=let_go,
        stop=turns_count(driven.figures.lift_m, per_turn),
        leave_by=bed_in
        + limits.TRIGGER_SHARE.value * turns_count(figures.balance_lift_m.p10, per_turn),
        seconds=(let_go[1] * TURN_SECONDS[0], let_go[1] * TURN_SECONDS[1]),
        energy_wh=(good, bad),
    )


@dataclass(frozen=True, slots=True)
class _Sizes:
    """Sizes that the sequence names [m], the notch's opening [rad], and the preload [N]."""

    notch: float
    opening: float
    step: float
    hinge: float
    release: float | None
    load: float | None


def _sizes(
    notch_m: float, cut: CutPlan, release_mm: float | None, preload_kn: float | None
) -> _Sizes:
    return _Sizes(
        notch_m,
        cut.opening_rad,
        cut.step_m,
        cut.hinge_m,
        None if release_mm is None else release_mm / 1000.0,
        None if preload_kn is None else 1000.0 * preload_kn,
    )


def _sequence(
    method: str, choice: DeviceOutcome | None, provision: Provision, size: _Sizes
) -> tuple[Text, ...]:
    """Sequence of cuts, one sentence a step."""
    name = say("cut.a_wedge") if choice is None else choice.name
    opening = size.opening
    step_m = size.step
    pulled = any(line.purpose == "pull line" for line in provision.lines)
    steps = [
        say("cut.trim"),
        *(say("cut.rig", line=line.text) for line in provision.lines),
        say("cut.notch", depth=size.notch, opening=opening),
        say("cut.lay_ready", means=provision.back_up),
    ]
    if pulled:
        steps += [
            say("cut.back_follow", step=step_m, name=name),
            say("cut.stop_saw_out", hinge=size.hinge),
            say("cut.pull"),
        ]
    elif method == HINGE_FIRST:
        steps += [
            say("cut.plunge", hinge=size.hinge),
            say("cut.to_strap"),
            *([] if provision.goes_by_itself else [say("cut.seat_before_strap", name=name)]),
            say("cut.strap"),
        ]
    elif method == HALF_AND_HALF:
        steps += _half_steps(name, size, _slot(choice))
    elif method == LEVER:
        steps += [say("cut.lever", hinge=size.hinge), say("cut.lever_lift")]
    else:
        loaded = [] if size.load is None else [_seat(name, size.load)]
        steps += [
            say("cut.back_set", step=step_m, name=name),
            *loaded,
            say("cut.stop", hinge=size.hinge),
            say("cut.drive_turns", name=name),
        ]
    return tuple(steps)


def _slot(choice: DeviceOutcome | None) -> Text:
    """What is cut at the bark for the device."""
    ramp = math.radians(limits.BLUNTEST_SLOT_DEG.value)
    key = "cut.slot"
    if choice is not None and choice.driven is not None:
        key = KINDS[choice.driven.device.kind].slot
    return say(key, clear=SLOT_CLEARANCE_MM / 1000.0, ramp=ramp)


def _seat(name: Text | str, load_n: float | None) -> Text:
    """Seat a device and load it before the tree is free."""
    load = say("cut.no_load") if load_n is None else say("cut.load", force=load_n)
    return say("cut.seat", name=name, seat=limits.LEAST_SEAT_MM.value / 1000.0, load=load)


def _half_steps(name: Text | str, size: _Sizes, slot: Text) -> list[Text]:
    if size.release is None:
        return [
            say("cut.half_first_hand"),
            say("cut.half_second_hand", hinge=size.hinge),
            say("cut.drive_turns", name=name),
        ]
    return [
        say("cut.half_first"),
        slot,
        _seat(name, size.load),
        say("cut.release", step=size.release, clear=RELEASE_CLEARANCE_MM / 1000.0),
        say("cut.stop", hinge=size.hinge),
        say("cut.away"),
    ]


def small_tree_ways(dbh_cm: float) -> tuple[Text, ...]:
    """Ways that need no room behind the hinge for a device and a bar.

    Parameters
    ----------
    dbh_cm : float
        Diameter at breast height [cm].

    Returns
    -------
    tuple of Text
        PRACTICE: half-and-half with one hand wedge, and a lever on the smallest.
    """
    ways = [say("cut.small_hand_wedge")]
    if dbh_cm <= LEVER_MOST_CM:
        ways.append(say("cut.small_lever"))
    return tuple(ways)
