"""Properties of threaded cones, rams, devices that work as one, and of strength at an angle."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.physics import drawn

from fellwright.physics import (
    hinge_pull,
    off_centre,
    pull_line,
    ram,
    threaded_cone,
    two_stage,
)
from fellwright.physics.grain_angle import hankinson_pa

radii_m = st.floats(0.008, 0.05)
pitches_m = st.floats(0.002, 0.012)
halves_rad = st.floats(math.radians(2.0), math.radians(12.0))
strengths_pa = st.floats(1e6, 60e6)
turns = st.floats(0.0, 30.0)
openings_rad = st.floats(0.0, math.radians(20.0))
shares = st.floats(0.0, 1.0)


@given(drawn.forces_n, radii_m, pitches_m, halves_rad, drawn.frictions)
def test_push_torque_and_pull_of_a_cone_invert_each_other(
    push: float, radius: float, pitch: float, half: float, mu: float
) -> None:
    torque = threaded_cone.cone_torque_n_m(push, radius, pitch, half, mu)
    pull = threaded_cone.pull_needed_n(push, radius, pitch, half, mu)
    assert threaded_cone.push_from_torque_n(torque, radius, pitch, half, mu) == pytest.approx(push)
    assert threaded_cone.push_from_pull_n(pull, radius, pitch, half, mu) == pytest.approx(push)


@given(radii_m, pitches_m, halves_rad, drawn.frictions, st.floats(0.0, 0.3))
def test_friction_costs_torque_pull_and_efficiency(
    radius: float, pitch: float, half: float, mu: float, more: float
) -> None:
    def cone(friction: float) -> tuple[float, float, float]:
        return (
            threaded_cone.cone_torque_n_m(1e4, radius, pitch, half, friction),
            threaded_cone.pull_needed_n(1e4, radius, pitch, half, friction),
            -threaded_cone.cone_efficiency_ratio(radius, pitch, half, friction),
        )

    assert all(b >= a for a, b in zip(cone(mu), cone(mu + more), strict=True))


@given(drawn.forces_n, radii_m, pitches_m, halves_rad, drawn.frictions)
def test_work_of_a_turn_is_lift_over_efficiency(
    push: float, radius: float, pitch: float, half: float, mu: float
) -> None:
    turn = 2.0 * math.pi * threaded_cone.cone_torque_n_m(push, radius, pitch, half, mu)
    lifted = push * threaded_cone.lift_per_turn_m(pitch, half)
    efficiency = threaded_cone.cone_efficiency_ratio(radius, pitch, half, mu)
    assert 0.0 < efficiency < 1.0
    assert turn * efficiency == pytest.approx(lifted)


@given(strengths_pa, strengths_pa, pitches_m, st.floats(0.0005, 0.006), turns, st.floats(1.0, 3.0))
def test_stronger_wood_never_holds_less_and_a_used_hole_holds_nothing(
    shear: float, flank: float, pitch: float, depth: float, n: float, times: float
) -> None:
    arc = threaded_cone.groove_arc_m(0.02, depth)

    def hold(factor: float, fresh: float) -> float:
        return threaded_cone.thread_hold_n(
            threaded_cone.rib_shear_n(factor * shear, pitch, arc, fresh),
            threaded_cone.flank_bearing_n(factor * flank, depth, arc, fresh),
        )

    assert hold(times, n) >= hold(1.0, n) >= 0.0
    assert hold(times, 0.0) == 0.0


def test_flanks_rule_in_soft_wood() -> None:
    """Green spruce: 5.3 MPa of shear, 1.9 to 3.8 MPa across the grain; thread 4 mm, pitch 6 mm."""
    arc = threaded_cone.groove_arc_m(0.024, 0.004)
    rib = threaded_cone.rib_shear_n(5.3e6, 0.006, arc, 18.0)
    for across in (1.9e6, 3.8e6):
        assert threaded_cone.flank_bearing_n(across, 0.004, arc, 18.0) < rib


@given(radii_m, shares)
def test_groove_grows_with_its_depth_up_to_half_the_circle(radius: float, share: float) -> None:
    depth = share * radius
    area = threaded_cone.groove_arc_m(radius, depth) * depth
    assert 0.0 <= area <= 0.5 * math.pi * radius**2 * (1.0 + 1e-9)
    assert threaded_cone.groove_width_m(radius, depth) <= 2.0 * radius * (1.0 + 1e-9)
    assert threaded_cone.groove_arc_m(radius, depth) <= threaded_cone.groove_width_m(
        radius, depth
    ) * (1.0 + 1e-9)


@given(strengths_pa, shares, st.floats(0.0, 0.5 * math.pi), st.floats(1.5, 2.5))
def test_strength_at_an_angle_lies_between_along_and_across(
    along: float, share: float, angle: float, exponent: float
) -> None:
    across = max(0.02, share) * along
    strength = hankinson_pa(along, across, angle, exponent)
    # An exponent under 2 bulges in the middle no further than along, over 2 no lower than across.
    assert strength <= along * 1.3
    if exponent >= 2.0:
        assert strength >= across * (1.0 - 1e-9)
    if exponent <= 2.0:
        assert strength <= along * (1.0 + 1e-9)


@given(strengths_pa, strengths_pa, st.floats(0.0, 0.5 * math.pi), st.floats(0.1, 10.0))
def test_strength_at_an_angle_scales_with_both(
    along: float, across: float, angle: float, times: float
) -> None:
    assert hankinson_pa(times * along, times * across, angle) == pytest.approx(
        times * hankinson_pa(along, across, angle)
    )


@given(st.floats(1e5, 1e8), st.floats(0.01, 0.1))
def test_gauge_reads_the_push(pressure: float, piston: float) -> None:
    force = ram.ram_force_n(pressure, piston)
    assert ram.gauge_pressure_pa(force, piston) == pytest.approx(pressure)


@given(drawn.forces_n, openings_rad, drawn.frictions)
def test_ram_slips_just_where_friction_does_not_hold_it(
    force: float, opening: float, mu: float
) -> None:
    slip = ram.side_slip_n(force, opening, mu)
    assert slip >= 0.0
    if ram.slips_sideways(opening, mu):
        assert slip > -1e-9 * force
    else:
        assert slip <= 1e-9 * force


@given(st.floats(0.01, 0.1), st.floats(0.0, 0.01), st.floats(0.0, 0.02), st.floats(0.0, 0.02))
def test_lift_of_a_ram_is_never_more_than_its_stroke(
    stroke: float, bedding: float, edge: float, back: float
) -> None:
    lift = ram.ram_lift_m(stroke, bedding, edge, back)
    assert 0.0 <= lift <= stroke
    assert ram.ram_lift_m(stroke, bedding, edge, back + 0.005) <= lift


@given(st.floats(0.0, 1.0), st.floats(100.0, 1e5), st.floats(0.0, 2e5), st.floats(0.0, 0.2))
def test_device_on_the_wrong_side_never_eases_the_hinge(
    use: float, side: float, push: float, offset: float
) -> None:
    assert off_centre.eased_side_use_ratio(use, side, push, -offset) >= use * (1.0 - 1e-12)
    assert off_centre.eased_side_use_ratio(use, side, push, 0.0) == pytest.approx(use)


@given(drawn.forces_n, drawn.forces_n, st.floats(0.0, 0.06), st.floats(0.0, 0.06), shares)
def test_two_side_by_side_give_no_more_than_their_sum_and_the_lesser_lift(
    first: float, second: float, lift_1: float, lift_2: float, share: float
) -> None:
    assert off_centre.side_by_side_push_n(first, second, share) <= first + second
    assert off_centre.side_by_side_lift_m(lift_1, lift_2) in (lift_1, lift_2)
    assert off_centre.side_by_side_lift_m(lift_1, lift_2) <= min(lift_1, lift_2)


@given(drawn.diameters_m, st.floats(0.0, 0.3), st.floats(0.0, 0.1))
def test_further_off_centre_is_never_a_longer_lever(
    wood: float, offset: float, more: float
) -> None:
    near = off_centre.off_centre_lever_m(0.7 * wood, wood, offset)
    assert off_centre.off_centre_lever_m(0.7 * wood, wood, offset + more) <= near <= 0.7 * wood
    assert off_centre.off_centre_lever_m(0.7 * wood, wood, -offset) == near


@given(st.floats(0.02, 0.2), st.floats(0.02, 0.2), drawn.frictions, drawn.frictions)
def test_stack_never_holds_better_than_its_wedges_as_one(
    first: float, second: float, wood: float, inner: float
) -> None:
    if off_centre.stack_holds(first, second, wood, inner):
        assert first + second <= 2.0 * math.atan(wood) + 1e-12
        assert off_centre.stack_holds(first, second, wood + 0.1, inner + 0.1)


@given(st.floats(0.0, 0.05), st.floats(0.0, 0.05), st.floats(0.0, 0.01), st.floats(0.0, 0.1))
def test_second_stage_never_lowers_the_first(
    first: float, second: float, bedding: float, unfilled: float
) -> None:
    lift = two_stage.two_stage_lift_m(first, second, bedding, unfilled)
    assert first <= lift <= first + second
    assert two_stage.first_stage_m(first, second, bedding, 0.03, 0.8) <= min(first, 0.024)


@given(drawn.forces_n, drawn.weights_n, st.floats(1e-3, 0.1), st.floats(0.0, 2e4))
def test_push_at_its_limit_strains_the_hinge_just_so_far(
    push: float, weight: float, area: float, line: float
) -> None:
    limit = hinge_pull.push_limit_n(weight, area, 12.5e6, line)
    net = hinge_pull.net_hinge_pull_n(limit, weight, line)
    assert hinge_pull.hinge_tension_pa(net, area) == pytest.approx(12.5e6)
    least = hinge_pull.net_hinge_pull_n(min(push, weight), weight, line)
    assert hinge_pull.hinge_tension_pa(least, area) == 0.0


@given(st.floats(-1e4, 1e5), st.floats(0.05, 0.5), drawn.frictions)
def test_forward_leaner_grips_no_bar(back: float, lever: float, mu: float) -> None:
    grip = hinge_pull.bar_grip_n(back, lever)
    assert (grip > 0.0) == (back > 0.0)
    assert hinge_pull.bar_pull_n(grip, mu) == pytest.approx(2.0 * mu * grip)
    assert hinge_pull.freeing_push_n(back, 2.0 * lever) == pytest.approx(0.5 * grip)


@given(st.floats(1e3, 5e4), st.floats(0.0, math.pi), st.floats(0.85, 1.0))
def test_block_carries_between_nothing_and_twice_the_pull(
    line: float, inner: float, sheave: float
) -> None:
    load = pull_line.redirected_block_load_n(line, inner, sheave)
    pull = pull_line.redirected_pull_n(line, sheave)
    assert load <= 2.0 * pull * (1.0 + 1e-12)
    assert load >= pull - line - 1e-6
    assert pull_line.doubled_pull_n(line, sheave) <= pull_line.doubled_anchor_load_n(line)
