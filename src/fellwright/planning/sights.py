"""Girth, crown, test bore and the phone's level: what a helper makes of them, and how well."""

import math
from collections.abc import Mapping
from dataclasses import dataclass, field

from fellwright.errors import BadInput, Fault
from fellwright.physics.clinometer import check_clinometer
from fellwright.physics.crown_radius import mean_crown_radius
from fellwright.physics.girth import diameter_from_girth_m
from fellwright.physics.sound_wall import least_sound_wall_m
from fellwright.planning import bands
from fellwright.records.sights import BoreSight, CrownSight, GirthSight, LevelSight
from fellwright.units import CM_PER_M, m_from_cm, rad_from_deg
from fellwright.words import Text, say

__all__ = ["Sighted", "refuse", "sight_bore", "sight_crown", "sight_girth", "sight_level"]

PACE_ERROR_SHARE = 0.10
"""PRACTICE: paces err by a tenth, all the same way."""
CROWN_SCATTER_SHARE = 0.15
"""OWN: reach of a crown from one side to the next, taken at least."""
ROUND_CROWN_DIRECTIONS = 4
"""PRACTICE: a crown is paced on four sides."""
BORES_AROUND = 3
"""PRACTICE: a test bore from three sides."""
UNEVEN_WALL_SIGMAS = 2.0
PHONE_FLOOR_DEG = 0.5
"""PRACTICE: a phone held against an edge errs by 0.5 to 1 degree; never less is claimed."""
PHONE_MOST_ZERO_DEG = 5.0
"""OWN: a larger zero is a phone in a case, on its side, or not turned round."""
PHONE_ODD_ZERO_DEG = 1.5
"""OWN: such a zero is as likely a phone that was not turned end for end."""
PHONE_MOST_SPREAD_DEG = 2.0
"""OWN: readings of one edge that lie farther apart were not of one edge."""


@dataclass(frozen=True, slots=True)
class Sighted:
    """What a helper gives: keys of a tree file, one sigma of each, and what to say about it.

    ``behind`` names the errors that entered, each with its mark.
    """

    values: Mapping[str, object]
    errors: Mapping[str, float]
    text: Text
    behind: tuple[Text, ...] = ()
    cautions: tuple[Text, ...] = field(default=())


def refuse(key: str, value: Text | str, rule: Text, remedy: Text) -> BadInput:
    """Fault of readings that are each in range and do not fit together.

    Parameters
    ----------
    key : str
        Where it stands below the request.
    value : Text or str
        What was found.
    rule, remedy : Text
        What must hold; what to do.

    Returns
    -------
    BadInput
        To be raised.
    """
    where = f"sight.{key}"
    return BadInput(
        [Fault(say("fault.request"), None, where, value, rule, remedy, "contradiction")]
    )


def sight_girth(sight: GirthSight) -> Sighted:
    """Diameter at breast height from girth.

    Parameters
    ----------
    sight : GirthSight
        As read.

    Returns
    -------
    Sighted
        ``dbh_cm``, ``dbh_error_cm``.
    """
    dbh = diameter_from_girth_m(m_from_cm(sight.girth_cm))
    error = bands.DBH.usual
    if sight.girth_error_cm is not None:
        error = max(error, diameter_from_girth_m(m_from_cm(sight.girth_error_cm)))
    return Sighted(
        {"dbh_cm": round(CM_PER_M * dbh, 1), "dbh_error_cm": round(CM_PER_M * error, 2)},
        {"dbh_cm": round(CM_PER_M * error, 2)},
        say("sight.girth", dbh=dbh, error=error),
        (say("sight.behind_girth", error=bands.DBH.usual),),
        (say("sight.mind_girth"),),
    )


def sight_crown(sight: CrownSight) -> Sighted:
    """Radius of the crown from paces in several directions.

    Parameters
    ----------
    sight : CrownSight
        As read.

    Returns
    -------
    Sighted
        ``crown_radius_m``.

    Raises
    ------
    BadInput
        If the mean is no crown's radius.
    """
    reaches = [paces * sight.pace_length_m for paces in sight.paces]
    crown = mean_crown_radius(reaches, PACE_ERROR_SHARE, CROWN_SCATTER_SHARE)
    if not 0.1 <= crown.radius_m <= 25.0:
        raise refuse(
            "paces",
            say("sight.found_length", value=crown.radius_m),
            say("sight.must_be_crown", low=0.1, high=25.0),
            say("sight.do_crown"),
        )
    cautions = []
    if len(reaches) < ROUND_CROWN_DIRECTIONS:
        cautions.append(say("sight.mind_crown", count=ROUND_CROWN_DIRECTIONS))
    return Sighted(
        {"crown_radius_m": round(crown.radius_m, 2)},
        {"crown_radius_m": round(crown.sigma_m, 2)},
        say("sight.crown", radius=crown.radius_m, error=crown.sigma_m, count=len(reaches)),
        (
            say("sight.behind_paces", share=PACE_ERROR_SHARE),
            say("sight.behind_crown", share=CROWN_SCATTER_SHARE),
        ),
        tuple(cautions),
    )


def sight_bore(sight: BoreSight) -> Sighted:
    """Sound wall from test bores.

    Parameters
    ----------
    sight : BoreSight
        As read.

    Returns
    -------
    Sighted
        ``cavity_wall_cm``.

    Raises
    ------
    BadInput
        If the bark is as thick as the shallowest bore is deep.
    """
    bark = m_from_cm(sight.bark_cm or 0.0)
    depths = [m_from_cm(bore) for bore in sight.bores_cm]
    wall = least_sound_wall_m(depths, bark)
    error = bands.WALL.usual
    # The tree file takes a wall from 1 mm.
    if wall < 0.001:
        raise refuse(
            "bark_cm",
            say("sight.found_bark", bark=bark, bore=min(depths)),
            say("sight.must_be_under_bore"),
            say("sight.do_bark"),
        )
    cautions = []
    if len(depths) < BORES_AROUND:
        cautions.append(say("sight.mind_bores", count=BORES_AROUND))
    if max(depths) - min(depths) > UNEVEN_WALL_SIGMAS * math.sqrt(2.0) * error:
        cautions.append(say("sight.mind_uneven", most=max(depths) - bark))
    return Sighted(
        {"cavity_wall_cm": round(CM_PER_M * wall, 1)},
        {"cavity_wall_cm": round(CM_PER_M * error, 1)},
        say("sight.bore", wall=wall, error=error, count=len(depths)),
        (say("sight.behind_bore", error=error),),
        tuple(cautions),
    )


def sight_level(sight: LevelSight) -> Sighted:
    """Zero and honest error of a phone held against an edge.

    Parameters
    ----------
    sight : LevelSight
        As read.

    Returns
    -------
    Sighted
        ``zero_deg`` and ``angle_error_deg``, which go into the request for a height.

    Raises
    ------
    BadInput
        If the readings disagree, or the zero is no phone's.
    """
    faults: list[Fault] = []
    for key, readings in (("first_deg", sight.first_deg), ("turned_deg", sight.turned_deg)):
        spread = max(readings) - min(readings)
        if spread > PHONE_MOST_SPREAD_DEG:
            faults += refuse(
                key,
                say("sight.found_spread", spread=rad_from_deg(spread)),
                say("sight.must_agree", most=rad_from_deg(PHONE_MOST_SPREAD_DEG)),
                say("sight.do_level"),
            ).faults
    if faults:
        raise BadInput(faults)
    found = check_clinometer(sight.first_deg, sight.turned_deg)
    if abs(found.zero) > PHONE_MOST_ZERO_DEG:
        raise refuse(
            "turned_deg",
            say("sight.found_zero", zero=rad_from_deg(found.zero)),
            say("sight.must_be_small", most=rad_from_deg(PHONE_MOST_ZERO_DEG)),
            say("sight.do_level"),
        )
    error = max(PHONE_FLOOR_DEG, found.sigma)
    cautions = []
    if abs(found.zero) > PHONE_ODD_ZERO_DEG:
        cautions.append(say("sight.mind_zero", zero=rad_from_deg(found.zero)))
    return Sighted(
        {"zero_deg": round(found.zero, 2), "angle_error_deg": round(error, 2)},
        {"zero_deg": round(error, 2)},
        say("sight.level", zero=rad_from_deg(found.zero), error=rad_from_deg(error)),
        (say("sight.behind_level", floor=rad_from_deg(PHONE_FLOOR_DEG)),),
        tuple(cautions),
    )
