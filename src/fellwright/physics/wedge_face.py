"""Wedge faces: thrust, hold and efficiency of a wedge between two surfaces with friction."""

import math

from fellwright.kernel import kernel

__all__ = [
    "holds_at_rest",
    "largest_holding_angle_rad",
    "lift_from_thrust_n",
    "pull_out_n",
    "thrust_n",
    "wedge_efficiency_ratio",
]


@kernel
def thrust_n(lift_n: float, angle_1: float, angle_2: float, mu_1: float, mu_2: float) -> float:
    """Force along the wedge that drives it in against a load across it.

    Parameters
    ----------
    lift_n : float
        Load across the wedge [N].
    angle_1, angle_2 : float
        Angles of its two faces to the direction of driving [rad].
    mu_1, mu_2 : float
        Friction on the faces.

    Returns
    -------
    float
        ``F (tan(phi1 + a1) + tan(phi2 + a2))`` [N]. OWN: free body.
    """
    return lift_n * (math.tan(math.atan(mu_1) + angle_1) + math.tan(math.atan(mu_2) + angle_2))


@kernel
def pull_out_n(lift_n: float, angle_1: float, angle_2: float, mu_1: float, mu_2: float) -> float:
    """Force along the wedge that pulls it out; negative where it flies out by itself.

    Parameters
    ----------
    lift_n : float
        Load across the wedge [N].
    angle_1, angle_2 : float
        Angles of its faces [rad].
    mu_1, mu_2 : float
        Friction on the faces.

    Returns
    -------
    float
        ``F (tan(phi1 - a1) + tan(phi2 - a2))`` [N]. OWN: free body.
    """
    return lift_n * (math.tan(math.atan(mu_1) - angle_1) + math.tan(math.atan(mu_2) - angle_2))


@kernel
def lift_from_thrust_n(
    thrust: float, angle_1: float, angle_2: float, mu_1: float, mu_2: float
) -> float:
    """Load across a wedge that a force along it can move.

    Parameters
    ----------
    thrust : float
        Force along the wedge [N].
    angle_1, angle_2 : float
        Angles of its faces [rad].
    mu_1, mu_2 : float
        Friction on the faces.

    Returns
    -------
    float
        Load [N]. OWN: inverse of :func:`thrust_n`.
    """
    return thrust / (math.tan(math.atan(mu_1) + angle_1) + math.tan(math.atan(mu_2) + angle_2))


@kernel
def largest_holding_angle_rad(mu: float) -> float:
    """Largest angle between the faces at which a wedge holds at rest.

    Parameters
    ----------
    mu : float
        Friction on both faces.

    Returns
    -------
    float
        ``2 atan(mu)`` [rad]. OWN: free body.
    """
    return 2.0 * math.atan(mu)


@kernel
def holds_at_rest(angle_rad: float, mu: float) -> bool:
    """Whether friction holds a wedge that is left alone.

    Parameters
    ----------
    angle_rad : float
        Angle between the faces [rad].
    mu : float
        Friction on both faces.

    Returns
    -------
    bool
        True if the angle is at most twice the friction angle. OWN.
    """
    return angle_rad <= largest_holding_angle_rad(mu)


@kernel
def wedge_efficiency_ratio(angle_1: float, angle_2: float, mu_1: float, mu_2: float) -> float:
    """Work on the load over work along the wedge.

    Parameters
    ----------
    angle_1, angle_2 : float
        Angles of the faces [rad].
    mu_1, mu_2 : float
        Friction on the faces.

    Returns
    -------
    float
        Efficiency, 0 to 1. OWN: energy balance of :func:`thrust_n`.
    """
    return (math.tan(angle_1) + math.tan(angle_2)) / thrust_n(1.0, angle_1, angle_2, mu_1, mu_2)
