"""Reliability: quantiles of draws, sampling error of a share, closed-form index."""

import math
from collections.abc import Sequence

__all__ = ["lognormal_reliability_index", "quantile", "share_standard_error"]


def quantile(ordered: Sequence[float], share: float) -> float:
    """Quantile of sorted values, linear between order statistics.

    Parameters
    ----------
    ordered : sequence of float
        Values in rising order, at least one.
    share : float
        0 to 1.

    Returns
    -------
    float
        Quantile by definition 7 of [Hyndman-Fan-1996]. MEMORY for the number.
    """
    position = share * (len(ordered) - 1)
    below = int(position)
    if below + 1 >= len(ordered):
        return ordered[-1]
    weight = position - below
    if weight == 0.0:
        return ordered[below]
    return ordered[below] * (1.0 - weight) + ordered[below + 1] * weight


def share_standard_error(share: float, draws: int) -> float:
    """Standard error of a share counted over independent draws.

    Parameters
    ----------
    share : float
        Share found, 0 to 1.
    draws : int
        Number of draws.

    Returns
    -------
    float
        Binomial standard error, with two draws of each kind added so that it never reads 0.
        Low-discrepancy draws do better, so this errs on the wide side. [Agresti-Coull-1998].
        MEMORY.
    """
    adjusted = (share * draws + 2.0) / (draws + 4.0)
    return math.sqrt(adjusted * (1.0 - adjusted) / (draws + 4.0))


def lognormal_reliability_index(
    median_have: float, median_need: float, cv_have: float, cv_need: float
) -> float:
    """Reliability index of a lognormal capacity against a lognormal need.

    Parameters
    ----------
    median_have, median_need : float
        Medians, same unit.
    cv_have, cv_need : float
        Coefficients of variation.

    Returns
    -------
    float
        ``ln(R/S)/sqrt(ln(1+V_R^2) + ln(1+V_S^2))``. A closed-form cross-check of the draws; not
        used in a verdict. OWN.
    """
    return math.log(median_have / median_need) / math.sqrt(
        math.log(1.0 + cv_have**2) + math.log(1.0 + cv_need**2)
    )
