"""Answers for the time after the saw: notch, drive, stump and stop cards, in every style."""

import json
import re
import tomllib
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from tests.words.test_catalogue import FORBIDDEN
from tests.words.test_every_sentence import Recording

from fellwright.api.door import plan_from
from fellwright.api.drive_response import drive_rows
from fellwright.api.notch_response import notch_answer
from fellwright.api.stuck_response import stuck_answer
from fellwright.api.stump_response import stump_answer
from fellwright.errors import BadInput
from fellwright.planning.plan import Plan
from fellwright.records.stump_fields import STUMP_FIELDS, WENT, read_aim_check, read_stump
from fellwright.words import Style, catalogue

ROOT = Path(__file__).parents[2]


def read(name: str) -> Any:
    return tomllib.loads((ROOT / "examples" / f"{name}.toml").read_text("utf-8"))


KIT = read("van-2")
TREE = read("harrowlees-11")
STYLES = [
    {"language": language, "force": force, "imperial": imperial}
    for language in ("en", "de")
    for force, imperial in (("kN", False), ("t", False), ("kN", True))
]
ASKED: dict[str, Any] = {"tree": TREE, "kit": KIT, "draws": 64}
STUMP = {
    "hinge_left_mm": 62,
    "hinge_mid_mm": 47,
    "hinge_right_mm": 43,
    "notch_depth_cm": 12.5,
    "notch_mismatch_mm": 12,
    "step_mm": 30,
    "turns_used": 14,
    "lay_error_deg": 3,
    "lay_side": "left",
    "went": ["fibre pull", "hung"],
    "device": "Dipper",
}
AIM = {"beside_m": 1.0, "distance_m": 20, "side": "right"}
ANSWERS: dict[str, Any] = {
    "notch": lambda style: notch_answer({**ASKED, "notch": AIM, **style}),
    "stump": lambda style: stump_answer({**ASKED, "stump": STUMP, **style}),
    "stump unread": lambda style: stump_answer({**ASKED, **style}),
    "stump without a plan": lambda style: stump_answer(
        {**ASKED, "tree": {"tree": {"name": "bare"}}, "stump": STUMP, **style}
    ),
    "stuck": lambda style: stuck_answer({"rescue_point": "W-5-17", **style}),
    "stuck with a line": lambda style: stuck_answer({**ASKED, "tree": read("tarnshaw-9"), **style}),
}


@pytest.mark.parametrize("name", ANSWERS)
def test_every_answer_can_be_told_in_every_style(name: str) -> None:
    whole = [ANSWERS[name](style) for style in STYLES]
    for answer, style in zip(whole, STYLES, strict=True):
        told = json.dumps(answer, ensure_ascii=False, allow_nan=False)
        assert not FORBIDDEN.search(told)
        for sentence in sentences(answer):
            wrong = r"\d\.\d" if style["language"] == "de" else r"\d,\d"
            assert not re.search(wrong, sentence), sentence
    assert whole[0]["schema"] == whole[-1]["schema"]
    assert whole[0] != whole[3]


def sentences(value: Any) -> list[str]:
    """Whatever is a sentence of an answer: texts with a blank and a full stop or a colon."""
    if isinstance(value, dict):
        return [s for item in value.values() for s in sentences(item)]
    if isinstance(value, list):
        return [s for item in value for s in sentences(item)]
    return [value] if isinstance(value, str) and " " in value else []


def test_figures_are_the_same_in_every_style() -> None:
    for name, keys in {
        "notch": ("correction_cm", "deepen", "notch_depth_cm", "aim_error_deg", "verdict_then"),
        "stump": ("verdict", "device", "draws"),
    }.items():
        whole = [ANSWERS[name](style) for style in STYLES]
        for key in keys:
            assert all(answer[key] == whole[0][key] for answer in whole)
    rows = [ANSWERS["stump"](style)["rows"] for style in STYLES]
    for each in rows:
        for one, first in zip(each, rows[0], strict=True):
            for key in ("predicted", "real", "percentile", "place", "unit"):
                assert one[key] == first[key]


def test_the_example_of_the_trade_comes_out() -> None:
    """One degree over a hinge of 37 cm is 6.5 mm."""
    answer = notch_answer({**ASKED, "notch": {"aim_error_deg": 1, "side": "right"}})
    assert answer["correction_cm"] == pytest.approx(0.6)
    assert "6 mm deeper" in str(answer["text"])
    assert answer["deepen"] == "left"


@pytest.mark.parametrize("answer", [notch_answer, stump_answer])
def test_faults_of_tree_options_and_entries_come_at_once(answer: Any) -> None:
    request = {
        "tree": {"tree": {"dbh_cm": -1}},
        "kit": {"device": 3},
        "draws": 7,
        "notch": {"aim_error_deg": 200, "side": "up"},
        "stump": {"hinge_mid_mm": "thick", "went": ["well"]},
    }
    with pytest.raises(BadInput) as caught:
        answer(request)
    fields = {fault.field for fault in caught.value.faults}
    mine = {"notch.aim_error_deg", "notch.side"}
    if answer is stump_answer:
        mine = {"stump.hinge_mid_mm", "stump.went[1]"}
    assert fields == {"tree.dbh_cm", "device", "draws", *mine}


def test_the_notch_plans_what_it_was_given_with_the_lay_asked_for() -> None:
    turned = notch_answer({**ASKED, "lay_deg": 220, "notch": AIM})
    straight = notch_answer({**ASKED, "notch": AIM})
    assert straight["verdict"] == straight["verdict_then"] == "ADDS UP"
    assert turned["verdict"] != straight["verdict"]
    no_cut: Any = {**TREE, "cut": {"lay_deg": 40}}
    assert notch_answer({**ASKED, "tree": no_cut, "notch": AIM})["correction_cm"]


@pytest.mark.parametrize("language", ["en", "de"])
def test_every_card_says_what_never_what_now_and_who(language: str) -> None:
    answer: Any = stuck_answer({"language": language})
    assert [card["key"] for card in answer["cards"]] == ["does not go", "hung", "pinched bar"]
    for card in answer["cards"]:
        assert card["title"]
        for part in ("never", "now", "who"):
            assert len(card[part]) >= 3
            assert len(set(card[part])) == len(card[part])
            assert all(sentence.endswith(".") or "?" in sentence for sentence in card[part])
        assert card["line"] == []
    assert answer["caution"]
    assert answer["rescue_point"] is None


def test_the_hung_card_forbids_what_kills() -> None:
    answer: Any = stuck_answer({})
    never = " ".join(answer["cards"][1]["never"])
    for word in ("climb", "cut the tree that holds", "another tree over", "beneath", "unmarked"):
        assert word in never
    goes: Any = answer["cards"][0]
    assert "saw" in goes["never"][0]
    bar: Any = answer["cards"][2]
    assert "Only while it rests still on its hinge" in bar["now"][1]


def test_a_plan_with_a_line_is_told_on_the_first_card_only() -> None:
    answer: Any = stuck_answer({**ASKED, "tree": read("tarnshaw-9")})
    first, *others = answer["cards"]
    assert first["line"]
    assert all("guy" in line or "pull line" in line for line in first["line"])
    assert all(card["line"] == [] for card in others)


@pytest.mark.parametrize("tree", [3, {"tree": {"dbh_cm": "thick"}}, []])
def test_a_tree_that_cannot_be_read_never_keeps_a_card_back(tree: object) -> None:
    answer: Any = stuck_answer({"tree": tree, "kit": KIT})
    assert len(answer["cards"]) == 3
    assert "could not be read" in answer["note"]


@pytest.mark.parametrize(
    ("raw", "shown"),
    [
        ("W-5-17", "W-5-17"),
        ("  W 5  ", "W 5"),
        ("a\x1b[2Jb", "a\ufffd[2Jb"),
        ("x" * 500, "x" * 120),
        (7, None),
        ("", None),
    ],
)
def test_a_rescue_point_is_shown_as_text(raw: object, shown: str | None) -> None:
    answer: Any = stuck_answer({"rescue_point": raw})
    assert answer["rescue_point"] == shown
    assert any((shown or "No rescue point entered") in line for line in answer["call"])


DRIVEN = {
    "turns": "harrowlees-11-straight",
    "millimetres": "pikeless-moss-33",
    "nothing": "quernholt-17",
}


@pytest.mark.parametrize("name", DRIVEN)
def test_driving_is_told_in_every_style(name: str) -> None:
    plan = plan_from({**ASKED, "tree": read(DRIVEN[name])})
    for style in STYLES:
        table: Any = drive_rows(plan, Style(**style))  # type: ignore[arg-type]  # a style
        told = json.dumps(table, ensure_ascii=False, allow_nan=False)
        assert not FORBIDDEN.search(told)
        assert table["unit"] == {"turns": "turns", "millimetres": "mm", "nothing": None}[name]
        assert table["text"]
        if table["rows"]:
            assert table["rows"][-1]["stage"] == "stop"
            assert [stage["key"] for stage in table["stages"]] == [
                "bed in",
                "balance",
                "goes",
                "stop",
            ]
        if name == "turns":
            assert plan.marks is not None
            assert plan.marks.turns is not None
            assert plan.marks.turns.stop - 0.1 < table["stop"] <= plan.marks.turns.stop + 1e-9
            assert plan.marks.turns.leave_by - 1.0 < table["leave_by"]
            assert table["leave_by"] <= plan.marks.turns.leave_by
            assert table["rows"][-1]["turns"] == table["stop"]


def joined(plan: Plan) -> Plan:
    """The plan as if its device worked as one with another."""
    assert plan.outcome is not None
    choice = plan.outcome.choice
    assert choice is not None
    assert choice.driven is not None
    both = replace(choice, driven=replace(choice.driven, joined=("Dipper", "Plover")))
    return replace(plan, outcome=replace(plan.outcome, choice=both))


AREAS = ("drive", "notch", "stuck", "stump")


def changed(**sections: dict[str, Any]) -> Any:
    """The example tree with some keys of its tables changed."""
    return {**TREE, **{name: {**TREE[name], **keys} for name, keys in sections.items()}}


def leaning(offset_m: float, toward_deg: float) -> Any:
    return changed(
        tree={"lean": [{**TREE["tree"]["lean"][0], "offset_m": offset_m, "toward_deg": toward_deg}]}
    )


def grown(dbh_cm: float, back_m: float) -> Any:
    """The example tree of another size and lean, its notch a third of the stump."""
    tree = {**leaning(back_m, 220)["tree"], "dbh_cm": dbh_cm, "stump_diameter_cm": 1.15 * dbh_cm}
    return {**TREE, "tree": tree, "cut": {**TREE["cut"], "notch_share": 0.33, "hinge_mm": None}}


FAR = {"aim_error_deg": 9, "side": "left"}
SHARP = {"aim_error_deg": 4, "side": "left"}
NOTCHES: dict[str, dict[str, Any]] = {
    "left": {"notch": SHARP},
    "near": {"notch": {"aim_error_deg": 0.1, "side": "left"}},
    "far": {"notch": {"aim_error_deg": 20, "side": "left"}},
    "look open": {"notch": SHARP, "tree": changed(look={"sound": None})},
    "past the middle": {"notch": SHARP, "tree": changed(cut={"notch_share": 0.49})},
    "deep": {"notch": SHARP, "tree": changed(cut={"notch_share": 0.33})},
    "depth not given": {"notch": SHARP, "tree": changed(cut={"notch_share": None})},
    "then not": {"notch": FAR, "tree": grown(25, 0.4)},
    "then tight": {"notch": FAR, "tree": grown(40, 0.2)},
    "leans right": {"notch": SHARP, "tree": leaning(0.7, 130)},
    "leans left": {"notch": SHARP, "tree": leaning(0.7, 310)},
}
WORDS = [word for word in WENT if word != "no fault seen"]
STUMPS: list[tuple[dict[str, Any], Any]] = [
    ({"went": WORDS}, TREE),
    ({"lift_used_mm": 90, "hinge_mid_mm": 20, "notch_depth_cm": 4}, TREE),
    ({"lift_used_mm": 1, "hinge_mid_mm": 90, "notch_depth_cm": 15}, TREE),
    ({"lift_used_mm": 31, "lay_error_deg": 0}, TREE),
    ({"hinge_right_mm": 60, "hinge_left_mm": 40, "lay_error_deg": 4, "lay_side": "right"}, TREE),
    ({"turns_used": 4, "device": "Heron"}, TREE),
    (
        {
            "step_mm": 30,
            "lift_used_mm": 30,
            "hinge_mid_mm": 40,
            "notch_depth_cm": 9,
            "lay_error_deg": 1,
            "lay_side": "right",
        },
        {"tree": {}},
    ),
]
NO_DEVICE = {**KIT, "device": []}
NAMED = {device["name"]: {**KIT, "device": [device]} for device in KIT["device"]}
DRIVES: list[tuple[Any, Any]] = [
    (TREE, KIT),
    (read("harrowlees-11-straight"), NAMED["Plover"]),
    (read("pikeless-moss-33"), NAMED["Hand pair"]),
    (read("quernholt-17"), KIT),
    (TREE, NO_DEVICE),
    (changed(look={"sound": None}), KIT),
]
FAULTY: list[tuple[Any, Any]] = [
    (read_aim_check, {}),
    (read_aim_check, {"aim_error_deg": "a", "beside_m": 1, "side": 3}),
    (read_aim_check, {"distance_m": 1}),
    (read_stump, 3),
    (read_stump, {field.key: [] for field in STUMP_FIELDS if field.key != "went"}),
    (read_stump, {"went": ["hung", "no fault seen"]}),
]


def test_every_sentence_of_these_areas_comes_up() -> None:
    asked: set[str] = set()
    recording = Recording(catalogue("en"), asked)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("fellwright.words.text.catalogue", lambda _language: recording)
        for one in ANSWERS.values():
            one({})
        for name, request in NOTCHES.items():
            notch_answer({**ASKED, **request})
            assert asked, name
        for stump, tree in STUMPS:
            stump_answer({**ASKED, "tree": tree, "stump": stump})
        stuck_answer({"tree": 3})
        for tree, kit in DRIVES:
            drive_rows(plan_from({**ASKED, "tree": tree, "kit": kit}))
        drive_rows(joined(plan_from(ASKED)))
        for read_, raw in FAULTY:
            with pytest.raises(BadInput) as caught:
                read_(raw, "request")
            str(caught.value)
    known = {key for key in catalogue("en") if key.partition(".")[0] in AREAS}
    assert not known - asked, sorted(known - asked)
