"""Height from two angles and a distance, with the errors of each."""

from dataclasses import dataclass

from fellwright.physics.height_sight import (
    LevelDistance,
    SightSigmas,
    ground_slope_rad,
    level_distance,
    sighted_height_m,
    sighted_height_sigma_m,
)
from fellwright.planning.sights import PACE_ERROR_SHARE, PHONE_FLOOR_DEG, Sighted, refuse
from fellwright.records.sights import HeightSight
from fellwright.units import rad_from_deg
from fellwright.words import Text, say

__all__ = ["sight_height"]

TAPE_ERROR_SHARE = 0.01
"""PRACTICE: a tape through a wood errs by a hundredth."""
HAND_ERROR_DEG = 1.0
"""PRACTICE: a hand clinometer errs by 0.5 to 1 degree; the unfavourable bound."""
LEAST_ANGLE_ERROR_DEG = 0.25
"""OWN: no angle by hand is better than this."""
EYE_M = 1.60
EYE_SIGMA_M = 0.15
"""OWN: height of the eye where it was not measured; it moves the result by centimetres."""
EYE_READ_SIGMA_M = 0.03
ODD_SLOPE_DEG = 5.0
"""OWN: from here on a distance along the ground is not a level one by more than a tape errs."""
STEEP_DEG = 50.0
"""PRACTICE: stand about one tree length off."""
NEAREST_M = 1.0
LEAST_M, MOST_M = 0.5, 120.0
MOST_ERROR_SHARE = 0.5
"""OWN: a height that may be off by half of itself is none."""


@dataclass(frozen=True, slots=True)
class _Sight:
    """Angles less the zero [rad], distance as read [m], its share of error, and the eye."""

    top_rad: float
    foot_rad: float
    distance_m: float
    distance_share: float
    angle_rad: float
    eye_m: float
    eye_sigma_m: float


def sight_height(sight: HeightSight) -> Sighted:
    """Height of the tree.

    Parameters
    ----------
    sight : HeightSight
        As read.

    Returns
    -------
    Sighted
        ``height_m``, ``height_error_m``.

    Raises
    ------
    BadInput
        If distance and angles give no tree.
    """
    s = _prepared(sight)
    if s.distance_m <= max(s.eye_m, NEAREST_M):
        raise refuse(
            "distance_m",
            say("sight.found_length", value=s.distance_m),
            say("sight.must_be_over_eye", eye=s.eye_m),
            say("sight.do_distance"),
        )
    if s.top_rad <= s.foot_rad:
        raise refuse(
            "top_deg",
            f"{sight.top_deg:g}",
            say("sight.must_be_over_foot", foot=rad_from_deg(sight.foot_deg)),
            say("sight.do_top"),
        )
    level = _level(sight, s)
    height = sighted_height_m(level.level_m, s.top_rad, s.foot_rad)
    if not LEAST_M <= height <= MOST_M:
        raise refuse(
            "top_deg",
            say("sight.found_length", value=height),
            say("sight.must_be_height", low=LEAST_M, high=MOST_M),
            say("sight.do_height"),
        )
    sigmas = SightSigmas(s.distance_share * s.distance_m, s.angle_rad, s.eye_sigma_m)
    error = sighted_height_sigma_m(level, s.top_rad, s.foot_rad, sigmas)
    if not error <= MOST_ERROR_SHARE * height:
        raise refuse(
            "top_deg",
            say("sight.found_height", height=height, error=error),
            say("sight.must_be_known", share=MOST_ERROR_SHARE),
            say("sight.do_height"),
        )
    return Sighted(
        {"height_m": round(height, 2), "height_error_m": round(error, 2)},
        {"height_m": round(error, 2)},
        say("sight.height", height=height, error=error),
        _behind(sight, s),
        tuple(_cautions(sight, s, level)),
    )


def _prepared(sight: HeightSight) -> _Sight:
    zero = sight.zero_deg or 0.0
    by_tape = sight.distance_m is not None
    distance = sight.distance_m or (sight.paces or 0.0) * (sight.pace_length_m or 0.0)
    angle = HAND_ERROR_DEG
    if sight.angle_error_deg is not None:
        least = PHONE_FLOOR_DEG if sight.angle_by == "phone" else LEAST_ANGLE_ERROR_DEG
        angle = max(least, sight.angle_error_deg)
    if sight.distance_is == "eye":
        eye, eye_sigma = 0.0, 0.0
    elif sight.eye_height_m is None:
        eye, eye_sigma = EYE_M, EYE_SIGMA_M
    else:
        eye, eye_sigma = sight.eye_height_m, EYE_READ_SIGMA_M
    return _Sight(
        top_rad=rad_from_deg(sight.top_deg - zero),
        foot_rad=rad_from_deg(sight.foot_deg - zero),
        distance_m=distance,
        distance_share=TAPE_ERROR_SHARE if by_tape else PACE_ERROR_SHARE,
        angle_rad=rad_from_deg(angle),
        eye_m=eye,
        eye_sigma_m=eye_sigma,
    )


def _level(sight: HeightSight, s: _Sight) -> LevelDistance:
    if sight.distance_is == "level":
        return LevelDistance(s.distance_m)
    return level_distance(s.distance_m, s.foot_rad, s.eye_m)


def _behind(sight: HeightSight, s: _Sight) -> tuple[Text, ...]:
    by_tape = sight.distance_m is not None
    share = s.distance_share
    found = [
        say("sight.behind_tape", share=share) if by_tape else say("sight.behind_paces", share=share)
    ]
    if sight.angle_by == "phone":
        found.append(say("sight.behind_phone", error=s.angle_rad))
    elif sight.angle_error_deg is None:
        found.append(say("sight.behind_clinometer", error=s.angle_rad))
    else:
        found.append(say("sight.behind_stated", error=s.angle_rad))
    if sight.distance_is == "ground":
        known = sight.eye_height_m is not None
        found.append(
            say("sight.behind_eye_read", eye=s.eye_m)
            if known
            else say("sight.behind_eye", eye=s.eye_m, error=s.eye_sigma_m)
        )
    return tuple(found)


def _cautions(sight: HeightSight, s: _Sight, level: LevelDistance) -> list[Text]:
    cautions = [say("sight.mind_lean")]
    slope = ground_slope_rad(level.level_m, s.foot_rad, s.eye_m or EYE_M)
    if sight.distance_is == "level" and abs(slope) >= rad_from_deg(ODD_SLOPE_DEG):
        other = level_distance(s.distance_m, s.foot_rad, s.eye_m)
        height = sighted_height_m(other.level_m, s.top_rad, s.foot_rad)
        cautions.append(say("sight.mind_slope", slope=abs(slope), height=height))
    if s.top_rad > rad_from_deg(STEEP_DEG):
        cautions.append(say("sight.mind_steep", angle=s.top_rad))
    return cautions
