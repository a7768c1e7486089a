"""Pull lines against vectors, printed block loads and the rule of twice the pull."""

import math
from typing import Any

import numpy as np
import pytest
from scipy.integrate import solve_ivp
from tests.checks.rows import HAND, SECOND_METHOD, TABLE_ROW, Row

from fellwright.physics import pull_line

pytestmark = pytest.mark.check

DOWN_N = 10e3
CASES = (
    # Tension, height, run, direction to the right of the lay [deg], fastening ahead of the hinge.
    (10e3, 8.0, 20.0, 0.0, 0.0),
    (15e3, 6.0, 25.0, 35.0, -0.3),
    (8e3, 12.0, 18.0, -90.0, 0.4),
)


def _line(tension: float, height: float, run: float, degrees: float, ahead: float) -> list[float]:
    """Moments of a force at the fastening about the hinge: x along the lay, y left, z up."""
    angle = math.radians(degrees)
    along = np.array([run * math.cos(angle), -run * math.sin(angle), -height])
    force = tension * along / np.linalg.norm(along)
    moment = np.cross(np.array([ahead, 0.0, height]), force)
    # Forward turns about +y, to the right about +x.
    return [float(moment[1]), float(moment[0]), float(-force[2])]


def _block_n(first: float, second: float, between_deg: float) -> float:
    angle = math.radians(between_deg)
    ends = first * np.array([1.0, 0.0]) + second * np.array([math.cos(angle), math.sin(angle)])
    return float(np.linalg.norm(ends))


def _wound(mu: float, wraps: float) -> float:
    """Tension along the arc: dT/dangle = mu T, integrated."""
    run = solve_ivp(lambda _, t: mu * t, (0.0, 2.0 * math.pi * wraps), [1.0], rtol=1e-10)
    return float(run.y[0, -1])


def _second(function: str, inputs: dict[str, Any], expected: Any, source: str, place: str) -> Row:
    return Row(
        function=f"pull_line.{function}",
        inputs=inputs,
        expected=expected,
        kind=SECOND_METHOD,
        source=source,
        place=place,
        mark="DERIVED",
        tolerance=1e-6,
        absolute=1e-6,
        why="same statics by another route, the rope round the trunk by stepwise integration",
    )


ROWS = [
    *(
        _second(
            "line_moments_n_m",
            {
                "tension_n": tension,
                "fastening_m": height,
                "run_m": run,
                "angle_rad": math.radians(degrees),
                "ahead_m": ahead,
            },
            _line(tension, height, run, degrees, ahead),
            "numpy",
            f"numpy.cross, {degrees:.0f} degrees off the lay",
        )
        for tension, height, run, degrees, ahead in CASES
    ),
    *(
        _second(
            "needed_tension_n",
            {
                "moment_n_m": _line(tension, height, run, 0.0, -behind)[0],
                "fastening_m": height,
                "run_m": run,
                "behind_m": behind,
            },
            tension,
            "numpy",
            f"numpy.cross read backwards, fastening {behind} m behind the hinge",
        )
        for tension, height, run, behind in ((10e3, 8.0, 20.0, 0.0), (4e3, 6.0, 25.0, 0.5))
    ),
    *(
        Row(
            function="pull_line.block_load_n",
            inputs={
                "tension_1_n": 1.0,
                "tension_2_n": 1.0,
                "between_rad": math.radians(degrees),
            },
            expected=load,
            kind=HAND,
            source="hand",
            place=f"2 T cos({degrees}/2)",
            mark="OWN",
            tolerance=0.0,
            absolute=0.0055,
            why="two equal parts of a rope, two decimals",
        )
        for degrees, load in ((0, 2.00), (60, 1.73), (90, 1.41), (120, 1.00))
    ),
    _second(
        "block_load_n",
        {"tension_1_n": 10e3, "tension_2_n": 9.4e3, "between_rad": math.radians(40.0)},
        _block_n(10e3, 9.4e3, 40.0),
        "numpy",
        "numpy.linalg.norm of the sum of both parts, 40 degrees",
    ),
    Row(
        function="pull_line.needed_strength_n",
        inputs={"largest_pull_n": 55e3},
        expected=110e3,
        kind=TABLE_ROW,
        source="[DGUV-114-018]",
        place="every part holds twice the greatest winch pull: 55 kN needs 110 kN",
        mark="SEEN",
        tolerance=0.0,
        why="the rule itself",
    ),
    Row(
        function="pull_line.rope_length_m",
        inputs={"fastening_m": 9.0, "run_m": 40.0, "spare_m": 5.0},
        expected=46.0,
        kind=HAND,
        source="hand",
        place="9, 40, 41 m and 5 m to spare",
        mark="OWN",
        tolerance=1e-12,
        why="81 + 1600 = 1681 = 41 squared",
    ),
    *(
        _second(
            "wraps_ratio",
            {"mu": mu, "wraps": wraps},
            _wound(mu, wraps),
            "scipy",
            f"scipy.integrate.solve_ivp round the trunk, {wraps} wraps at {mu}",
        )
        for mu, wraps in ((0.2, 3.0), (0.3, 0.5))
    ),
]


def test_ten_kilonewtons_at_eight_metres_give_the_known_moment_and_wedge_force() -> None:
    """74 kN.m from 20 m away, like a wedge of 225 kN at 0.33 m."""
    moment = pull_line.line_moments_n_m(10e3, 8.0, 20.0, 0.0).forward_n_m
    assert moment / 1000.0 == pytest.approx(74.0, abs=0.5)
    assert moment / 0.33 / 1000.0 == pytest.approx(225.0, abs=0.6)


def test_three_wraps_at_0_2_hold_43_to_one() -> None:
    assert pull_line.wraps_ratio(0.2, 3.0) == pytest.approx(43.0, abs=0.5)
