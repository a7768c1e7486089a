"""Directions as hours of a clock with the lay at twelve."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from tests.records.samples import faults_of_tree, only_fault, put, tree_data
from tests.records.strategies import HOURS

from fellwright.api import answer, with_lay
from fellwright.errors import BadInput
from fellwright.records.bearing_field import O_CLOCK
from fellwright.records.loader import read_tree
from fellwright.records.plain import tree_as_data
from fellwright.records.tree import Tree

LAYS = st.floats(0, 360)
PLACES = ("tree.lean.0.toward", "tree.crown_shift.toward", "day.wind_from")


def data_with(hour: object, lay_deg: float | None = 40.0) -> dict[str, Any]:
    """A tree sighted at its top, with a crown shift and a wind, every direction by the clock."""
    data = tree_data()
    put(data, "tree.lean.0.sighted_at", "top")
    put(data, "tree.crown_shift", {"offset_m": 0.4})
    put(data, "cut.lay_deg", lay_deg)
    for place in PLACES:
        put(data, f"{place}_deg", None)
        put(data, f"{place}_clock", hour)
    return data


def azimuths(tree: Tree) -> tuple[float, float, float]:
    assert tree.crown_shift is not None
    assert tree.day.wind_from_deg is not None
    return tree.lean[0].toward_deg, tree.crown_shift.toward_deg, tree.day.wind_from_deg


def apart_deg(one_deg: float, other_deg: float) -> float:
    turn = (one_deg - other_deg) % 360.0
    return min(turn, 360.0 - turn)


@pytest.mark.parametrize(
    ("hour", "lay_deg", "toward_deg"),
    [
        (12, 40, 40),
        (3, 40, 130),
        (6, 40, 220),
        (9, 40, 310),
        (9.5, 40, 325),
        (0.5, 40, 55),
        (0.25, 0, 7.5),
        (12, 360, 0),
        (6, 220, 40),
        (10.75, 350, 312.5),
    ],
)
def test_hours_run_clockwise_from_the_lay_and_wrap(
    hour: float, lay_deg: float, toward_deg: float
) -> None:
    assert azimuths(read_tree(data_with(hour, lay_deg), "tree.toml")) == (toward_deg,) * 3


@given(HOURS, LAYS)
def test_an_hour_and_its_azimuth_are_the_same_tree(hour: float, lay_deg: float) -> None:
    tree = read_tree(data_with(hour, lay_deg), "tree.toml")
    for toward_deg in azimuths(tree):
        assert 0.0 <= toward_deg < 360.0
        assert apart_deg(toward_deg, lay_deg + 30.0 * hour) < 1e-9
    degrees = tree_data()
    put(degrees, "cut.lay_deg", lay_deg)
    put(degrees, "tree.lean.0.sighted_at", "top")
    put(degrees, "tree.lean.0.toward_deg", azimuths(tree)[0])
    put(degrees, "tree.crown_shift", {"offset_m": 0.4, "toward_deg": azimuths(tree)[1]})
    put(degrees, "day.wind_from_deg", azimuths(tree)[2])
    assert replace(tree, as_read={}) == read_tree(degrees, "tree.toml")


@given(st.integers(1, 47).map(lambda quarters: quarters / 4), LAYS)
def test_the_mirrored_hour_lies_as_far_on_the_other_side(hour: float, lay_deg: float) -> None:
    right = azimuths(read_tree(data_with(hour, lay_deg), "tree.toml"))[0]
    left = azimuths(read_tree(data_with(12.0 - hour, lay_deg), "tree.toml"))[0]
    assert apart_deg(right - lay_deg, lay_deg - left) < 1e-9


@given(HOURS, LAYS, LAYS)
def test_another_lay_turns_the_cut_and_not_the_tree(
    hour: float, lay_deg: float, other_deg: float
) -> None:
    tree = read_tree(data_with(hour, lay_deg), "tree.toml")
    turned = with_lay(tree, other_deg)
    assert turned.cut.lay_deg == other_deg
    assert azimuths(turned) == azimuths(tree)
    again = read_tree(tree_as_data(turned), "again")
    assert azimuths(again) == azimuths(tree)
    assert again.cut.lay_deg == other_deg


@given(HOURS, LAYS)
def test_what_was_read_is_kept_and_written_back(hour: float, lay_deg: float) -> None:
    data = data_with(hour, lay_deg)
    tree = read_tree(data, "tree.toml")
    assert tree.as_read["tree.lean[1].toward_deg"] == (hour, O_CLOCK)
    written = tree_as_data(tree)
    assert written["tree"]["lean"][0]["toward_clock"] == hour
    assert written["tree"]["crown_shift"] == {"offset_m": 0.4, "toward_clock": hour}
    assert written["day"]["wind_from_clock"] == hour
    assert read_tree(written, "again") == tree


def test_hours_go_with_feet() -> None:
    lean = {"offset_ft": 1.6, "toward_clock": 9.5, "sighted_at": "top", "error_ft": 0.7}
    data: dict[str, Any] = {"tree": {"dbh_in": 15.7, "lean": [lean]}, "cut": {"lay_deg": 100}}
    tree = read_tree(data, "tree.toml")
    assert tree.lean[0].toward_deg == 25.0
    assert tree_as_data(tree) == data
    assert read_tree(tree_as_data(tree), "again") == tree


@given(HOURS, LAYS, LAYS)
def test_under_another_lay_the_azimuth_is_written_and_no_hour(
    hour: float, lay_deg: float, other_deg: float
) -> None:
    assume(abs(lay_deg - other_deg) % 360.0 > 1e-9)
    tree = with_lay(read_tree(data_with(hour, lay_deg), "tree.toml"), other_deg)
    for lay in (other_deg, None):
        written = tree_as_data(replace(tree, cut=replace(tree.cut, lay_deg=lay)))
        assert written["tree"]["lean"][0]["toward_deg"] == tree.lean[0].toward_deg
        assert "toward_clock" not in written["tree"]["lean"][0]
        assert "wind_from_clock" not in written["day"]


@pytest.mark.parametrize("hour", [0, 0.1, 12.25, 12.5, 13, -3, 6.1, 3.33])
def test_an_hour_no_clock_has_is_refused(hour: float) -> None:
    faults = faults_of_tree(data_with(hour))
    assert [fault.field for fault in faults] == [
        "tree.lean[1].toward_clock",
        "tree.crown_shift.toward_clock",
        "day.wind_from_clock",
    ]
    for fault in faults:
        assert fault.code == "out-of-range"
        assert fault.value == str(hour)
        assert fault.rule == "must be an hour from 0.25 to 12 in quarters"


@pytest.mark.parametrize("hour", ["6", "half past six", True, [6], {}, float("nan")])
def test_what_is_no_number_is_no_hour(hour: object) -> None:
    assert {fault.code for fault in faults_of_tree(data_with(hour))} == {"not-a-number"}


def test_both_ways_at_once_are_refused() -> None:
    data = data_with(6)
    put(data, "tree.lean.0.toward_deg", 220)
    fault = only_fault(faults_of_tree(data))
    assert fault.code == "given-twice"
    assert fault.value == "220 and toward_clock = 6"


def test_without_a_direction_the_fault_names_both_ways() -> None:
    data = tree_data()
    put(data, "tree.lean.0.toward_deg", None)
    fault = only_fault(faults_of_tree(data))
    assert (fault.field, fault.code) == ("tree.lean[1].toward_deg", "missing-key")
    assert "toward_clock" in fault.remedy


def test_hours_need_the_lay_they_are_counted_from() -> None:
    faults = faults_of_tree(data_with(6, None))
    assert {fault.code for fault in faults} == {"no-lay"}
    assert len(faults) == len(PLACES)
    for fault in faults:
        assert "cut.lay_deg" in fault.rule
        assert fault.field.split(".")[-1].removesuffix("_clock") in fault.remedy
    lean = {"offset_m": 1, "toward_clock": 3, "sighted_at": "top"}
    assert only_fault(faults_of_tree({"tree": {"lean": [lean]}})).code == "no-lay"


@pytest.mark.parametrize("lay", [400, "north", True])
def test_a_lay_that_cannot_be_read_is_the_only_fault(lay: Any) -> None:
    fault = only_fault(faults_of_tree(data_with(6, lay)))
    assert fault.field == "cut.lay_deg"
    data = data_with(6)
    data["cut"] = lay
    assert only_fault(faults_of_tree(data)).field == "cut"


def test_a_lay_of_the_command_line_does_not_stand_in_for_that_of_the_file() -> None:
    with pytest.raises(BadInput) as caught:
        answer("tip", {"tree": data_with(6, None), "lay_deg": 40.0})
    assert {fault.code for fault in caught.value.faults} == {"no-lay"}
