"""Properties of lean, wind, frost, lines, side load, early-go and splitting."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from tests.physics import drawn

from fellwright.physics import (
    early_go,
    frost,
    lean,
    preload,
    pull_line,
    side_load,
    splitting,
    wind,
)

offsets_m = st.floats(-4.0, 4.0)
sigmas_m = st.floats(0.05, 1.0)
readings = st.lists(
    st.builds(lean.LeanVector, offsets_m, offsets_m, sigmas_m), min_size=1, max_size=5
)


@given(offsets_m, offsets_m, drawn.azimuths_rad)
def test_turning_the_lay_keeps_the_length_of_the_offset(
    east: float, north: float, lay: float
) -> None:
    back, side = lean.back_and_side_m(east, north, lay)
    assert math.hypot(back, side) == pytest.approx(math.hypot(east, north), abs=1e-9)


@given(offsets_m, offsets_m, drawn.azimuths_rad)
def test_full_turn_of_the_lay_changes_nothing_and_half_a_turn_every_sign(
    east: float, north: float, lay: float
) -> None:
    back, side = lean.back_and_side_m(east, north, lay)
    assert lean.back_and_side_m(east, north, lay + 2.0 * math.pi) == pytest.approx(
        (back, side), abs=1e-9
    )
    assert lean.back_and_side_m(east, north, lay + math.pi) == pytest.approx(
        (-back, -side), abs=1e-9
    )


@given(offsets_m, offsets_m, drawn.azimuths_rad)
def test_mirrored_site_mirrors_the_side_offset_only(east: float, north: float, lay: float) -> None:
    back, side = lean.back_and_side_m(east, north, lay)
    assert lean.back_and_side_m(-east, north, -lay) == pytest.approx((back, -side), abs=1e-9)


def test_tree_leaning_against_the_lay_is_back_and_one_leaning_east_of_a_north_lay_right() -> None:
    assert lean.back_and_side_m(0.0, -0.5, 0.0) == pytest.approx((0.5, 0.0))
    assert lean.back_and_side_m(0.5, 0.0, 0.0) == pytest.approx((0.0, 0.5))


@given(readings)
def test_combined_lean_lies_among_the_readings(given_readings: list[lean.LeanVector]) -> None:
    combined = lean.combine_readings(given_readings)
    easts = [r.east_m for r in given_readings]
    norths = [r.north_m for r in given_readings]
    assert min(easts) - 1e-9 <= combined.east_m <= max(easts) + 1e-9
    assert min(norths) - 1e-9 <= combined.north_m <= max(norths) + 1e-9


@given(readings)
def test_order_of_readings_does_not_matter(given_readings: list[lean.LeanVector]) -> None:
    one = lean.combine_readings(given_readings)
    other = lean.combine_readings(given_readings[::-1])
    assert other == pytest.approx(one, rel=1e-9, abs=1e-9)


@given(st.builds(lean.LeanVector, offsets_m, offsets_m, sigmas_m), st.integers(1, 6))
def test_repeated_reading_narrows_by_the_root_of_its_number(
    reading: lean.LeanVector, times: int
) -> None:
    combined = lean.combine_readings([reading] * times)
    assert combined.sigma_m == pytest.approx(reading.sigma_m / math.sqrt(times))
    assert combined.chi_square_ratio == pytest.approx(0.0, abs=1e-12)


@given(readings)
def test_combined_error_is_never_below_that_of_perfect_agreement(
    given_readings: list[lean.LeanVector],
) -> None:
    least = 1.0 / math.sqrt(sum(1.0 / r.sigma_m**2 for r in given_readings))
    assert lean.combine_readings(given_readings).sigma_m >= least * (1.0 - 1e-12)


def test_no_reading_is_refused() -> None:
    with pytest.raises(ValueError, match="at least one lean reading"):
        lean.combine_readings([])


@given(offsets_m, st.floats(0.2, 0.4), st.floats(0.5, 0.9), st.floats(0.0, 0.5))
def test_balance_point_leans_less_than_the_top(
    top: float, stem: float, crown: float, share: float
) -> None:
    assert abs(lean.balance_offset_from_top_m(top, stem, crown, share)) <= abs(top)


@given(st.floats(0.0, 5e3), st.floats(1.0, 30.0), drawn.azimuths_rad, drawn.azimuths_rad)
def test_gust_keeps_its_moment_whatever_the_lay(
    force: float, arm: float, from_rad: float, lay: float
) -> None:
    forward, side = wind.gust_moments_n_m(force, arm, from_rad, lay)
    assert math.hypot(forward, side) == pytest.approx(force * arm, abs=1e-6)
    mirrored = wind.gust_moments_n_m(force, arm, -from_rad, -lay)
    assert mirrored == pytest.approx((forward, -side), abs=1e-6)


def test_head_wind_is_negative_and_tail_wind_positive() -> None:
    assert wind.gust_moments_n_m(1.0, 10.0, 0.7, 0.7)[0] == pytest.approx(-10.0)
    assert wind.gust_moments_n_m(1.0, 10.0, 0.7 + math.pi, 0.7)[0] == pytest.approx(10.0)
    # Wind from the left pushes to the right.
    assert wind.gust_moments_n_m(1.0, 10.0, -math.pi / 2.0, 0.0)[1] == pytest.approx(10.0)


@given(st.floats(1.0, 5.0), st.floats(0.3, 1.0), st.floats(0.5, 40.0), st.floats(0.0, 20.0))
def test_stronger_gust_never_pushes_less(c: float, n: float, speed: float, more: float) -> None:
    forces = [
        wind.gust_force_n(wind.drag_coefficient(c, n, u, 25.0), 30.0, u)
        for u in (speed, speed + more)
    ]
    assert forces[1] >= forces[0] * (1.0 - 1e-12)
    assert 0.0 < wind.drag_coefficient(c, n, speed, 25.0) <= 1.0


@given(st.floats(-60.0, 40.0), st.floats(0.0, 30.0))
def test_colder_wood_is_never_weaker(temperature: float, colder: float) -> None:
    warm = frost.bending_strength_ratio(temperature)
    assert frost.bending_strength_ratio(temperature - colder) >= warm - 1e-9
    assert 1.0 <= warm < 1.6


@given(drawn.forces_n, st.floats(2.0, 15.0), st.floats(5.0, 60.0), st.floats(-1.5, 1.5))
def test_line_on_the_other_side_mirrors_its_side_moment(
    tension: float, height: float, run: float, angle: float
) -> None:
    right = pull_line.line_moments_n_m(tension, height, run, angle)
    left = pull_line.line_moments_n_m(tension, height, run, -angle)
    assert left.forward_n_m == pytest.approx(right.forward_n_m)
    assert left.side_n_m == pytest.approx(-right.side_n_m)
    assert left.down_n == right.down_n
    # The line's own force is what it was.
    level = math.hypot(right.forward_n_m, right.side_n_m) / height
    assert math.hypot(level, right.down_n) == pytest.approx(tension)


@given(st.floats(1.0, 200e3), st.floats(2.0, 15.0), st.floats(5.0, 60.0), st.floats(0.0, 2.0))
def test_needed_tension_supplies_the_moment(
    moment: float, height: float, run: float, behind: float
) -> None:
    tension = pull_line.needed_tension_n(moment, height, run, behind)
    supplied = pull_line.line_moments_n_m(tension, height, run, 0.0, -behind)
    assert supplied.forward_n_m == pytest.approx(moment, rel=1e-9)


@given(st.floats(2.0, 15.0), st.floats(0.5, 5.0))
def test_fastening_farther_behind_than_the_anchor_is_ahead_cannot_be_pulled(
    height: float, run: float
) -> None:
    assert pull_line.needed_tension_n(1e3, height, run, run + 0.01) == math.inf


@given(drawn.forces_n, drawn.forces_n, st.floats(0.0, math.pi))
def test_block_carries_no_more_than_both_parts_and_no_less_than_their_difference(
    first: float, second: float, angle: float
) -> None:
    load = pull_line.block_load_n(first, second, angle)
    assert abs(first - second) * (1.0 - 1e-6) - 1e-3 <= load <= (first + second) * (1.0 + 1e-9)


@given(st.floats(0.0, 0.6), st.floats(0.0, 3.0), st.floats(0.0, 3.0))
def test_wraps_multiply(mu: float, first: float, second: float) -> None:
    together = pull_line.wraps_ratio(mu, first + second)
    assert together == pytest.approx(
        pull_line.wraps_ratio(mu, first) * pull_line.wraps_ratio(mu, second)
    )


@given(st.floats(0.0, 50e3), st.floats(0.0, 0.7), st.floats(0.01, 0.1))
def test_side_use_is_the_same_left_and_right_and_falls_with_strength(
    moment: float, rotation: float, broken: float
) -> None:
    use = side_load.side_use_ratio(rotation, moment, 40e3, 10e3, broken)
    assert side_load.side_use_ratio(rotation, -moment, 40e3, 10e3, broken) == use
    assert side_load.side_use_ratio(rotation, moment, 44e3, 11e3, broken) == pytest.approx(
        use / 1.1
    )


@given(st.floats(1.0, 50e3), st.floats(0.0, 0.7), st.floats(0.0, 0.08), st.floats(0.01, 0.1))
def test_side_use_rises_with_rotation_up_to_45_degrees_where_twist_is_weaker(
    moment: float, rotation: float, more: float, broken: float
) -> None:
    assume(rotation + more <= math.pi / 4.0)
    uses = [
        side_load.side_use_ratio(r, moment, 40e3, 10e3, broken) for r in (rotation, rotation + more)
    ]
    assert uses[1] >= uses[0] * (1.0 - 1e-12)


@given(drawn.bending_pa, st.floats(0.2, 1.0), st.floats(0.01, 0.1), st.floats(0.03, 0.3))
def test_longer_fibre_never_strengthens_twist(
    bending: float, width: float, thickness: float, fibre: float
) -> None:
    short = side_load.twist_capacity_n_m(bending, 0.12 * bending, width, thickness, fibre)
    long = side_load.twist_capacity_n_m(bending, 0.12 * bending, width, thickness, 2.0 * fibre)
    assert long <= short
    thick = side_load.twist_capacity_n_m(bending, 0.12 * bending, width, 1.1 * thickness, fibre)
    assert thick >= short
    assert side_load.side_capacity_n_m(bending, width, 1.1 * thickness) > (
        side_load.side_capacity_n_m(bending, width, thickness)
    )


@given(st.floats(0.0, 2.0), st.floats(0.0, 1.0), drawn.diameters_m, drawn.bending_pa)
def test_more_forward_lean_never_lets_the_tree_go_later(
    ahead: float, more: float, diameter: float, bending: float
) -> None:
    weight = 9.81 * 9000.0 * diameter**2.4
    thickness = [
        early_go.early_go_thickness_m(weight, a, diameter, 0.0, 0.2 * diameter, 0.0, bending)
        for a in (ahead, ahead + more)
    ]
    # Near balance the search may stop a tenth of a millimetre off.
    assert thickness[1] >= thickness[0] - 1e-4
    assert 0.0 <= thickness[0] <= 0.8 * diameter


@given(drawn.diameters_m, drawn.bending_pa, st.floats(0.2, 2.0), st.floats(0.0, 30e3))
def test_tail_wind_and_weak_wood_never_let_the_tree_go_later(
    diameter: float, bending: float, ahead: float, gust: float
) -> None:
    weight = 9.81 * 9000.0 * diameter**2.4
    shape = (diameter, 0.0, 0.2 * diameter)
    calm = early_go.early_go_thickness_m(weight, ahead + diameter / 2.0, *shape, 0.0, bending)
    pushed = early_go.early_go_thickness_m(weight, ahead + diameter / 2.0, *shape, gust, bending)
    weak = early_go.early_go_thickness_m(weight, ahead + diameter / 2.0, *shape, 0.0, 0.8 * bending)
    assert pushed >= calm - 1e-4
    assert weak >= calm - 1e-4


def test_tree_that_leans_back_does_not_go_by_itself() -> None:
    assert early_go.early_go_thickness_m(13e3, -0.3, 0.46, 0.0, 0.092, 0.0, 38e6) == 0.0


@given(drawn.diameters_m, st.floats(0.05, 0.99))
def test_segment_is_stiffer_the_deeper_it_is_and_never_stiffer_than_the_disc(
    diameter: float, share: float
) -> None:
    part = splitting.segment_second_moment_m4(diameter, share * diameter)
    deeper = splitting.segment_second_moment_m4(diameter, (share + 0.01) * diameter)
    assert 0.0 < part <= deeper
    assert deeper <= math.pi * diameter**4 / 64.0 * (1.0 + 1e-9)


@given(st.floats(1.0, 50e3), drawn.diameters_m, st.floats(0.1, 0.9))
def test_energy_release_goes_with_the_square_of_the_moment(
    moment: float, diameter: float, share: float
) -> None:
    one = splitting.energy_release_j_per_m2(moment, 8e9, diameter, share * diameter)
    two = splitting.energy_release_j_per_m2(2.0 * moment, 8e9, diameter, share * diameter)
    assert two == pytest.approx(4.0 * one)
    assert splitting.energy_release_j_per_m2(-moment, 8e9, diameter, share * diameter) == 0.0


def test_cut_that_leaves_nothing_has_no_section_and_frees_nothing() -> None:
    assert splitting.segment_second_moment_m4(0.5, 0.0) == 0.0
    assert splitting.energy_release_j_per_m2(1e3, 8e9, 0.5, 0.0) == 0.0


@given(drawn.forces_n, st.floats(0.0, 50e3), st.floats(0.1, 1.0))
def test_preload_never_passes_what_the_uncut_wood_carries(
    push: float, uncut: float, lever: float
) -> None:
    force = preload.preload_force_n(push, uncut, lever)
    assert force <= 0.65 * push
    assert force * lever <= 0.5 * uncut * (1.0 + 1e-12)


@given(st.floats(20e6, 80e6), drawn.diameters_m, drawn.notch_shares, st.floats(0.0, 1.0))
def test_uncut_moment_grows_with_its_share_of_the_width(
    bending: float, diameter: float, notch: float, share: float
) -> None:
    whole = preload.uncut_moment_n_m(bending, diameter, notch * diameter, 1.0)
    part = preload.uncut_moment_n_m(bending, diameter, notch * diameter, share)
    assert part == pytest.approx(share * whole)


@given(st.floats(0.0, 0.02), st.floats(0.1, 1.0))
def test_wider_kerf_sits_the_tree_back_farther(kerf: float, lever: float) -> None:
    angle = preload.sit_back_rotation_rad(kerf, lever)
    assert preload.sit_back_rotation_rad(kerf + 0.001, lever) > angle
    assert preload.sit_back_rotation_rad(kerf, lever + 0.1) <= angle
