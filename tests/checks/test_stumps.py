"""Stump diameters and bark against published ratios and a measured bark model."""

import math

import pytest
from tests.checks.rows import SECOND_METHOD, TABLE_ROW, Row

from fellwright.physics import stump

pytestmark = pytest.mark.check

FOOT_M = 0.3048
# Group, A, B, C, over-bark ratio at 0.5 and 1 ft, inside-bark ratio at 1 ft.
RAILE = (
    ("soft maple, birch", 0.11585, 0.94181, 0.10740, 1.309, 1.203, 1.130),
    ("sugar maple, beech, oaks", 0.12798, 0.92267, 0.12506, 1.341, 1.224, 1.142),
    ("ash, basswood", 0.12766, 0.91979, 0.12152, 1.340, 1.223, 1.132),
    ("aspen, poplar", 0.09658, 0.91882, 0.08593, 1.258, 1.169, 1.069),
    ("fir, hemlock, tamarack", 0.12667, 0.91400, 0.11975, 1.338, 1.222, 1.124),
    ("spruces", 0.14525, 0.94804, 0.13722, 1.387, 1.254, 1.188),
    ("pines", 0.08091, 0.90698, 0.08469, 1.216, 1.142, 1.055),
)
RECOVERED = "coefficients recovered from stump-volume integrals that they reproduce"


def _raile_row(function: str, name: str, inputs: dict[str, float], expected: float) -> Row:
    return Row(
        function=f"stump.{function}",
        inputs=inputs,
        expected=expected,
        kind=SECOND_METHOD,
        source="second coding of the printed form",
        place=f"{name}, {inputs['height_m'] / FOOT_M:.1f} ft; {RECOVERED}",
        mark="DERIVED",
        tolerance=6e-4,
        why="kept to three decimals",
    )


def _double_bark_cm(dbh_cm: float, diameter_cm: float) -> float:
    """Double bark of Norway spruce, published as millimetres."""
    return (2.32391608 + 0.06830421 * dbh_cm + 0.39936183 * diameter_cm) / 10.0


ROWS = [
    *(
        _raile_row(
            "raile_1982_outside_ratio", name, {"height_m": height * FOOT_M, "a": a}, expected
        )
        for name, a, _, _, half_foot, foot, _ in RAILE
        for height, expected in ((0.5, half_foot), (1.0, foot))
    ),
    *(
        _raile_row("raile_1982_inside_ratio", name, {"height_m": FOOT_M, "b": b, "c": c}, expected)
        for name, _, b, c, _, _, expected in RAILE
    ),
    Row(
        function="stump.raile_1982_outside_ratio",
        inputs={"height_m": 1.3716, "a": 0.14525},
        expected=1.0,
        kind=TABLE_ROW,
        source="[Raile-1982]",
        place="breast height, 4.5 ft, where the form must give dbh",
        mark="SEEN",
        tolerance=1e-9,
        why="by definition of dbh",
    ),
    *(
        Row(
            function="stump.inside_bark_diameter_m",
            inputs={"over_bark_m": dbh / 100.0, "bark_volume_ratio": 0.1256},
            expected=(dbh - _double_bark_cm(dbh, dbh)) / 100.0,
            kind=TABLE_ROW,
            source="[Hansen-2023]",
            place=f"bark thickness model of its code, Norway spruce, breast height, {dbh} cm",
            mark="SEEN",
            tolerance=0.015,
            why="one bark share for all sizes (12.56 % of wood) against a model by diameter",
        )
        for dbh in (20.0, 30.0, 45.0)
    ),
]


def test_ring_of_bark_has_its_share_of_the_wood() -> None:
    inside = stump.inside_bark_diameter_m(0.50, 0.17)
    wood = math.pi / 4.0 * inside**2
    bark = math.pi / 4.0 * (0.50**2 - inside**2)
    assert bark / wood == pytest.approx(0.17, rel=1e-12)


@pytest.mark.parametrize(
    ("a", "low", "high"), [(0.14525, 1.16, 1.29), (0.08091, 1.16, 1.18), (0.12667, 1.08, 1.23)]
)
def test_conifer_stump_at_30_cm_lies_near_another_models_band(
    a: float, low: float, high: float
) -> None:
    """[Kublin-2003] at 0.3 m: spruce 1.16-1.29, pine 1.16-1.18, fir 1.08-1.23."""
    assert low - 0.03 < stump.raile_1982_outside_ratio(0.3, a) < high + 0.03


def test_hardwood_stump_is_10_percent_above_another_models() -> None:
    """The two sources disagree on beech (1.11-1.14), so a stump is measured where it can be."""
    found = stump.raile_1982_outside_ratio(0.3, 0.12798)
    assert 1.05 < found / 1.125 < 1.12
