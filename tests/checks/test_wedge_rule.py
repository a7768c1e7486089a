"""The wedge table of a public safety body: 2 in of lift against back lean, by height over diameter.

The table is the plain similar triangle (lean over height = lift over diameter) times 0.8, rounded
to half a foot. The true lever, from the hinge axis to the back of the stump, is shorter than the
diameter, so a wedge moves the top farther than the table says: the 0.8 is no friction and no
prediction, it is the margin of the rule. Its last row stands for "100 or more" and is a cap.
"""

import math

import pytest
from tests.checks.rows import TABLE_ROW, Row

from fellwright.physics.balance import balance_rotation_rad, lever_m, lift_m

pytestmark = pytest.mark.check

FOOT_M = 0.3048
INCH_M = 0.0254
RULE_SHARE = 0.8
LIFT_IN = 2.0
# Segments (height over diameter) and back lean of the top [ft] that 2 in of wedging overcome.
TABLE = (
    (30, 4.0),
    (35, 4.5),
    (40, 5.5),
    (45, 6.0),
    (50, 6.5),
    (55, 7.0),
    (60, 8.0),
    (65, 9.0),
    (70, 9.5),
    (75, 10.0),
    (80, 11.0),
    (90, 12.0),
    (100, 13.0),
)


def _row(segments: int, lean_ft: float) -> Row:
    diameter = 0.5
    rotation = math.atan(lean_ft * FOOT_M / (segments * diameter) / RULE_SHARE)
    return Row(
        function="balance.lift_m",
        inputs={"lever": diameter, "rotation_rad": rotation},
        expected=LIFT_IN * INCH_M,
        kind=TABLE_ROW,
        source="[OSHA-eTool]",
        place=f"special techniques, 2 in wedging table, {segments} segments",
        mark="SEEN",
        tolerance=0.5 / lean_ft,
        why="lever = diameter and lean/0.8, as the rule has them; lean printed to half a foot",
    )


ROWS = [_row(*row) for row in TABLE]


@pytest.mark.parametrize(("segments", "lean_ft"), TABLE)
def test_every_row_is_the_similar_triangle_times_0_8_within_half_a_foot(
    segments: int, lean_ft: float
) -> None:
    plain_ft = segments * LIFT_IN / 12.0
    assert abs(RULE_SHARE * plain_ft - lean_ft) <= 0.5


def test_factor_of_the_table_is_0_8_on_average_and_nowhere_1() -> None:
    factors = [lean_ft * 12.0 / (LIFT_IN * segments) for segments, lean_ft in TABLE]
    assert math.fsum(factors) / len(factors) == pytest.approx(0.80, abs=0.005)
    assert min(factors) == pytest.approx(0.764, abs=0.001)
    assert max(factors) == pytest.approx(0.831, abs=0.001)


def test_table_rises_and_its_last_row_is_a_cap() -> None:
    leans = [lean_ft for _, lean_ft in TABLE]
    assert leans == sorted(set(leans))
    # "100 or more": a tree of 140 segments gets 13 ft too, where the triangle would promise more.
    promised_ft = RULE_SHARE * 140 * LIFT_IN / 12.0
    assert promised_ft - leans[-1] > 0.5


@pytest.mark.parametrize("notch_share", [0.20, 0.25, 1.0 / 3.0])
def test_rule_admits_half_to_three_fifths_of_what_geometry_gives(notch_share: float) -> None:
    """The lever from the hinge axis is (0.95 - notch) of the diameter, not the diameter."""
    diameter, height = 0.5, 25.0
    lever = lever_m(diameter, notch_share * diameter, 0.1 * diameter, 0.0)
    rotation = 2.0 * math.asin(LIFT_IN * INCH_M / (2.0 * lever))
    top_m = height * math.sin(rotation)
    rule_m = RULE_SHARE * LIFT_IN * INCH_M * height / diameter
    # Chord against sine of up to 9.5 degrees: 0.35 %.
    assert rule_m / top_m == pytest.approx(RULE_SHARE * (0.95 - notch_share), rel=0.005)
    assert 0.49 < rule_m / top_m < 0.61


def test_lift_to_balance_is_the_triangle_from_the_axis_within_a_thousandth_up_to_3_degrees() -> (
    None
):
    lever, height = 0.32, 10.0
    for back in (0.05, 0.2, 0.35, 0.52):
        chord = lift_m(lever, balance_rotation_rad(back, height))
        assert chord == pytest.approx(lever * back / height, rel=1.2e-3)


def test_magazine_example_one_inch_meets_three_feet_and_four_take_over_an_inch() -> None:
    """60 ft tree, 18 in from hinge to back: 40 segments, no 0.8 in that rule."""
    lever, height = 18.0 * INCH_M, 60.0 * FOOT_M
    assert lift_m(lever, balance_rotation_rad(3.0 * FOOT_M, height)) <= 1.0 * INCH_M
    four_ft = lift_m(lever, balance_rotation_rad(4.0 * FOOT_M, height))
    assert four_ft / INCH_M == pytest.approx(1.2, abs=0.05)
