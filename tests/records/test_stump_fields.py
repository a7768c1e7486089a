from typing import Any

import pytest

from fellwright.errors import BadInput, Fault
from fellwright.records.stump_fields import AimCheck, StumpRecord, read_aim_check, read_stump


def faults_of(read: Any, raw: object) -> list[tuple[str, str]]:
    with pytest.raises(BadInput) as caught:
        read(raw, "request")
    faults: tuple[Fault, ...] = caught.value.faults
    for fault in faults:
        assert fault.rule.startswith("must ")
        assert fault.remedy.endswith(".")
    return [(fault.field, fault.code) for fault in faults]


def test_every_entry_of_the_stump_is_optional() -> None:
    assert read_stump({}, "request") == StumpRecord()
    assert read_stump({"went": None, "lay_side": None}, "request") == StumpRecord()


def test_nine_entries_are_read() -> None:
    raw = {
        "hinge_left_mm": 52,
        "hinge_mid_mm": 47,
        "hinge_right_mm": 43,
        "notch_depth_cm": 9.5,
        "notch_mismatch_mm": 3,
        "step_mm": 35,
        "lift_used_mm": 31,
        "lay_error_deg": 3,
        "lay_side": "LEFT",
        "went": ["fibre pull", "fibre pull"],
        "device": "Dipper",
    }
    record = read_stump(raw, "request")
    assert record.went == ("fibre pull",)
    assert record.lay_side == "left"
    assert (record.hinge_left_mm, record.device) == (52.0, "Dipper")
    inches = read_stump({"lift_used_in": 2}, "request")
    assert inches.lift_used_mm == pytest.approx(50.8)


def test_every_fault_of_the_stump_is_told_at_once() -> None:
    raw = {
        "hinge_left_mm": "a",
        "hinge_mid_mm": -1,
        "lift_used_mm": 31,
        "turns_used": 14,
        "lay_error_deg": 3,
        "lay_beside_m": 1,
        "went": ["no fault seen", "hung"],
        "hinge": 4,
    }
    assert sorted(faults_of(read_stump, raw)) == [
        ("stump.hinge", "unknown-key"),
        ("stump.hinge_left_mm", "not-a-number"),
        ("stump.hinge_mid_mm", "out-of-range"),
        ("stump.lay_distance_m", "missing-key"),
        ("stump.lay_error_deg", "given-twice"),
        ("stump.lay_side", "missing-key"),
        ("stump.lift_used_mm", "given-twice"),
        ("stump.went", "contradiction"),
    ]


@pytest.mark.parametrize("raw", [None, [], "a", 3])
def test_entries_that_are_no_table_are_refused(raw: object) -> None:
    assert faults_of(read_stump, raw) == [("stump", "not-a-table")]
    assert faults_of(read_aim_check, raw) == [("notch", "not-a-table")]


def test_an_aim_is_an_angle_or_metres_at_a_distance_with_its_side() -> None:
    assert read_aim_check({"aim_error_deg": 2, "side": "left"}, "r") == AimCheck(2.0, side="left")
    metres = read_aim_check({"beside_m": 1, "distance_m": 20, "side": "right"}, "r")
    assert metres == AimCheck(None, 1.0, 20.0, "right")
    assert read_aim_check({"aim_error_deg": 0}, "r") == AimCheck(0.0)


@pytest.mark.parametrize(
    ("raw", "faults"),
    [
        ({}, [("notch.aim_error_deg", "missing-key")]),
        ({"side": "left"}, [("notch.aim_error_deg", "missing-key")]),
        ({"aim_error_deg": 2}, [("notch.side", "missing-key")]),
        ({"aim_error_deg": 2, "side": "up"}, [("notch.side", "not-a-choice")]),
        ({"aim_error_deg": 91, "side": "left"}, [("notch.aim_error_deg", "out-of-range")]),
        ({"beside_m": 1, "side": "left"}, [("notch.distance_m", "missing-key")]),
        ({"distance_m": 20, "side": "left"}, [("notch.beside_m", "missing-key")]),
        ({"beside_m": 1, "distance_m": 0, "side": "left"}, [("notch.distance_m", "out-of-range")]),
        (
            {"beside_m": 1, "distance_m": 20, "aim_error_deg": 2, "side": "left"},
            [("notch.aim_error_deg", "given-twice")],
        ),
    ],
)
def test_a_faulty_aim_is_refused(raw: object, faults: list[tuple[str, str]]) -> None:
    assert faults_of(read_aim_check, raw) == faults
