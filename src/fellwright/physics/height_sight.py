"""Height of a tree from a distance and two angles, and how far the sight may be off."""

import math
from typing import NamedTuple

__all__ = [
    "LevelDistance",
    "SightSigmas",
    "ground_slope_rad",
    "level_distance",
    "sighted_height_m",
    "sighted_height_sigma_m",
]


class LevelDistance(NamedTuple):
    """Level distance from eye to stem [m], and how it moves with what was read.

    ``per_distance`` is its change per metre of distance read, ``per_foot_rad`` per radian of the
    angle to the foot [m/rad], ``per_eye`` per metre of the eye over the ground.
    """

    level_m: float
    per_distance: float = 1.0
    per_foot_rad: float = 0.0
    per_eye: float = 0.0


class SightSigmas(NamedTuple):
    """One sigma of the distance as read [m], of each angle [rad] and of the eye's height [m]."""

    distance_m: float
    angle_rad: float
    eye_m: float = 0.0


def level_distance(along_m: float, foot_rad: float, eye_m: float) -> LevelDistance:
    """Level distance from a distance that was taken along the ground, or from eye to foot.

    Parameters
    ----------
    along_m : float
        Distance along the ground to the foot [m], above 0.
    foot_rad : float
        Angle from the eye to the foot [rad], below the eye negative.
    eye_m : float
        Height of the eye over the ground [m]; 0 for a distance taken straight from eye to foot.

    Returns
    -------
    LevelDistance
        Level distance and its derivatives.

    Raises
    ------
    ValueError
        If the foot cannot stand at that angle: nearer than the eye is high.

    Notes
    -----
    The foot stands at ``L tan f`` over the eye and the boots at ``-e``, so that
    ``G^2 = L^2 + (L tan f + e)^2``. Solved for L:
    ``L = cos f (sqrt(G^2 - e^2 cos^2 f) - e sin f)``, which is ``G cos f`` at ``e = 0``. The slope
    of the ground, which the tape lies on, is not the angle to the foot. OWN:
    docs/derivations/sights.md.
    """
    cos, sin = math.cos(foot_rad), math.sin(foot_rad)
    square = along_m**2 - (eye_m * cos) ** 2
    if along_m <= eye_m or square <= 0.0:
        raise ValueError(f"along_m must be more than the eye's height {eye_m} m, got {along_m} m")
    root = math.sqrt(square)
    reach = root - eye_m * sin
    return LevelDistance(
        level_m=cos * reach,
        per_distance=cos * along_m / root,
        per_foot_rad=-sin * reach + cos * (eye_m**2 * cos * sin / root - eye_m * cos),
        per_eye=-cos * (sin + eye_m * cos**2 / root),
    )


def ground_slope_rad(level_m: float, foot_rad: float, eye_m: float) -> float:
    """Slope of the ground between boots and foot.

    Parameters
    ----------
    level_m : float
        Level distance [m], above 0.
    foot_rad : float
        Angle from the eye to the foot [rad], below the eye negative.
    eye_m : float
        Height of the eye over the ground [m].

    Returns
    -------
    float
        Slope [rad], positive where the tree stands higher. OWN: geometry.
    """
    return math.atan(math.tan(foot_rad) + eye_m / level_m)


def sighted_height_m(level_m: float, top_rad: float, foot_rad: float) -> float:
    """Height of a tree from its level distance and the angles to top and foot.

    Parameters
    ----------
    level_m : float
        Level distance from the eye to the stem [m], above 0.
    top_rad, foot_rad : float
        Angles to top and foot [rad], below the eye negative; the top above the foot.

    Returns
    -------
    float
        Height [m]: ``L (tan top - tan foot)``. The top is taken to stand over the foot: a tree that
        leans toward the eye reads too high.

    Raises
    ------
    ValueError
        If the top is not above the foot.

    Notes
    -----
    Source: [Husch-2003], tangent method. MEMORY for the book; trees measured so are checked.
    """
    if top_rad <= foot_rad:
        raise ValueError(f"top_rad must be above foot_rad {foot_rad}, got {top_rad}")
    return level_m * (math.tan(top_rad) - math.tan(foot_rad))


def sighted_height_sigma_m(
    level: LevelDistance, top_rad: float, foot_rad: float, sigmas: SightSigmas
) -> float:
    """One sigma of a height that was sighted.

    Parameters
    ----------
    level : LevelDistance
        Level distance with its derivatives.
    top_rad, foot_rad : float
        Angles to top and foot [rad].
    sigmas : SightSigmas
        Errors of distance, angles and eye.

    Returns
    -------
    float
        One sigma [m], errors taken as small and independent. An error of the clinometer's zero is
        the same in both angles and mostly cancels: as independent it weighs more. OWN: propagation.
    """
    tangents = math.tan(top_rad) - math.tan(foot_rad)
    per_top = level.level_m / math.cos(top_rad) ** 2
    per_foot = level.per_foot_rad * tangents - level.level_m / math.cos(foot_rad) ** 2
    return math.hypot(
        level.per_distance * tangents * sigmas.distance_m,
        per_top * sigmas.angle_rad,
        per_foot * sigmas.angle_rad,
        level.per_eye * tangents * sigmas.eye_m,
    )
