"""Driving the chosen device: counts agree with the marks and the lift, and never pass the stop."""

import math
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from tests.plans.cases import Case, cases, example, van, with_lean

from fellwright.planning.case import may_preload
from fellwright.planning.device_draw import DeviceFigures
from fellwright.planning.drive_table import (
    BALANCE,
    BED_IN,
    GOES,
    MM,
    STOP,
    TURNS,
    DriveTable,
    drive_table,
    no_drive_reason,
)
from fellwright.planning.marks import Provision, plan_marks
from fellwright.planning.plan import Options, Plan
from fellwright.planning.reasons import LINE
from fellwright.planning.tip import plan_tip
from fellwright.records.kit import Device, Kit
from fellwright.records.tree import Look, Tree
from fellwright.words import say

QUICK = Options(draws=64, bare=True)
ORDER = (BED_IN, BALANCE, GOES, STOP)


def only(name: str) -> Kit:
    whole = van()
    return replace(whole, devices=tuple(d for d in whole.devices if d.name == name))


def planned(tree: Tree, kit: Kit) -> Plan:
    """A plan with its marks, without the advice that takes long to work out."""
    plan = plan_tip(tree, kit, QUICK)
    if not plan.may_cut:
        return plan
    assert plan.model is not None
    assert plan.cut is not None
    assert plan.outcome is not None
    outcome = plan.outcome
    provision = Provision(
        may_preload(tree) and not outcome.hinge_first,
        outcome.hinge_first,
        say("caution.none_in_van"),
        outcome.lines if plan.verdict == LINE else (),
        outcome.goes_by_itself,
    )
    marks = plan_marks(plan.model, plan.cut, outcome.figures, outcome.choice, provision)
    return replace(plan, marks=marks)


def check(plan: Plan) -> bool:
    """Hold a table against its plan; False where it has none."""
    table = drive_table(plan)
    assert (table is None) == (no_drive_reason(plan) is not None)
    if table is None:
        return False
    assert plan.may_cut
    assert plan.outcome is not None
    choice = plan.outcome.choice
    assert choice is not None
    assert choice.driven is not None
    figures = choice.driven.figures
    check_rows(table, figures)
    # What the device still opens after bedding in is at least the lift that the verdict counts on.
    assert choice.usable_lift_m is not None
    assert figures.lift_m - figures.lost_m >= choice.usable_lift_m.p90 - 1e-12
    check_stages(table, plan, figures)
    return True


def check_rows(table: DriveTable, figures: DeviceFigures) -> None:
    openings = [row.opening_m for row in table.rows]
    assert openings[0] == 0.0
    assert all(a < b for a, b in pairwise(openings))
    assert openings[-1] == pytest.approx(figures.lift_m, rel=1e-12)
    assert max(openings) <= figures.lift_m
    stages = [ORDER.index(row.stage) for row in table.rows]
    assert stages == sorted(stages)
    assert stages.count(ORDER.index(STOP)) == 1
    assert table.rows[-1].stage == STOP
    if table.unit == TURNS:
        assert [row.turns for row in table.rows[:-1]] == list(range(len(table.rows) - 1))
        assert table.rows[-1].turns == table.stop


def check_stages(table: DriveTable, plan: Plan, figures: DeviceFigures) -> None:
    assert plan.marks is not None
    assert plan.outcome is not None
    turns = plan.marks.turns
    assert (table.unit == TURNS) == (turns is not None)
    at = {stage.key: stage.at for stage in table.stages}
    assert list(at) == list(ORDER)
    per_count = 1.0
    if turns is not None:
        per_count = figures.lift_per_turn_m
        assert (at[BED_IN].p50, at[STOP].p50) == (turns.bed_in, turns.stop)
        assert (tuple(at[BALANCE]), tuple(at[GOES])) == (turns.balance, turns.let_go)
        assert table.leave_by == math.floor(turns.leave_by)
    assert per_count * table.stop == pytest.approx(figures.lift_m)
    lost = at[BED_IN].p50
    for name, lift in (
        (BALANCE, plan.outcome.figures.balance_lift_m),
        (GOES, plan.outcome.figures.let_go_lift_m),
    ):
        for count, wanted in zip(at[name], lift, strict=True):
            assert per_count * (count - lost) == pytest.approx(wanted, abs=1e-12)
    for row in table.rows:
        count = row.opening_m / per_count
        # From where one draw in ten goes, nothing is called bedding in or balance any more.
        if row.stage in (BED_IN, BALANCE):
            assert count < max(lost, at[GOES].p10) + 1e-9
        assert row.is_remote == (table.leave_by is not None and count + 1e-9 >= table.leave_by)
        if row.stage == GOES and table.leave_by is not None:
            assert row.is_remote


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(cases())
@pytest.mark.slow
def test_table_agrees_with_marks_and_usable_lift(case: Case) -> None:
    check(planned(case.tree, case.kit))


@pytest.mark.parametrize("name", ["Dipper", "Plover", "Bittern"])
def test_a_wedge_with_a_spindle_is_counted_in_turns(name: str) -> None:
    plan = planned(example("harrowlees-11-straight"), only(name))
    assert check(plan)
    table = drive_table(plan)
    assert table is not None
    assert table.unit == TURNS
    assert table.name == name


def test_what_is_struck_is_counted_in_millimetres_and_nobody_strikes_from_outside() -> None:
    plan = planned(example("pikeless-moss-33"), only("Hand pair"))
    assert check(plan)
    table = drive_table(plan)
    assert table is not None
    assert table.unit == MM
    assert table.leave_by is None
    assert not any(row.is_remote for row in table.rows)


def test_a_ram_is_counted_in_millimetres() -> None:
    ram = Device(
        "Dunlin",
        "hydraulic ram",
        rated_t=20.0,
        lift_mm=40.0,
        plate_width_mm=80.0,
        plate_length_mm=100.0,
        piston_diameter_mm=60.0,
        pressure_bar=700.0,
        depth_full_mm=110.0,
        mass_kg=7.0,
        state="FIT",
    )
    # A wedge must follow a ram.
    kit = replace(van(), devices=(ram, *only("Hand pair").devices))
    plan = planned(example("harrowlees-11"), kit)
    assert check(plan)
    table = drive_table(plan)
    assert table is not None
    assert (table.name, table.unit) == ("Dunlin", MM)
    assert table.leave_by is not None


@pytest.mark.parametrize("lift_mm", [3.0, 46.0, 61.0, 130.0, 310.0, 500.0])
def test_a_table_in_millimetres_stays_short_and_ends_at_the_stop(lift_mm: float) -> None:
    plan = planned(example("pikeless-moss-33"), only("Hand pair"))
    assert plan.outcome is not None
    choice = plan.outcome.choice
    assert choice is not None
    assert choice.driven is not None
    figures = choice.driven.figures._replace(lift_m=lift_mm / 1000.0)
    driven = replace(choice.driven, figures=figures)
    outcome = replace(plan.outcome, choice=replace(choice, driven=driven))
    table = drive_table(replace(plan, outcome=outcome))
    assert table is not None
    assert len(table.rows) <= 62
    assert table.rows[-1].opening_m == lift_mm / 1000.0


REASONS = {
    "look open": (replace(example("harrowlees-11"), look=Look()), van(), "drive.no_cut"),
    "leans back three metres": (
        with_lean(example("harrowlees-11"), 3.0, 220.0),
        only("Plover"),
        "drive.no_cut",
    ),
    "goes by itself": (example("quernholt-17"), van(), "drive.by_itself"),
    "pulled": (
        example("harrowlees-11"),
        replace(van(), devices=()),
        "drive.pulled",
    ),
}


@pytest.mark.parametrize("name", REASONS)
def test_without_a_device_to_drive_there_is_no_table_but_a_reason(name: str) -> None:
    tree, kit, key = REASONS[name]
    plan = planned(tree, kit)
    assert drive_table(plan) is None
    reason = no_drive_reason(plan)
    assert reason is not None
    assert reason.key == key


def test_devices_that_work_as_one_have_no_table() -> None:
    plan = planned(example("harrowlees-11"), van())
    assert plan.outcome is not None
    choice = plan.outcome.choice
    assert choice is not None
    assert choice.driven is not None
    joined = replace(choice, driven=replace(choice.driven, joined=("Dipper", "Plover")))
    plan = replace(plan, outcome=replace(plan.outcome, choice=joined))
    reason = no_drive_reason(plan)
    assert reason is not None
    assert reason.key == "drive.joined"
    assert drive_table(plan) is None


@given(st.sampled_from(["Dipper", "Bittern"]), st.floats(0.3, 9.0), st.integers(3, 60))
@settings(max_examples=25, deadline=None)
def test_the_stop_is_never_passed_whatever_the_thread(
    name: str, per_turn: float, stop: int
) -> None:
    kit = only(name)
    kit = replace(
        kit,
        devices=(replace(kit.devices[0], mm_per_turn=per_turn, turns_to_stop=float(stop)),),
    )
    plan = planned(example("harrowlees-11-straight"), kit)
    table = drive_table(plan)
    if table is not None:
        assert check(plan)
        assert table.stop <= stop * (1.0 + 1e-12)
