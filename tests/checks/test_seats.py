"""Seat and preload: bearing, crushing, room and sit-back, by hand and by root search."""

import math
from typing import Any

import pytest
from scipy.optimize import brentq
from tests.checks.rows import HAND, SECOND_METHOD, Row

from fellwright.physics import seat

pytestmark = pytest.mark.check


def _hand(function: str, inputs: dict[str, Any], expected: float, place: str, why: str) -> Row:
    return Row(
        function=function,
        inputs=inputs,
        expected=expected,
        kind=HAND,
        source="hand",
        place=place,
        mark="OWN",
        tolerance=1e-6,
        why=why,
    )


def _sit_back_rad(kerf: float, lever: float) -> float:
    """Rotation that brings a point at the end of the lever down by a kerf, along the chord."""

    def gap(angle: float) -> float:
        return math.hypot(lever * (1.0 - math.cos(angle)), lever * math.sin(angle)) - kerf

    return float(brentq(gap, 0.0, 1.0, xtol=1e-14))


def _crush_loss_m(length: float, wedge: float, opening: float) -> float:
    """Wedge laid on one lip of the open cut: how far it sinks in before a length of it bears."""
    # Lip along the opening, wedge face through the rim: depth of the face in the wood at the
    # inner end of the contact, measured square to the lip.
    inner = (-length * math.cos(opening), -length * math.sin(opening))
    turn = wedge - opening

    def apart(depth: float) -> float:
        return math.atan2(depth, math.hypot(*inner)) - turn

    return float(brentq(apart, 0.0, 10.0 * length, xtol=1e-14))


ROWS = [
    _hand(
        "seat.bearing_force_n",
        {"crushing_pa": 20e6, "width_m": 0.080, "length_m": 0.060, "contact_share": 0.7},
        67.2e3,
        "20 MPa x 80 x 60 mm x 0.7",
        "4800 mm2 x 20 = 96 kN, of which 0.7",
    ),
    _hand(
        "seat.contact_length_m",
        {"force_n": 40e3, "crushing_pa": 20e6, "width_m": 0.080, "contact_share": 1.0},
        0.025,
        "40 kN on 80 mm at 20 MPa",
        "1600 N per mm of length: 25 mm",
    ),
    Row(
        function="seat.crush_loss_m",
        inputs={
            "length_m": 0.025,
            "wedge_rad": math.radians(10.0),
            "opening_rad": math.radians(3.0),
        },
        expected=_crush_loss_m(0.025, math.radians(10.0), math.radians(3.0)),
        kind=SECOND_METHOD,
        source="scipy",
        place="scipy.optimize.brentq on the angle of the face to the lip",
        mark="DERIVED",
        tolerance=1e-9,
        why="geometry by root search",
    ),
    _hand(
        "seat.room_m",
        {
            "diameter_m": 0.215,
            "notch_m": 0.043,
            "hinge_m": 0.022,
            "gap_m": 0.020,
            "device_m": 0.130,
            "bar_m": 0.070,
        },
        -0.070,
        "stump 21.5 cm, device 130, bar 70, gap 20",
        "150 mm behind the hinge against 220 mm",
    ),
    _hand(
        "preload.preload_force_n",
        {"push_n": 34e3, "uncut_n_m": 30e3, "lever_m": 0.305, "share": 0.65},
        22.1e3,
        "0.65 x 34 kN",
        "half of 30 kN.m at 0.305 m is 49 kN, so the share of the push rules",
    ),
    _hand(
        "preload.preload_force_n",
        {"push_n": 34e3, "uncut_n_m": 6.1e3, "lever_m": 0.305, "share": 0.65},
        10e3,
        "half of 6.1 kN.m at 0.305 m",
        "3050/0.305 = 10 kN, less than 22.1 kN",
    ),
    Row(
        function="preload.sit_back_rotation_rad",
        inputs={"kerf_m": 0.008, "lever_m": 0.30},
        expected=_sit_back_rad(0.008, 0.30),
        kind=SECOND_METHOD,
        source="scipy",
        place="scipy.optimize.brentq on the chord: 8 mm over 30 cm is 1.5 degrees",
        mark="DERIVED",
        tolerance=1e-9,
        why="root search",
    ),
]


def test_known_seats() -> None:
    """45 kN with a factor of 1.5; 3.1 mm crushed; about 7 t on 55 by 70 mm of green spruce."""
    assert seat.bearing_force_n(20e6, 0.08, 0.06, 0.7) / 1.5 == pytest.approx(45e3, rel=0.01)
    lost = seat.crush_loss_m(0.025, math.radians(10.0), math.radians(3.0))
    assert 1000.0 * lost == pytest.approx(3.1, abs=0.05)
    assert seat.bearing_force_n(17.5e6, 0.055, 0.070, 1.0) / 9806.65 == pytest.approx(7.0, abs=0.2)


@pytest.mark.parametrize(("device", "stump"), [(0.130, 0.31), (0.200, 0.41)])
def test_stump_that_a_device_needs_is_the_known_one(device: float, stump: float) -> None:
    """Notch 20 %, hinge 10 %, bar 70 mm, gap 20 mm: 31 cm for 130 mm, 41 cm for 200 mm."""

    def left(diameter: float) -> float:
        return seat.room_m(diameter, 0.2 * diameter, 0.1 * diameter, 0.020, device, 0.070)

    assert brentq(left, 0.05, 2.0) == pytest.approx(stump, abs=0.006)
