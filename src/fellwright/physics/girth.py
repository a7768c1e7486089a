"""Diameter from girth."""

import math

__all__ = ["diameter_from_girth_m"]


def diameter_from_girth_m(girth_m: float) -> float:
    """Diameter of the circle with the girth of a stem.

    Parameters
    ----------
    girth_m : float
        Girth by tape, square to the stem and tight on the bark [m].

    Returns
    -------
    float
        Diameter over bark [m]: girth over pi. No section with that girth holds more wood, so an
        oval or fluted stem reads too thick, never too thin. DERIVED: definition of pi.
    """
    return girth_m / math.pi
