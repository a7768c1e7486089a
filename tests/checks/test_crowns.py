"""Crowns against the published mass model, weighed crowns and numerical integration."""

import math
from typing import Any

import pytest
from scipy.integrate import quad
from tests.checks.rows import HAND, MEASURED, SECOND_METHOD, Row

from fellwright.physics import crown

pytestmark = pytest.mark.check

# Species, width intercept and slope, depth intercept and slope, crown density [kg/m3]; then dbh,
# height, and what a second coding of the published mass model gives: width, depth, crown mass.
MODEL = (
    ("Norway spruce", 0.5824, 0.1150, 0.4206, 0.4368, 2.5, 35, 27, 4.61, 12.21, 170),
    ("Norway spruce", 0.5824, 0.1150, 0.4206, 0.4368, 2.5, 20, 18, 2.88, 8.28, 45),
    ("Sitka spruce", 0.6418, 0.1346, 2.4682, 0.3667, 2.5, 35, 27, 5.35, 12.37, 232),
    ("Douglas-fir", 1.83, 0.1092, 1.1044, 0.4811, 2.5, 50, 32, 7.29, 16.5, 574),
    ("Scots pine", 0.7005, 0.1198, 1.3424, 0.3156, 2.5, 35, 27, 4.89, 9.86, 155),
    ("beech", 0.88, 0.18, 0.90, 0.47, 1.38, 35, 27, 7.18, 13.59, 253),
    ("oak", 0.36, 0.19, 1.41, 0.40, 1.38, 35, 27, 7.01, 12.21, 217),
)
# Hinoki, fresh: stem, branches and leaves [kg], crown share.
FRESH = (
    (1, 67.36, 6.82, 15.23, 0.247),
    (7, 73.63, 7.61, 14.04, 0.227),
    (13, 26.51, 2.53, 4.75, 0.215),
)


def _radius_m(z: float, width_m: float, depth_m: float) -> float:
    """Radius of two cones base to base at a height above the crown base."""
    return width_m / 2.0 * (1.0 - abs(z - depth_m / 2.0) / (depth_m / 2.0))


def _volume_m3(width_m: float, depth_m: float) -> float:
    def area(z: float) -> float:
        return math.pi * _radius_m(z, width_m, depth_m) ** 2

    return float(quad(area, 0.0, depth_m, points=[depth_m / 2.0])[0])


def _centre_m(width_m: float, depth_m: float) -> float:
    def moment(z: float) -> float:
        return z * math.pi * _radius_m(z, width_m, depth_m) ** 2

    first = float(quad(moment, 0.0, depth_m, points=[depth_m / 2.0])[0])
    return first / _volume_m3(width_m, depth_m)


def _shadow_m2(width_m: float, depth_m: float) -> float:
    def breadth(z: float) -> float:
        return 2.0 * _radius_m(z, width_m, depth_m)

    return float(quad(breadth, 0.0, depth_m, points=[depth_m / 2.0])[0])


def _second(function: str, inputs: dict[str, Any], expected: float, place: str, **more: Any) -> Row:
    given: dict[str, Any] = {"source": "scipy", "tolerance": 1e-9, "why": "quadrature"}
    return Row(
        function=f"crown.{function}",
        inputs=inputs,
        expected=expected,
        kind=SECOND_METHOD,
        place=place,
        mark="DERIVED",
        **(given | more),
    )


CODING = {"source": "published mass model, second coding", "tolerance": 0.0, "why": "two decimals"}

ROWS = [
    *(
        _second(
            "linear_allometry_m",
            {"intercept_m": p0, "slope": p1, "size": float(dbh)},
            width,
            f"crown width of {name}, {dbh} cm",
            absolute=0.0055,
            **CODING,
        )
        for name, p0, p1, _, _, _, dbh, _, width, _, _ in MODEL
    ),
    *(
        _second(
            "linear_allometry_m",
            {"intercept_m": q0, "slope": q1, "size": float(height)},
            depth,
            f"crown depth of {name}, {height} m",
            absolute=0.0055,
            **CODING,
        )
        for name, _, _, q0, q1, _, _, height, _, depth, _ in MODEL
    ),
    *(
        _second(
            "double_cone_volume_m3",
            {"width_m": width, "depth_m": depth},
            mass / density,
            f"crown mass over crown density of {name}, {dbh} cm and {height} m",
            source="published mass model, second coding",
            tolerance=0.015,
            why="masses kept to the kilogram, widths to the centimetre",
        )
        for name, _, _, _, _, density, dbh, height, width, depth, mass in MODEL
    ),
    _second(
        "double_cone_volume_m3",
        {"width_m": 5.2, "depth_m": 14.0},
        _volume_m3(5.2, 14.0),
        "scipy.integrate.quad of the discs",
    ),
    _second(
        "crown_centre_height_m",
        {"height_m": 25.0, "crown_depth": 14.0},
        11.0 + _centre_m(5.2, 14.0),
        "scipy.integrate.quad of first moments, crown from 11 to 25 m",
    ),
    _second(
        "frontal_area_m2",
        {"width_m": 5.2, "depth_m": 14.0},
        _shadow_m2(5.2, 14.0),
        "scipy.integrate.quad of the breadths",
    ),
    *(
        Row(
            function="crown.mass_from_share_kg",
            inputs={"stem_kg": stem, "crown_share": share},
            expected=branches + leaves,
            kind=MEASURED,
            source="[BAAD-2015]",
            place=f"14 hinoki weighed fresh, Mori and Hagihara 1991, tree {tree}",
            mark="SEEN",
            tolerance=4e-3,
            why="share kept to three decimals",
        )
        for tree, stem, branches, leaves, share in FRESH
    ),
    Row(
        function="crown.crown_width_m",
        inputs={"crown_radius_m": 2.6},
        expected=5.2,
        kind=HAND,
        source="hand",
        place="2 x 2.6",
        mark="OWN",
        tolerance=1e-12,
        why="a width is two radii",
    ),
    Row(
        function="crown.crown_depth_m",
        inputs={"height_m": 25.0, "crown_base_m": 11.0},
        expected=14.0,
        kind=HAND,
        source="hand",
        place="25 - 11",
        mark="OWN",
        tolerance=1e-12,
        why="from the base to the top",
    ),
]


@pytest.mark.parametrize(
    "case", [row for row in MODEL if row[6] == 35], ids=lambda row: f"{row[0]}"
)
def test_crown_mass_of_the_model_follows_from_the_allometry(case: tuple[Any, ...]) -> None:
    _, p0, p1, q0, q1, density, dbh, height, _, _, mass = case
    width = crown.linear_allometry_m(p0, p1, dbh)
    depth = crown.linear_allometry_m(q0, q1, height)
    assert density * crown.double_cone_volume_m3(width, depth) == pytest.approx(mass, abs=0.6)
