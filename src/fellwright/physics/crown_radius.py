"""Radius of a crown from its reach in several directions."""

import math
from collections.abc import Sequence
from typing import NamedTuple

__all__ = ["CrownRadius", "mean_crown_radius"]


class CrownRadius(NamedTuple):
    """Mean radius and its sigma [m]."""

    radius_m: float
    sigma_m: float


def mean_crown_radius(
    reaches_m: Sequence[float], length_error_share: float, least_scatter_share: float
) -> CrownRadius:
    """Mean radius of a crown, and how far it may be off.

    Parameters
    ----------
    reaches_m : sequence of float
        From the stem to under the edge, one a direction [m]; at least two.
    length_error_share : float
        Error of the pace or tape, the same in every direction, as a share.
    least_scatter_share : float
        Scatter of the reach from one direction to the next that is taken at least, as a share of
        the mean: two that happen to be equal do not make a round crown.

    Returns
    -------
    CrownRadius
        Arithmetic mean; the standard error of the mean and the error of the length together.

    Raises
    ------
    ValueError
        If there are fewer than two directions.

    Notes
    -----
    PRACTICE: the mean of several directions. OWN: the error.
    """
    count = len(reaches_m)
    if count < 2:
        raise ValueError(f"reaches_m must hold at least two directions, got {count}")
    mean = math.fsum(reaches_m) / count
    square = math.fsum((reach - mean) ** 2 for reach in reaches_m) / (count - 1)
    scatter = max(math.sqrt(square), least_scatter_share * mean)
    return CrownRadius(mean, math.hypot(scatter / math.sqrt(count), length_error_share * mean))
