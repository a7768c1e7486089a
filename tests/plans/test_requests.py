"""Bad requests: every fault of tree, kit and options at once, and never a traceback."""

import json
import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.plans.test_refused import kit, tree
from tests.records.samples import put
from tests.records.strategies import ANYTHING, kit_files, tree_files

from fellwright.api import answer
from fellwright.errors import BadInput, Fault


def faults(request: dict[str, Any], question: str = "tip") -> tuple[Fault, ...]:
    with pytest.raises(BadInput) as caught:
        answer(question, request)
    return caught.value.faults


def fields_of(found: tuple[Fault, ...]) -> set[str]:
    return {fault.field for fault in found}


def test_faults_of_tree_kit_and_options_come_at_once() -> None:
    bad_tree, bad_kit = tree(), kit()
    put(bad_tree, "tree.dbh_cm", -40)
    put(bad_tree, "tree.heigth_m", 25)
    put(bad_tree, "day.gust_m_s", "strong")
    put(bad_kit, "device.0.rated_t", math.nan)
    put(bad_kit, "wrench.0.torque_n_m", 0)
    found = faults(
        {
            "tree": bad_tree,
            "kit": bad_kit,
            "draws": 10,
            "seed": -1,
            "bare": "yes",
        }
    )
    told = " ".join(fault.text for fault in found)
    for name in (
        "dbh_cm",
        "heigth_m",
        "gust_m_s",
        "rated_t",
        "torque_n_m",
        "draws",
        "seed",
        "bare",
    ):
        assert name in told, name
    assert len(found) >= 8


def test_a_bad_lay_is_told_with_the_rest() -> None:
    bad_tree = tree()
    put(bad_tree, "tree.dbh_cm", -40)
    found = faults({"tree": bad_tree, "kit": kit(), "lay_deg": 400})
    assert {"lay_deg", "tree.dbh_cm"} <= fields_of(found)


@pytest.mark.parametrize("lay", [-1, 361, math.nan, math.inf, "north", True, [40]])
def test_a_lay_that_is_no_azimuth_is_refused(lay: object) -> None:
    assert fields_of(faults({"tree": tree(), "kit": kit(), "lay_deg": lay})) == {"lay_deg"}


@pytest.mark.parametrize("draws", [0, 1, 63, 131072, 64.0, "64", True, None])
def test_draws_out_of_range_are_refused(draws: object) -> None:
    assert fields_of(faults({"tree": tree(), "kit": kit(), "draws": draws})) == {"draws"}


@pytest.mark.parametrize(("asked", "drawn"), [(64, 64), (100, 128), (1000, 1024)])
def test_draws_are_taken_up_to_a_power_of_two_and_the_answer_says_so(
    asked: int, drawn: int
) -> None:
    response = answer("tip", {"tree": tree(), "kit": kit(), "draws": asked, "bare": True})
    assert response["draws"] == drawn


@pytest.mark.parametrize("seed", [-1, 2**64, 1.5, "one", True])
def test_a_seed_that_is_no_whole_number_is_refused(seed: object) -> None:
    assert fields_of(faults({"tree": tree(), "kit": kit(), "seed": seed})) == {"seed"}


@pytest.mark.parametrize("part", ["tree", "kit"])
@pytest.mark.parametrize("value", [[], "tree", 3, True])
def test_a_part_that_is_no_table_is_refused(part: str, value: object) -> None:
    request: dict[str, Any] = {"tree": tree(), "kit": kit()}
    request[part] = value
    assert part in fields_of(faults(request))


def test_an_unknown_question_is_refused_and_the_known_ones_named() -> None:
    (fault,) = faults({"tree": tree(), "kit": kit()}, "tipp")
    assert "tip" in fault.rule
    assert "mark" in fault.rule


def test_a_request_without_a_tree_is_told_so_and_an_empty_tree_must_be_measured() -> None:
    assert "tree" in fields_of(faults({}))
    assert answer("tip", {"tree": {"tree": {}}})["verdict"] == "MEASURE"


def test_readings_that_contradict_each_other_are_told_and_nothing_is_planned() -> None:
    bad = tree()
    put(bad, "tree.height_m", 250)
    assert any("height_m" in field for field in fields_of(faults({"tree": bad, "kit": kit()})))


@settings(max_examples=60)
@given(
    request=st.fixed_dictionaries(
        {},
        optional={
            "tree": ANYTHING,
            "kit": ANYTHING,
            "draws": ANYTHING | st.just(64),
            "seed": ANYTHING,
            "lay_deg": ANYTHING,
            "bare": ANYTHING,
        },
    )
)
def test_any_request_is_answered_or_refused_with_faults(request: dict[str, Any]) -> None:
    try:
        response = answer("tip", {"draws": 64, **request})
    except BadInput as bad:
        assert bad.faults
        assert all(fault.text for fault in bad.faults)
    else:
        json.dumps(response, allow_nan=False)


@pytest.mark.slow
@settings(max_examples=80)
@given(tree=tree_files(), kit=kit_files())
def test_any_files_that_read_well_are_answered_in_plain_numbers(
    tree: dict[str, Any], kit: dict[str, Any]
) -> None:
    try:
        response = answer("tip", {"tree": tree, "kit": kit, "draws": 64})
    except BadInput as bad:
        assert bad.faults
        return
    json.dumps(response, allow_nan=False)
    if response["verdict"] in ("LEAVE", "MEASURE"):
        assert not response["marks"]
        assert response["hinge"] is None
