"""The stump: its diameter from breast height, and the wood inside the bark."""

import math

from fellwright.kernel import kernel

__all__ = [
    "inside_bark_diameter_m",
    "raile_1982_inside_ratio",
    "raile_1982_outside_ratio",
]

FOOT_M = 0.3048


def raile_1982_outside_ratio(height_m: float, a: float) -> float:
    """Diameter over bark below breast height as a share of dbh, Raile 1982.

    Parameters
    ----------
    height_m : float
        Height above the ground [m], 0 to 1.37.
    a : float
        Coefficient A of the species group.

    Returns
    -------
    float
        ``d/D = 1 + A (4.5 - h)/(h + 1)``, h in feet as printed.

    Notes
    -----
    Source: [Raile-1982]; coefficients SEEN in published code. Hardwood stumps differ by 10 %
    between sources: measure the stump where it can be measured.
    """
    h_ft = height_m / FOOT_M
    return 1.0 + a * (4.5 - h_ft) / (h_ft + 1.0)


def raile_1982_inside_ratio(height_m: float, b: float, c: float) -> float:
    """Diameter inside bark below breast height as a share of dbh over bark, Raile 1982.

    Parameters
    ----------
    height_m : float
        Height above the ground [m], 0 to 1.37.
    b, c : float
        Coefficients B and C of the species group.

    Returns
    -------
    float
        ``d/D = B + C (4.5 - h)/(h + 1)``, h in feet as printed. Source: [Raile-1982]. SEEN.
    """
    h_ft = height_m / FOOT_M
    return b + c * (4.5 - h_ft) / (h_ft + 1.0)


@kernel
def inside_bark_diameter_m(over_bark_m: float, bark_volume_ratio: float) -> float:
    """Diameter of the wood, from the diameter over bark and the species' bark share.

    Parameters
    ----------
    over_bark_m : float
        Diameter over bark [m].
    bark_volume_ratio : float
        Volume of bark over volume of wood, 0 or more.

    Returns
    -------
    float
        Diameter inside bark [m]: ``D/sqrt(1 + ratio)``, bark taken as the same share of every
        section. OWN; the ratio comes from [NRS-38].
    """
    return over_bark_m / math.sqrt(1.0 + bark_volume_ratio)
