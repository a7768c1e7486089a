"""The power screw of a screw-driven or nut-driven wedge: torque, lift, turns and energy."""

import math

from fellwright.kernel import kernel

__all__ = [
    "collar_torque_n_m",
    "drive_energy_j",
    "is_self_locking",
    "lift_from_efficiency_n",
    "lift_from_torque_n",
    "lowering_torque_n_m",
    "raising_torque_n_m",
    "screw_efficiency_ratio",
    "torque_from_efficiency_n_m",
    "turns_count",
]


@kernel
def raising_torque_n_m(
    axial_n: float, mean_diameter_m: float, lead_m: float, mu: float, flank_rad: float
) -> float:
    """Thread torque that moves an axial load against it.

    Parameters
    ----------
    axial_n : float
        Axial load [N].
    mean_diameter_m, lead_m : float
        Mean thread diameter and lead [m].
    mu : float
        Thread friction.
    flank_rad : float
        Half flank angle [rad]; 0 for a square thread.

    Returns
    -------
    float
        ``F d/2 (l + pi mu d s)/(pi d - mu l s)``, ``s = 1/cos(flank)`` [N.m].
        Source: [Budynas-2015] eq. 8-1 and 8-5. MEMORY; worked examples SEEN.
    """
    secant = 1.0 / math.cos(flank_rad)
    return (
        axial_n
        * mean_diameter_m
        / 2.0
        * (lead_m + math.pi * mu * mean_diameter_m * secant)
        / (math.pi * mean_diameter_m - mu * lead_m * secant)
    )


@kernel
def lowering_torque_n_m(
    axial_n: float, mean_diameter_m: float, lead_m: float, mu: float, flank_rad: float
) -> float:
    """Thread torque that moves an axial load with it; negative where the thread runs back.

    Parameters
    ----------
    axial_n : float
        Axial load [N].
    mean_diameter_m, lead_m : float
        Mean thread diameter and lead [m].
    mu : float
        Thread friction.
    flank_rad : float
        Half flank angle [rad].

    Returns
    -------
    float
        Torque [N.m]. Source: [Budynas-2015] eq. 8-2. MEMORY; worked examples SEEN.
    """
    secant = 1.0 / math.cos(flank_rad)
    return (
        axial_n
        * mean_diameter_m
        / 2.0
        * (math.pi * mu * mean_diameter_m * secant - lead_m)
        / (math.pi * mean_diameter_m + mu * lead_m * secant)
    )


@kernel
def collar_torque_n_m(axial_n: float, collar_diameter_m: float, mu: float) -> float:
    """Friction torque of the collar.

    Parameters
    ----------
    axial_n : float
        Axial load [N].
    collar_diameter_m : float
        Mean collar diameter [m]; 0 for none.
    mu : float
        Collar friction.

    Returns
    -------
    float
        ``F mu d/2`` [N.m]. Source: [Budynas-2015] eq. 8-6. MEMORY; worked examples SEEN.
    """
    return axial_n * mu * collar_diameter_m / 2.0


@kernel
def is_self_locking(mean_diameter_m: float, lead_m: float, mu: float, flank_rad: float) -> bool:
    """Whether a thread holds its load with no torque on it.

    Parameters
    ----------
    mean_diameter_m, lead_m : float
        Mean thread diameter and lead [m].
    mu : float
        Thread friction.
    flank_rad : float
        Half flank angle [rad].

    Returns
    -------
    bool
        True if ``pi mu d s >= l``. Source: [Budynas-2015] eq. 8-3. MEMORY.
    """
    return math.pi * mu * mean_diameter_m / math.cos(flank_rad) >= lead_m


@kernel
def screw_efficiency_ratio(axial_n: float, lead_m: float, torque_n_m: float) -> float:
    """Work on the axial load over work of the torque, per turn.

    Parameters
    ----------
    axial_n : float
        Axial load [N].
    lead_m : float
        Lead [m].
    torque_n_m : float
        Whole torque [N.m].

    Returns
    -------
    float
        ``F l/(2 pi T)``. Source: [Budynas-2015] eq. 8-4. MEMORY; worked examples SEEN.
    """
    return axial_n * lead_m / (2.0 * math.pi * torque_n_m)


@kernel
def lift_from_torque_n(
    torque_n_m: float,
    mean_diameter_m: float,
    lead_m: float,
    collar_diameter_m: float,
    face_tangent: float,
    mu: float,
) -> float:
    """Lift of a screw-driven wedge from the torque on its spindle.

    Parameters
    ----------
    torque_n_m : float
        Torque on the spindle [N.m].
    mean_diameter_m, lead_m : float
        Mean thread diameter and lead [m].
    collar_diameter_m : float
        Mean collar diameter [m]; 0 for none.
    face_tangent : float
        Lift per advance of the wedge body: the sum of the tangents of its two faces.
    mu : float
        Friction on thread, collar and both faces alike.

    Returns
    -------
    float
        Lift [N]: thread and collar give an axial force, two equal sliding faces turn it into lift.
        Friction enters twice. OWN: [Budynas-2015] chained with the free body of the wedge.
    """
    per_newton = raising_torque_n_m(
        1.0, mean_diameter_m, lead_m, mu, math.radians(15.0)
    ) + collar_torque_n_m(1.0, collar_diameter_m, mu)
    half = math.atan(0.5 * face_tangent)
    return torque_n_m / per_newton / (2.0 * math.tan(math.atan(mu) + half))


@kernel
def lift_from_efficiency_n(torque_n_m: float, efficiency: float, lift_per_turn_m: float) -> float:
    """Lift from torque and overall efficiency.

    Parameters
    ----------
    torque_n_m : float
        Torque on the spindle [N.m].
    efficiency : float
        Work on the lift over work of the torque.
    lift_per_turn_m : float
        Lift per turn [m].

    Returns
    -------
    float
        ``2 pi T eta/s`` [N]. OWN: energy balance.
    """
    return 2.0 * math.pi * torque_n_m * efficiency / lift_per_turn_m


@kernel
def torque_from_efficiency_n_m(push_n: float, efficiency: float, lift_per_turn_m: float) -> float:
    """Torque that a push asks for.

    Parameters
    ----------
    push_n : float
        Push [N].
    efficiency : float
        Work on the lift over work of the torque.
    lift_per_turn_m : float
        Lift per turn [m].

    Returns
    -------
    float
        Torque [N.m]. OWN: inverse of :func:`lift_from_efficiency_n`.
    """
    return push_n * lift_per_turn_m / (2.0 * math.pi * efficiency)


@kernel
def turns_count(lift_m: float, lift_per_turn_m: float) -> float:
    """Turns of the spindle for a lift.

    Parameters
    ----------
    lift_m, lift_per_turn_m : float
        Lift and lift per turn [m].

    Returns
    -------
    float
        Turns. OWN.
    """
    return lift_m / lift_per_turn_m


@kernel
def drive_energy_j(work_j: float, efficiency: float, battery_share: float) -> float:
    """Energy out of the battery for work on the tree.

    Parameters
    ----------
    work_j : float
        Work on the tree [J].
    efficiency : float
        Overall efficiency from torque to lift.
    battery_share : float
        Share of the battery's energy that reaches the spindle.

    Returns
    -------
    float
        Energy [J]. OWN.
    """
    return work_j / (efficiency * battery_share)
