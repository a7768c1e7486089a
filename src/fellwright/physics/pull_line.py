"""The pull line and the side guy: moment from tension, tension from moment, parts and blocks."""

import math
from typing import NamedTuple

__all__ = [
    "LineMoments",
    "block_load_n",
    "doubled_anchor_load_n",
    "doubled_pull_n",
    "is_in_inner_angle",
    "line_moments_n_m",
    "needed_strength_n",
    "needed_tension_n",
    "redirected_block_load_n",
    "redirected_pull_n",
    "rope_length_m",
    "wraps_ratio",
]

SHEAVE_EFFICIENCY = 0.92
"""MEMORY: 0.92 to 0.96 a sheave; the unfavourable bound."""


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


def redirected_pull_n(line_n: float, sheave: float = SHEAVE_EFFICIENCY) -> float:
    """Pull of the puller behind a redirect block.

    Parameters
    ----------
    line_n : float
        Tension wanted in the part that goes to the tree [N].
    sheave : float
        Efficiency of the sheave.

    Returns
    -------
    float
        ``T/eta`` [N]: a block turns a rope and costs pull. OWN: statics; efficiency MEMORY.
    """
    return line_n / sheave


def redirected_block_load_n(
    line_n: float, inner_rad: float, sheave: float = SHEAVE_EFFICIENCY
) -> float:
    """Load on a redirect block, its sling and its tree.

    Parameters
    ----------
    line_n : float
        Tension in the part that goes to the tree that is felled [N].
    inner_rad : float
        Inner angle between the two parts of the rope [rad]; 0 where it doubles back.
    sheave : float
        Efficiency of the sheave.

    Returns
    -------
    float
        Load [N]: the part to the puller pulls harder. Up to twice the line and more, so block,
        sling and tree are chosen for it and not for the line. OWN: :func:`block_load_n`.
    """
    return block_load_n(line_n, redirected_pull_n(line_n, sheave), inner_rad)


def doubled_pull_n(puller_n: float, sheave: float = SHEAVE_EFFICIENCY) -> float:
    """Pull on the tree of a line doubled through a block at the tree.

    Parameters
    ----------
    puller_n : float
        Pull of the puller [N].
    sheave : float
        Efficiency of the sheave.

    Returns
    -------
    float
        ``T (1 + eta)`` [N], both parts side by side. OWN: statics; efficiency MEMORY.
    """
    return puller_n * (1.0 + sheave)


def doubled_anchor_load_n(puller_n: float) -> float:
    """Load that the block of a doubled line is chosen for.

    Parameters
    ----------
    puller_n : float
        Pull of the puller [N].

    Returns
    -------
    float
        ``2 T`` [N]: friction of the sheave is not credited. OWN: statics.
    """
    return block_load_n(puller_n, puller_n, 0.0)


def is_in_inner_angle(
    x_m: float, y_m: float, first_rad: float, second_rad: float, reach_m: float
) -> bool:
    """Whether a place lies in the inner angle of a redirected rope, where nobody stands.

    Parameters
    ----------
    x_m, y_m : float
        Place, counted from the block [m].
    first_rad, second_rad : float
        Directions of the two parts of the rope from the block [rad], counterclockwise from x.
    reach_m : float
        Length of the longer part [m].

    Returns
    -------
    bool
        True within reach and between the two parts, on either of them too. A block that breaks
        loose or a rope that parts flies into it, [DGUV-114-018].
    """
    if math.hypot(x_m, y_m) > reach_m:
        return False

    def turn(angle: float) -> float:
        return math.remainder(angle, 2.0 * math.pi)

    between = turn(second_rad - first_rad)
    at = turn(math.atan2(y_m, x_m) - first_rad)
    return min(0.0, between) <= at <= max(0.0, between)
