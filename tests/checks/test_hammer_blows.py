"""Hammer blows against a pile-set sheet, a collision solved by numpy, and energy marched."""

import math
from typing import Any

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.optimize import brentq
from tests.checks.free_bodies import wedge_thrust_n
from tests.checks.rows import HAND, SECOND_METHOD, WORKED_EXAMPLE, Row

from fellwright.physics import hammer_blow

pytestmark = pytest.mark.check

STIFFNESS = 1e7


def _share_after_collision(hammer_kg: float, wedge_kg: float, restitution: float) -> float:
    """Kinetic energy of both bodies after a straight collision, over that before it."""
    after = np.linalg.solve(
        np.array([[hammer_kg, wedge_kg], [-1.0, 1.0]]), np.array([hammer_kg, restitution])
    )
    left: float = float(hammer_kg * after[0] ** 2 + wedge_kg * after[1] ** 2)
    return left / hammer_kg


def _advance_m(energy_j: float, thrust: float) -> float:
    """Slip of a spring and a slider in series: what the spring has not taken, the slider has."""
    stretch = thrust / STIFFNESS
    in_spring = quad(lambda x: STIFFNESS * x, 0.0, stretch)[0]
    return max(0.0, float(energy_j - in_spring) / thrust)


def _blows(lift_m: float, push_n: float, mu: float, energy_j: float) -> float:
    five = math.radians(5.0)
    travel = lift_m / (2.0 * math.tan(five))
    return travel / _advance_m(energy_j, wedge_thrust_n(push_n, five, five, mu, mu))


def _second(function: str, inputs: dict[str, Any], expected: float, source: str, place: str) -> Row:
    return Row(
        function=f"hammer_blow.{function}",
        inputs=inputs,
        expected=expected,
        kind=SECOND_METHOD,
        source=source,
        place=place,
        mark="DERIVED",
        tolerance=1e-9,
        why="same mechanics by another route",
    )


# Energy of a blow that stalls at a thrust of 43 kN on a stiffness of 1e7 N/m.
STALLING = 43e3**2 / (2.0 * STIFFNESS)

ROWS = [
    Row(
        function="hammer_blow.pile_resistance_n",
        inputs={"energy_j": 0.85 * 15e3 * 0.6 * 0.67, "set_m": 0.025, "elastic_m": 0.01525},
        expected=157.40e3,
        kind=WORKED_EXAMPLE,
        source="[Pile-Set-Sheet]",
        place="15 kN falling 600 mm, hammer 0.85, blow 0.67, set 25 mm, compression 15.25 mm",
        mark="SEEN",
        tolerance=0.0075,
        why="the sheet prints its blow efficiency, 0.67 from a table, with two digits",
    ),
    Row(
        function="hammer_blow.blow_energy_j",
        inputs={"hammer_kg": 3.5, "speed_m_per_s": 8.0},
        expected=112.0,
        kind=HAND,
        source="hand",
        place="3.5 x 64/2",
        mark="OWN",
        tolerance=1e-12,
        why="exact",
    ),
    *(
        _second(
            "blow_share_ratio",
            {"hammer_kg": hammer, "wedge_kg": wedge, "restitution": e},
            _share_after_collision(hammer, wedge, e),
            "numpy collision",
            f"numpy.linalg.solve of momentum and restitution, {hammer} kg on {wedge} kg, e {e}",
        )
        for hammer, wedge, e in ((3.0, 0.8, 0.3), (1.5, 0.02, 0.0), (15.0, 12.2, 0.25))
    ),
    _second(
        "stall_thrust_n",
        {"energy_j": 94.0, "stiffness_n_per_m": STIFFNESS},
        brentq(lambda p: quad(lambda x: STIFFNESS * x, 0.0, p / STIFFNESS)[0] - 94.0, 1.0, 1e6),
        "scipy",
        "scipy.optimize.brentq: thrust whose spring takes the whole blow",
    ),
    *(
        _second(
            "advance_per_blow_m",
            {"energy_j": 93.0, "thrust": thrust, "stiffness_n_per_m": STIFFNESS},
            _advance_m(93.0, thrust),
            "scipy",
            f"scipy.integrate.quad of the spring, thrust {thrust:.0f} N",
        )
        for thrust in (9.6e3, 30e3, 60e3)
    ),
    *(
        _second(
            "blows_count",
            {
                "lift_m": 0.02,
                "push_n": push,
                "total_angle_rad": math.radians(10.0),
                "mu": mu,
                "energy_j": STALLING,
                "stiffness_n_per_m": STIFFNESS,
            },
            _blows(0.02, push, mu, STALLING),
            "numpy free body and spring",
            f"numpy.linalg.solve, 10 degrees, {push:.0f} N, friction {mu}",
        )
        for push, mu in ((20e3, 0.15), (40e3, 0.30))
    ),
]


def test_pile_sheet_that_prints_its_own_efficiency_uses_another_than_its_formula() -> None:
    """The sheet's heading has (W + e^2 Wp)/(W + Wp); its 0.67 is read from a table, not from that.

    With its weights (15 and 12.2 kN) and e = 0.25 the formula gives 0.58, so the sheet checks the
    energy balance only, not the share.
    """
    assert hammer_blow.blow_share_ratio(15.0, 12.2, 0.25) == pytest.approx(0.580, abs=0.001)


@pytest.mark.parametrize(
    ("push_kn", "mu", "blows"),
    [(20.0, 0.15, 13), (20.0, 0.30, 23), (40.0, 0.15, 30), (40.0, 0.30, 86), (60.0, 0.15, 65)],
)
def test_blows_through_20_mm_are_the_known_ones(push_kn: float, mu: float, blows: int) -> None:
    """3.5 kg at 8 m/s stalling at 43 kN, 10 degree wedge: 13, 23, 30, 86, 65 blows and never."""
    found = hammer_blow.blows_count(
        0.02, push_kn * 1000.0, math.radians(10.0), mu, STALLING, STIFFNESS
    )
    # 43 kN is rounded: half a kilonewton is 2.3 % of the energy, more near the stall.
    assert found == pytest.approx(blows, rel=0.04)


def test_hard_push_at_high_friction_stalls_for_good() -> None:
    found = hammer_blow.blows_count(0.02, 60e3, math.radians(10.0), 0.30, STALLING, STIFFNESS)
    assert found == math.inf
