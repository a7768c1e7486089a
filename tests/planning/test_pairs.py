"""Two devices side by side, and one in two stages: only where none does alone, never bold."""

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.plans.cases import QUICK, example, only, van, with_day, with_lean

from fellwright.planning.chance import draw_points
from fellwright.planning.drawn import draw_plainly
from fellwright.planning.judge_device import DeviceOutcome
from fellwright.planning.pairs import (
    PAIR_SHARE,
    SIDE_BY_SIDE,
    TWO_STAGES,
    eased_side_use,
)
from fellwright.planning.plan import Options, Plan
from fellwright.planning.reasons import LEAVE, TIGHT, boldness
from fellwright.planning.tip import plan_tip
from fellwright.records.kit import Kit
from fellwright.records.tree import Tree

FULL = Options(draws=256)
FEW = Options(draws=64, bare=True)


def tree(species: str, dbh_cm: float, back_m: float) -> Tree:
    base = replace(
        example("harrowlees-11"),
        species=species,
        dbh_cm=dbh_cm,
        height_m=min(40.0, 0.5 * dbh_cm + 5.0),
        stump_diameter_cm=1.14 * dbh_cm,
    )
    return with_lean(base, back_m, 220.0)


def two_dippers() -> Kit:
    whole = van()
    dipper = whole.devices[0]
    devices = (dipper, replace(dipper, name="Dipper B"), whole.devices[3])
    return replace(whole, devices=devices, ropes=())


def plover_and_stack() -> Kit:
    """Return a van with a low lifter, and a stack of hand wedges that holds but does not reach."""
    whole = van()
    stack = replace(
        whole.devices[3],
        name="Flat stack",
        rated_t=None,
        thickness_mm=32.0,
        width_mm=80.0,
        length_mm=260.0,
    )
    return replace(whole, devices=(whole.devices[1], stack), ropes=())


def joined(plan: Plan, kind: str) -> DeviceOutcome | None:
    assert plan.outcome is not None
    return next((d for d in plan.outcome.devices if d.kind == kind), None)


def alone(plan: Plan) -> list[DeviceOutcome]:
    assert plan.outcome is not None
    return [d for d in plan.outcome.devices if d.kind not in (SIDE_BY_SIDE, TWO_STAGES)]


STALLS = tree("beech", 50.0, 0.5)
LOW = tree("Norway spruce", 40.0, 0.5)


def test_two_that_stall_alone_are_tight_together() -> None:
    plan = plan_tip(STALLS, two_dippers(), QUICK)
    assert all(d.verdict == LEAVE for d in alone(plan))
    pair = joined(plan, SIDE_BY_SIDE)
    assert pair is not None
    assert pair.name == "Dipper + Dipper B"
    assert pair.verdict == plan.verdict == TIGHT
    assert pair.mass_kg == pytest.approx(5.8)
    assert pair.driven is not None
    assert pair.driven.joined == ("Dipper", "Dipper B")
    assert plan.reasons[0].code == "side_by_side"


def test_pair_counts_seven_tenths_of_the_sum_and_the_lesser_lift() -> None:
    plan = plan_tip(STALLS, two_dippers(), QUICK)
    pair, single = joined(plan, SIDE_BY_SIDE), alone(plan)[0]
    assert pair is not None
    assert pair.available_n is not None
    assert single.available_n is not None
    most = 2.0 * PAIR_SHARE * single.available_n.p50
    # Off the centre line the rim is nearer to the hinge: a little less than the plain share.
    assert 0.95 * most < pair.available_n.p50 < most
    assert pair.usable_lift_m is not None
    assert single.usable_lift_m is not None
    assert single.usable_lift_m.p50 <= pair.usable_lift_m.p50 < 0.046


def test_pair_gives_turns_of_neither_and_says_how_to_drive() -> None:
    plan = plan_tip(STALLS, two_dippers(), FULL)
    assert plan.marks is not None
    assert plan.marks.turns is None
    assert plan.marks.release_step_mm is not None
    assert "in turn" in str(plan.reasons[0].text)
    assert [caution.code for caution in plan.cautions].count("R12") == 1


def test_nothing_is_joined_where_one_device_does() -> None:
    plan = plan_tip(with_lean(example("harrowlees-11"), 0.5, 220.0), two_dippers(), QUICK)
    assert joined(plan, SIDE_BY_SIDE) is None
    assert joined(plan, TWO_STAGES) is None


def test_pair_needs_room_across_the_stump() -> None:
    wide = two_dippers()
    devices = tuple(
        replace(d, plate_width_mm=230.0) if d.kind == "screw wedge" else d for d in wide.devices
    )
    plan = plan_tip(STALLS, replace(wide, devices=devices), QUICK)
    assert joined(plan, SIDE_BY_SIDE) is None


def test_short_lift_is_made_up_in_two_stages() -> None:
    plan = plan_tip(LOW, plover_and_stack(), QUICK)
    assert all(d.verdict == LEAVE for d in alone(plan))
    staged = joined(plan, TWO_STAGES)
    assert staged is not None
    assert staged.verdict == plan.verdict == TIGHT
    assert staged.usable_lift_m is not None
    plover = alone(plan)[0]
    assert plover.usable_lift_m is not None
    assert plan.outcome is not None
    # Nobody changes a device past four fifths of the least balance lift.
    gained = staged.usable_lift_m.p50 - plover.usable_lift_m.p50
    assert 0.0 < gained <= 0.8 * plan.outcome.figures.balance_lift_m.p10 + 1e-9


def test_two_stages_need_a_wedge_that_holds_the_tree_alone() -> None:
    kit = plover_and_stack()

    def staged(**wedge: Any) -> DeviceOutcome | None:
        devices = (kit.devices[0], replace(kit.devices[1], **wedge))
        return joined(plan_tip(LOW, replace(kit, devices=devices), QUICK), TWO_STAGES)

    assert staged() is not None
    assert staged(rated_t=2.0) is None
    assert staged(angle_deg=25.0) is None
    assert staged(thickness_mm=9.0, angle_deg=7.0) is None
    no_hammer = replace(kit, hammers=())
    assert joined(plan_tip(LOW, no_hammer, QUICK), TWO_STAGES) is None


def test_no_device_is_set_anew_in_a_gust() -> None:
    assert plan_tip(LOW, plover_and_stack(), QUICK).verdict == TIGHT
    windy = plan_tip(with_day(LOW, 3.0, None), plover_and_stack(), QUICK)
    assert windy.verdict == LEAVE


def test_device_that_holds_is_not_the_second_means_as_well() -> None:
    plan = plan_tip(LOW, plover_and_stack(), FULL)
    second = next(c for c in plan.cautions if c.code == "R12")
    assert "Flat stack" not in str(second.text)


@pytest.mark.slow
@settings(max_examples=40)
@given(
    st.sampled_from(["Norway spruce", "beech"]),
    st.integers(30, 80),
    st.floats(0.0, 0.8),
    st.floats(0.0, 0.3),
    st.booleans(),
)
def test_further_back_is_never_bolder_with_devices_joined(
    species: str, dbh: int, back: float, more: float, paired: bool
) -> None:
    kit = two_dippers() if paired else plover_and_stack()
    near = plan_tip(tree(species, float(dbh), back), kit, FEW)
    far = plan_tip(tree(species, float(dbh), back + more), kit, FEW)
    assert boldness(far.verdict) <= boldness(near.verdict)


@pytest.mark.slow
@settings(max_examples=25)
@given(st.sampled_from(["Norway spruce", "beech"]), st.integers(30, 80), st.floats(0.0, 0.8))
def test_joined_devices_are_never_bolder_than_tight_and_come_only_alone(
    species: str, dbh: int, back: float
) -> None:
    for kit in (two_dippers(), plover_and_stack()):
        plan = plan_tip(tree(species, float(dbh), back), kit, FEW)
        if plan.outcome is None:
            continue
        together = [d for d in plan.outcome.devices if d not in alone(plan)]
        assert all(d.verdict == TIGHT for d in together)
        if together:
            assert all(d.verdict == LEAVE for d in alone(plan))


def test_device_toward_the_lean_eases_the_hinge_and_on_the_other_side_strains_it() -> None:
    """S02: 1.9 m to the right; a device 12 cm right of the centre takes a tenth off."""
    plan = plan_tip(example("tarnshaw-9"), only(van(), "Dipper"), QUICK)
    assert plan.situation is not None
    needs = draw_plainly(draw_points(128, 1), plan.situation, 0.0).needs
    plain = eased_side_use(needs, 0.0)
    eased, strained = eased_side_use(needs, 0.12), eased_side_use(needs, -0.12)
    assert eased.p50 < plain.p50 < strained.p50
    assert 0.85 < eased.p50 / plain.p50 < 0.97
