"""Zero and error of a clinometer, from readings of one edge with the instrument turned round."""

import math
from collections.abc import Sequence
from typing import NamedTuple

__all__ = ["ClinometerCheck", "check_clinometer"]

LEAST_READINGS = 3


class ClinometerCheck(NamedTuple):
    """What two sets of readings tell, in the unit of the readings.

    ``zero`` is what the instrument reads on a level edge, ``edge`` the slope of the edge as first
    read, ``scatter`` of readings among themselves, ``sigma`` of one later reading less the zero.
    """

    zero: float
    edge: float
    scatter: float
    sigma: float


def check_clinometer(first: Sequence[float], turned: Sequence[float]) -> ClinometerCheck:
    """Find zero and error of a clinometer on an edge whose slope nobody knows.

    Parameters
    ----------
    first : sequence of float
        Readings of the edge [rad or deg, the same throughout]; at least three.
    turned : sequence of float
        Readings of the same edge, the instrument turned end for end; at least three.

    Returns
    -------
    ClinometerCheck
        Zero ``(a + b)/2`` and slope ``(a - b)/2`` of the means; scatter pooled over both sets;
        sigma of one later reading, that of the zero and the small number of readings included.

    Raises
    ------
    ValueError
        If either set holds fewer than three readings.

    Notes
    -----
    The reversal: turned end for end, the edge changes its sign and the zero does not. Example in
    [Level-Calibration]. Sigma is ``s sqrt(1 + (1/n + 1/m)/4) sqrt(v/(v - 2))`` with
    ``v = n + m - 2``: the standard deviation of Student's t for one more reading. OWN:
    docs/derivations/sights.md.
    """
    n, m = len(first), len(turned)
    if min(n, m) < LEAST_READINGS:
        raise ValueError(f"first and turned must hold {LEAST_READINGS} readings, got {n} and {m}")
    a, b = math.fsum(first) / n, math.fsum(turned) / m
    squares = [(x - a) ** 2 for x in first] + [(x - b) ** 2 for x in turned]
    freedom = n + m - 2
    scatter = math.sqrt(math.fsum(squares) / freedom)
    once_more = math.sqrt(1.0 + 0.25 * (1.0 / n + 1.0 / m))
    sigma = scatter * once_more * math.sqrt(freedom / (freedom - 2))
    return ClinometerCheck(0.5 * (a + b), 0.5 * (a - b), scatter, sigma)
