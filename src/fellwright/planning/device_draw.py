"""What one draw of a device gives on one draw of a tree: usable lift, available push, its limits.

A kernel: plain floats in NamedTuples, so that the compiled twin runs the same lines.
"""

import math
from typing import NamedTuple

from fellwright.kernel import kernel
from fellwright.physics.hammer_blow import blow_energy_j, blow_share_ratio, stall_thrust_n
from fellwright.physics.power_screw import lift_from_efficiency_n, lift_from_torque_n
from fellwright.physics.seat import bearing_force_n, contact_length_m, crush_loss_m, room_m
from fellwright.physics.wedge_face import holds_at_rest, lift_from_thrust_n
from fellwright.planning.chance import Points
from fellwright.planning.need import Need

__all__ = ["BLOWS", "SCREW", "DeviceDraw", "DeviceFigures", "draw_device"]

SCREW = 0.0
BLOWS = 1.0


class DeviceFigures(NamedTuple):
    """One device with its drive, SI units; bands as low and span."""

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


class DeviceDraw(NamedTuple):
    """Usable lift [m], available push [N], drive and bearing limits [N], room [m], hold, all.

    ``adds_up`` takes lift, push, seat, hold and drive together; room is judged at the median.
    """

    usable_lift_m: float
    available_n: float
    drive_n: float
    bearing_n: float
    room_m: float
    seat_ratio: float
    holds: bool
    adds_up: bool


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
    mu = d.friction_low + d.friction_span * u.u_friction
    if d.drive == SCREW:
        torque = min(d.torque_limit_n_m, d.torque_n_m * (d.wrench_low + d.wrench_span * u.u_wrench))
        # A good draw of the drive is a low friction: both bands are read from their good end.
        if d.thread_m > 0.0:
            thread_mu = d.thread_mu_low + d.thread_mu_span * (1.0 - u.u_drive)
            drive = lift_from_torque_n(
                torque, d.thread_m, d.lead_m, d.collar_m, d.lift_per_turn_m / d.lead_m, thread_mu
            )
        else:
            efficiency = d.efficiency_low + d.efficiency_span * u.u_drive
            drive = lift_from_efficiency_n(torque, efficiency, d.lift_per_turn_m)
    else:
        energy = blow_energy_j(d.hammer_kg, d.blow_low + d.blow_span * u.u_blow) * blow_share_ratio(
            d.hammer_kg, d.wedge_kg, d.restitution
        )
        stiffness = math.exp(d.stiffness_low_log + d.stiffness_span_log * u.u_stiffness)
        half = 0.5 * d.angle_rad
        drive = lift_from_thrust_n(stall_thrust_n(energy, stiffness), half, half, mu, mu)

    contact = d.contact_low + d.contact_span * u.u_contact
    bearing = bearing_force_n(need.crushing_pa, d.width_m, d.length_m, contact)
    available = min(d.rated_n, drive, bearing)
    seat = contact_length_m(need.checked_push_n, need.crushing_pa, d.width_m, contact)
    crushed = crush_loss_m(min(seat, d.length_m), d.angle_rad, need.checked_let_go_rad)
    usable = max(0.0, d.lift_m - d.lost_m - crushed)
    room = room_m(need.wood_m, need.notch_m, need.hinge_m, d.gap_m, d.depth_m, d.bar_m)
    holds = holds_at_rest(d.angle_rad, mu)
    # Written so that a NaN anywhere reads False.
    adds_up = (
        usable >= need.checked_let_go_lift_m
        and available >= need.checked_push_n
        and seat <= d.length_m
        and holds
    )
    return DeviceDraw(usable, available, drive, bearing, room, seat / d.length_m, holds, adds_up)
