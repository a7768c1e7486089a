"""The self-feeding threaded cone: torque, push, what the wood under its thread holds, lift.

A cone screws itself into the back cut. It presses on the roof and the floor of the cut with the
same push; friction on both asks for torque and for pull along its axis, and the pull hangs on the
two arcs of thread that have bitten into the wood.
"""

import math

from fellwright.kernel import kernel
from fellwright.physics.grain_angle import hankinson_pa

__all__ = [
    "cone_efficiency_ratio",
    "cone_is_self_retaining",
    "cone_lift_m",
    "cone_torque_n_m",
    "flank_bearing_n",
    "flank_strength_pa",
    "groove_arc_m",
    "groove_width_m",
    "lift_per_turn_m",
    "pull_needed_n",
    "push_from_pull_n",
    "push_from_torque_n",
    "rib_shear_n",
    "thread_hold_n",
]


@kernel
def cone_lift_m(radius_gained_m: float) -> float:
    """Lift of a cone from the radius it has gained in the cut.

    Parameters
    ----------
    radius_gained_m : float
        Radius at the rim now less radius there at first contact [m].

    Returns
    -------
    float
        Twice that [m]: roof and floor part by the gain of the diameter. OWN: geometry.
    """
    return 2.0 * radius_gained_m


@kernel
def lift_per_turn_m(pitch_m: float, half_angle_rad: float) -> float:
    """Lift of a cone a turn.

    Parameters
    ----------
    pitch_m : float
        Pitch [m], its advance a turn.
    half_angle_rad : float
        Half angle of the cone [rad].

    Returns
    -------
    float
        ``2 p tan b`` [m]. OWN: geometry.
    """
    return cone_lift_m(pitch_m * math.tan(half_angle_rad))


@kernel
def _friction_arm_m(radius_m: float, half_angle_rad: float, mu: float) -> float:
    """Torque of friction on both faces over the push.

    Parameters
    ----------
    radius_m : float
        Mean radius of the part that bears [m].
    half_angle_rad : float
        Half angle of the cone [rad].
    mu : float
        Friction of cone on wood.

    Returns
    -------
    float
        ``2 mu r/cos b`` [m]. OWN: free body; docs/derivations/threaded_cone.md.
    """
    return 2.0 * mu * radius_m / math.cos(half_angle_rad)


@kernel
def _lift_arm_m(pitch_m: float, half_angle_rad: float) -> float:
    """Torque that does the lifting over the push.

    Parameters
    ----------
    pitch_m : float
        Pitch [m].
    half_angle_rad : float
        Half angle of the cone [rad].

    Returns
    -------
    float
        Lift of a turn over 2 pi, ``p tan b/pi`` [m]. OWN: work of one turn.
    """
    return lift_per_turn_m(pitch_m, half_angle_rad) / (2.0 * math.pi)


@kernel
def cone_torque_n_m(
    push_n: float, radius_m: float, pitch_m: float, half_angle_rad: float, mu: float
) -> float:
    """Torque that drives a cone against a push.

    Parameters
    ----------
    push_n : float
        Push on the roof and, the same, on the floor of the cut [N].
    radius_m : float
        Mean radius of the part that bears [m].
    pitch_m : float
        Pitch of its thread [m].
    half_angle_rad : float
        Half angle of the cone [rad].
    mu : float
        Friction of cone on wood.

    Returns
    -------
    float
        ``2 mu F r/cos b + F p tan b/pi`` [N.m]: friction on two faces and a lift of ``2 p tan b`` a
        turn. OWN: work of one turn; docs/derivations/threaded_cone.md.
    """
    friction_m = _friction_arm_m(radius_m, half_angle_rad, mu)
    return push_n * (friction_m + _lift_arm_m(pitch_m, half_angle_rad))


@kernel
def push_from_torque_n(
    torque_n_m: float, radius_m: float, pitch_m: float, half_angle_rad: float, mu: float
) -> float:
    """Push of a cone from the torque on it.

    Parameters
    ----------
    torque_n_m : float
        Torque [N.m].
    radius_m, pitch_m : float
        Mean radius and pitch [m].
    half_angle_rad : float
        Half angle of the cone [rad].
    mu : float
        Friction of cone on wood.

    Returns
    -------
    float
        Push [N]. OWN: inverse of :func:`cone_torque_n_m`.
    """
    return torque_n_m / cone_torque_n_m(1.0, radius_m, pitch_m, half_angle_rad, mu)


@kernel
def cone_efficiency_ratio(
    radius_m: float, pitch_m: float, half_angle_rad: float, mu: float
) -> float:
    """Work on the tree over work of the torque.

    Parameters
    ----------
    radius_m, pitch_m : float
        Mean radius and pitch [m].
    half_angle_rad : float
        Half angle of the cone [rad].
    mu : float
        Friction of cone on wood.

    Returns
    -------
    float
        Efficiency, a few hundredths. OWN: energy balance; that it is low and the cone holds itself
        is also found by [Knobloch-2023].
    """
    useful_m = _lift_arm_m(pitch_m, half_angle_rad)
    return useful_m / cone_torque_n_m(1.0, radius_m, pitch_m, half_angle_rad, mu)


@kernel
def pull_needed_n(
    push_n: float, radius_m: float, pitch_m: float, half_angle_rad: float, mu: float
) -> float:
    """Pull along the axis that the thread must supply for the cone to go on feeding itself.

    Parameters
    ----------
    push_n : float
        Push on roof and floor, each [N].
    radius_m, pitch_m : float
        Mean radius and pitch [m].
    half_angle_rad : float
        Half angle of the cone [rad].
    mu : float
        Friction of cone on wood.

    Returns
    -------
    float
        ``2 F (tan b + mu sin(lead)/cos b)`` [N], lead angle ``atan(p/(2 pi r))``. OWN: free body;
        nearly all friction runs round the cone, little of it along.
    """
    lead = math.atan(pitch_m / (2.0 * math.pi * radius_m))
    along = math.tan(half_angle_rad) + mu * math.sin(lead) / math.cos(half_angle_rad)
    return 2.0 * push_n * along


@kernel
def push_from_pull_n(
    pull_n: float, radius_m: float, pitch_m: float, half_angle_rad: float, mu: float
) -> float:
    """Push at which the pull on the thread reaches what the wood holds.

    Parameters
    ----------
    pull_n : float
        What the wood under the thread holds [N], see :func:`thread_hold_n`.
    radius_m, pitch_m : float
        Mean radius and pitch [m].
    half_angle_rad : float
        Half angle of the cone [rad].
    mu : float
        Friction of cone on wood.

    Returns
    -------
    float
        Push [N]. OWN: inverse of :func:`pull_needed_n`.
    """
    return pull_n / pull_needed_n(1.0, radius_m, pitch_m, half_angle_rad, mu)


@kernel
def cone_is_self_retaining(
    radius_m: float, pitch_m: float, half_angle_rad: float, mu: float
) -> bool:
    """Whether a cone left alone stays where it is.

    Parameters
    ----------
    radius_m, pitch_m : float
        Mean radius and pitch [m].
    half_angle_rad : float
        Half angle of the cone [rad].
    mu : float
        Friction of cone on wood.

    Returns
    -------
    bool
        True if friction on two faces outweighs the lift, ``2 mu r/cos b >= p tan b/pi``: it would
        have to turn back to come out. Only while the thread still holds. OWN; also [Knobloch-2023].
    """
    return _friction_arm_m(radius_m, half_angle_rad, mu) >= _lift_arm_m(pitch_m, half_angle_rad)


@kernel
def groove_arc_m(radius_m: float, depth_m: float) -> float:
    """Mean length of the arc that a thread has cut into one face.

    Parameters
    ----------
    radius_m : float
        Outer radius of the thread [m].
    depth_m : float
        Depth of the thread in the wood [m], 0 to the radius.

    Returns
    -------
    float
        Area of the circle's segment over its depth [m]: a flat face cuts a segment off the round
        thread. OWN: geometry.
    """
    if depth_m <= 0.0:
        return 0.0
    half = math.acos(1.0 - depth_m / radius_m)
    area = radius_m * radius_m * (half - math.sin(half) * math.cos(half))
    return area / depth_m


@kernel
def groove_width_m(radius_m: float, depth_m: float) -> float:
    """Width over which a cone sunk to the depth of its thread bears on one face.

    Parameters
    ----------
    radius_m : float
        Outer radius of the thread [m].
    depth_m : float
        Depth of the thread in the wood [m], 0 to the radius.

    Returns
    -------
    float
        Chord ``2 sqrt(d (2 r - d))`` [m]. OWN: geometry.
    """
    return 2.0 * math.sqrt(depth_m * (2.0 * radius_m - depth_m))


@kernel
def flank_strength_pa(along_pa: float, across_pa: float, flank_rad: float) -> float:
    """Bearing strength of the wood in front of a thread flank.

    Parameters
    ----------
    along_pa, across_pa : float
        Crushing strength along and across the grain [Pa].
    flank_rad : float
        Half flank angle of the thread [rad]; 0 for a square one, which presses square across.

    Returns
    -------
    float
        Strength [Pa]. Source: [Hankinson-1921] at a quarter turn less the flank angle; the axis of
        the cone lies across the grain. OWN.
    """
    return hankinson_pa(along_pa, across_pa, 0.5 * math.pi - flank_rad)


@kernel
def rib_shear_n(
    shear_pa: float, pitch_m: float, arc_m: float, turns: float, share: float = 0.5
) -> float:
    """Pull at which the ribs of wood between the turns shear off, roof and floor together.

    Parameters
    ----------
    shear_pa : float
        Shear strength along the grain [Pa].
    pitch_m : float
        Pitch [m].
    arc_m : float
        Length of thread in the wood on one face and turn [m].
    turns : float
        Engaged turns that cut fresh wood.
    share : float
        Share of the pitch that is wood at the root of the rib. OWN.

    Returns
    -------
    float
        ``tau share p arc n 2`` [N]. OWN: two arcs a turn.
    """
    return shear_pa * share * pitch_m * arc_m * turns * 2.0


@kernel
def flank_bearing_n(flank_pa: float, depth_m: float, arc_m: float, turns: float) -> float:
    """Pull at which the flanks crush the wood in front of them, roof and floor together.

    Parameters
    ----------
    flank_pa : float
        Bearing strength of that wood [Pa], see :func:`flank_strength_pa`.
    depth_m : float
        Depth of the thread in the wood [m].
    arc_m : float
        Length of thread in the wood on one face and turn [m].
    turns : float
        Engaged turns that cut fresh wood.

    Returns
    -------
    float
        ``f depth arc n 2`` [N]. OWN: two arcs a turn. It rules in soft wood, not the ribs' shear.
    """
    return flank_pa * depth_m * arc_m * turns * 2.0


@kernel
def thread_hold_n(rib_n: float, flank_n: float) -> float:
    """Pull along the axis that the wood under the thread holds.

    Parameters
    ----------
    rib_n : float
        Pull at which the ribs shear [N].
    flank_n : float
        Pull at which the flanks crush the wood [N].

    Returns
    -------
    float
        The lesser [N]. A hole used before has no fresh turn: both are 0, and so is the push. OWN.
    """
    return min(rib_n, flank_n)
