"""Lean from a plumb line: how far the sighted point hangs beside the foot, from two stations."""

import math
from typing import NamedTuple

__all__ = ["PlumbOffset", "PlumbStation", "crossing_rad", "plumb_offset"]


class PlumbStation(NamedTuple):
    """One look along a plumb line that is held over the sighted point.

    ``bearing_rad`` points from the station to the foot, clockwise from the axis north. ``right_m``
    is how far the line passes to the right of the foot [m], left negative, measured at the foot.
    ``distance_m`` from station to foot; infinite where nobody took it.
    """

    bearing_rad: float
    right_m: float
    sigma_m: float
    bearing_sigma_rad: float = 0.0
    distance_m: float = math.inf


class PlumbOffset(NamedTuple):
    """Where the sighted point stands over the ground, seen from the foot [m].

    ``sigma_m`` is one sigma in the direction that is known worst.
    """

    east_m: float
    north_m: float
    sigma_m: float


def crossing_rad(first: PlumbStation, second: PlumbStation) -> float:
    """Angle at which the two upright planes of sight cross.

    Parameters
    ----------
    first, second : PlumbStation
        The two looks.

    Returns
    -------
    float
        From 0, the same plane, to pi/2, square [rad]. OWN: geometry.
    """
    turn = _sight_rad(first) - _sight_rad(second)
    return math.asin(min(1.0, abs(math.sin(turn))))


def plumb_offset(first: PlumbStation, second: PlumbStation) -> PlumbOffset:
    """Offset of the sighted point from the foot, where the two planes of sight cross.

    Parameters
    ----------
    first, second : PlumbStation
        Two looks whose planes of sight are not parallel.

    Returns
    -------
    PlumbOffset
        East, north and one sigma in the worst direction, errors small and independent.

    Raises
    ------
    ValueError
        If the planes are parallel.

    Notes
    -----
    With ``u`` toward the foot, ``r`` to the right of it and ``D`` the distance, the plane through
    the eye and the point passes the foot at ``d = D (r.p)/(D + u.p)``. So each look gives one
    linear equation, ``(r - d/D u).p = d``; without a distance ``r.p = d``. OWN:
    docs/derivations/sights.md.
    """
    a, b = _row(first), _row(second)
    det = a[0] * b[1] - a[1] * b[0]
    if abs(det) < 1e-9:
        raise ValueError("planes of sight must cross: take the second station square to the first")
    east = (first.right_m * b[1] - second.right_m * a[1]) / det
    north = (a[0] * second.right_m - b[0] * first.right_m) / det
    one, two = (_equation_sigma(station, east, north) for station in (first, second))
    # Covariance of the point: the inverse of the two rows, each weighted with its error.
    east_2 = ((b[1] * one) ** 2 + (a[1] * two) ** 2) / det**2
    north_2 = ((b[0] * one) ** 2 + (a[0] * two) ** 2) / det**2
    mixed = -(b[1] * b[0] * one**2 + a[1] * a[0] * two**2) / det**2
    worst = 0.5 * (east_2 + north_2) + math.hypot(0.5 * (east_2 - north_2), mixed)
    return PlumbOffset(east, north, math.sqrt(worst))


def _sight_rad(station: PlumbStation) -> float:
    """Azimuth of the plane of sight: past the foot on the side where the point hangs."""
    return station.bearing_rad + math.atan(station.right_m / station.distance_m)


def _row(station: PlumbStation) -> tuple[float, float]:
    """Coefficients of east and north in the equation of one look."""
    sin, cos = math.sin(station.bearing_rad), math.cos(station.bearing_rad)
    slant = station.right_m / station.distance_m
    return cos - slant * sin, -sin - slant * cos


def _equation_sigma(station: PlumbStation, east_m: float, north_m: float) -> float:
    """One sigma of the right side of a look's equation, from its reading and its bearing [m]."""
    sin, cos = math.sin(station.bearing_rad), math.cos(station.bearing_rad)
    ahead = sin * east_m + cos * north_m
    right = cos * east_m - sin * north_m
    slant = station.right_m / station.distance_m
    return math.hypot(
        (1.0 + ahead / station.distance_m) * station.sigma_m,
        (ahead + slant * right) * station.bearing_sigma_rad,
    )
