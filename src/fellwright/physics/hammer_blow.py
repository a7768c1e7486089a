"""Hammer blows on a wedge: energy passed on, advance per blow, and where it stalls."""

import math

from fellwright.kernel import kernel

__all__ = [
    "advance_per_blow_m",
    "blow_energy_j",
    "blow_share_ratio",
    "blows_count",
    "pile_resistance_n",
    "stall_thrust_n",
]


@kernel
def blow_energy_j(hammer_kg: float, speed_m_per_s: float) -> float:
    """Energy of one blow.

    Parameters
    ----------
    hammer_kg : float
        Mass of the hammer head [kg].
    speed_m_per_s : float
        Speed at the blow [m/s].

    Returns
    -------
    float
        ``m v^2/2`` [J]. OWN.
    """
    return 0.5 * hammer_kg * speed_m_per_s * speed_m_per_s


@kernel
def blow_share_ratio(hammer_kg: float, wedge_kg: float, restitution: float) -> float:
    """Share of the blow's energy that stays in hammer and wedge after the impact.

    Parameters
    ----------
    hammer_kg, wedge_kg : float
        Masses [kg].
    restitution : float
        Coefficient of restitution, 0 to 1.

    Returns
    -------
    float
        ``(m_h + e^2 m_w)/(m_h + m_w)``, the blow efficiency of pile-driving formulas,
        [Das-2016] ch. 9. MEMORY for the place; held against a pile-set sheet in the tests.
    """
    return (hammer_kg + restitution * restitution * wedge_kg) / (hammer_kg + wedge_kg)


@kernel
def stall_thrust_n(energy_j: float, stiffness_n_per_m: float) -> float:
    """Thrust along the wedge at which a blow only springs it.

    Parameters
    ----------
    energy_j : float
        Energy of a blow that reaches the wedge [J].
    stiffness_n_per_m : float
        Axial stiffness of wedge and wood [N/m], assumed: drawn.

    Returns
    -------
    float
        ``sqrt(2 k E)`` [N]. OWN: the blow's energy all in the spring.
    """
    return math.sqrt(2.0 * stiffness_n_per_m * energy_j)


@kernel
def advance_per_blow_m(energy_j: float, thrust: float, stiffness_n_per_m: float) -> float:
    """Advance of the wedge with one blow.

    Parameters
    ----------
    energy_j : float
        Energy of a blow that reaches the wedge [J].
    thrust : float
        Thrust that resists it [N].
    stiffness_n_per_m : float
        Axial stiffness [N/m].

    Returns
    -------
    float
        ``E/P - P/(2k)`` [m], 0 where it stalls. The pile-driving balance, [Das-2016] ch. 9. MEMORY.
    """
    return max(0.0, energy_j / thrust - thrust / (2.0 * stiffness_n_per_m))


def pile_resistance_n(energy_j: float, set_m: float, elastic_m: float) -> float:
    """Resistance of a driven pile from its set, the same balance solved for the force.

    Parameters
    ----------
    energy_j : float
        Energy of a blow that reaches the pile [J].
    set_m : float
        Permanent set per blow [m].
    elastic_m : float
        Elastic compression [m].

    Returns
    -------
    float
        ``E/(s + c/2)`` [N]. Source: [Das-2016] ch. 9. MEMORY; check value SEEN.
    """
    return energy_j / (set_m + 0.5 * elastic_m)


def blows_count(
    lift_m: float,
    push_n: float,
    total_angle_rad: float,
    mu: float,
    energy_j: float,
    stiffness_n_per_m: float,
) -> float:
    """Blows that drive a wedge through a lift at a constant push.

    Parameters
    ----------
    lift_m : float
        Lift [m].
    push_n : float
        Push on the wedge, across it [N].
    total_angle_rad : float
        Angle between its faces [rad].
    mu : float
        Friction on both faces.
    energy_j : float
        Energy of a blow that reaches the wedge [J].
    stiffness_n_per_m : float
        Axial stiffness [N/m].

    Returns
    -------
    float
        Number of blows; infinite where it stalls. OWN.
    """
    half = 0.5 * total_angle_rad
    thrust = 2.0 * push_n * math.tan(math.atan(mu) + half)
    advance = advance_per_blow_m(energy_j, thrust, stiffness_n_per_m)
    if advance <= 0.0:
        return math.inf
    return lift_m / (2.0 * math.tan(half)) / advance
