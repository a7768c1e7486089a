"""A figure that is not a number, wherever it comes from, never ends in a bold verdict.

The loader lets none in. These tests put one past it, as a bug would.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, fields, replace
from typing import Any

import pytest
from tests.plans.cases import Case, altered, example, only, van

from fellwright.planning import case as case_module
from fellwright.planning.chance import Points
from fellwright.planning.drawn import Drawn, PlainlyDrawn, draw_plainly
from fellwright.planning.need import Situation
from fellwright.planning.plan import Options, Plan
from fellwright.planning.reasons import ADDS_UP, boldness
from fellwright.planning.situation import build_situation
from fellwright.planning.tip import plan_tip
from fellwright.records.kit import Device
from fellwright.records.tree import Conductor, CrownShift, LeanReading, Tree

NAN = math.nan
BOLD = Case(example("harrowlees-11-straight"), only(van(), "Dipper"))
BY_HAND = Case(example("harrowlees-11-straight"), only(van(), "Hand pair"))


def numbers(record: Any) -> list[str]:
    """Names of the fields that hold a number."""
    return [
        field.name
        for field in fields(record)
        if isinstance(getattr(record, field.name), int | float)
        and not isinstance(getattr(record, field.name), bool)
    ]


def full_tree() -> Tree:
    """Return a tree with every number given, that adds up with one device."""
    tree = BOLD.tree
    return replace(
        tree,
        dbh_error_cm=0.6,
        height_error_m=1.0,
        lean=(LeanReading(0.05, 220.0, "top", error_m=0.1),),
        crown_shift=CrownShift(0.05, 220.0),
        conductors=(Conductor(200.0, 8.0, 20.0),),
        day=replace(tree.day, gust_m_s=1.0),
    )


def test_the_plans_that_are_spoilt_here_are_bold_before() -> None:
    assert BOLD.plan().verdict == ADDS_UP
    assert BY_HAND.plan().verdict == ADDS_UP
    assert Case(full_tree(), BOLD.kit).plan().verdict == ADDS_UP


@pytest.mark.parametrize("name", numbers(full_tree()))
def test_nan_in_a_reading_of_the_tree_never_adds_up(name: str) -> None:
    spoilt = altered(full_tree(), **{name: NAN})
    try:
        plan = Case(spoilt, BOLD.kit).plan()
    except ValueError as refused:
        assert "NaN" in str(refused)  # no plan at all
    else:
        assert boldness(plan.verdict) == 0


def test_nan_in_a_sound_wall_never_adds_up() -> None:
    tree = replace(full_tree(), cavity_wall_cm=NAN)
    assert boldness(Case(tree, BOLD.kit).plan().verdict) == 0


@pytest.mark.parametrize("part", ["cut", "day"])
def test_nan_in_the_cut_or_the_day_never_adds_up(part: str) -> None:
    record = getattr(full_tree(), part)
    for name in numbers(record):
        spoilt = altered(full_tree(), **{part: replace(record, **{name: NAN})})
        verdict = Case(spoilt, BOLD.kit).plan().verdict
        assert verdict != ADDS_UP, name
        # A thermometer that cannot be read counts as frost.
        assert name == "temperature_degc" or boldness(verdict) == 0, name


@pytest.mark.parametrize("name", ["offset_m", "toward_deg", "error_m"])
def test_nan_in_a_lean_reading_never_adds_up(name: str) -> None:
    spoilt = replace(full_tree(), lean=(altered(full_tree().lean[0], **{name: NAN}),))
    assert boldness(Case(spoilt, BOLD.kit).plan().verdict) == 0


@pytest.mark.parametrize("name", ["offset_m", "toward_deg"])
def test_nan_in_the_crown_shift_never_adds_up(name: str) -> None:
    shift = full_tree().crown_shift
    assert shift is not None
    spoilt = replace(full_tree(), crown_shift=replace(shift, **{name: NAN}))
    assert boldness(Case(spoilt, BOLD.kit).plan().verdict) == 0


def test_nan_in_the_distance_of_a_conductor_refuses() -> None:
    spoilt = replace(full_tree(), conductors=(Conductor(NAN),))
    plan = Case(spoilt, BOLD.kit).plan()
    assert boldness(plan.verdict) == 0
    assert plan.reasons[0].code == "conductor"


def test_nan_ways_out_are_no_ways_out() -> None:
    look = replace(BOLD.tree.look, ways_out=NAN)  # type: ignore[arg-type]
    assert boldness(Case(replace(BOLD.tree, look=look), BOLD.kit).plan().verdict) == 0


# What is shown of a device and decides nothing.
SHOWN_ONLY = {"mass_kg", "lugs"}


def spoilt_devices(case: Case) -> list[tuple[str, Device]]:
    device = case.kit.devices[0]
    return [
        (name, altered(device, **{name: NAN})) for name in numbers(device) if name not in SHOWN_ONLY
    ]


@pytest.mark.parametrize("case", [BOLD, BY_HAND], ids=["screw", "hand"])
def test_nan_in_a_device_never_adds_up(case: Case) -> None:
    bold = []
    for name, device in spoilt_devices(case):
        kit = replace(case.kit, devices=(device,), ropes=())
        if boldness(Case(case.tree, kit).plan().verdict):
            bold.append(name)
    assert not bold


@pytest.mark.parametrize(
    ("part", "name"),
    [("wrenches", "torque_n_m"), ("packs", "energy_wh")],
)
def test_nan_in_the_drive_of_a_screw_never_adds_up(part: str, name: str) -> None:
    items = tuple(replace(item, **{name: NAN}) for item in getattr(BOLD.kit, part))
    kit = altered(BOLD.kit, ropes=(), **{part: items})
    assert boldness(Case(BOLD.tree, kit).plan().verdict) == 0


def test_nan_in_a_hammer_never_adds_up() -> None:
    hammers = tuple(replace(hammer, mass_kg=NAN) for hammer in BY_HAND.kit.hammers)
    kit = replace(BY_HAND.kit, ropes=(), hammers=hammers)
    assert boldness(Case(BY_HAND.tree, kit).plan().verdict) == 0


@pytest.mark.parametrize("name", ["bar_depth_mm", "kerf_mm"])
def test_nan_in_the_saw_never_adds_up(name: str) -> None:
    for case in (BOLD, BY_HAND):
        assert case.kit.saw is not None
        tree = replace(case.tree, cut=replace(case.tree.cut, preload=False))
        kit = replace(case.kit, ropes=(), saw=replace(case.kit.saw, **{name: NAN}))
        assert boldness(Case(tree, kit).plan().verdict) == 0


@pytest.mark.parametrize("name", ["puller_t", "strength_t", "length_m"])
def test_nan_in_a_rope_makes_no_line(name: str) -> None:
    ropes = tuple(altered(rope, **{name: NAN}) for rope in van().ropes)
    plan = Case(example("tarnshaw-9"), replace(van(), ropes=ropes)).plan()
    assert boldness(plan.verdict) == 0


# --- past the records: in the situation, in the draws -------------------------------------------

# Used only where the stem is hollow.
WITHOUT_EFFECT = {"wall_sigma_m"}


@pytest.mark.parametrize("name", [n for n in Situation._fields if n not in WITHOUT_EFFECT])
def test_nan_in_the_situation_never_adds_up(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    def spoilt(*args: Any) -> Situation:
        return build_situation(*args)._replace(**{name: NAN})

    monkeypatch.setattr(case_module, "build_situation", spoilt)
    plan = Case(BOLD.tree, replace(BOLD.kit, ropes=())).plan()
    assert boldness(plan.verdict) == 0
    assert "not_a_number" in [reason.code for reason in plan.reasons]


@dataclass(frozen=True, slots=True)
class SpoiltNeeds:
    """A drawing in which one field is not a number, in every draw or in one."""

    name: str
    every: bool

    def __call__(
        self, points: Sequence[Points], situation: Situation, gust_share: float, /
    ) -> Drawn:
        """Draw it."""
        needs = list(draw_plainly(points, situation, gust_share).needs)
        worst = max(range(len(needs)), key=lambda i: needs[i].checked_let_go_lift_m)
        for index in range(len(needs)) if self.every else [worst]:
            needs[index] = needs[index]._replace(**{self.name: NAN})
        return PlainlyDrawn(points, needs)


def spoilt_plan(name: str, *, every: bool) -> Plan:
    options = Options(draws=64, bare=True, drawing=SpoiltNeeds(name, every))
    return plan_tip(BOLD.tree, replace(BOLD.kit, ropes=()), options)


JOINT = ["crushing_pa", "checked_let_go_lift_m", "checked_let_go_rad", "checked_push_n"]
CAPPING = ["side_use", "early_go_ratio", "splitting", "hinge_tension_pa", "work_j"]


@pytest.mark.parametrize("name", [*JOINT, *CAPPING, "checked_balance_lift_m"])
def test_nan_in_every_draw_of_a_deciding_figure_never_adds_up(name: str) -> None:
    plan = spoilt_plan(name, every=True)
    if name in ("early_go_ratio", "splitting"):
        assert plan.verdict != ADDS_UP
    else:
        assert boldness(plan.verdict) == 0


@pytest.mark.parametrize("name", CAPPING)
def test_nan_in_one_draw_of_what_caps_a_verdict_never_adds_up(name: str) -> None:
    assert spoilt_plan(name, every=False).verdict != ADDS_UP


@pytest.mark.parametrize("name", JOINT)
def test_a_draw_that_is_not_a_number_counts_as_one_that_fails(name: str) -> None:
    good = BOLD.plan(Options(draws=64, bare=True)).outcome
    spoilt = spoilt_plan(name, every=False).outcome
    assert good is not None
    assert spoilt is not None
    assert good.devices[0].joint_share == 1.0
    assert spoilt.devices[0].joint_share == 63.0 / 64.0
