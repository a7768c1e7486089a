"""Hydraulic rams by hand, against vectors and against the turned roof of the cut."""

import math
from typing import Any

import numpy as np
import pytest
from scipy.optimize import brentq
from tests.checks.rows import HAND, SECOND_METHOD, Row

pytestmark = pytest.mark.check


def _slip_n(force: float, opening: float, mu: float) -> float:
    """Force along the turned face less what friction holds there, as vectors."""
    push = np.array([0.0, force])
    along = np.array([math.cos(opening), math.sin(opening)])
    square = np.array([-math.sin(opening), math.cos(opening)])
    return max(0.0, float(push @ along - mu * (push @ square)))


def _edge_m(plate: float, opening: float) -> float:
    """Depth to which the edge sinks until the whole plate bears, by root search on the angle."""
    return float(
        brentq(lambda depth: math.atan2(depth, plate) - opening, 0.0, 10.0 * plate, xtol=1e-14)
    )


def _row(function: str, inputs: dict[str, Any], expected: float, place: str, why: str) -> Row:
    return Row(
        function=f"ram.{function}",
        inputs=inputs,
        expected=expected,
        kind=HAND,
        source="hand",
        place=place,
        mark="OWN",
        tolerance=0.01,
        why=why,
    )


def _second(function: str, inputs: dict[str, Any], expected: float, place: str) -> Row:
    return Row(
        function=f"ram.{function}",
        inputs=inputs,
        expected=expected,
        kind=SECOND_METHOD,
        source=place.split(".", maxsplit=1)[0],
        place=place,
        mark="DERIVED",
        tolerance=1e-9,
        why="another route",
    )


ROWS = [
    _row(
        "ram_force_n",
        {"pressure_pa": 70e6, "piston_m": 0.030},
        49e3,
        "700 bar on 30 mm",
        "70 N/mm2 x 707 mm2 = 49.5 kN, known as 49",
    ),
    _row(
        "gauge_pressure_pa",
        {"force_n": 49.48e3, "piston_m": 0.030},
        70e6,
        "49.5 kN on 30 mm",
        "the same, backwards",
    ),
    _row(
        "ram_bearing_n",
        {"crushing_pa": 20e6, "base_m2": 0.008, "head_m2": 0.0048, "contact_share": 0.7},
        67.2e3,
        "head 80 x 60 mm, base larger",
        "4800 mm2 x 20 x 0.7",
    ),
    _row(
        "ram_lift_m",
        {"stroke_m": 0.040, "bedding_m": 0.004, "edge_m": 0.003, "sat_back_m": 0.008},
        0.025,
        "40 mm less 4, 3 and a kerf of 8",
        "subtraction",
    ),
    *(
        _second(
            "side_slip_n",
            {"force_n": 50e3, "opening_rad": math.radians(degrees), "mu": mu},
            _slip_n(50e3, math.radians(degrees), mu),
            f"numpy vectors at {degrees} degrees, friction {mu}",
        )
        for degrees, mu in ((5.0, 0.05), (5.0, 0.2), (12.0, 0.1))
    ),
    *(
        _second(
            "slips_sideways",
            {"opening_rad": math.radians(degrees), "mu": mu},
            float(_slip_n(50e3, math.radians(degrees), mu) > 0.0),
            f"numpy vectors at {degrees} degrees, friction {mu}, yes or no",
        )
        for degrees, mu in ((5.0, 0.05), (5.0, 0.2))
    ),
    _second(
        "edge_loss_m",
        {"plate_m": 0.08, "opening_rad": math.radians(4.0)},
        _edge_m(0.08, math.radians(4.0)),
        "scipy.optimize.brentq on the angle of the face",
    ),
]
