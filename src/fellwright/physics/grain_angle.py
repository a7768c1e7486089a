"""Strength of wood at an angle between along and across the grain."""

import math

from fellwright.kernel import kernel

__all__ = ["hankinson_pa"]


@kernel
def hankinson_pa(
    along_pa: float, across_pa: float, angle_rad: float, exponent: float = 2.0
) -> float:
    """Strength of wood pressed at an angle to its grain.

    Parameters
    ----------
    along_pa : float
        Strength along the grain [Pa], above 0.
    across_pa : float
        Strength across the grain [Pa], above 0.
    angle_rad : float
        Angle between force and grain [rad], 0 to a quarter turn.
    exponent : float
        2 for compression; 1.5 to 2 for tension.

    Returns
    -------
    float
        ``P Q/(P sin^n + Q cos^n)`` [Pa]. Source: [Hankinson-1921], the formula as quoted by others.
        SEEN; exponents by property from [FPL-GTR-282], slope of grain, MEMORY.
    """
    # The cosine of a quarter turn comes out a hair above or below nothing.
    sine, cosine = abs(math.sin(angle_rad)), abs(math.cos(angle_rad))
    return (
        along_pa
        * across_pa
        / (along_pa * math.pow(sine, exponent) + across_pa * math.pow(cosine, exponent))
    )
