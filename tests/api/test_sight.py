"""Measuring helpers as a face asks them: values of a tree file, honest errors, plain refusals."""

import json
import math
import re
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.words.test_catalogue import FORBIDDEN

from fellwright.api.sight_response import SIGHTS, sight_answer
from fellwright.errors import BadInput, Fault
from fellwright.records.lean_errors import reading_sigma_m
from fellwright.records.loader import read_tree
from fellwright.words import LANGUAGES

Request = dict[str, Any]

HEIGHT: Request = {
    "sight": "height",
    "distance_is": "level",
    "distance_m": 25,
    "top_deg": 42,
    "foot_deg": -4,
    "angle_by": "hand clinometer",
}
PLUMB: Request = {
    "sight": "plumb",
    "sighted_at": "balance point",
    "dbh_cm": 40,
    "station": [
        {"bearing_deg": 40, "right_widths": 1.0, "distance_m": 25},
        {"bearing_deg": 130, "right_widths": -0.5, "distance_m": 25},
    ],
}
GIRTH: Request = {"sight": "girth", "girth_cm": 126}
CROWN: Request = {"sight": "crown", "paces": [4, 5, 3, 4], "pace_length_m": 0.8}
BORE: Request = {"sight": "bore", "bores_cm": [14, 12, 16], "over_bark": True, "bark_cm": 2}
LEVEL: Request = {"sight": "level", "first_deg": [1.2, 1.3, 1.1], "turned_deg": [0.4, 0.5, 0.6]}
ALL = {r["sight"]: r for r in (HEIGHT, PLUMB, GIRTH, CROWN, BORE, LEVEL)}


def faults_of(request: Request) -> tuple[Fault, ...]:
    with pytest.raises(BadInput) as caught:
        sight_answer(request)
    return caught.value.faults


def places(request: Request) -> list[tuple[str, str]]:
    return [(fault.field, fault.code) for fault in faults_of(request)]


def value(request: Request, key: str) -> float:
    values = sight_answer(request)["values"]
    assert isinstance(values, dict)
    return float(values[key])


def error(request: Request, key: str) -> float:
    errors = sight_answer(request)["errors"]
    assert isinstance(errors, dict)
    return float(errors[key])


def cautions(request: Request) -> str:
    found = sight_answer(request)["cautions"]
    assert isinstance(found, list)
    return "\n".join(found)


def lean(request: Request) -> dict[str, Any]:
    values = sight_answer(request)["values"]
    assert isinstance(values, dict)
    found: dict[str, Any] = values["lean"]
    return found


def station(**keys: Any) -> Request:
    """Return the plumb request with the first look changed; None takes a key out."""
    first = {k: v for k, v in (PLUMB["station"][0] | keys).items() if v is not None}
    return PLUMB | {"station": [first, PLUMB["station"][1]]}


# --- all of them --------------------------------------------------------------------------------


def test_every_helper_is_tried_here() -> None:
    assert set(ALL) == set(SIGHTS)


@pytest.mark.parametrize("name", ALL)
@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("imperial", [False, True])
def test_every_answer_is_json_in_the_style_asked_for(
    name: str, language: str, imperial: bool
) -> None:
    found = sight_answer(ALL[name] | {"language": language, "imperial": imperial})
    assert set(found) == {
        *("schema", "sight", "values", "errors", "text", "errors_from", "cautions")
    }
    told = json.dumps(found, ensure_ascii=False, allow_nan=False)
    said = " ".join([str(found["text"]), *found["errors_from"], *found["cautions"]])  # type: ignore[misc]
    assert not FORBIDDEN.search(told)
    assert re.search(r"\d,\d" if language == "de" else r"\d\.\d", said)
    assert not re.search(r"\d\.\d" if language == "de" else r"\d,\d", said)
    plain = sight_answer(ALL[name])
    assert (found["values"], found["errors"]) == (plain["values"], plain["errors"])


@pytest.mark.parametrize("name", [name for name in ALL if name != "level"])
def test_a_tree_file_takes_the_values_as_they_are(name: str) -> None:
    values = sight_answer(ALL[name])["values"]
    assert isinstance(values, dict)
    tree: Request = {"dbh_cm": 40, "height_m": 25} | values
    if "lean" in tree:
        tree["lean"] = [tree["lean"]]
    assert read_tree({"tree": tree}, "tree").dbh_cm is not None


@pytest.mark.parametrize("name", ["dbh_cm", "distance_m", "girth_cm", "pace_length_m", "bark_cm"])
def test_imperial_keys_read_as_elsewhere(name: str) -> None:
    unit, per = ("in", 2.54) if name.endswith("_cm") else ("ft", 0.3048)
    request = next(r for r in ALL.values() if name in r)
    other = {k: v for k, v in request.items() if k != name}
    other[f"{name.rsplit('_', 1)[0]}_{unit}"] = request[name] / per
    assert sight_answer(other) == sight_answer(request)


@pytest.mark.parametrize(
    ("request_", "expected"),
    [
        ({}, [("sight", "not-a-choice")]),
        ({"sight": "laser"}, [("sight", "not-a-choice")]),
        ({"sight": ["height"]}, [("sight", "not-a-choice")]),
        (
            {"sight": "girth", "language": "fr", "imperial": 1, "girth_cm": 0, "grith": 1},
            [
                ("language", "not-a-choice"),
                ("imperial", "not-a-choice"),
                ("sight.grith", "unknown-key"),
                ("sight.girth_cm", "out-of-range"),
            ],
        ),
        ({"sight": "girth"}, [("sight.girth_cm", "missing-key")]),
        (
            {"sight": "level"},
            [("sight.first_deg", "missing-key"), ("sight.turned_deg", "missing-key")],
        ),
        (
            {"sight": "bore", "bores_cm": []},
            [("sight.bores_cm", "not-a-list"), ("sight.over_bark", "missing-key")],
        ),
        (
            {"sight": "plumb", "station": 3},
            [("sight.sighted_at", "missing-key"), ("sight.station", "not-a-list")],
        ),
    ],
)
def test_every_fault_of_a_request_is_told_at_once(
    request_: Request, expected: list[tuple[str, str]]
) -> None:
    assert places(request_) == expected


def test_a_fault_is_told_in_german() -> None:
    from fellwright.words import Style, Text, render

    (fault,) = faults_of(GIRTH | {"girth_cm": 0})
    assert isinstance(fault.remedy_words, Text)
    assert render(fault.remedy_words, Style("de")).startswith("Umfang in Brusthöhe")


# --- height -------------------------------------------------------------------------------------


def test_a_height_has_its_error_and_the_marks_of_what_is_behind_it() -> None:
    found = sight_answer(HEIGHT)
    assert found["values"] == {"height_m": 24.26, "height_error_m": 0.94}
    assert found["text"] == "Height 24.3 m ± 0.9 m."
    assert found["errors_from"] == [
        "tape within 1 % (PRACTICE)",
        "hand clinometer within 1.0° (PRACTICE)",
    ]


@pytest.mark.parametrize("key", ["distance_is", "angle_by", "top_deg", "foot_deg", "distance_m"])
def test_nothing_of_a_height_has_a_silent_default(key: str) -> None:
    without = {k: v for k, v in HEIGHT.items() if k != key}
    assert places(without) == [(f"sight.{key}", "missing-key")]


def test_a_distance_comes_by_tape_or_by_paces_of_a_known_length() -> None:
    both = HEIGHT | {"paces": 30, "pace_length_m": 0.8}
    assert places(both) == [("sight.paces", "given-twice")]
    paced = {k: v for k, v in HEIGHT.items() if k != "distance_m"} | {"paces": 31.25}
    assert places(paced) == [("sight.pace_length_m", "missing-key")]
    paced |= {"pace_length_m": 0.8}
    assert value(paced, "height_m") == value(HEIGHT, "height_m")
    assert error(paced, "height_m") > 2.0 * error(HEIGHT, "height_m")


def test_a_phone_needs_the_error_it_was_tried_to_have_and_never_less_than_half_a_degree() -> None:
    phone = HEIGHT | {"angle_by": "phone"}
    assert places(phone) == [("sight.angle_error_deg", "missing-key")]
    tried, boast = (phone | {"angle_error_deg": deg} for deg in (0.5, 0.01))
    assert error(boast, "height_m") == error(tried, "height_m")
    assert error(phone | {"angle_error_deg": 2.0}, "height_m") > error(tried, "height_m")


def test_the_zero_of_the_phone_comes_off_both_angles() -> None:
    phone = HEIGHT | {"angle_by": "phone", "angle_error_deg": 0.7}
    shifted = phone | {"top_deg": 43.5, "foot_deg": -2.5, "zero_deg": 1.5}
    assert sight_answer(shifted) == sight_answer(phone)


def test_the_three_ways_to_take_a_distance_differ_on_a_slope_and_it_is_said() -> None:
    slope = HEIGHT | {"foot_deg": -23, "top_deg": 30}
    level, ground, eye = (
        value(slope | {"distance_is": way}, "height_m")
        for way in ("level", "along the ground", "eye to foot")
    )
    assert eye < ground < level
    assert f"{ground:.1f} m" in cautions(slope)
    assert "slopes" not in cautions(HEIGHT)


def test_an_eye_that_was_not_measured_is_said() -> None:
    ground = HEIGHT | {"distance_is": "along the ground"}
    assert "eye taken 1.60 m" in str(sight_answer(ground)["errors_from"])
    assert "eye 1.75 m" in str(sight_answer(ground | {"eye_height_m": 1.75})["errors_from"])
    assert "eye" not in str(sight_answer(HEIGHT)["errors_from"])


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"top_deg": -10}, "top_deg"),
        ({"distance_m": 1.5}, "distance_m"),
        ({"distance_m": 190, "top_deg": 60}, "top_deg"),
        ({"distance_m": 3, "top_deg": 84, "angle_error_deg": 5}, "top_deg"),
    ],
)
def test_a_sight_that_gives_no_tree_is_refused(changes: Request, field: str) -> None:
    assert places(HEIGHT | changes) == [(f"sight.{field}", "contradiction")]


def test_a_hand_clinometer_may_be_stated_better_or_worse_than_usual() -> None:
    better, worse = (HEIGHT | {"angle_error_deg": deg} for deg in (0.5, 2.0))
    assert error(better, "height_m") < error(HEIGHT, "height_m") < error(worse, "height_m")
    assert "clinometer within 2.0°, as stated" in str(sight_answer(worse)["errors_from"])


def test_a_steep_sight_is_cautioned() -> None:
    assert "step back" in cautions(HEIGHT | {"top_deg": 60})


# --- plumb line ---------------------------------------------------------------------------------


def looks(east: float, north: float, *bearings: float, distance: float = 25.0) -> list[Request]:
    found = []
    for bearing in bearings:
        sin, cos = math.sin(math.radians(bearing)), math.cos(math.radians(bearing))
        right = (cos * east - sin * north) / (1.0 + (sin * east + cos * north) / distance)
        found.append({"bearing_deg": bearing, "right_m": right, "distance_m": distance})
    return found


@given(
    st.floats(0.1, 3.0), st.integers(0, 359), st.integers(0, 359), st.sampled_from([60, 90, 120])
)
def test_a_tree_made_up_comes_back_within_its_rounding(
    offset: float, toward: int, bearing: int, turn: int
) -> None:
    azimuth = math.radians(toward)
    two = looks(
        offset * math.sin(azimuth), offset * math.cos(azimuth), bearing, (bearing + turn) % 360
    )
    found = lean(PLUMB | {"station": two})
    assert found["offset_m"] == pytest.approx(offset, abs=0.006)
    assert (found["toward_deg"] - toward + 180) % 360 - 180 == pytest.approx(0.0, abs=0.51)
    assert found["error_m"] >= 0.12 + 0.12 * offset - 0.006


def test_a_lean_never_claims_to_be_better_known_than_the_custom() -> None:
    found = lean(PLUMB)
    tree = read_tree({"tree": {"lean": [found]}}, "tree")
    told = {k: v for k, v in found.items() if k != "error_m"}
    usual = read_tree({"tree": {"lean": [told]}}, "tree")
    assert reading_sigma_m(tree.lean[0]) >= reading_sigma_m(usual.lean[0]) - 0.006


def test_widths_and_metres_say_the_same_and_widths_of_a_thick_stem_are_read_worse() -> None:
    metres = PLUMB | {
        "station": [
            {"bearing_deg": 40, "right_m": 0.4, "distance_m": 25},
            {"bearing_deg": 130, "right_m": -0.2, "distance_m": 25},
        ]
    }
    assert lean(metres) == lean(PLUMB)
    thick = PLUMB | {"dbh_cm": 120}
    assert (
        lean(thick)["error_m"]
        > 1.3
        * lean(
            PLUMB
            | {
                "station": [
                    {"bearing_deg": 40, "right_m": 1.2, "distance_m": 25},
                    {"bearing_deg": 130, "right_m": -0.6, "distance_m": 25},
                ]
            }
        )["error_m"]
    )


def test_an_hour_of_the_clock_is_a_bearing_from_the_lay() -> None:
    hours = [
        {"bearing_clock": 12, "right_widths": 1.0, "distance_m": 25},
        {"bearing_clock": 3, "right_widths": -0.5, "distance_m": 25},
    ]
    by_clock = lean(PLUMB | {"station": hours})
    by_lay = lean(PLUMB | {"station": hours, "lay_deg": 40})
    by_compass = lean(PLUMB)
    assert by_clock["toward_clock"] == pytest.approx(
        ((by_compass["toward_deg"] - 40) % 360) / 30, abs=0.13
    )
    assert by_lay["toward_deg"] == by_compass["toward_deg"]
    assert by_clock["error_m"] >= by_lay["error_m"] >= by_compass["error_m"]
    cut = {"lay_deg": 40}
    tree = read_tree({"tree": {"lean": [by_clock]}, "cut": cut}, "tree")
    assert tree.lean[0].toward_deg == pytest.approx(by_compass["toward_deg"], abs=4.0)


def test_hours_and_degrees_together_need_the_lay() -> None:
    mixed = station(bearing_deg=None, bearing_clock=12)
    assert places(mixed) == [("sight.lay_deg", "missing-key")]
    assert lean(mixed | {"lay_deg": 40})["toward_deg"] == lean(PLUMB)["toward_deg"]


def test_one_station_gives_no_lean_and_says_where_to_stand_next() -> None:
    one = sight_answer(PLUMB | {"station": PLUMB["station"][:1]})
    assert (one["values"], one["errors"]) == ({}, {})
    assert "one side only" in str(one["text"])
    assert "130° or 310°" in str(one["cautions"])
    left = station(right_widths=-1.0)
    assert "left" in str(sight_answer(left | {"station": left["station"][:1]})["text"])
    hour = {"bearing_clock": 11.5, "right_m": 0.2}
    assert "2:30 or 8:30" in cautions(PLUMB | {"station": [hour]})


@pytest.mark.parametrize("turn", [0, 20, 29, 151, 180])
def test_stations_nearly_in_line_are_refused(turn: int) -> None:
    assert places(PLUMB | {"station": looks(0.3, 0.1, 40, 40 + turn, distance=60.0)}) == [
        ("sight.station", "contradiction")
    ]


@pytest.mark.parametrize("turn", [32, 90, 148])
def test_stations_that_cross_well_enough_are_taken(turn: int) -> None:
    found = PLUMB | {"station": looks(0.3, 0.1, 40, 40 + turn, distance=60.0)}
    assert lean(found)["offset_m"] == pytest.approx(0.32, abs=0.01)
    assert ("cross at" in cautions(found)) == (turn != 90)


@pytest.mark.parametrize(
    ("keys", "expected"),
    [
        ({"bearing_deg": None}, [("sight.station[1].bearing_deg", "missing-key")]),
        ({"bearing_clock": 1}, [("sight.station[1].bearing_clock", "given-twice")]),
        ({"right_widths": None}, [("sight.station[1].right_m", "missing-key")]),
        ({"right_m": 0.4}, [("sight.station[1].right_widths", "given-twice")]),
        ({"right": 1}, [("sight.station[1].right", "unknown-key")]),
        ({"distance_m": 0}, [("sight.station[1].distance_m", "out-of-range")]),
    ],
)
def test_faults_of_a_station_name_it(keys: Request, expected: list[tuple[str, str]]) -> None:
    assert places(station(**keys)) == expected


def test_stem_widths_need_the_stem() -> None:
    without = {k: v for k, v in PLUMB.items() if k != "dbh_cm"}
    assert places(without) == [("sight.dbh_cm", "missing-key")]


def test_no_station_and_three_are_refused() -> None:
    none = {k: v for k, v in PLUMB.items() if k != "station"}
    assert places(none) == [("sight.station", "missing-key")]
    assert places(PLUMB | {"station": 3 * PLUMB["station"][:1]}) == [("sight.station", "too-many")]


def test_an_offset_that_no_tree_has_is_refused() -> None:
    far = [{"bearing_deg": 0, "right_m": 15}, {"bearing_deg": 31, "right_m": -15}]
    (fault,) = faults_of(PLUMB | {"station": far})
    assert "at most 40.0 m" in fault.text


def test_a_station_under_the_crown_is_refused() -> None:
    near = PLUMB | {"station": looks(2.0, 0.5, 40, 130, distance=4.0)}
    assert places(near) == [("sight.station", "contradiction")]


def test_what_makes_a_plumb_line_worse_is_said() -> None:
    assert "tree length" not in cautions(PLUMB)
    assert "tree length" in cautions(station(distance_m=None))
    assert "crown" in cautions(PLUMB | {"sighted_at": "top"})


# --- girth, crown, bore, phone ------------------------------------------------------------------


def test_a_girth_gives_the_diameter_and_never_less_than_the_usual_error() -> None:
    assert sight_answer(GIRTH)["values"] == {"dbh_cm": 40.1, "dbh_error_cm": 0.6}
    assert value(GIRTH | {"girth_error_cm": 0.5}, "dbh_error_cm") == 0.6
    assert value(GIRTH | {"girth_error_cm": 10}, "dbh_error_cm") == pytest.approx(3.18)


def test_a_crown_is_the_mean_of_its_sides() -> None:
    assert value(CROWN, "crown_radius_m") == pytest.approx(3.2)
    assert "sides were paced" not in cautions(CROWN)
    assert "sides were paced" in cautions(CROWN | {"paces": [4, 5]})
    assert places(CROWN | {"paces": [4]}) == [("sight.paces", "too-few")]
    assert places(CROWN | {"paces": [0.1, 0.1]}) == [("sight.paces", "contradiction")]


def test_the_least_bore_counts_without_its_bark() -> None:
    assert value(BORE, "cavity_wall_cm") == pytest.approx(10.0)
    assert error(BORE, "cavity_wall_cm") == pytest.approx(3.0)
    assert "uneven" in cautions(BORE | {"bores_cm": [12, 30, 31]})
    assert "3 sides" in cautions(BORE | {"bores_cm": [12]})
    wood = {"sight": "bore", "bores_cm": [12], "over_bark": False}
    assert value(wood, "cavity_wall_cm") == pytest.approx(12.0)


@pytest.mark.parametrize(
    ("changes", "code"),
    [
        ({"bark_cm": None}, "missing-key"),
        ({"over_bark": False}, "contradiction"),
        ({"bark_cm": 12}, "contradiction"),
    ],
)
def test_bark_is_neither_guessed_nor_taken_off_twice(changes: Request, code: str) -> None:
    assert places(BORE | changes) == [("sight.bark_cm", code)]


def test_a_phone_tells_its_zero_and_an_error_not_under_the_floor() -> None:
    assert value(LEVEL, "zero_deg") == pytest.approx(0.85)
    assert value(LEVEL, "angle_error_deg") == pytest.approx(0.5)
    shaky = LEVEL | {"first_deg": [0.2, 1.2, 2.1], "turned_deg": [-0.4, 0.5, 1.4]}
    assert value(shaky, "angle_error_deg") > 1.0
    assert "end for end" not in cautions(LEVEL)
    assert "end for end" in cautions(LEVEL | {"turned_deg": [4.0, 4.1, 4.2]})


@pytest.mark.parametrize(
    ("changes", "expected"),
    [
        ({"turned_deg": [9.5, 9.4, 9.6]}, [("sight.turned_deg", "contradiction")]),
        ({"first_deg": [1.2, 3.6, 1.3]}, [("sight.first_deg", "contradiction")]),
        (
            {"first_deg": [1.2, 3.6, 1.3], "turned_deg": [0.4, 0.5, 5.0]},
            [("sight.first_deg", "contradiction"), ("sight.turned_deg", "contradiction")],
        ),
        ({"first_deg": [1.2, 1.3]}, [("sight.first_deg", "too-few")]),
        ({"first_deg": 1.2}, [("sight.first_deg", "too-few")]),
    ],
)
def test_a_phone_that_cannot_be_trusted_is_refused(
    changes: Request, expected: list[tuple[str, str]]
) -> None:
    assert places(LEVEL | changes) == expected


# --- whatever comes -----------------------------------------------------------------------------

KEYS = sorted({key for r in ALL.values() for key in r if key != "sight"} | {"paces", "zero_deg"})
LEAVES = st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=8)
THINGS = LEAVES | st.lists(LEAVES | st.dictionaries(st.sampled_from(KEYS), LEAVES), max_size=4)


@given(
    st.sampled_from(sorted(ALL)),
    st.dictionaries(st.sampled_from(KEYS), THINGS, max_size=4),
)
def test_any_request_is_answered_or_refused(name: str, spoilt: Request) -> None:
    try:
        found = sight_answer(ALL[name] | spoilt)
    except BadInput as bad:
        assert bad.faults
        assert str(bad)
    else:
        json.dumps(found, allow_nan=False)


@given(
    st.fixed_dictionaries(
        {
            "distance_is": st.sampled_from(["level", "along the ground", "eye to foot"]),
            "distance_m": st.floats(1.0, 200.0),
            "top_deg": st.floats(-30.0, 85.0),
            "foot_deg": st.floats(-85.0, 60.0),
            "eye_height_m": st.none() | st.floats(0.3, 2.5),
        }
    )
)
def test_any_height_in_range_is_one_a_tree_file_takes(keys: Request) -> None:
    try:
        found = sight_answer(HEIGHT | keys)
    except BadInput:
        return
    assert read_tree({"tree": found["values"]}, "tree").height_m is not None
