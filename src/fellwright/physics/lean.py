"""Lean: readings as vectors, combined by their errors, and turned into the frame of the lay."""

import math
from collections.abc import Sequence
from typing import NamedTuple

__all__ = [
    "CombinedLean",
    "LeanVector",
    "back_and_side_m",
    "balance_offset_from_top_m",
    "combine_readings",
    "lean_angle_rad",
]


class LeanVector(NamedTuple):
    """One reading: where the balance point stands over the ground, seen from the pith.

    East and north [m] and one sigma [m], the same in every direction.
    """

    east_m: float
    north_m: float
    sigma_m: float


class CombinedLean(NamedTuple):
    """Several readings in one: the weighted mean, its sigma, and chi-square per degree."""

    east_m: float
    north_m: float
    sigma_m: float
    chi_square_ratio: float


def combine_readings(readings: Sequence[LeanVector]) -> CombinedLean:
    """Combine lean readings by the inverse of their variances.

    Parameters
    ----------
    readings : sequence of LeanVector
        At least one; every sigma above 0.

    Returns
    -------
    CombinedLean
        Mean, sigma and chi-square per degree of freedom (0 for a single reading). Where the
        readings scatter more than their errors allow (chi-square ratio above 1) sigma grows by its
        root, so that a second reading which disagrees never narrows the answer for nothing.

    Raises
    ------
    ValueError
        If there is no reading.

    Notes
    -----
    Weighted mean and scale factor as in [PDG-2022] section 5.2.2. MEMORY for the place.
    """
    if not readings:
        raise ValueError("readings must hold at least one lean reading, got none")
    weight = sum(1.0 / r.sigma_m**2 for r in readings)
    east = sum(r.east_m / r.sigma_m**2 for r in readings) / weight
    north = sum(r.north_m / r.sigma_m**2 for r in readings) / weight
    degrees = 2 * (len(readings) - 1)
    ratio = 0.0
    if degrees:
        ratio = (
            sum(
                ((r.east_m - east) ** 2 + (r.north_m - north) ** 2) / r.sigma_m**2 for r in readings
            )
            / degrees
        )
    return CombinedLean(east, north, math.sqrt(max(1.0, ratio) / weight), ratio)


def back_and_side_m(east_m: float, north_m: float, lay_rad: float) -> tuple[float, float]:
    """Turn an offset over the ground into back and side offset for a lay.

    Parameters
    ----------
    east_m, north_m : float
        Offset of the balance point from the pith [m].
    lay_rad : float
        Lay, clockwise from true north [rad].

    Returns
    -------
    tuple of float
        Back offset [m], positive behind the pith as seen from the lay; side offset [m], positive to
        the right of the lay. OWN: rotation.
    """
    ahead = east_m * math.sin(lay_rad) + north_m * math.cos(lay_rad)
    right = east_m * math.cos(lay_rad) - north_m * math.sin(lay_rad)
    return -ahead, right


def balance_offset_from_top_m(
    top_offset_m: float, stem_share: float, crown_ratio: float, crown_share: float
) -> float:
    """Offset of the balance point from an offset sighted at the top of a straight leaning stem.

    Parameters
    ----------
    top_offset_m : float
        Offset at the top [m].
    stem_share : float
        Height of the stem's centroid over tree height.
    crown_ratio : float
        Height of the crown's centre over tree height.
    crown_share : float
        Crown mass over tree mass.

    Returns
    -------
    float
        Offset of the balance point [m], before any shift of the crown itself. OWN: each part leans
        in proportion to its height.
    """
    return top_offset_m * ((1.0 - crown_share) * stem_share + crown_share * crown_ratio)


def lean_angle_rad(offset_m: float, height_m: float) -> float:
    """Angle from the vertical of the line from the pith at the cut to the balance point.

    Parameters
    ----------
    offset_m : float
        Horizontal offset [m], any sign.
    height_m : float
        Height of the balance point above the cut [m].

    Returns
    -------
    float
        Angle [rad], 0 or more. OWN.
    """
    return math.atan2(abs(offset_m), height_m)
