"""Properties of wedge faces, power screws, hammer blows and seats."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from tests.physics import drawn

from fellwright.physics import hammer_blow, power_screw, seat, wedge_face

angles_rad = st.floats(math.radians(0.5), math.radians(15.0))
diameters_m = st.floats(0.010, 0.060)
leads_m = st.floats(0.001, 0.012)
flanks_rad = st.floats(0.0, math.radians(30.0))


@given(drawn.forces_n, angles_rad, angles_rad, drawn.frictions, drawn.frictions)
def test_swapping_the_faces_of_a_wedge_changes_nothing(
    lift: float, angle_1: float, angle_2: float, mu_1: float, mu_2: float
) -> None:
    for force in (wedge_face.thrust_n, wedge_face.pull_out_n, wedge_face.lift_from_thrust_n):
        assert force(lift, angle_1, angle_2, mu_1, mu_2) == pytest.approx(
            force(lift, angle_2, angle_1, mu_2, mu_1), rel=1e-9, abs=1e-9
        )


@given(drawn.forces_n, angles_rad, angles_rad, drawn.frictions, drawn.frictions)
def test_thrust_and_lift_invert_each_other(
    lift: float, angle_1: float, angle_2: float, mu_1: float, mu_2: float
) -> None:
    thrust = wedge_face.thrust_n(lift, angle_1, angle_2, mu_1, mu_2)
    assert wedge_face.lift_from_thrust_n(thrust, angle_1, angle_2, mu_1, mu_2) == pytest.approx(
        lift, rel=1e-12
    )


@given(angles_rad, drawn.frictions, st.floats(0.0, 0.3))
def test_more_friction_costs_thrust_and_holds_better(angle: float, mu: float, more: float) -> None:
    smooth, rough = mu, mu + more
    faces = (angle, angle)
    assert wedge_face.thrust_n(1.0, *faces, rough, rough) >= wedge_face.thrust_n(
        1.0, *faces, smooth, smooth
    )
    assert wedge_face.pull_out_n(1.0, *faces, rough, rough) >= wedge_face.pull_out_n(
        1.0, *faces, smooth, smooth
    )
    assert wedge_face.largest_holding_angle_rad(rough) >= wedge_face.largest_holding_angle_rad(
        smooth
    )
    assert wedge_face.wedge_efficiency_ratio(*faces, rough, rough) <= (
        wedge_face.wedge_efficiency_ratio(*faces, smooth, smooth)
    )


@given(angles_rad, drawn.frictions)
def test_wedge_holds_at_rest_exactly_where_pulling_it_out_takes_force(
    angle: float, mu: float
) -> None:
    force = wedge_face.pull_out_n(1.0, angle, angle, mu, mu)
    assume(abs(force) > 1e-9)
    assert wedge_face.holds_at_rest(2.0 * angle, mu) == (force > 0.0)


@given(angles_rad)
def test_wedge_without_friction_wastes_nothing(angle: float) -> None:
    assert wedge_face.wedge_efficiency_ratio(angle, angle, 0.0, 0.0) == pytest.approx(1.0)


@given(drawn.forces_n, diameters_m, leads_m, flanks_rad)
def test_screw_without_friction_is_a_pure_lever(
    axial: float, diameter: float, lead: float, flank: float
) -> None:
    raising = power_screw.raising_torque_n_m(axial, diameter, lead, 0.0, flank)
    assert raising == pytest.approx(axial * lead / (2.0 * math.pi), rel=1e-9)
    lowering = power_screw.lowering_torque_n_m(axial, diameter, lead, 0.0, flank)
    assert lowering == pytest.approx(-raising, rel=1e-9)
    assert power_screw.screw_efficiency_ratio(axial, lead, raising) == pytest.approx(1.0)


@given(diameters_m, leads_m, st.floats(0.01, 0.3), flanks_rad)
def test_screw_locks_exactly_where_lowering_takes_torque(
    diameter: float, lead: float, mu: float, flank: float
) -> None:
    lowering = power_screw.lowering_torque_n_m(1.0, diameter, lead, mu, flank)
    assume(abs(lowering) > 1e-12)
    assert power_screw.is_self_locking(diameter, lead, mu, flank) == (lowering > 0.0)


@given(diameters_m, leads_m, st.floats(0.02, 0.3), flanks_rad)
def test_self_locking_screw_returns_less_than_half_the_work(
    diameter: float, lead: float, mu: float, flank: float
) -> None:
    assume(power_screw.is_self_locking(diameter, lead, mu, flank))
    torque = power_screw.raising_torque_n_m(1.0, diameter, lead, mu, flank)
    assert power_screw.screw_efficiency_ratio(1.0, lead, torque) <= 0.5 + 1e-9


@given(st.floats(10.0, 1500.0), st.floats(0.04, 0.25), st.floats(0.001, 0.1))
def test_less_grease_means_less_lift_for_the_same_torque(
    torque: float, mu: float, drier: float
) -> None:
    greased, dry = (
        power_screw.lift_from_torque_n(torque, 0.0215, 0.005, 0.03, 0.17, m)
        for m in (mu, mu + drier)
    )
    assert dry < greased


@given(drawn.forces_n, st.floats(0.02, 0.6), st.floats(0.0005, 0.004))
def test_torque_and_lift_by_efficiency_invert_each_other(
    push: float, efficiency: float, per_turn: float
) -> None:
    torque = power_screw.torque_from_efficiency_n_m(push, efficiency, per_turn)
    assert power_screw.lift_from_efficiency_n(torque, efficiency, per_turn) == pytest.approx(push)
    # One turn: work in times efficiency is work out.
    assert 2.0 * math.pi * torque * efficiency == pytest.approx(push * per_turn)


@given(st.floats(0.0, 0.06), st.floats(0.0005, 0.004), st.floats(1.0, 5000.0))
def test_energy_and_turns_grow_with_the_work(lift: float, per_turn: float, work: float) -> None:
    assert power_screw.turns_count(2.0 * lift, per_turn) == pytest.approx(
        2.0 * power_screw.turns_count(lift, per_turn)
    )
    assert power_screw.drive_energy_j(work, 0.05, 0.4) == pytest.approx(work / 0.02)
    assert power_screw.drive_energy_j(work, 0.05, 0.4) > power_screw.drive_energy_j(work, 0.1, 0.4)


@given(st.floats(0.5, 6.0), st.floats(0.05, 5.0), st.floats(0.0, 1.0))
def test_share_of_a_blow_lies_between_the_heads_share_and_all_of_it(
    hammer: float, wedge: float, restitution: float
) -> None:
    share = hammer_blow.blow_share_ratio(hammer, wedge, restitution)
    assert hammer / (hammer + wedge) * (1.0 - 1e-12) <= share <= 1.0 + 1e-12
    assert hammer_blow.blow_share_ratio(2.0 * hammer, wedge, restitution) >= share - 1e-12


@given(st.floats(1.0, 6.0), st.floats(2.0, 12.0))
def test_twice_the_speed_is_four_times_the_blow(hammer: float, speed: float) -> None:
    assert hammer_blow.blow_energy_j(hammer, 2.0 * speed) == pytest.approx(
        4.0 * hammer_blow.blow_energy_j(hammer, speed)
    )


@given(st.floats(20.0, 300.0), st.floats(1e6, 5e7))
def test_wedge_advances_below_its_stall_and_not_at_it(energy: float, stiffness: float) -> None:
    stall = hammer_blow.stall_thrust_n(energy, stiffness)
    assert hammer_blow.advance_per_blow_m(energy, 0.99 * stall, stiffness) > 0.0
    assert hammer_blow.advance_per_blow_m(energy, stall, stiffness) == pytest.approx(0.0, abs=1e-12)
    assert hammer_blow.advance_per_blow_m(energy, 1.01 * stall, stiffness) == 0.0


@given(st.floats(20.0, 300.0), st.floats(1e3, 1e5), st.floats(1e6, 5e7))
def test_pile_formula_and_advance_are_one_balance(
    energy: float, thrust: float, stiffness: float
) -> None:
    advance = hammer_blow.advance_per_blow_m(energy, thrust, stiffness)
    assume(advance > 1e-6)
    elastic = thrust / stiffness
    assert hammer_blow.pile_resistance_n(energy, advance, elastic) == pytest.approx(thrust)


@given(st.floats(1e3, 60e3), st.floats(0.1, 0.35), st.floats(0.0, 0.1), st.floats(0.005, 0.04))
def test_harder_push_or_more_friction_never_takes_fewer_blows(
    push: float, mu: float, more: float, lift: float
) -> None:
    def blows(force: float, friction: float) -> float:
        return hammer_blow.blows_count(lift, force, math.radians(10.0), friction, 93.0, 1e7)

    assert blows(push, mu + more) >= blows(push, mu)
    assert blows(1.1 * push, mu) >= blows(push, mu)


@given(st.floats(5e6, 40e6), st.floats(0.03, 0.15), st.floats(0.02, 0.2), st.floats(0.3, 1.0))
def test_contact_that_a_force_needs_carries_just_that_force(
    crushing: float, width: float, length: float, share: float
) -> None:
    force = seat.bearing_force_n(crushing, width, length, share)
    assert seat.contact_length_m(force, crushing, width, share) == pytest.approx(length)


@given(st.floats(0.0, 0.1), st.floats(0.0, 0.3), st.floats(0.0, 0.3), st.floats(0.0, 0.1))
def test_open_cut_flatter_than_the_wedge_costs_lift_and_a_wider_one_none(
    length: float, wedge: float, opening: float, more: float
) -> None:
    lost = seat.crush_loss_m(length, wedge, opening)
    assert lost >= 0.0
    assert seat.crush_loss_m(length, wedge + more, opening) >= lost
    assert seat.crush_loss_m(length, opening, wedge + opening) == 0.0


@given(drawn.stumps(), st.floats(0.05, 0.25), st.floats(0.0, 0.1))
def test_longer_device_or_deeper_bar_never_gives_room(
    stump: tuple[float, float, float], device: float, more: float
) -> None:
    room = seat.room_m(*stump, 0.02, device, 0.07)
    assert seat.room_m(*stump, 0.02, device + more, 0.07) <= room
    assert seat.room_m(*stump, 0.02, device, 0.07 + more) <= room
