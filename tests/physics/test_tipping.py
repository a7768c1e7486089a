"""Properties of push, let-go and work: monotone in what makes a tree worse, and energy."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from tests.physics import drawn

from fellwright.physics import balance
from fellwright.physics.hinge import HingeLaw, hinge_law, hinge_work_j
from fellwright.physics.tipping import (
    Tipping,
    resisting_moment_n_m,
    solve_tipping,
    tipping_work_j,
)

CLOSING = math.radians(70.0)
set_backs_m = st.floats(-0.5, 1.5)
winds_n_m = st.floats(-20e3, 20e3)
NIL = hinge_law(1e-6, 0.01, 2.0, 1.0)


def _solve(weight: float, back: float, height: float, wind: float, law: HingeLaw) -> Tipping:
    return solve_tipping(weight, back, height, wind, law, CLOSING)


@given(drawn.weights_n, set_backs_m, drawn.heights_m, winds_n_m, drawn.laws(), st.floats(0.0, 1.0))
def test_more_back_offset_never_lowers_push_or_let_go(
    weight: float, back: float, height: float, wind: float, law: HingeLaw, more: float
) -> None:
    near = _solve(weight, back, height, wind, law)
    far = _solve(weight, back + more, height, wind, law)
    assert far.push_moment_n_m >= near.push_moment_n_m * (1.0 - 1e-6) - 1e-3
    assert far.let_go_rad >= near.let_go_rad - 1e-5
    assert far.balance_rad >= near.balance_rad


@given(drawn.weights_n, set_backs_m, drawn.heights_m, st.floats(0.0, 15e3), drawn.laws())
def test_head_wind_asks_for_more_than_calm_and_calm_for_more_than_tail_wind(
    weight: float, back: float, height: float, gust: float, law: HingeLaw
) -> None:
    head, calm, tail = (_solve(weight, back, height, w, law) for w in (-gust, 0.0, gust))
    assert head.push_moment_n_m >= calm.push_moment_n_m >= tail.push_moment_n_m
    assert head.let_go_rad >= calm.let_go_rad - 1e-6
    assert calm.let_go_rad >= tail.let_go_rad - 1e-6


@given(drawn.weights_n, set_backs_m, drawn.heights_m, drawn.laws(), st.floats(1.0, 3.0))
def test_thicker_hinge_about_the_same_axis_never_lowers_push_or_let_go(
    weight: float, back: float, height: float, law: HingeLaw, factor: float
) -> None:
    """Stronger by the square of its thickness, and it yields after no less rotation."""
    thick = law._replace(scale_n_m=law.scale_n_m * factor**2, peak_n_m=law.peak_n_m * factor**2)
    thin_need, thick_need = (_solve(weight, back, height, 0.0, each) for each in (law, thick))
    assert thick_need.push_moment_n_m >= thin_need.push_moment_n_m * (1.0 - 1e-6)
    assert thick_need.let_go_rad >= thin_need.let_go_rad - 1e-5


@given(drawn.weights_n, set_backs_m, drawn.heights_m, drawn.laws(), st.floats(0.0, 1.0))
def test_more_residual_never_lowers_let_go_and_leaves_push_at_least_as_high(
    weight: float, back: float, height: float, law: HingeLaw, share: float
) -> None:
    more = law._replace(residual_ratio=law.residual_ratio + share * (1.0 - law.residual_ratio))
    little, much = (_solve(weight, back, height, 0.0, each) for each in (law, more))
    assert much.let_go_rad >= little.let_go_rad - 1e-5
    assert much.push_moment_n_m == pytest.approx(little.push_moment_n_m, rel=1e-9)


@given(drawn.weights_n, set_backs_m, drawn.heights_m, winds_n_m, drawn.laws())
def test_nothing_on_the_way_asks_for_more_than_the_push(
    weight: float, back: float, height: float, wind: float, law: HingeLaw
) -> None:
    found = _solve(weight, back, height, wind, law)
    reach = max(found.let_go_rad, 1.2 * law.break_rad)
    for i in range(201):
        asked = resisting_moment_n_m(reach * i / 200.0, weight, back, height, wind, law)
        assert asked <= found.push_moment_n_m * (1.0 + 1e-6) + 1e-3


@given(drawn.weights_n, st.floats(0.001, 1.5), drawn.heights_m, winds_n_m, drawn.laws())
def test_at_let_go_nothing_is_asked_and_beyond_it_the_tree_goes_by_itself(
    weight: float, back: float, height: float, wind: float, law: HingeLaw
) -> None:
    found = _solve(weight, back, height, wind, law)
    assume(0.0 < found.let_go_rad < 0.999 * CLOSING)
    at = resisting_moment_n_m(found.let_go_rad, weight, back, height, wind, law)
    assert at == pytest.approx(0.0, abs=2e-5 * weight * math.hypot(height, back))
    for i in range(1, 50):
        beyond = found.let_go_rad + (CLOSING - found.let_go_rad) * i / 50.0
        asked = resisting_moment_n_m(beyond, weight, back, height, wind, law)
        assert asked < 2e-5 * weight * math.hypot(height, back)


@given(drawn.weights_n, st.floats(0.001, 1.5), drawn.heights_m, drawn.laws())
def test_let_go_never_comes_before_balance_in_calm(
    weight: float, back: float, height: float, law: HingeLaw
) -> None:
    found = _solve(weight, back, height, 0.0, law)
    assert found.let_go_rad >= found.balance_rad - 1e-9
    assert found.push_moment_n_m >= weight * back * (1.0 - 1e-9)


@given(drawn.weights_n, st.floats(0.001, 1.5), drawn.heights_m, st.floats(0.5, 3.0))
def test_without_hinge_lift_does_not_depend_on_density_and_push_goes_with_it(
    weight: float, back: float, height: float, denser: float
) -> None:
    light, heavy = (_solve(w, back, height, 0.0, NIL) for w in (weight, denser * weight))
    assert heavy.let_go_rad == pytest.approx(light.let_go_rad, abs=1e-6)
    assert light.let_go_rad == pytest.approx(light.balance_rad, abs=1e-6)
    assert heavy.push_moment_n_m == pytest.approx(denser * light.push_moment_n_m, rel=1e-5)


@given(drawn.weights_n, st.floats(0.001, 1.5), drawn.heights_m, drawn.laws())
def test_wedge_work_to_balance_is_weight_times_rise_plus_hinge_work(
    weight: float, back: float, height: float, law: HingeLaw
) -> None:
    at_balance = balance.balance_rotation_rad(back, height)
    rise = math.hypot(back, height) - height
    work = tipping_work_j(at_balance, weight, back, height, 0.0, law)
    assert work == pytest.approx(
        weight * rise + hinge_work_j(at_balance, law), rel=1e-9, abs=1e-9 * weight * height
    )


@given(drawn.weights_n, st.floats(0.001, 1.5), drawn.heights_m)
def test_without_hinge_the_work_is_weight_times_the_rise_of_the_balance_point(
    weight: float, back: float, height: float
) -> None:
    at_balance = balance.balance_rotation_rad(back, height)
    work = tipping_work_j(at_balance, weight, back, height, 0.0, NIL)
    assert work == pytest.approx(
        weight * (math.hypot(back, height) - height), rel=1e-6, abs=1e-9 * weight * height
    )


@given(drawn.weights_n, st.floats(0.001, 1.5), drawn.heights_m, winds_n_m, drawn.laws())
def test_push_over_the_whole_way_is_at_least_the_work(
    weight: float, back: float, height: float, wind: float, law: HingeLaw
) -> None:
    found = _solve(weight, back, height, wind, law)
    work = tipping_work_j(found.let_go_rad, weight, back, height, wind, law)
    assert work <= found.push_moment_n_m * found.let_go_rad * (1.0 + 1e-5) + 1e-6


@given(drawn.weights_n, set_backs_m, drawn.heights_m, winds_n_m, drawn.laws(), st.floats(0.1, 9.0))
def test_forces_scale_together_and_angles_stay(
    weight: float, back: float, height: float, wind: float, law: HingeLaw, scale: float
) -> None:
    scaled = law._replace(scale_n_m=scale * law.scale_n_m, peak_n_m=scale * law.peak_n_m)
    one = _solve(weight, back, height, wind, law)
    other = _solve(scale * weight, back, height, scale * wind, scaled)
    assert other.push_moment_n_m == pytest.approx(
        scale * one.push_moment_n_m, rel=1e-6, abs=1e-6 * scale * weight
    )
    assert other.let_go_rad == pytest.approx(one.let_go_rad, abs=2e-5)


@given(drawn.weights_n, drawn.heights_m, drawn.laws())
def test_tree_far_forward_asks_for_nothing(weight: float, height: float, law: HingeLaw) -> None:
    ahead = 2.0 * law.peak_n_m / weight + 0.1
    found = _solve(weight, -ahead, height, 0.0, law)
    assert found == Tipping(0.0, 0.0, balance.balance_rotation_rad(-ahead, height), 0.0)
