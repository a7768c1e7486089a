"""The pull line and the side guy: moment from tension, tension from moment, parts and blocks."""

import math
from typing import NamedTuple

__all__ = [
    "LineMoments",
    "block_load_n",
    "line_moments_n_m",
    "needed_strength_n",
    "needed_tension_n",
    "rope_length_m",
    "wraps_ratio",
]


class LineMoments(NamedTuple):
    """Forward and sideways moment at the hinge [N.m] and the load added to it [N]."""

    forward_n_m: float
    side_n_m: float
    down_n: float


def line_moments_n_m(
    tension_n: float, fastening_m: float, run_m: float, angle_rad: float, ahead_m: float = 0.0
) -> LineMoments:
    """Moments of a taut line about the hinge.

    Parameters
    ----------
    tension_n : float
        Tension in the line [N].
    fastening_m : float
        Height of the fastening above the hinge and above the anchor [m].
    run_m : float
        Horizontal distance from tree to anchor [m].
    angle_rad : float
        Direction of the line from the lay, positive to the right [rad].
    ahead_m : float
        Horizontal distance of the fastening in front of the hinge axis [m].

    Returns
    -------
    LineMoments
        Forward ``T_h cos(b) h + T_v x``: its downward part helps once the fastening stands in front
        of the hinge. Side moment positive to the right. OWN: statics.
    """
    slant = math.hypot(run_m, fastening_m)
    level = tension_n * run_m / slant
    down = tension_n * fastening_m / slant
    return LineMoments(
        level * math.cos(angle_rad) * fastening_m + down * ahead_m,
        level * math.sin(angle_rad) * fastening_m,
        down,
    )


def needed_tension_n(
    moment_n_m: float, fastening_m: float, run_m: float, behind_m: float = 0.0
) -> float:
    """Tension of a line in the plane of a moment that supplies it.

    Parameters
    ----------
    moment_n_m : float
        Moment to supply [N.m], 0 or more.
    fastening_m : float
        Height of the fastening above the hinge [m].
    run_m : float
        Horizontal distance to the anchor [m].
    behind_m : float
        Horizontal distance of the fastening behind the hinge axis [m]; its downward part works
        against the pull.

    Returns
    -------
    float
        Tension [N]; infinite where the line cannot help at that angle. OWN: statics.
    """
    slant = math.hypot(run_m, fastening_m)
    arm = (run_m * fastening_m - fastening_m * behind_m) / slant
    if arm <= 0.0:
        return math.inf
    return moment_n_m / arm


def needed_strength_n(largest_pull_n: float) -> float:
    """Strength that every part of the line needs.

    Parameters
    ----------
    largest_pull_n : float
        Greatest pull of the puller [N].

    Returns
    -------
    float
        Twice the pull [N]. Source: [DGUV-114-018] and [SVLFG-winch]. SEEN.
    """
    return 2.0 * largest_pull_n


def rope_length_m(fastening_m: float, run_m: float, spare_m: float = 5.0) -> float:
    """Rope that a direct line takes.

    Parameters
    ----------
    fastening_m, run_m : float
        Height of the fastening and horizontal run [m].
    spare_m : float
        For knots, slings and the puller [m]. PRACTICE.

    Returns
    -------
    float
        Length [m]. OWN: geometry.
    """
    return math.hypot(fastening_m, run_m) + spare_m


def block_load_n(tension_1_n: float, tension_2_n: float, between_rad: float) -> float:
    """Load on a block from the two parts of the rope.

    Parameters
    ----------
    tension_1_n, tension_2_n : float
        Tensions [N].
    between_rad : float
        Angle between the two parts [rad]; 0 when the rope doubles back.

    Returns
    -------
    float
        ``sqrt(T1^2 + T2^2 + 2 T1 T2 cos(angle))`` [N]. OWN: statics.
    """
    return math.sqrt(
        tension_1_n**2 + tension_2_n**2 + 2.0 * tension_1_n * tension_2_n * math.cos(between_rad)
    )


def wraps_ratio(mu: float, wraps: float) -> float:
    """Ratio of tensions across a rope wound round a tree.

    Parameters
    ----------
    mu : float
        Friction of rope on bark.
    wraps : float
        Full turns.

    Returns
    -------
    float
        ``exp(2 pi mu n)``. The capstan equation, [Budynas-2015]. MEMORY for the place.
    """
    return math.exp(2.0 * math.pi * mu * wraps)
