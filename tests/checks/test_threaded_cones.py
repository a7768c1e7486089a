"""Threaded cones against the work of one turn, a free body summed round the thread, and by hand."""

import math
from typing import Any

import numpy as np
import pytest
from scipy.integrate import quad
from shapely.geometry import LineString, Point
from shapely.ops import split
from tests.checks.rows import HAND, SECOND_METHOD, TABLE_ROW, Row

from fellwright.physics import threaded_cone

pytestmark = pytest.mark.check

HALF = math.radians(6.0)
CONE = {"radius_m": 0.018, "pitch_m": 0.006, "half_angle_rad": HALF, "mu": 0.3}
OTHER = {"radius_m": 0.022, "pitch_m": 0.005, "half_angle_rad": math.radians(4.0), "mu": 0.18}


def _turn_work_n_m(push: float, cone: dict[str, float]) -> float:
    """Torque from the work of one turn, friction and lift added up along it."""
    b, r = cone["half_angle_rad"], cone["radius_m"]
    normal = push / math.cos(b)
    friction = 2.0 * quad(lambda _: cone["mu"] * normal * r, 0.0, 2.0 * math.pi)[0]
    rise = cone["pitch_m"] * math.tan(b)
    return float((friction + push * 2.0 * rise) / (2.0 * math.pi))


def _axial_n(push: float, cone: dict[str, float]) -> float:
    """Pull along the axis from vectors: x along the axis, y round the cone, z across the cut."""
    b = cone["half_angle_rad"]
    lead = math.atan2(cone["pitch_m"], 2.0 * math.pi * cone["radius_m"])
    # The wood presses back square to the cone; friction runs against the thread's own path.
    normal = push / math.cos(b) * np.array([-math.sin(b), 0.0, -math.cos(b)])
    path = np.array([math.sin(lead), math.cos(lead), 0.0])
    friction = -cone["mu"] * push / math.cos(b) * path
    return float(-2.0 * (normal + friction)[0])


def _segment_m2(radius: float, depth: float) -> float:
    """Area that a flat face cuts off a circle, with many straight sides."""
    circle = Point(0.0, 0.0).buffer(radius, quad_segs=4096)
    face = LineString([(-2.0 * radius, radius - depth), (2.0 * radius, radius - depth)])
    return float(min(part.area for part in split(circle, face).geoms))


def _row(function: str, inputs: dict[str, Any], expected: float, **more: Any) -> Row:
    given: dict[str, Any] = {
        "kind": HAND,
        "source": "hand",
        "mark": "OWN",
        "tolerance": 0.01,
        "why": "rounded as worked by hand",
    }
    return Row(
        function=f"threaded_cone.{function}", inputs=inputs, expected=expected, **(given | more)
    )


def _second(function: str, inputs: dict[str, Any], expected: float, place: str) -> Row:
    return _row(
        function,
        inputs,
        expected,
        kind=SECOND_METHOD,
        source=place.split(".", maxsplit=1)[0],
        place=place,
        mark="DERIVED",
        tolerance=1e-6,
        why="the same mechanics by another route",
    )


ROWS = [
    _row("cone_torque_n_m", {"push_n": 20e3, **CONE}, 221.0, place="20 kN, r 18, p 6, b 6 deg"),
    _row("cone_efficiency_ratio", CONE, 0.018, place="4.0 of 221 N.m", tolerance=0.02),
    _row("pull_needed_n", {"push_n": 20e3, **CONE}, 4.8e3, place="40 kN x (0.105 + 0.016)"),
    _row(
        "flank_bearing_n",
        {"flank_pa": 3e6, "depth_m": 0.003, "arc_m": 0.015, "turns": 12.0},
        3.24e3,
        place="3 MPa x 3 x 15 mm x 12 turns x 2",
        tolerance=1e-9,
        why="45 mm2 x 24 x 3 N/mm2 = 3240 N",
    ),
    _row(
        "rib_shear_n",
        {"shear_pa": 5e6, "pitch_m": 0.006, "arc_m": 0.015, "turns": 12.0, "share": 0.5},
        5.4e3,
        place="5 MPa x half of 6 mm x 15 mm x 12 turns x 2",
        tolerance=1e-9,
        why="45 mm2 x 24 x 5 N/mm2 = 5400 N",
    ),
    _row(
        "thread_hold_n",
        {"rib_n": 5.4e3, "flank_n": 3.24e3},
        3.24e3,
        place="the flanks rule",
        tolerance=0.0,
        why="the lesser of both",
    ),
    _row("cone_lift_m", {"radius_gained_m": 0.01}, 0.02, place="both faces", tolerance=1e-12),
    _row(
        "lift_per_turn_m",
        {"pitch_m": 0.006, "half_angle_rad": HALF},
        1.261e-3,
        place="12 mm x 0.1051",
        tolerance=1e-3,
    ),
    *(
        _second(name, {"push_n": push, **cone}, expected(push, cone), place)
        for push, cone in ((20e3, CONE), (35e3, OTHER))
        for name, expected, place in (
            (
                "cone_torque_n_m",
                _turn_work_n_m,
                f"scipy.integrate.quad over a turn at {push:.0f} N",
            ),
            (
                "pull_needed_n",
                _axial_n,
                f"numpy vectors of normal force and friction, {push:.0f} N",
            ),
        )
    ),
    _second(
        "push_from_torque_n",
        {"torque_n_m": _turn_work_n_m(14e3, OTHER), **OTHER},
        14e3,
        "scipy.integrate.quad over a turn, read backwards",
    ),
    _second(
        "push_from_pull_n",
        {"pull_n": _axial_n(14e3, OTHER), **OTHER},
        14e3,
        "numpy vectors, read backwards",
    ),
    *(
        _second(
            "groove_arc_m",
            {"radius_m": radius, "depth_m": depth},
            _segment_m2(radius, depth) / depth,
            f"shapely.ops.split of a circle of {1000 * radius:.0f} mm at {1000 * depth:.0f} mm",
        )
        for radius, depth in ((0.018, 0.003), (0.024, 0.004))
    ),
    _row(
        "groove_width_m",
        {"radius_m": 0.025, "depth_m": 0.010},
        0.040,
        place="radius 25, 10 mm deep",
        tolerance=1e-12,
        why="15, 20, 25: half the chord is 20",
    ),
    _row(
        "flank_strength_pa",
        {"along_pa": 20e6, "across_pa": 2e6, "flank_rad": math.radians(30.0)},
        2.581e6,
        place="P 20, Q 2, 60 degrees to the grain",
        tolerance=1e-3,
        why="40/(20 x 0.75 + 2 x 0.25) = 40/15.5",
    ),
    Row(
        function="threaded_cone.cone_is_self_retaining",
        inputs=CONE,
        expected=1.0,
        kind=TABLE_ROW,
        source="[Knobloch-2023]",
        place="abstract: the threaded cone holds itself",
        mark="SEEN",
        tolerance=0.0,
        why="yes or no",
    ),
]


def test_known_cone_strips_its_thread_before_it_reaches_20_kilonewtons() -> None:
    """r 18, p 6 mm, b 6 deg, mu .3: 4.8 kN of pull are asked for, 3.2 kN are held."""
    asked = threaded_cone.pull_needed_n(20e3, **CONE)
    held = threaded_cone.flank_bearing_n(3e6, 0.003, 0.015, 12.0)
    assert asked == pytest.approx(4.8e3, abs=60.0)
    assert held == pytest.approx(3.2e3, abs=50.0)
    assert threaded_cone.push_from_pull_n(held, **CONE) < 20e3


def test_arc_of_the_known_cone_is_about_15_millimetres() -> None:
    assert threaded_cone.groove_arc_m(0.018 + 0.0015, 0.003) == pytest.approx(0.015, abs=0.0015)
