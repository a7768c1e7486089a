"""Redirect block and doubled line against vectors, and the inner angle against polygons."""

import math
from typing import Any

import numpy as np
import pytest
from shapely.geometry import Point, Polygon
from tests.checks.rows import HAND, SECOND_METHOD, Row

from fellwright.physics import pull_line

pytestmark = pytest.mark.check


def _load_n(line: float, inner_deg: float, sheave: float) -> float:
    angle = math.radians(inner_deg)
    parts = line * np.array([1.0, 0.0]) + line / sheave * np.array(
        [math.cos(angle), math.sin(angle)]
    )
    return float(np.linalg.norm(parts))


def _sector(first_deg: float, second_deg: float, reach: float) -> Polygon:
    angles = np.radians(np.linspace(first_deg, second_deg, 400))
    return Polygon([(0.0, 0.0), *zip(reach * np.cos(angles), reach * np.sin(angles), strict=True)])


PLACES = ((10.0, 3.0), (10.0, -3.0), (-5.0, 2.0), (25.0, 15.0), (1.0, 8.0), (12.0, 12.0))


def _row(function: str, inputs: dict[str, Any], expected: float, place: str, **more: Any) -> Row:
    given: dict[str, Any] = {
        "kind": SECOND_METHOD,
        "source": "numpy",
        "mark": "DERIVED",
        "tolerance": 1e-9,
        "why": "sum of the two parts as vectors",
    }
    return Row(
        function=f"pull_line.{function}",
        inputs=inputs,
        expected=expected,
        place=place,
        **(given | more),
    )


BY_HAND: dict[str, Any] = {"kind": HAND, "source": "hand", "mark": "OWN", "tolerance": 1e-3}

ROWS = [
    *(
        _row(
            "redirected_block_load_n",
            {"line_n": 10e3, "inner_rad": math.radians(degrees), "sheave": sheave},
            _load_n(10e3, degrees, sheave),
            f"numpy.linalg.norm of both parts, inner angle {degrees}, sheave {sheave}",
        )
        for degrees, sheave in ((0.0, 0.92), (60.0, 0.92), (90.0, 0.96), (120.0, 1.0))
    ),
    _row(
        "redirected_pull_n",
        {"line_n": 9.2e3, "sheave": 0.92},
        10e3,
        "9.2 kN behind a sheave of 0.92",
        why="9.2/0.92",
        **BY_HAND,
    ),
    _row(
        "doubled_pull_n",
        {"puller_n": 1.6, "sheave": 0.92},
        3.072,
        "a puller of 1.6 t, doubled",
        why="1.6 x 1.92: about 3 t net",
        **BY_HAND,
    ),
    _row(
        "doubled_anchor_load_n",
        {"puller_n": 1.6},
        3.2,
        "a puller of 1.6 t, doubled",
        why="twice the pull",
        **BY_HAND,
    ),
    *(
        _row(
            "is_in_inner_angle",
            {
                "x_m": x,
                "y_m": y,
                "first_rad": 0.0,
                "second_rad": math.radians(70.0),
                "reach_m": 22.0,
            },
            float(_sector(0.0, 70.0, 22.0).contains(Point(x, y))),
            f"shapely.geometry.Polygon holds the place {x:.0f}, {y:.0f} or not",
            source="shapely",
            why="yes or no",
        )
        for x, y in PLACES
    ),
]


def test_either_order_of_the_two_parts_is_the_same_angle() -> None:
    for x, y in PLACES:
        one = pull_line.is_in_inner_angle(x, y, 2.9, -2.6, 30.0)
        assert one == pull_line.is_in_inner_angle(x, y, -2.6, 2.9, 30.0)
        assert one == _sector(math.degrees(2.9), 360.0 - math.degrees(2.6), 30.0).contains(
            Point(x, y)
        )


def test_printed_block_loads_hold_without_friction() -> None:
    for degrees, load in ((0, 2.00), (60, 1.73), (90, 1.41), (120, 1.00)):
        got = pull_line.redirected_block_load_n(1.0, math.radians(degrees), 1.0)
        assert got == pytest.approx(load, abs=0.0055)
