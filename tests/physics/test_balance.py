"""Properties of levers, set-back and lift."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.physics import drawn

from fellwright.physics import balance

levers_m = st.floats(0.05, 1.0)


@given(drawn.stumps(), drawn.backs_m, st.floats(0.0, 2.0))
def test_more_back_offset_never_lowers_set_back_or_lift(
    stump: tuple[float, float, float], back: float, more: float
) -> None:
    near, far = (balance.set_back_m(*stump, b) for b in (back, back + more))
    assert far >= near
    lever = balance.lever_m(*stump, 0.0)
    lifts = [balance.lift_m(lever, balance.balance_rotation_rad(x, 8.0)) for x in (near, far)]
    assert lifts[1] >= lifts[0]


@given(drawn.stumps())
def test_straight_tree_starts_with_its_balance_point_behind_any_notch_up_to_40_percent(
    stump: tuple[float, float, float],
) -> None:
    diameter, notch, thickness = stump
    assert balance.set_back_m(diameter, notch, thickness, 0.0) == pytest.approx(
        diameter / 2.0 - (notch + thickness / 2.0)
    )


@given(drawn.stumps(), st.floats(0.0, 0.02))
def test_deeper_notch_shortens_lever_and_set_back_alike(
    stump: tuple[float, float, float], deeper: float
) -> None:
    diameter, notch, thickness = stump
    lever = balance.lever_m(diameter, notch, thickness, 0.03)
    behind = balance.set_back_m(diameter, notch, thickness, 0.5)
    assert lever - balance.lever_m(diameter, notch + deeper, thickness, 0.03) == pytest.approx(
        behind - balance.set_back_m(diameter, notch + deeper, thickness, 0.5), abs=1e-12
    )


@given(levers_m, st.floats(1e-4, 1.0))
def test_rotation_and_lift_invert_each_other(lever: float, rotation: float) -> None:
    lift = balance.lift_m(lever, rotation)
    assert balance.rotation_of_lift_rad(lever, lift) == pytest.approx(rotation, rel=1e-9)


@given(levers_m, st.floats(0.0, 1.0), st.floats(0.1, 10.0))
def test_lift_grows_with_the_lever_in_proportion(
    lever: float, rotation: float, scale: float
) -> None:
    assert balance.lift_m(scale * lever, rotation) == pytest.approx(
        scale * balance.lift_m(lever, rotation), rel=1e-12
    )


@given(levers_m, st.floats(-1.0, 0.0))
def test_tree_past_its_balance_needs_no_lift(lever: float, rotation: float) -> None:
    assert balance.lift_m(lever, rotation) == 0.0


@given(drawn.backs_m, drawn.heights_m, st.floats(0.01, 100.0))
def test_balance_rotation_is_the_same_in_any_unit_of_length(
    back: float, height: float, scale: float
) -> None:
    angle = balance.balance_rotation_rad(back, height)
    assert balance.balance_rotation_rad(scale * back, scale * height) == pytest.approx(angle)
    assert balance.balance_rotation_rad(-back, height) == pytest.approx(-angle)
    assert abs(angle) < math.pi / 2.0
