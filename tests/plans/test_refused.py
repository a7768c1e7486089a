"""A refused plan shows why and whom to ask, and nothing that one could cut by."""

import json
import tomllib
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.plans.cases import EXAMPLES, Case, cases

from fellwright.api import answer
from fellwright.api.tip_response import tip_response
from fellwright.planning.plan import Options
from fellwright.planning.reasons import ADDS_UP, LEAVE, MEASURE, TIGHT

CUTTING = ("hinge", "notch", "marks", "cut", "turns", "envelope", "helps")
FIGURES = (
    "mass_kg",
    "volume_m3",
    "back_offset_m",
    "side_offset_m",
    "lift_mm",
    "push_kn",
    "side_use",
    "early_go_mm",
    "early_go_ratio",
    "splitting_index",
    "hinge_tension_mpa",
    "devices",
    "choice",
    "line",
)


def tree() -> dict[str, Any]:
    return tomllib.loads((EXAMPLES / "harrowlees-26.toml").read_text(encoding="utf-8"))


def kit() -> dict[str, Any]:
    return tomllib.loads((EXAMPLES / "van-2.toml").read_text(encoding="utf-8"))


def changed(**changes: dict[str, Any]) -> dict[str, Any]:
    """Return the tree file with keys set, or taken out where the value is None."""
    data = tree()
    for section, keys in changes.items():
        for key, value in keys.items():
            if value is None:
                data[section].pop(key, None)
            else:
                data[section][key] = value
    return data


def ask(question: str, tree: dict[str, Any]) -> dict[str, Any]:
    request = {"tree": tree, "kit": kit(), "draws": 64}
    plain: dict[str, Any] = json.loads(json.dumps(answer(question, request), allow_nan=False))
    return plain


def shows_nothing_to_cut_by(response: dict[str, Any]) -> None:
    shown = [name for name in CUTTING if response.get(name)]
    assert not shown
    said = " ".join(caution["text"] for caution in response["cautions"])
    assert TIGHT not in said
    assert ADDS_UP not in said


REFUSED: dict[str, dict[str, Any]] = {
    "conductor": {"tree": {"conductor": [{"distance_m": 21.0, "voltage_kv": 20.0}]}},
    "lodged": {"tree": {"defects": ["lodged"]}},
    "hung tree": {"tree": {"defects": ["hung tree in ring"]}},
    "split": {"tree": {"defects": ["split"]}},
    "uprooted": {"tree": {"defects": ["uprooted"]}},
    "storm": {"tree": {"defects": ["storm tension"]}},
    "burnt": {"tree": {"defects": ["burnt"]}},
    "crack": {"tree": {"defects": ["crack"]}},
    "thin wall": {"tree": {"cavity_wall_cm": 4.0}},
    "lean": {"tree": {"lean": [{"offset_m": 4.5, "toward_deg": 220, "sighted_at": "balance"}]}},
    "thin": {
        "tree": {"dbh_cm": 9, "height_m": 12, "stump_diameter_cm": None, "crown_base_m": None},
        "cut": {"hinge_mm": None},
    },
    "thick": {
        "tree": {"dbh_cm": 125, "height_m": 40, "stump_diameter_cm": None, "crown_base_m": None},
        "cut": {"hinge_mm": None},
    },
    "tall": {"tree": {"height_m": 50}},
    "short": {"tree": {"height_m": 4.5, "crown_base_m": 1}},
}


@pytest.mark.parametrize("name", REFUSED)
def test_a_tree_refused_on_what_was_read_shows_no_figure_at_all(name: str) -> None:
    response = ask("tip", changed(**REFUSED[name]))
    assert response["verdict"] == LEAVE
    assert response["if_clear"] == LEAVE
    assert response["reasons"]
    shows_nothing_to_cut_by(response)
    assert not [figure for figure in FIGURES if response[figure]]


@pytest.mark.parametrize("name", REFUSED)
def test_marks_of_a_refused_tree_are_not_told(name: str) -> None:
    response = ask("mark", changed(**REFUSED[name]))
    assert response["verdict"] == LEAVE
    shows_nothing_to_cut_by(response)
    assert response["choice"] is None


LOOKED: dict[str, tuple[dict[str, Any], str]] = {
    "ring": ({"ring_clear": False}, LEAVE),
    "ways out": ({"ways_out": 1}, LEAVE),
    "conductor": ({"no_conductor_in_reach": False}, LEAVE),
    "sound open": ({"sound": None}, MEASURE),
    "overhead open": ({"clear_overhead": None}, MEASURE),
    "conductor open": ({"no_conductor_in_reach": None}, MEASURE),
    "ring open": ({"ring_clear": None}, MEASURE),
    "ways open": ({"ways_out": None}, MEASURE),
    "unsound, wall unmeasured": ({"sound": False}, MEASURE),
}


@pytest.mark.parametrize("name", LOOKED)
@pytest.mark.parametrize("question", ["tip", "mark"])
@pytest.mark.parametrize("gust", [0.0, 4.0])
def test_until_the_look_is_clear_nothing_to_cut_by_is_shown(
    name: str, question: str, gust: float
) -> None:
    look, verdict = LOOKED[name]
    response = ask(question, changed(look=look, day={"gust_m_s": gust}))
    assert response["verdict"] == verdict
    shows_nothing_to_cut_by(response)


def test_until_the_look_is_clear_lift_and_push_are_shown_as_if() -> None:
    response = ask("tip", changed(look={"sound": None}))
    assert response["conditions"]
    assert response["if_clear"] == ADDS_UP
    assert response["lift_mm"]["let_go"]["p50"] > 0
    assert response["push_kn"]["p50"] > 0
    assert response["devices"]


@pytest.mark.parametrize("key", ["species", "dbh_cm", "lean"])
def test_a_tree_that_lacks_a_reading_shows_nothing_to_cut_by(key: str) -> None:
    response = ask("tip", changed(tree={key: None}))
    assert response["verdict"] == MEASURE
    shows_nothing_to_cut_by(response)
    assert response["measure_next"]


@settings(max_examples=30)
@given(
    case=cases(),
    answers=st.dictionaries(
        st.sampled_from(
            ["sound", "clear_overhead", "no_conductor_in_reach", "ring_clear", "ways_out"]
        ),
        st.sampled_from([None, False]),
        max_size=3,
    ),
)
def test_only_a_bold_verdict_shows_something_to_cut_by(
    case: Case, answers: dict[str, bool | None]
) -> None:
    values = {k: (0 if k == "ways_out" and v is False else v) for k, v in answers.items()}
    look = replace(case.tree.look, **values)  # type: ignore[arg-type]
    plan = Case(replace(case.tree, look=look), case.kit).plan(Options(draws=64))
    response = json.loads(json.dumps(tip_response(plan), allow_nan=False))
    bold = plan.verdict not in (LEAVE, MEASURE)
    assert bool(response["marks"]) == bold
    assert (response["hinge"] is not None) == bold
    assert (response["notch"] is not None) == bold
    assert bold or response["turns"] is None
    assert all_finite(response)


def all_finite(value: object) -> bool:
    return all(number == number and abs(number) != float("inf") for number in numbers(value))


def numbers(value: object) -> Iterator[float]:
    if isinstance(value, dict):
        for item in value.values():
            yield from numbers(item)
    elif isinstance(value, list):
        for item in value:
            yield from numbers(item)
    elif isinstance(value, int | float):
        yield float(value)
