"""Devices off the centre, side by side, stacked, in two stages; pull on hinge and grip on bar."""

import math
from typing import Any

import numpy as np
import pytest
from scipy.optimize import brentq
from tests.checks.free_bodies import wedge_thrust_n
from tests.checks.rows import HAND, SECOND_METHOD, TABLE_ROW, Row

from fellwright.physics import hinge_pull, off_centre

pytestmark = pytest.mark.check

TONNE_N = 9806.65


def _hand(function: str, inputs: dict[str, Any], expected: float, place: str, why: str) -> Row:
    return Row(
        function=function,
        inputs=inputs,
        expected=expected,
        kind=HAND,
        source="hand",
        place=place,
        mark="OWN",
        tolerance=1e-6,
        absolute=1e-9,
        why=why,
    )


def _second(function: str, inputs: dict[str, Any], expected: float, place: str) -> Row:
    return Row(
        function=function,
        inputs=inputs,
        expected=expected,
        kind=SECOND_METHOD,
        source=place.split(".", maxsplit=1)[0],
        place=place,
        mark="DERIVED",
        tolerance=1e-6,
        why="another route",
    )


def _side_moment_n_m(push: float, offset_right: float) -> float:
    """Moment about the lay of an upward push: x along the lay, y left, z up; left is positive."""
    moment = np.cross([-0.3, -offset_right, 0.0], [0.0, 0.0, push])
    # About +x, y goes to z: the left side goes up, so the top goes right.
    return float(-moment[0])


def _rim_back_m(wood: float, aside: float) -> float:
    """Distance of the rim behind the pith at an offset, by root search on the circle."""
    radius = 0.5 * wood
    return float(brentq(lambda x: math.hypot(x, aside) - radius, 0.0, radius, xtol=1e-14))


def _stack_flies(first: float, second: float, mu_wood: float, mu_inner: float) -> bool:
    """Whether the stack as a whole or either wedge of it slides out, by free bodies."""
    whole = wedge_thrust_n(
        1.0, (first + second) / 2, (first + second) / 2, mu_wood, mu_wood, out=True
    )
    each = [
        wedge_thrust_n(1.0, angle, 0.0, mu_wood, mu_inner, out=True) for angle in (first, second)
    ]
    return min(whole, *each) < 0.0


DEG = math.radians(1.0)
STACKS = (
    (6.0 * DEG, 6.0 * DEG, 0.15, 0.10),
    (6.0 * DEG, 6.0 * DEG, 0.08, 0.30),
    (3.0 * DEG, 12.0 * DEG, 0.15, 0.02),
)

ROWS = [
    _second(
        "off_centre.side_moment_n_m",
        {"push_n": 3.8 * TONNE_N, "offset_m": 0.12},
        _side_moment_n_m(3.8 * TONNE_N, 0.12),
        "numpy.cross, 3.8 t at 0.12 m to the right",
    ),
    _hand(
        "off_centre.eased_side_use_ratio",
        {"side_use": 0.66, "side_n_m": 44.7e3, "push_n": 37.25e3, "offset_m": 0.12},
        0.594,
        "37.25 kN x 0.12 m = 4.47 kN.m, a tenth of 44.7",
        "0.66 x 0.9",
    ),
    _second(
        "off_centre.off_centre_lever_m",
        {"lever_m": 0.33, "wood_m": 0.50, "offset_m": 0.07},
        0.33 - 0.25 + _rim_back_m(0.50, 0.07),
        "scipy.optimize.brentq on the rim of the stump",
    ),
    _hand(
        "off_centre.side_by_side_push_n",
        {"first_n": 80e3, "second_n": 120e3, "share": 0.7},
        140e3,
        "0.7 of 200 kN",
        "seven tenths",
    ),
    _hand(
        "off_centre.side_by_side_lift_m",
        {"first_m": 0.042, "second_m": 0.021},
        0.021,
        "42 and 21 mm",
        "the lesser",
    ),
    _second(
        "off_centre.chord_room_m",
        {"wood_m": 0.40, "seat_m": 0.05, "first_m": 0.065, "second_m": 0.070, "gap_m": 0.020},
        2.0 * float(brentq(lambda y: _rim_back_m(0.40, y) - 0.15, 0.0, 0.199, xtol=1e-13)) - 0.155,
        "scipy.optimize.brentq on the chord 50 mm in from the rim",
    ),
    _hand(
        "off_centre.stack_lift_m",
        {"first_m": 0.024, "second_m": 0.024, "kerf_m": 0.008},
        0.040,
        "two of 24 mm in a kerf of 8",
        "48 - 8",
    ),
    _second(
        "off_centre.stack_thrust_n",
        {"lift_n": 30e3, "angle_rad": 7.0 * DEG, "mu_wood": 0.2, "mu_inner": 0.12},
        wedge_thrust_n(30e3, 3.5 * DEG, 3.5 * DEG, 0.2, 0.12),
        "numpy.linalg.solve of the driven wedge as a free body",
    ),
    *(
        _second(
            "off_centre.stack_holds",
            {"first_rad": first, "second_rad": second, "mu_wood": wood, "mu_inner": inner},
            float(not _stack_flies(first, second, wood, inner)),
            f"numpy.linalg.solve of stack and wedges, friction {wood} and {inner}",
        )
        for first, second, wood, inner in STACKS
    ),
    _hand(
        "two_stage.two_stage_lift_m",
        {"first_m": 0.018, "second_m": 0.025, "bedding_m": 0.004, "unfilled_m": 0.003},
        0.036,
        "18 + 25 - 4 - 3 mm",
        "sum",
    ),
    _hand(
        "two_stage.two_stage_lift_m",
        {"first_m": 0.018, "second_m": 0.025, "bedding_m": 0.004, "unfilled_m": 0.030},
        0.018,
        "an open cut of 30 mm that nothing fills",
        "25 mm close it in part: nothing is lifted",
    ),
    _hand(
        "two_stage.first_stage_m",
        {
            "first_m": 0.042,
            "wedge_m": 0.048,
            "kerf_m": 0.008,
            "balance_m": 0.030,
            "share": 0.8,
        },
        0.024,
        "0.8 of a balance lift of 30 mm",
        "least of 42, 40 and 24 mm",
    ),
    *(
        _second(
            "two_stage.follow_up_holds",
            {"push_n": 35e3, "hold_n": hold, "angle_rad": angle, "mu": 0.15},
            float(
                hold >= 35e3
                and wedge_thrust_n(1.0, angle / 2, angle / 2, 0.15, 0.15, out=True) >= 0.0
            ),
            f"numpy.linalg.solve of the wedge pulled out, {angle / DEG:.0f} degrees, {hold:.0f} N",
        )
        for hold, angle in ((39e3, 13.0 * DEG), (30e3, 13.0 * DEG), (39e3, 20.0 * DEG))
    ),
    _hand(
        "hinge_pull.net_hinge_pull_n",
        {"push_n": 35.6e3, "weight_n": 14.6e3, "line_down_n": 0.0},
        21e3,
        "40 cm spruce, 3 degrees back: 35.6 kN less 14.6 kN",
        "subtraction; 21 kN are known for it",
    ),
    Row(
        function="hinge_pull.hinge_tension_pa",
        inputs={"net_pull_n": 12.5e6 * 0.03 * 0.36, "area_m2": 0.03 * 0.36},
        expected=12.5e6,
        kind=TABLE_ROW,
        source="[Gullberg-hinge]",
        place="limit of hinge tension, a quarter of the strength",
        mark="SEEN",
        tolerance=1e-9,
        why="the limit itself on a hinge of 30 x 360 mm",
    ),
    _hand(
        "hinge_pull.push_limit_n",
        {"weight_n": 14.6e3, "area_m2": 0.0108, "tension_pa": 12.5e6, "line_down_n": 2e3},
        151.6e3,
        "12.5 MPa on 30 x 360 mm, 14.6 kN of tree, 2 kN of line",
        "135 + 14.6 + 2",
    ),
    _hand(
        "hinge_pull.bar_grip_n",
        {"back_n_m": 6e3, "bar_lever_m": 0.20},
        30e3,
        "6 kN.m at 0.20 m",
        "moment over lever",
    ),
    _hand(
        "hinge_pull.bar_pull_n",
        {"grip_n": 30e3, "mu": 0.2},
        12e3,
        "two faces at 0.2",
        "2 x 0.2 x 30: more than a tonne on a saw handle",
    ),
    _hand(
        "hinge_pull.freeing_push_n",
        {"back_n_m": 6e3, "lever_m": 0.30},
        20e3,
        "6 kN.m at 0.30 m",
        "moment over lever",
    ),
]


def test_known_case_of_a_device_set_toward_the_lean() -> None:
    """2.4 t leaning 1.9 m aside, 3.8 t of push at 0.12 m: side use 0.66 becomes 0.59."""
    side = 2.4 * TONNE_N * 1.9
    eased = off_centre.eased_side_use_ratio(0.66, side, 3.8 * TONNE_N, 0.12)
    assert eased == pytest.approx(0.59, abs=0.005)
    assert off_centre.side_moment_n_m(3.8 * TONNE_N, 0.12) == pytest.approx(4.5e3, abs=50.0)


def test_known_net_pull_on_the_hinge_of_a_large_tree() -> None:
    """90 cm, 9.4 t, 155 kN of push: 63 kN of net pull."""
    assert hinge_pull.net_hinge_pull_n(155e3, 9.4 * TONNE_N) == pytest.approx(63e3, abs=500.0)
