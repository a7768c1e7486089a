"""What one draw of a device gives on one draw of a tree: usable lift, available push, its limits.

A kernel: plain floats in NamedTuples, so that the compiled twin runs the same lines.
"""

import math
from typing import NamedTuple

from fellwright.kernel import kernel
from fellwright.physics.hammer_blow import blow_energy_j, blow_share_ratio, stall_thrust_n
from fellwright.physics.off_centre import (
    chord_room_m,
    off_centre_lever_m,
    side_by_side_lift_m,
    side_by_side_push_n,
)
from fellwright.physics.power_screw import lift_from_efficiency_n, lift_from_torque_n
from fellwright.physics.ram import edge_loss_m, slips_sideways
from fellwright.physics.seat import bearing_force_n, contact_length_m, crush_loss_m, room_m
from fellwright.physics.threaded_cone import (
    cone_is_self_retaining,
    push_from_pull_n,
    push_from_torque_n,
)
from fellwright.physics.wedge_face import holds_at_rest, lift_from_thrust_n
from fellwright.planning.chance import Points
from fellwright.planning.need import Need

__all__ = [
    "BLOWS",
    "CONE",
    "RAM",
    "SCREW",
    "DeviceDraw",
    "DeviceFigures",
    "draw_device",
    "draw_pair",
]

SCREW = 0.0
BLOWS = 1.0
CONE = 2.0
RAM = 3.0


class DeviceFigures(NamedTuple):
    """One device with its drive, SI units; bands as low and span.

    ``hold`` is what the wood under the thread of a cone holds along its axis, at median strength;
    ``pump_n`` the force of a ram at the pressure of its pump.
    """

    drive: float
    rated_n: float
    lift_m: float
    lost_m: float
    width_m: float
    length_m: float
    angle_rad: float
    depth_m: float
    bar_m: float
    gap_m: float
    torque_n_m: float
    torque_limit_n_m: float
    lift_per_turn_m: float
    thread_m: float
    lead_m: float
    collar_m: float
    efficiency_low: float
    efficiency_span: float
    thread_mu_low: float
    thread_mu_span: float
    hammer_kg: float
    wedge_kg: float
    restitution: float
    friction_low: float
    friction_span: float
    contact_low: float
    contact_span: float
    wrench_low: float
    wrench_span: float
    blow_low: float
    blow_span: float
    stiffness_low_log: float
    stiffness_span_log: float
    cone_radius_m: float = 0.0
    cone_pitch_m: float = 0.0
    hold_low_n: float = 0.0
    hold_span_n: float = 0.0
    hold_cv: float = 0.0
    pump_n: float = 0.0


class DeviceDraw(NamedTuple):
    """Usable lift [m], available push [N], drive and bearing limits [N], room [m], hold, all.

    ``adds_up`` takes lift, push, seat, hold and drive together; room is judged at the median.
    ``balances`` says that its lift reaches balance.
    """

    usable_lift_m: float
    available_n: float
    drive_n: float
    bearing_n: float
    room_m: float
    seat_ratio: float
    holds: bool
    adds_up: bool
    balances: bool


@kernel
def drive_force_n(u: Points, d: DeviceFigures, mu: float) -> float:
    """Push that the drive of a device gives in one draw [N]."""
    # A good draw of a drive is a low friction: its bands are read from their good end.
    if d.drive == BLOWS:
        energy = blow_energy_j(d.hammer_kg, d.blow_low + d.blow_span * u.u_blow) * blow_share_ratio(
            d.hammer_kg, d.wedge_kg, d.restitution
        )
        stiffness = math.exp(d.stiffness_low_log + d.stiffness_span_log * u.u_stiffness)
        half = 0.5 * d.angle_rad
        return lift_from_thrust_n(stall_thrust_n(energy, stiffness), half, half, mu, mu)
    if d.drive == RAM:
        return d.pump_n
    torque = min(d.torque_limit_n_m, d.torque_n_m * (d.wrench_low + d.wrench_span * u.u_wrench))
    if d.drive == CONE:
        return push_from_torque_n(torque, d.cone_radius_m, d.cone_pitch_m, 0.5 * d.angle_rad, mu)
    if d.thread_m > 0.0:
        thread_mu = d.thread_mu_low + d.thread_mu_span * (1.0 - u.u_drive)
        return lift_from_torque_n(
            torque, d.thread_m, d.lead_m, d.collar_m, d.lift_per_turn_m / d.lead_m, thread_mu
        )
    efficiency = d.efficiency_low + d.efficiency_span * u.u_drive
    return lift_from_efficiency_n(torque, efficiency, d.lift_per_turn_m)


@kernel
def wood_force_n(u: Points, need: Need, d: DeviceFigures, mu: float, contact: float) -> float:
    """Push that the wood at a device carries in one draw [N]: under its plate, under its thread."""
    bearing = bearing_force_n(need.crushing_pa, d.width_m, d.length_m, contact)
    if d.drive != CONE:
        return bearing
    hold = (d.hold_low_n + d.hold_span_n * u.u_drive) * math.exp(d.hold_cv * u.z_strength)
    return min(
        bearing, push_from_pull_n(hold, d.cone_radius_m, d.cone_pitch_m, 0.5 * d.angle_rad, mu)
    )


@kernel
def stays_put(need: Need, d: DeviceFigures, mu: float) -> bool:
    """Whether a device holds by itself up to let-go in one draw."""
    if d.drive == CONE:
        return cone_is_self_retaining(d.cone_radius_m, d.cone_pitch_m, 0.5 * d.angle_rad, mu)
    if d.drive == RAM:
        return not slips_sideways(need.checked_let_go_rad, mu)
    return holds_at_rest(d.angle_rad, mu)


@kernel
def draw_loaded(u: Points, need: Need, d: DeviceFigures, push_n: float) -> DeviceDraw:
    """Work out one draw of a device that is asked for a push of its own [N]."""
    mu = d.friction_low + d.friction_span * u.u_friction
    drive = drive_force_n(u, d, mu)
    contact = d.contact_low + d.contact_span * u.u_contact
    bearing = wood_force_n(u, need, d, mu, contact)
    available = min(d.rated_n, drive, bearing)
    seat = contact_length_m(push_n, need.crushing_pa, d.width_m, contact)
    # Not held at the plate's length: a shorter plate would come out with more lift.
    if d.drive == RAM:
        crushed = at_balance = edge_loss_m(seat, need.checked_let_go_rad)
    else:
        crushed = crush_loss_m(seat, d.angle_rad, need.checked_let_go_rad)
        # A hinge that lets go later is not credited with the wider cut where balance is asked for.
        at_balance = crush_loss_m(seat, d.angle_rad, need.checked_balance_rad)
    usable = max(0.0, d.lift_m - d.lost_m - crushed)
    balances = d.lift_m - d.lost_m - at_balance >= need.checked_balance_lift_m
    room = room_m(need.wood_m, need.notch_m, need.hinge_m, d.gap_m, d.depth_m, d.bar_m)
    holds = stays_put(need, d, mu)
    # Written so that a NaN anywhere reads False.
    adds_up = (
        usable >= need.checked_let_go_lift_m
        and available >= push_n
        and seat <= d.length_m
        and holds
    )
    return DeviceDraw(
        usable, available, drive, bearing, room, seat / d.length_m, holds, adds_up, balances
    )


@kernel
def draw_device(u: Points, need: Need, d: DeviceFigures) -> DeviceDraw:
    """Work out one draw of a device.

    Parameters
    ----------
    u : Points
        Normals and uniforms of the draw.
    need : Need
        The same draw of the tree.
    d : DeviceFigures
        The device and its drive.

    Returns
    -------
    DeviceDraw
        ``seat_ratio`` is the contact length needed over the plate's length.
    """
    return draw_loaded(u, need, d, need.checked_push_n)


@kernel
def draw_pair(
    u: Points, need: Need, first: DeviceFigures, second: DeviceFigures, share: float
) -> DeviceDraw:
    """Work out one draw of two devices side by side.

    Parameters
    ----------
    u : Points
        Normals and uniforms of the draw.
    need : Need
        The same draw of the tree.
    first, second : DeviceFigures
        The devices and their drives.
    share : float
        Share of the sum of both pushes that is counted.

    Returns
    -------
    DeviceDraw
        Pushes as they act on the centre line: the rim is nearer to the hinge off it. Room is the
        least of both behind the hinge and of the chord across.
    """
    aside = 0.5 * (max(first.width_m, second.width_m) + first.gap_m)
    lever = max(0.1, off_centre_lever_m(need.lever_m, need.wood_m, aside) / need.lever_m)
    # Either may carry more than its half, whatever each of them could do.
    most = 0.5 * need.checked_push_n / (lever * share)
    a = draw_loaded(u, need, first, most)
    b = draw_loaded(u, need, second, most)
    available = lever * side_by_side_push_n(a.available_n, b.available_n, share)
    usable = side_by_side_lift_m(a.usable_lift_m, b.usable_lift_m)
    across = chord_room_m(
        need.wood_m,
        min(first.length_m, second.length_m),
        first.width_m,
        second.width_m,
        first.gap_m,
    )
    seat = max(a.seat_ratio, b.seat_ratio)
    holds = a.holds and b.holds
    adds_up = (
        usable >= need.checked_let_go_lift_m
        and available >= need.checked_push_n
        and seat <= 1.0
        and holds
    )
    return DeviceDraw(
        usable,
        available,
        lever * side_by_side_push_n(a.drive_n, b.drive_n, share),
        lever * side_by_side_push_n(a.bearing_n, b.bearing_n, share),
        min(a.room_m, b.room_m, across),
        seat,
        holds,
        adds_up,
        a.balances and b.balances,
    )
