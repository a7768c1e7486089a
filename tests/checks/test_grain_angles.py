"""Strength at an angle to the grain against a general criterion, and frost against its print."""

import math

import numpy as np
import pytest
from tests.checks.rows import HAND, SECOND_METHOD, TABLE_ROW, Row

from fellwright.physics.grain_angle import hankinson_pa

pytestmark = pytest.mark.check


def _quadratic_pa(along: float, across: float, angle: float) -> float:
    """Strength by a quadratic criterion in rotated stresses.

    Its shear strength is the one that makes the criterion a square: 1/S^2 = 1/P^2 + 2/(P Q).
    """
    shear = 1.0 / along**2 + 2.0 / (along * across)
    coupling = 0.5 * (shear - 1.0 / along**2)
    matrix = np.array([[1.0 / along**2, coupling], [coupling, 1.0 / across**2]])
    stress = np.array([math.cos(angle) ** 2, math.sin(angle) ** 2])
    return float(1.0 / math.sqrt(stress @ matrix @ stress))


ROWS = [
    *(
        Row(
            function="grain_angle.hankinson_pa",
            inputs={"along_pa": 20e6, "across_pa": 4e6, "angle_rad": math.radians(degrees)},
            expected=_quadratic_pa(20e6, 4e6, math.radians(degrees)),
            kind=SECOND_METHOD,
            source="numpy",
            place=f"quadratic failure criterion in rotated stresses at {degrees} degrees",
            mark="DERIVED",
            tolerance=1e-9,
            why="the two agree for one shear strength",
        )
        for degrees in (0, 15, 45, 70, 90)
    ),
    Row(
        function="grain_angle.hankinson_pa",
        inputs={"along_pa": 20e6, "across_pa": 4e6, "angle_rad": math.radians(45.0)},
        expected=6.6667e6,
        kind=HAND,
        source="hand",
        place="P 20, Q 4, 45 degrees",
        mark="OWN",
        tolerance=1e-4,
        why="80/(10 + 2) = 6.667",
    ),
    Row(
        function="grain_angle.hankinson_pa",
        inputs={"along_pa": 1.0, "across_pa": 0.40, "angle_rad": math.atan(1.0 / 5.0)},
        expected=0.93,
        kind=TABLE_ROW,
        source="[FPL-GTR-282]",
        place="Table 5-12, compression along the grain, slope of grain 1 in 5",
        mark="MEMORY",
        tolerance=0.03,
        why="two digits in print, all species together; Q/P 0.40 is the upper end",
    ),
]


def test_exponent_moves_nothing_along_or_across() -> None:
    for exponent in (1.5, 2.0, 2.5):
        assert hankinson_pa(20e6, 4e6, 0.0, exponent) == pytest.approx(20e6)
        assert hankinson_pa(20e6, 4e6, 0.5 * math.pi, exponent) == pytest.approx(4e6)
