"""Aim of the notch: its correction and new depth, against a disc that shapely cuts."""

import math

import numpy as np
import pytest
from shapely import LineString, Point, Polygon
from tests.checks.polygons import disc
from tests.checks.rows import HAND, SECOND_METHOD, Row

from fellwright.physics.aim_error import corrected_notch_m, notch_correction_m

pytestmark = pytest.mark.check

REACH_M = 3.0
CASES = {
    "spruce 46 cm, 2 deg": (0.46, 0.092, math.radians(2.0)),
    "spruce 46 cm, 9 deg": (0.46, 0.092, math.radians(9.0)),
    "beech 67 cm, 4 deg": (0.67, 0.134, math.radians(4.0)),
    "small birch, 6 deg": (0.215, 0.043, math.radians(6.0)),
    "third of the stump, 5 deg": (0.60, 0.20, math.radians(5.0)),
}


def apex_ends(diameter: float, notch: float, right_rad: float) -> tuple[Point, Point]:
    """Left and right end of an apex line whose notch points to the right; x is the lay."""
    aim = np.array([math.cos(right_rad), -math.sin(right_rad)])
    to_left = np.array([math.sin(right_rad), math.cos(right_rad)])
    middle = (0.5 * diameter - notch) * aim
    line = LineString([middle + REACH_M * to_left, middle - REACH_M * to_left])
    inside = line.intersection(disc(diameter))
    first, last = (Point(at) for at in inside.coords)
    return (first, last) if first.y > last.y else (last, first)


def cut_away(diameter: float, notch: float, right_rad: float) -> tuple[float, float]:
    """Depth at the left end to be added, and depth of the notch then, by intersection."""
    left, right = apex_ends(diameter, notch, right_rad)
    wanted = LineString([(right.x, -REACH_M), (right.x, REACH_M)])
    stump = disc(diameter)
    axis = LineString([(-REACH_M, 0.0), (REACH_M, 0.0)])
    front = stump.intersection(axis).bounds[2]
    return left.distance(wanted), front - wanted.intersection(axis).x


ROWS = [
    *(
        Row(
            function=f"aim_error.{name}",
            inputs={"diameter_m": case[0], "notch_m": case[1], "error_rad": case[2]},
            expected=cut_away(*case)[place],
            kind=SECOND_METHOD,
            source="shapely",
            place=f"intersection and distance of lines on a disc: {label}",
            mark="DERIVED",
            tolerance=1e-6,
            why="a disc of 16,384 sides",
        )
        for label, case in CASES.items()
        for place, name in enumerate(("notch_correction_m", "corrected_notch_m"))
    ),
    Row(
        function="aim_error.notch_correction_m",
        # Twelve and a half centimetres deep, a stump of 40 cm has a chord of 37.1 cm.
        inputs={"diameter_m": 0.40, "notch_m": 0.125, "error_rad": math.radians(1.0)},
        expected=0.0065,
        kind=HAND,
        source="trade rule: one degree over 37 cm is 6.5 mm",
        place="370 mm times the tangent of one degree",
        mark="PRACTICE",
        tolerance=0.01,
        why="given to a tenth of a millimetre",
    ),
    Row(
        function="aim_error.aim_error_rad",
        inputs={"beside_m": 1.3, "distance_m": 25.0},
        expected=float(np.angle(complex(25.0, 1.3))),
        kind=SECOND_METHOD,
        source="numpy",
        place="numpy.angle of the sight as a complex number",
        mark="DERIVED",
        tolerance=1e-12,
        why="geometry",
    ),
    Row(
        function="aim_error.miss_m",
        inputs={"reach_m": 25.0, "error_rad": math.radians(3.0)},
        expected=LineString([(0.0, 0.0), (40.0, 0.0)]).distance(
            Point(25.0 * math.cos(math.radians(3.0)), 25.0 * math.sin(math.radians(3.0)))
        ),
        kind=SECOND_METHOD,
        source="shapely",
        place="distance of a point from the lay",
        mark="DERIVED",
        tolerance=1e-12,
        why="geometry",
    ),
]


@pytest.mark.parametrize("label", CASES)
def test_an_aim_to_the_right_is_mended_on_the_left_alone(label: str) -> None:
    """Cutting the left of the old apex line squares it; cutting the right would turn it further."""
    diameter, notch, error = CASES[label]
    left, right = apex_ends(diameter, notch, error)
    assert left.x > right.x, "the left end stands further forward"
    mended = Point(left.x - notch_correction_m(diameter, notch, error), left.y)
    along = np.array([mended.x - right.x, mended.y - right.y])
    square = np.array([1.0, 0.0])
    assert float(along @ square) == pytest.approx(0.0, abs=1e-6)
    # The same wood taken on the right instead doubles the error.
    spoilt = np.array([left.x - (right.x - notch_correction_m(diameter, notch, error)), 0.0])
    assert spoilt[0] > 1.9 * (left.x - right.x)


@pytest.mark.parametrize("label", CASES)
def test_the_mended_notch_holds_all_of_the_old_one(label: str) -> None:
    """Wood is only taken away: the old notch lies within the new one, at the pivot they touch."""
    diameter, notch, error = CASES[label]
    stump = disc(diameter)
    left, right = apex_ends(diameter, notch, error)
    slope = np.array([left.x - right.x, left.y - right.y])
    slope = slope / np.linalg.norm(slope)
    middle = np.array([right.x, right.y])
    ahead = np.array([slope[1], -slope[0]])
    corners = [
        middle - REACH_M * slope,
        middle + REACH_M * slope,
        middle + REACH_M * slope + REACH_M * ahead,
        middle - REACH_M * slope + REACH_M * ahead,
    ]
    old = Polygon(corners).intersection(stump)
    at = 0.5 * diameter - corrected_notch_m(diameter, notch, error)
    new = Polygon([(at, -9.0), (at, 9.0), (9.0, 9.0), (9.0, -9.0)]).intersection(stump)
    assert old.difference(new).area <= 1e-6 * old.area
    assert new.area > old.area
