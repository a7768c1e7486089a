"""Early-go: the thickness at which a forward leaner starts, against a bracketed root."""

import math

import numpy as np
import pytest
from scipy.optimize import brentq
from tests.checks.rows import SECOND_METHOD, Row

from fellwright.physics.early_go import early_go_thickness_m

pytestmark = pytest.mark.check

GRAVITY = 9.81
# Weight [N], forward offset [m], diameter, cavity, notch [m], wind [N.m], bending strength [Pa].
CASES = {
    "ash, 2.2 m forward": (1690 * GRAVITY, 2.2, 0.51, 0.0, 0.102, 0.0, 64e6),
    "ash, 0.5 m forward": (1690 * GRAVITY, 0.5, 0.51, 0.0, 0.102, 0.0, 64e6),
    "spruce in a tail wind": (1370 * GRAVITY, 0.3, 0.46, 0.0, 0.092, 8e3, 38e6),
    "hollow beech": (4330 * GRAVITY, 1.5, 0.67, 0.30, 0.134, 0.0, 62e6),
    "pine, deep notch": (900 * GRAVITY, 0.8, 0.35, 0.0, 0.115, 0.0, 44e6),
}
NAMES = (
    "weight_n",
    "forward_offset_m",
    "diameter_m",
    "cavity_m",
    "notch_m",
    "wind_n_m",
    "bending_pa",
)


def _circle_chord_m(diameter: float, from_centre: float) -> float:
    return 2.0 * math.sqrt(max(0.0, (0.5 * diameter) ** 2 - from_centre**2))


def _moment_n_m(
    thickness: float, weight: float, ahead: float, diameter: float, notch: float, wind: float
) -> float:
    """Cross product of the weight with its arm from the middle of the uncut wood, plus wind."""
    axis = 0.5 * diameter - notch - 0.5 * thickness
    arm = np.array([ahead - axis, 0.0, 10.0])
    return float(np.cross(arm, np.array([0.0, 0.0, -weight]))[1]) + wind


def _excess_n_m(thickness: float, case: tuple[float, ...]) -> float:
    weight, ahead, diameter, cavity, notch, wind, bending = case
    middle = 0.5 * diameter - notch - 0.5 * thickness
    width = _circle_chord_m(diameter, middle) - _circle_chord_m(cavity, middle)
    holding = bending * width * thickness**2 / 6.0
    return holding - _moment_n_m(thickness, weight, ahead, diameter, notch, wind)


def _largest_root_m(case: tuple[float, ...]) -> float:
    """Cut from the back: the first thickness at which the wood no longer holds."""
    behind = case[2] - case[4]
    grid = np.linspace(behind, 1e-4, 4000)
    held = [_excess_n_m(float(t), case) for t in grid]
    for a, b, f_a, f_b in zip(grid, grid[1:], held, held[1:], strict=False):
        if f_a > 0.0 >= f_b:
            return float(brentq(_excess_n_m, float(b), float(a), args=(case,), xtol=1e-12))
    return 0.0


ROWS = [
    *(
        Row(
            function="early_go.early_go_thickness_m",
            inputs=dict(zip(NAMES, case, strict=True)),
            expected=_largest_root_m(case),
            kind=SECOND_METHOD,
            source="scipy",
            place=f"scipy.optimize.brentq, first thickness from the back: {name}",
            mark="DERIVED",
            tolerance=0.0,
            absolute=2e-5,
            why="the search of the engine stops at a hundredth of a millimetre",
        )
        for name, case in CASES.items()
    ),
    Row(
        function="early_go.forward_moment_n_m",
        inputs={
            "thickness_m": 0.09,
            "weight_n": 16.6e3,
            "forward_offset_m": 2.2,
            "diameter_m": 0.51,
            "notch_m": 0.102,
            "wind_n_m": 1.5e3,
        },
        expected=_moment_n_m(0.09, 16.6e3, 2.2, 0.51, 0.102, 1.5e3),
        kind=SECOND_METHOD,
        source="numpy",
        place="numpy.cross of arm and weight",
        mark="DERIVED",
        tolerance=1e-12,
        why="statics",
    ),
]


def test_forward_ash_starts_near_the_figures_of_a_first_model() -> None:
    """2.2 m forward: 89 mm uncut; 0.5 m: 38 mm, with a constant width of 0.40 m and 64 MPa."""
    strong = early_go_thickness_m(*CASES["ash, 2.2 m forward"])
    slight = early_go_thickness_m(*CASES["ash, 0.5 m forward"])
    # The chord grows with what is uncut where the first model keeps it: up to 6 mm less.
    assert strong == pytest.approx(0.089, abs=0.006)
    assert slight == pytest.approx(0.038, abs=0.004)


@pytest.mark.parametrize("seed", range(40))
def test_start_is_the_root_for_any_forward_leaner(seed: int) -> None:
    rng = np.random.default_rng(seed)
    diameter = rng.uniform(0.2, 1.0)
    case = (
        GRAVITY * 9000.0 * diameter**2.4,
        rng.uniform(0.2, 2.5),
        diameter,
        0.0,
        diameter * rng.uniform(0.15, 0.33),
        0.0,
        rng.uniform(30e6, 70e6),
    )
    found = early_go_thickness_m(*case)
    if found < diameter - case[4]:
        assert found == pytest.approx(_largest_root_m(case), abs=2e-4)
