from typing import Any

import pytest
from tests.records.samples import faults_of_tree, only_fault, put, tree_data

from fellwright.records.loader import read_tree

SHIFT = {"offset_m": 1, "toward_deg": 9}


def lean(offset_m: float, toward_deg: float, **more: Any) -> dict[str, Any]:
    return {
        "offset_m": offset_m,
        "toward_deg": toward_deg,
        "sighted_at": "balance point",
        "how": "plumb line, two sides",
    } | more


@pytest.mark.parametrize(
    ("path", "value", "field", "other", "code"),
    [
        ("tree.dbh_cm", 400, "tree.height_m", "tree.dbh_cm = 400", "wrong-factor"),
        ("tree.dbh_cm", 4, "tree.height_m", "tree.dbh_cm = 4", "wrong-factor"),
        ("tree.crown_base_m", 26, "tree.crown_base_m", "tree.height_m = 25", "contradiction"),
        ("tree.crown_base_m", 25, "tree.crown_base_m", "tree.height_m = 25", "contradiction"),
        ("tree.stump_diameter_cm", 20, "tree.stump_diameter_cm", "dbh_cm = 40", "wrong-factor"),
        ("tree.stump_diameter_cm", 460, "tree.stump_diameter_cm", "dbh_cm = 40", "wrong-factor"),
        ("tree.cavity_wall_cm", 23, "tree.cavity_wall_cm", "stump of 46 cm", "contradiction"),
        ("cut.hinge_mm", 460, "cut.hinge_mm", "stump of 46 cm", "contradiction"),
        ("cut.hinge_mm", 370, "cut.hinge_mm", "notch of 0.2", "contradiction"),
        ("tree.lean.0.offset_m", 26, "tree.lean[1].offset_m", "height_m = 25", "contradiction"),
        ("tree.crown_shift", SHIFT, "tree.crown_shift", "1 m", "contradiction"),
    ],
)  # fmt: skip
def test_readings_that_cannot_both_be_true_are_refused_naming_both(
    path: str, value: Any, field: str, other: str, code: str
) -> None:
    data = tree_data()
    put(data, path, value)
    faults = faults_of_tree(data)
    fault = next(fault for fault in faults if fault.field == field)
    assert other in fault.value
    assert fault.code == code
    assert fault.remedy


def test_a_cut_above_the_lower_half_is_refused() -> None:
    data = {"tree": {"height_m": 5, "cut_height_cm": 260}}
    assert only_fault(faults_of_tree(data)).field == "tree.cut_height_cm"


def test_contradictory_leans_are_refused_naming_both() -> None:
    # One sigma of each is 0.12 + 0.12 * 0.9 = 0.228 m, both together 0.322 m; they lie 1.8 m apart.
    fault = only_fault(faults_of_tree({"tree": {"lean": [lean(0.9, 220), lean(0.9, 40)]}}))
    assert fault.field == "tree.lean[2]"
    assert "tree.lean[1]" in fault.value
    assert "1.29 m" in fault.rule
    assert "1.80 m" in fault.rule


@pytest.mark.parametrize(
    ("readings", "agree"),
    [
        ([lean(0.5, 220), lean(0.8, 200)], True),
        ([lean(0.5, 359), lean(0.5, 1)], True),
        # By eye the error is twice as large: 0.456 each, 0.645 together, four times that 2.58 m.
        ([lean(0.9, 220, how="eye"), lean(0.9, 40, how="eye")], True),
        # A stated error stands before the way of reading: 4 x hypot(0.05, 0.05) = 0.28 m.
        ([lean(0.5, 220, error_m=0.05), lean(0.8, 220, error_m=0.05)], False),
        ([lean(0.5, 220, error_m=0.05), lean(0.7, 220, error_m=0.05)], True),
        # 5 m at the top is 2 m at the balance point.
        # Four sigmas are 4 x hypot(0.4 x 0.2, 0.2) = 0.86 m there.
        ([lean(5.0, 90, sighted_at="top", error_m=0.2), lean(2.8, 90, error_m=0.2)], True),
        ([lean(5.0, 90, sighted_at="top", error_m=0.2), lean(2.9, 90, error_m=0.2)], False),
    ],
)
def test_leans_contradict_beyond_four_combined_sigmas(
    readings: list[dict[str, Any]], agree: bool
) -> None:
    data = {"tree": {"lean": readings}}
    if agree:
        assert len(read_tree(data, "tree.toml").lean) == 2
    else:
        assert only_fault(faults_of_tree(data)).code == "contradiction"


def test_of_three_leans_each_contradicting_pair_is_named() -> None:
    data = {"tree": {"lean": [lean(0.9, 220), lean(0.9, 40), lean(0.95, 220)]}}
    assert [fault.field for fault in faults_of_tree(data)] == ["tree.lean[2]", "tree.lean[3]"]


def test_a_way_of_reading_that_is_not_known_needs_its_own_error() -> None:
    data = {"tree": {"lean": [lean(0.5, 220, how="drone")]}}
    assert only_fault(faults_of_tree(data)).field == "tree.lean[1].how"
    data["tree"]["lean"][0]["error_m"] = 0.2
    assert read_tree(data, "tree.toml").lean[0].how == "drone"


def test_a_faulty_reading_at_the_top_does_not_blame_the_crown_shift() -> None:
    bad = lean(-1, 220, sighted_at="top")
    data = {"tree": {"lean": [bad], "crown_shift": {"offset_m": 1, "toward_deg": 220}}}
    assert only_fault(faults_of_tree(data)).field == "tree.lean[1].offset_m"


def test_an_imperial_value_in_a_contradiction_is_shown_as_read() -> None:
    fault = only_fault(faults_of_tree({"tree": {"dbh_in": 200, "height_ft": 80}}))
    assert "read as 80 ft" in fault.value
    assert "read as 200 in" in fault.value
