import math
from typing import Any

import pytest
from tests.records.samples import faults_of_tree, only_fault, put, tree_data

from fellwright.errors import BadInput
from fellwright.records.loader import read_tree
from fellwright.records.tree import Conductor, CrownShift, Cut, Day, LeanReading, Look, Tree


def test_a_whole_tree_file_is_read_as_written() -> None:
    data = tree_data()
    put(data, "tree.cavity_wall_cm", 12)
    put(data, "tree.defects", ["crack", "Dead Top"])
    data["tree"]["conductor"] = [
        {"distance_m": 21, "height_m": 11, "voltage_kv": 20, "switched_off": False}
    ]
    assert read_tree(data, "tree.toml") == Tree(
        name="Harrowlees 11",
        species="Norway spruce",
        dbh_cm=40.0,
        height_m=25.0,
        crown_base_m=11.0,
        crown_radius_m=2.6,
        stump_diameter_cm=46.0,
        cut_height_cm=30.0,
        flare="trimmed",
        cavity_wall_cm=12.0,
        defects=("crack", "dead top"),
        lean=(LeanReading(0.5, 220.0, "balance", "plumb line, two sides"),),
        conductors=(Conductor(21.0, 11.0, 20.0, False),),
        look=Look(True, True, True, True, 2),
        cut=Cut(40.0, 0.2, 46.0, "half and half", True),
        day=Day(0.0, 40.0, 12.0),
    )


def test_absent_keys_stay_none_and_are_never_filled() -> None:
    assert read_tree({"tree": {}}, "tree.toml") == Tree()
    assert read_tree({"tree": {"name": None}, "look": None}, "request") == Tree()


def test_a_reading_at_the_top_may_carry_a_crown_shift() -> None:
    data = tree_data()
    put(data, "tree.lean.0.sighted_at", "top")
    put(data, "tree.crown_shift", {"offset_m": 0.4, "toward_deg": 220})
    tree = read_tree(data, "tree.toml")
    assert tree.crown_shift == CrownShift(0.4, 220.0)
    assert tree.lean[0].sighted_at == "top"


@pytest.mark.parametrize(
    ("dbh_cm", "height_m", "stump_cm"), [(8, 9, 9), (130, 50, 150), (40, 4.9, 46), (200, 80, 250)]
)
def test_real_trees_outside_what_the_arithmetic_knows_still_load(
    dbh_cm: float, height_m: float, stump_cm: float
) -> None:
    data = {"tree": {"dbh_cm": dbh_cm, "height_m": height_m, "stump_diameter_cm": stump_cm}}
    assert read_tree(data, "tree.toml").dbh_cm == dbh_cm


NO_NUMBERS: list[Any] = [True, "40", "forty", [], {}, math.nan, math.inf, -math.inf, 10**400]
NUMBER_KEYS = [
    "tree.dbh_cm",
    "tree.height_m",
    "tree.crown_base_m",
    "tree.crown_radius_m",
    "tree.stump_diameter_cm",
    "tree.cut_height_cm",
    "tree.cavity_wall_cm",
    "tree.lean.0.offset_m",
    "tree.lean.0.toward_deg",
    "tree.lean.0.error_m",
    "look.ways_out",
    "cut.lay_deg",
    "cut.notch_share",
    "cut.hinge_mm",
    "day.gust_m_s",
    "day.wind_from_deg",
    "day.temperature_degc",
]


@pytest.mark.parametrize("value", NO_NUMBERS, ids=repr)
@pytest.mark.parametrize("path", NUMBER_KEYS)
def test_what_is_no_number_is_refused_by_name(path: str, value: Any) -> None:
    data = tree_data()
    put(data, path, value)
    fault = only_fault(faults_of_tree(data))
    assert fault.field == path.replace("lean.0", "lean[1]")
    assert fault.code == "not-a-number"
    assert fault.value
    assert fault.remedy


@pytest.mark.parametrize(
    ("path", "value"),
    [
        ("tree.dbh_cm", 0),
        ("tree.dbh_cm", -40),
        ("tree.dbh_cm", 4000),
        ("tree.height_m", 0),
        ("tree.height_m", 250),
        ("tree.crown_base_m", -1),
        ("tree.crown_radius_m", 26),
        ("tree.stump_diameter_cm", 0),
        ("tree.cut_height_cm", 401),
        ("tree.cavity_wall_cm", 0),
        ("tree.lean.0.offset_m", -0.5),
        ("tree.lean.0.offset_m", 50),
        ("tree.lean.0.toward_deg", 361),
        ("tree.lean.0.error_m", 0),
        ("look.ways_out", -1),
        ("cut.lay_deg", -5),
        ("cut.notch_share", 0),
        ("cut.notch_share", 20),
        ("cut.hinge_mm", 0),
        ("day.gust_m_s", -3),
        ("day.gust_m_s", 61),
        ("day.wind_from_deg", 400),
        ("day.temperature_degc", 285),
    ],
)
def test_out_of_range_is_refused_with_value_rule_and_remedy(path: str, value: float) -> None:
    data = tree_data()
    put(data, path, value)
    fault = only_fault(faults_of_tree(data))
    assert fault.field == path.replace("lean.0", "lean[1]")
    assert fault.code == "out-of-range"
    assert fault.value == str(value)
    assert fault.rule.startswith("must be between ")
    assert fault.remedy.endswith(".")


def test_the_text_of_a_fault_is_the_one_promised() -> None:
    data = tree_data()
    put(data, "tree.dbh_cm", 4000)
    assert only_fault(faults_of_tree(data)).text == (
        "tree.toml: tree.dbh_cm = 4000: must be between 1 and 1000 cm. "
        "Measure the girth, divide by 3.14 and write centimetres."
    )


@pytest.mark.parametrize("lay_deg", [0, 360])
def test_both_ends_of_a_range_are_accepted(lay_deg: float) -> None:
    data = tree_data()
    put(data, "cut.lay_deg", lay_deg)
    assert read_tree(data, "tree.toml").cut.lay_deg == lay_deg


def test_ways_out_must_be_whole() -> None:
    data = tree_data()
    put(data, "look.ways_out", 1.5)
    assert only_fault(faults_of_tree(data)).code == "not-whole"


@pytest.mark.parametrize(
    ("path", "value", "near"),
    [
        ("tree.flare", "trimed", "trimmed"),
        ("cut.method", "half & half", "half and half"),
        ("tree.lean.0.sighted_at", "ballance point", "balance point"),
        ("tree.defects", ["loged"], "lodged"),
    ],
)
def test_an_unknown_word_names_the_nearest_known(path: str, value: Any, near: str) -> None:
    data = tree_data()
    put(data, path, value)
    fault = only_fault(faults_of_tree(data))
    assert fault.code == "not-a-choice"
    assert f'"{near}"' in fault.remedy


@pytest.mark.parametrize("value", ["yes", 1, 0, "true", [True]])
def test_only_true_and_false_answer_the_look(value: Any) -> None:
    data = tree_data()
    put(data, "look.sound", value)
    assert only_fault(faults_of_tree(data)).code == "not-yes-or-no"


@pytest.mark.parametrize(
    ("path", "hint"),
    [
        ("tree.dbh_mm", "The nearest known key is dbh_cm"),
        ("tree.lay_deg", "It belongs in [cut]"),
        ("dbh_cm", "It belongs in [tree]"),
        ("lean", "It belongs in [[tree.lean]]"),
        ("device", "It belongs in the kit file"),
        ("lok", "The nearest known key is look"),
        ("tree.lean.0.ofset_m", "The nearest known key is offset_m"),
        ("look.ring_is_clear", "The nearest known key is ring_clear"),
        ("day.zzz", "Known here: gust_m_s, gust_mph"),
    ],
)
def test_an_unknown_key_names_its_home_or_the_nearest(path: str, hint: str) -> None:
    data = tree_data()
    put(data, path, 3)
    fault = only_fault(faults_of_tree(data))
    assert fault.code == "unknown-key"
    assert fault.remedy.startswith(hint)


def test_a_table_full_of_unknown_keys_is_one_fault() -> None:
    data = {"tree": {f"junk{count}": count for count in range(10_000)}}
    fault = only_fault(faults_of_tree(data))
    assert fault.value == "10000 unknown keys"


@pytest.mark.parametrize(
    ("data", "field"),
    [
        ({}, "tree"),
        ({"tree": 3}, "tree"),
        ({"tree": [{}]}, "tree"),
        ({"tree": {}, "look": True}, "look"),
        ({"tree": {"lean": {"offset_m": 1}}}, "tree.lean"),
        ({"tree": {"lean": [3]}}, "tree.lean[1]"),
        ({"tree": {"crown_shift": 1}}, "tree.crown_shift"),
        ({"tree": {"defects": "crack"}}, "tree.defects"),
        ({"tree": {"lean": [{}] * 21}}, "tree.lean"),
        ([], ""),
        (3, ""),
    ],
)
def test_tables_of_the_wrong_shape_are_refused(data: Any, field: str) -> None:
    fault = only_fault(faults_of_tree(data))
    assert fault.field == field
    assert fault.rule.startswith("must ")


def test_a_lean_without_its_required_keys_names_each() -> None:
    faults = faults_of_tree({"tree": {"lean": [{}]}})
    assert {fault.field for fault in faults} == {
        "tree.lean[1].offset_m",
        "tree.lean[1].toward_deg",
        "tree.lean[1].sighted_at",
    }
    assert {fault.code for fault in faults} == {"missing-key"}
    assert {fault.remedy for fault in faults} >= {'Write "balance point" or "top".'}


def test_text_that_a_terminal_would_obey_is_refused_and_not_repeated() -> None:
    data = tree_data()
    put(data, "tree.name", "\x1b[2J wiped")
    fault = only_fault(faults_of_tree(data))
    assert fault.code == "not-text"
    assert fault.text.isprintable()


def test_every_fault_of_a_file_is_told_at_once() -> None:
    data = tree_data()
    put(data, "tree.dbh_cm", -1)
    put(data, "tree.height_m", "tall")
    put(data, "tree.lean.0.toward_deg", 400)
    put(data, "cut.metod", "x")
    put(data, "day.gust_m_s", math.nan)
    assert [fault.field for fault in faults_of_tree(data)] == [
        "tree.dbh_cm",
        "tree.height_m",
        "tree.lean[1].toward_deg",
        "cut.metod",
        "day.gust_m_s",
    ]


def test_faults_of_a_table_row_name_the_row() -> None:
    with pytest.raises(BadInput, match=r"^list\.csv: row 7: tree\.dbh_cm = 0: "):
        read_tree({"tree": {"dbh_cm": 0}}, "list.csv", 7)
