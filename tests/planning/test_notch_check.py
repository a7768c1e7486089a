"""The aim of a notch: what is shaved, on which side, and when nothing may be said."""

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.plans.cases import example, van, with_lean

from fellwright.planning.notch_check import NotchCheck, check_notch
from fellwright.planning.plan import Options, Plan
from fellwright.planning.tip import plan_tip
from fellwright.records.kit import Kit
from fellwright.records.stump_fields import AimCheck
from fellwright.records.tree import Look, Tree

QUICK = Options(draws=64, bare=True)
BASE = example("harrowlees-11")
SIDES = ("left", "right")


def check(tree: Tree, aim: AimCheck, kit: Kit | None = None) -> NotchCheck:
    whole = van() if kit is None else kit

    def again(share: float) -> Plan:
        return plan_tip(replace(tree, cut=replace(tree.cut, notch_share=share)), whole, QUICK)

    return check_notch(plan_tip(tree, whole, QUICK), aim, again)


@pytest.mark.parametrize("side", SIDES)
def test_the_end_that_goes_back_is_on_the_other_side_of_the_aim(side: str) -> None:
    found = check(BASE, AimCheck(aim_error_deg=3.0, side=side))  # type: ignore[arg-type]  # a side
    assert found.deepen == ("left" if side == "right" else "right")
    assert found.correction_m == pytest.approx(0.368 * math.sin(math.radians(3.0)), rel=1e-3)
    assert found.text.key == f"notch.shave_{found.deepen}"


def test_metres_beside_the_mark_say_the_same_as_their_angle() -> None:
    angle = math.degrees(math.atan(1.2 / 20.0))
    by_angle = check(BASE, AimCheck(aim_error_deg=angle, side="left"))
    by_metres = check(BASE, AimCheck(beside_m=1.2, distance_m=20.0, side="left"))
    assert by_angle.correction_m == pytest.approx(by_metres.correction_m)
    assert by_angle.notch_m == pytest.approx(by_metres.notch_m)
    assert by_metres.miss_m == pytest.approx(25.0 * math.sin(math.radians(angle)))


@given(st.floats(0.0, 9.9), st.sampled_from(SIDES))
@settings(max_examples=20, deadline=None)
def test_a_correction_deepens_the_notch_by_about_half_and_keeps_the_hinge(
    error_deg: float, side: str
) -> None:
    found = check(BASE, AimCheck(aim_error_deg=error_deg, side=side))  # type: ignore[arg-type]
    assert found.correction_m is not None
    assert found.notch_m is not None
    assert found.hinge_back_m is not None
    assert found.hinge_back_m - found.notch_m == pytest.approx(0.046)
    if found.deepen is None:
        assert found.correction_m == 0.0
        assert found.notch_m == pytest.approx(0.092)
    else:
        assert found.correction_m >= 0.005
        moved = found.notch_m - 0.092
        assert 0.5 * found.correction_m <= moved <= 0.6 * found.correction_m


def test_a_little_beside_is_left_alone() -> None:
    for error in (0.0, 0.5):
        found = check(BASE, AimCheck(aim_error_deg=error, side="left" if error else None))
        assert (found.correction_m, found.deepen, found.plan_then) == (0.0, None, None)
    assert check(BASE, AimCheck(aim_error_deg=0.0)).side is None


REFUSED = {
    "too far": (BASE, AimCheck(aim_error_deg=10.5, side="left"), "notch.too_far"),
    "nobody looked": (
        replace(BASE, look=Look()),
        AimCheck(aim_error_deg=3.0, side="left"),
        "notch.no_cut",
    ),
    "ring not clear": (
        replace(BASE, look=replace(BASE.look, ring_clear=False)),
        AimCheck(aim_error_deg=3.0, side="left"),
        "notch.no_cut",
    ),
    "no lay": (
        replace(BASE, cut=replace(BASE.cut, lay_deg=None)),
        AimCheck(aim_error_deg=3.0, side="left"),
        "notch.no_cut",
    ),
    "past the middle": (
        replace(BASE, cut=replace(BASE.cut, notch_share=0.45)),
        AimCheck(aim_error_deg=9.0, side="left"),
        "notch.too_deep",
    ),
}


@pytest.mark.parametrize("name", REFUSED)
def test_no_figure_is_given_where_none_may_be(name: str) -> None:
    tree, aim, key = REFUSED[name]
    found = check(tree, aim)
    assert found.text.key == key
    assert found.correction_m is None
    assert found.deepen is None
    assert found.notch_m is None
    assert found.hinge_back_m is None
    assert found.cautions


def test_no_figure_is_given_where_the_deeper_notch_would_not_stand() -> None:
    whole = plan_tip(BASE, van(), QUICK)
    aim = AimCheck(aim_error_deg=4.0, side="left")
    leave = replace(whole, verdict="LEAVE")
    found = check_notch(whole, aim, lambda _share: leave)
    assert found.text.key == "notch.then_not"
    assert found.correction_m is None


def test_a_verdict_that_gets_worse_is_told() -> None:
    whole = plan_tip(BASE, van(), QUICK)
    tight = replace(whole, verdict="TIGHT")
    aim = AimCheck(aim_error_deg=4.0, side="left")
    told = {text.key for text in check_notch(whole, aim, lambda _share: tight).cautions}
    assert "notch.verdict_then" in told
    same = {text.key for text in check_notch(whole, aim, lambda _share: whole).cautions}
    assert "notch.verdict_then" not in same


@pytest.mark.parametrize(("toward", "side"), [(130.0, "right"), (310.0, "left")])
def test_a_side_lean_beyond_doubt_is_told_with_its_side(toward: float, side: str) -> None:
    found = check(with_lean(BASE, 0.6, toward), AimCheck(aim_error_deg=3.0, side="left"))
    assert f"notch.drift_{side}" in {text.key for text in found.cautions}
    straight = check(BASE, AimCheck(aim_error_deg=3.0, side="left"))
    assert not any(text.key.startswith("notch.drift") for text in straight.cautions)


def test_a_notch_past_a_third_is_told() -> None:
    tree = replace(BASE, cut=replace(BASE.cut, notch_share=0.33))
    found = check(tree, AimCheck(aim_error_deg=3.0, side="left"))
    assert found.correction_m
    assert "notch.deep" in {text.key for text in found.cautions}


def test_a_depth_that_nobody_gave_is_told() -> None:
    aim = AimCheck(aim_error_deg=3.0, side="left")
    unread = replace(BASE, cut=replace(BASE.cut, notch_share=None))
    assert "notch.depth_taken" in {text.key for text in check(unread, aim).cautions}
    assert "notch.depth_taken" not in {text.key for text in check(BASE, aim).cautions}
