"""Wedges between two faces against free bodies solved as linear equations."""

import math
from typing import Any

import pytest
from tests.checks.free_bodies import wedge_thrust_n
from tests.checks.rows import SECOND_METHOD, Row

from fellwright.physics import wedge_face

pytestmark = pytest.mark.check

FIVE = math.radians(5.0)
SOLVE = "numpy free body"
HOLDING = ((0.05, 5.7), (0.10, 11.4), (0.15, 17.1), (0.20, 22.6))
CASES = ((5.0, 5.0, 0.15, 0.15), (8.0, 0.0, 0.30, 0.10), (3.0, 6.0, 0.08, 0.25))


def _row(function: str, inputs: dict[str, Any], expected: float, place: str, **more: Any) -> Row:
    given: dict[str, Any] = {"tolerance": 1e-10, "why": "same statics, solved as linear equations"}
    return Row(
        function=f"wedge_face.{function}",
        inputs=inputs,
        expected=expected,
        kind=SECOND_METHOD,
        source=SOLVE,
        place=place,
        mark="DERIVED",
        **(given | more),
    )


def _faces(case: tuple[float, float, float, float]) -> dict[str, Any]:
    first, second, mu_1, mu_2 = case
    return {
        "angle_1": math.radians(first),
        "angle_2": math.radians(second),
        "mu_1": mu_1,
        "mu_2": mu_2,
    }


def _holding_angle(mu: float) -> float:
    """Angle at which the pull-out force of the free body is nil, by bisection."""
    low, high = 0.0, math.radians(80.0)
    for _ in range(80):
        middle = 0.5 * (low + high)
        if wedge_thrust_n(1.0, middle / 2.0, middle / 2.0, mu, mu, out=True) > 0.0:
            low = middle
        else:
            high = middle
    return low


def _efficiency(mu: float) -> float:
    return 2.0 * math.tan(FIVE) / wedge_thrust_n(1.0, FIVE, FIVE, mu, mu)


ROWS = [
    *(
        _row(
            "thrust_n",
            {"lift_n": 40e3, **_faces(case)},
            wedge_thrust_n(40e3, **_faces(case)),
            f"numpy.linalg.solve, driving in, {case}",
        )
        for case in CASES
    ),
    *(
        _row(
            "pull_out_n",
            {"lift_n": 40e3, **_faces(case)},
            wedge_thrust_n(40e3, **_faces(case), out=True),
            f"numpy.linalg.solve, pulling out, {case}",
        )
        for case in CASES
    ),
    _row(
        "lift_from_thrust_n",
        {"thrust": wedge_thrust_n(25e3, **_faces(CASES[2])), **_faces(CASES[2])},
        25e3,
        "numpy.linalg.solve, thrust for 25 kN read backwards",
    ),
    *(
        _row(
            "largest_holding_angle_rad",
            {"mu": mu},
            _holding_angle(mu),
            f"bisection on the pull-out force, friction {mu}",
        )
        for mu, _ in HOLDING
    ),
    _row(
        "holds_at_rest",
        {"angle_rad": math.radians(11.0), "mu": 0.10},
        float(wedge_thrust_n(1.0, math.radians(5.5), math.radians(5.5), 0.1, 0.1, out=True) > 0.0),
        "sign of the pull-out force, 11 degrees at 0.10",
    ),
    _row(
        "holds_at_rest",
        {"angle_rad": math.radians(12.0), "mu": 0.10},
        float(wedge_thrust_n(1.0, math.radians(6.0), math.radians(6.0), 0.1, 0.1, out=True) > 0.0),
        "sign of the pull-out force, 12 degrees at 0.10",
    ),
    *(
        _row(
            "wedge_efficiency_ratio",
            {"angle_1": FIVE, "angle_2": FIVE, "mu_1": mu, "mu_2": mu},
            _efficiency(mu),
            f"work across over work along, friction {mu}",
        )
        for mu in (0.15, 0.30)
    ),
]


@pytest.mark.parametrize(("mu", "degrees"), HOLDING)
def test_largest_holding_angles_are_the_known_ones(mu: float, degrees: float) -> None:
    found = math.degrees(wedge_face.largest_holding_angle_rad(mu))
    assert found == pytest.approx(degrees, abs=0.06)


@pytest.mark.parametrize(("mu", "percent"), [(0.15, 36.0), (0.30, 22.0)])
def test_ten_degree_wedge_has_the_known_efficiency(mu: float, percent: float) -> None:
    found = 100.0 * wedge_face.wedge_efficiency_ratio(FIVE, FIVE, mu, mu)
    assert found == pytest.approx(percent, abs=0.5)
