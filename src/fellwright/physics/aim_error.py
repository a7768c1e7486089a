"""Aim: how far a notch points beside its mark, and the wood that turns its edge back."""

import math

from fellwright.physics.notch import chord_m

__all__ = ["aim_error_rad", "corrected_notch_m", "miss_m", "notch_correction_m"]


def aim_error_rad(beside_m: float, distance_m: float) -> float:
    """Angle between the aim and its mark, from a sight along the notch edge.

    Parameters
    ----------
    beside_m : float
        How far beside the mark the sight passes, square to the lay [m], 0 or more.
    distance_m : float
        Distance of the mark along the lay [m], above 0.

    Returns
    -------
    float
        ``atan(beside/distance)`` [rad], 0 or more; the side is told apart. OWN: geometry.
    """
    return math.atan2(beside_m, distance_m)


def miss_m(reach_m: float, error_rad: float) -> float:
    """How far beside the lay a point of the lying tree comes down.

    Parameters
    ----------
    reach_m : float
        Distance of the point from the stump, along the stem [m].
    error_rad : float
        Angle between stem and lay [rad].

    Returns
    -------
    float
        ``r sin(error)`` [m], square to the lay. OWN: geometry. Past a right angle it falls again:
        the tree then lies behind its stump.
    """
    return reach_m * math.sin(error_rad)


def notch_correction_m(diameter_m: float, notch_m: float, error_rad: float) -> float:
    """How much deeper one end of the notch's apex line must go so that it squares with the lay.

    Parameters
    ----------
    diameter_m : float
        Stump in the fall axis, over bark where the notch ends in the bark [m].
    notch_m : float
        Depth of the notch as cut, square to its apex line [m].
    error_rad : float
        Angle between the notch's direction and the lay [rad], 0 to a right angle.

    Returns
    -------
    float
        ``c sin(error)`` [m] along the lay, with the chord ``c`` of the apex line: the width of the
        stump across the lay there times the tangent. The end that moves is the one on the side that
        the aim must turn to; the other end stays where it is. OWN:
        docs/derivations/aim_error.md.
    """
    return chord_m(diameter_m, notch_m) * math.sin(error_rad)


def corrected_notch_m(diameter_m: float, notch_m: float, error_rad: float) -> float:
    """Depth of the notch once its apex line has been turned about the end that stays.

    Parameters
    ----------
    diameter_m : float
        Stump in the fall axis [m].
    notch_m : float
        Depth of the notch as cut, square to its apex line [m].
    error_rad : float
        Angle between the notch's direction and the lay [rad], 0 to a right angle.

    Returns
    -------
    float
        Depth along the lay [m]: ``D/2 - (D/2 - n) cos(error) + (c/2) sin(error)``, that is the old
        depth and about half the correction. OWN: docs/derivations/aim_error.md.
    """
    radius = 0.5 * diameter_m
    half_chord = 0.5 * chord_m(diameter_m, notch_m)
    return radius - (radius - notch_m) * math.cos(error_rad) + half_chord * math.sin(error_rad)
