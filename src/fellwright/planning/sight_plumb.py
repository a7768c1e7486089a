"""Lean from a plumb line, seen from two stations; one station alone gives no lean."""

import math

from fellwright.physics.plumb_sight import PlumbStation, crossing_rad, plumb_offset
from fellwright.planning.sights import Sighted, refuse
from fellwright.records.bearing_field import LAST_HOUR, STEPS_PER_HOUR
from fellwright.records.lean_errors import ERROR_FLOOR_M, ERROR_SHARE, PLUMB_TWO_SIDES
from fellwright.records.sights import PlumbLook, PlumbSight
from fellwright.units import (
    DEG_PER_HOUR,
    DEG_PER_TURN,
    deg_from_clock,
    deg_from_rad,
    m_from_cm,
    rad_from_deg,
)
from fellwright.words import Text, say

__all__ = ["sight_plumb"]

LEAST_CROSSING_DEG = 30.0
"""OWN: there the worst direction errs by 2.7 times a single reading; nearer to parallel by more."""
ODD_CROSSING_DEG = 60.0
WIDTH_SHARE = 0.25
"""OWN: stem widths are read to a quarter at best."""
COMPASS_ERROR_DEG = 3.0
"""PRACTICE: a hand compass away from steel errs by 2 to 3 degrees."""
CLOCK_ERROR_DEG = 10.0
"""OWN: a clock hour is read to a third of an hour."""
STEP_SIGMA_DEG = DEG_PER_HOUR / STEPS_PER_HOUR / math.sqrt(12.0)
"""OWN: sigma of a direction that is written to a quarter of an hour."""
MOST_OFFSET_M = 40.0
SIGHTED_WORDS = {"balance": "balance point", "top": "top"}


def sight_plumb(sight: PlumbSight) -> Sighted:
    """Lean from one or two looks along a plumb line.

    Parameters
    ----------
    sight : PlumbSight
        As read.

    Returns
    -------
    Sighted
        ``lean`` as one reading of a tree file; nothing but a sentence from one station alone.

    Raises
    ------
    BadInput
        If the stations are too nearly in line.
    """
    by_clock = sight.lay_deg is None and sight.looks[0].bearing_clock is not None
    stations = [_station(look, sight) for look in sight.looks]
    if len(stations) == 1:
        return _one_side(sight, stations[0], by_clock=by_clock)
    first, second = stations
    crossing = crossing_rad(first, second)
    if crossing < rad_from_deg(LEAST_CROSSING_DEG):
        raise refuse(
            "station",
            say("sight.found_angle", angle=crossing),
            say("sight.must_cross", least=rad_from_deg(LEAST_CROSSING_DEG)),
            say("sight.do_station"),
        )
    found = plumb_offset(first, second)
    offset = math.hypot(found.east_m, found.north_m)
    if offset > MOST_OFFSET_M:
        raise refuse(
            "station",
            say("sight.found_length", value=offset),
            say("sight.must_be_offset", high=MOST_OFFSET_M),
            say("sight.do_right"),
        )
    nearest = min(station.distance_m for station in stations)
    if offset > 0.5 * nearest:
        raise refuse(
            "station",
            say("sight.found_length", value=nearest),
            say("sight.must_stand_off", offset=offset),
            say("sight.do_station"),
        )
    toward_deg = deg_from_rad(math.atan2(found.east_m, found.north_m)) % DEG_PER_TURN
    rounding = offset * rad_from_deg(STEP_SIGMA_DEG) if by_clock else 0.0
    error = max(ERROR_FLOOR_M + ERROR_SHARE * offset, math.hypot(found.sigma_m, rounding))
    toward: dict[str, float] = {"toward_deg": round(toward_deg) % DEG_PER_TURN}
    text = say("sight.plumb", offset=offset, toward=rad_from_deg(toward_deg), error=error)
    if by_clock:
        hour = _clock_hour(toward_deg)
        toward = {"toward_clock": hour}
        text = say("sight.plumb_clock", offset=offset, hour=_clock_words(hour), error=error)
    lean = {
        "offset_m": round(offset, 2),
        **toward,
        "sighted_at": SIGHTED_WORDS[sight.sighted_at],
        "how": PLUMB_TWO_SIDES,
        "error_m": round(error, 2),
    }
    return Sighted(
        {"lean": lean},
        {"lean": round(error, 2)},
        text,
        _behind(sight),
        tuple(_cautions(sight, crossing)),
    )


def _clock_hour(azimuth_deg: float) -> float:
    """Hour of a clock nearest to an azimuth from its twelve, in the steps of a tree file."""
    steps = round(azimuth_deg / DEG_PER_HOUR * STEPS_PER_HOUR) / STEPS_PER_HOUR % LAST_HOUR
    return steps or LAST_HOUR


def _clock_words(hour: float) -> str:
    """Write an hour as it stands on a clock: 5:15, and 12:30 for half an hour."""
    minutes = round(60.0 * hour)
    return f"{minutes // 60 or 12}:{minutes % 60:02d}"


def _station(look: PlumbLook, sight: PlumbSight) -> PlumbStation:
    """One look with its errors; with a lay, or in degrees, north is true north, else the lay."""
    if look.bearing_clock is not None:
        bearing = deg_from_clock(look.bearing_clock, sight.lay_deg or 0.0)
        bearing_error = CLOCK_ERROR_DEG
    else:
        assert look.bearing_deg is not None
        bearing, bearing_error = look.bearing_deg, COMPASS_ERROR_DEG
    if look.bearing_error_deg is not None:
        bearing_error = max(bearing_error, look.bearing_error_deg)
    floor = ERROR_FLOOR_M
    if look.right_m is not None:
        right = look.right_m
    else:
        assert look.right_widths is not None
        assert sight.dbh_cm is not None
        width = m_from_cm(sight.dbh_cm)
        right = look.right_widths * width
        floor = max(floor, WIDTH_SHARE * width)
    return PlumbStation(
        bearing_rad=rad_from_deg(bearing),
        right_m=right,
        sigma_m=floor + ERROR_SHARE * abs(right),
        bearing_sigma_rad=rad_from_deg(bearing_error),
        distance_m=math.inf if look.distance_m is None else look.distance_m,
    )


def _one_side(sight: PlumbSight, station: PlumbStation, *, by_clock: bool) -> Sighted:
    """Say how far it hangs to one side, and where to stand for the other: no lean."""
    places: dict[str, object] = {"across": abs(station.right_m), "error": station.sigma_m}
    text = (
        say("sight.one_side_right", **places)
        if station.right_m >= 0.0
        else say("sight.one_side_left", **places)
    )
    square = [deg_from_rad(station.bearing_rad) + turn for turn in (90.0, 270.0)]
    if by_clock:
        hours = [_clock_words(_clock_hour(azimuth % DEG_PER_TURN)) for azimuth in square]
        second = say("sight.second_clock", one=hours[0], other=hours[1])
    else:
        one, other = (rad_from_deg(azimuth % DEG_PER_TURN) for azimuth in square)
        second = say("sight.second", one=one, other=other)
    return Sighted({}, {}, text, _behind(sight), (second,))


def _behind(sight: PlumbSight) -> tuple[Text, ...]:
    found = [say("sight.behind_plumb", floor=ERROR_FLOOR_M, share=ERROR_SHARE)]
    if any(look.right_widths is not None for look in sight.looks):
        found.append(say("sight.behind_widths"))
    if any(look.bearing_deg is not None for look in sight.looks):
        found.append(say("sight.behind_compass", error=rad_from_deg(COMPASS_ERROR_DEG)))
    if any(look.bearing_clock is not None for look in sight.looks):
        found.append(say("sight.behind_clock", error=rad_from_deg(CLOCK_ERROR_DEG)))
    return tuple(found)


def _cautions(sight: PlumbSight, crossing: float) -> list[Text]:
    cautions = []
    if crossing < rad_from_deg(ODD_CROSSING_DEG):
        cautions.append(say("sight.mind_crossing", angle=crossing))
    if any(look.distance_m is None for look in sight.looks):
        cautions.append(say("sight.mind_near"))
    if any(look.bearing_deg is not None for look in sight.looks):
        cautions.append(say("sight.mind_compass"))
    if sight.sighted_at == "top":
        cautions.append(say("sight.mind_top"))
    return cautions
