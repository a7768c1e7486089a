"""Balance, lean and room: geometry against numpy, and the figures of a straight tree."""

import math

import numpy as np
import pytest
from scipy.optimize import brentq
from tests.checks.rows import HAND, SECOND_METHOD, TABLE_ROW, Row

from fellwright.physics import balance, lean

pytestmark = pytest.mark.check

NUMPY = "numpy"
HEIGHT = 10.2
LEVER = 0.305
READINGS = (
    lean.LeanVector(-0.35, -0.42, 0.18),
    lean.LeanVector(-0.20, -0.60, 0.36),
    lean.LeanVector(-0.55, -0.30, 0.25),
)
QUIET = (lean.LeanVector(0.50, 0.10, 0.20), lean.LeanVector(0.55, 0.12, 0.30))


def _turned(
    point: tuple[float, float], angle: float
) -> "np.ndarray[tuple[int], np.dtype[np.float64]]":
    rotation = np.array([[math.cos(angle), -math.sin(angle)], [math.sin(angle), math.cos(angle)]])
    return np.asarray(rotation @ np.array(point))


def _opening_m(lever: float, angle: float) -> float:
    """Distance between the closed and the opened place of a point at the end of the lever."""
    return float(np.linalg.norm(_turned((lever, 0.0), angle) - np.array([lever, 0.0])))


def _balance_rad(back: float, height: float) -> float:
    """Rotation at which the balance point has come over the axis, by root search."""
    return float(brentq(lambda a: _turned((-back, height), -a)[0], -1.4, 1.4, xtol=1e-14))


def _least_squares(readings: tuple[lean.LeanVector, ...]) -> dict[str, float]:
    """Weighted least squares for one vector, with the scale factor of its residuals."""
    sigma = np.array([r.sigma_m for r in readings for _ in range(2)])
    design = np.tile(np.eye(2), (len(readings), 1)) / sigma[:, None]
    seen = np.array([value for r in readings for value in (r.east_m, r.north_m)]) / sigma
    solution, residual, _, _ = np.linalg.lstsq(design, seen, rcond=None)
    chi = float(residual[0]) / (2 * len(readings) - 2)
    spread = math.sqrt(float(np.linalg.inv(design.T @ design)[0, 0]))
    return {
        "east_m": float(solution[0]),
        "north_m": float(solution[1]),
        "sigma_m": spread * math.sqrt(max(1.0, chi)),
        "chi_square_ratio": chi,
    }


def _back_and_side(east: float, north: float, lay_deg: float) -> tuple[float, float]:
    """Rotate the ground so that the lay points along the first axis."""
    ahead, left = _turned((north, -east), math.radians(lay_deg))
    return -float(ahead), -float(left)


def _second(function: str, inputs: dict[str, object], expected: object, place: str) -> Row:
    return Row(
        function=function,
        inputs=inputs,
        expected=expected,  # type: ignore[arg-type]
        kind=SECOND_METHOD,
        source=NUMPY,
        place=place,
        mark="DERIVED",
        tolerance=1e-9,
        why="same geometry by another route",
        absolute=1e-12,
    )


def _hand(function: str, inputs: dict[str, float], expected: float, place: str, why: str) -> Row:
    return Row(
        function=function,
        inputs=inputs,
        expected=expected,
        kind=HAND,
        source="hand",
        place=place,
        mark="OWN",
        tolerance=1e-9,
        why=why,
    )


ROWS = [
    _hand(
        "balance.set_back_m",
        {"diameter_m": 0.45, "notch_m": 0.09, "thickness_m": 0.03, "back_offset_m": 0.0},
        0.12,
        "straight tree, stump 45 cm",
        "centre 0.225 from the front, axis 0.09 + 0.015: 0.12 m behind it",
    ),
    _hand(
        "balance.lever_m",
        {"diameter_m": 0.46, "notch_m": 0.092, "thickness_m": 0.046, "rim_m": 0.04},
        0.305,
        "stump 46 cm, notch 9.2, hinge 4.6, contact 4 cm from the rim",
        "0.46 - 0.092 - 0.023 - 0.04",
    ),
    *(
        _second(
            "balance.balance_rotation_rad",
            {"set_back": back, "height_m": HEIGHT},
            _balance_rad(back, HEIGHT),
            f"scipy.optimize.brentq on the turned point, {back} m behind",
        )
        for back in (0.615, 0.115, -0.4)
    ),
    *(
        _second(
            "balance.lift_m",
            {"lever": LEVER, "rotation_rad": angle},
            _opening_m(LEVER, angle),
            f"numpy.linalg.norm between both places of the lever's end, {angle} rad",
        )
        for angle in (0.01, 0.06, 0.3)
    ),
    *(
        _second(
            "balance.rotation_of_lift_rad",
            {"lever": LEVER, "lift": _opening_m(LEVER, angle)},
            angle,
            f"lift of {angle} rad read backwards",
        )
        for angle in (0.01, 0.06, 0.3)
    ),
    _second(
        "lean.combine_readings",
        {"readings": READINGS},
        _least_squares(READINGS),
        "numpy.linalg.lstsq, weights 1/sigma, three readings",
    ),
    _second(
        "lean.combine_readings",
        {"readings": QUIET},
        _least_squares(QUIET),
        "numpy.linalg.lstsq, weights 1/sigma, two readings that agree",
    ),
    *(
        _second(
            "lean.back_and_side_m",
            {"east_m": 0.3, "north_m": -0.7, "lay_rad": math.radians(lay)},
            _back_and_side(0.3, -0.7, lay),
            f"rotation matrix, lay {lay} degrees",
        )
        for lay in (0.0, 40.0, 135.0, 350.0)
    ),
    Row(
        function="lean.balance_offset_from_top_m",
        inputs={
            "top_offset_m": 1.0,
            "stem_share": 0.30,
            "crown_ratio": 0.78,
            "crown_share": 0.30,
        },
        expected=float(np.average([0.30, 0.78], weights=[0.70, 0.30])),
        kind=SECOND_METHOD,
        source=NUMPY,
        place="numpy.average of stem and crown by mass: 0.444 of the top's offset",
        mark="DERIVED",
        tolerance=1e-12,
        why="first moments",
    ),
    *(
        _second(
            "lean.lean_angle_rad",
            {"offset_m": offset, "height_m": height},
            float(np.angle(complex(height, abs(offset)))),
            f"numpy.angle, {offset} m at {height} m: {degrees} degrees",
        )
        for offset, height, degrees in ((-2.2, 10.8, 11.5), (1.9, 12.6, 8.6))
    ),
    Row(
        function="notch.notch_height_m",
        inputs={"depth_m": 0.25, "opening_rad": math.radians(38.66)},
        expected=0.20,
        kind=TABLE_ROW,
        source="[WAC-296-54]",
        place="section 53910 (10), example: depth 1/4, opening at the face 1/5 of the diameter",
        mark="SEEN",
        tolerance=1e-3,
        why="the angle, 38.7 degrees, follows from the two printed shares",
    ),
    Row(
        function="notch.notch_share_from_chord",
        inputs={"chord_share": 0.8},
        expected=float(brentq(lambda n: 2.0 * math.sqrt(n * (1.0 - n)) - 0.8, 1e-6, 0.5)),
        kind=SECOND_METHOD,
        source="scipy",
        place="scipy.optimize.brentq on the chord: the 80 % test is met at 0.20 of the diameter",
        mark="DERIVED",
        tolerance=1e-9,
        why="root search",
    ),
]


def test_cross_product_of_a_leaning_tree_gives_both_moments() -> None:
    """1.5 t at 10 m, 4 degrees to 250, crown 0.2 x 1 m to 100, lay 40: -9205.5 and 2596.2 N.m."""
    weight = 1500.0 * 9.81

    def ground(distance: float, azimuth_deg: float) -> tuple[float, float]:
        angle = math.radians(azimuth_deg)
        return distance * math.sin(angle), distance * math.cos(angle)

    stem, crown = ground(10.0 * math.tan(math.radians(4.0)), 250.0), ground(0.2, 100.0)
    back, right = lean.back_and_side_m(stem[0] + crown[0], stem[1] + crown[1], math.radians(40.0))
    behind = balance.set_back_m(0.45, 0.09, 0.03, back)
    assert -weight * behind == pytest.approx(-9205.5, abs=0.06)
    assert -weight * right == pytest.approx(2596.2, abs=0.06)
    # The same from the vectors: force down at the balance point, arm from the axis.
    ahead, left = -back - 0.12, -right
    moment = np.cross(np.array([ahead, left, 10.0]), np.array([0.0, 0.0, -weight]))
    assert moment[1] == pytest.approx(-weight * behind, rel=1e-12)
    assert -moment[0] == pytest.approx(-weight * right, rel=1e-12)


@pytest.mark.parametrize("turn_deg", [-120.0, -30.0, 5.0, 75.0, 180.0])
def test_turning_the_lay_mixes_back_and_side_as_the_trade_writes_it(turn_deg: float) -> None:
    """back(phi) = back cos - side sin, side(phi) = back sin + side cos; phi to the right."""
    back, side = lean.back_and_side_m(0.3, -0.7, math.radians(40.0))
    phi = math.radians(turn_deg)
    turned = lean.back_and_side_m(0.3, -0.7, math.radians(40.0) + phi)
    assert turned[0] == pytest.approx(back * math.cos(phi) - side * math.sin(phi), abs=1e-12)
    assert turned[1] == pytest.approx(back * math.sin(phi) + side * math.cos(phi), abs=1e-12)
