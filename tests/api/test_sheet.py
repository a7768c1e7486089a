"""What a screen needs besides the answer: sliders, sizes of the cut, figures to ask why for."""

import itertools
import json
import tomllib
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

import fellwright
from fellwright.api import FIGURE_NAMES
from fellwright.api.text_door import answer_text
from fellwright.api.why_response import why_response
from fellwright.planning.case import MOST_CUT_SHARE
from fellwright.planning.envelope import HINGE_LEAST_SHARE, HINGE_MOST_M
from fellwright.planning.helps import DEEPEST_NOTCH, SHALLOWEST_NOTCH
from fellwright.planning.plan import Options
from fellwright.planning.tip import plan_tip
from fellwright.planning.why import explain
from fellwright.records.loader import read_kit, read_tree

EXAMPLES = Path(__file__).parents[2] / "examples"
QUICK = Options(draws=128, bare=True)
KIT = tomllib.loads((EXAMPLES / "van-2.toml").read_text("utf-8"))


def tree(name: str, **changes: dict[str, Any]) -> dict[str, Any]:
    """Tables of an example with some keys of its sections changed; None takes one out."""
    tables: dict[str, Any] = tomllib.loads((EXAMPLES / f"{name}.toml").read_text("utf-8"))
    for section, keys in changes.items():
        kept = {**tables.get(section, {}), **keys}
        tables[section] = {key: value for key, value in kept.items() if value is not None}
    return tables


def sheet(tables: dict[str, Any], **asked: Any) -> dict[str, Any]:
    """Answer to ``sheet``, few draws."""
    request = {"tree": tables, "kit": KIT, "draws": 128, "bare": True, **asked}
    answered: dict[str, Any] = json.loads(answer_text("sheet", json.dumps(request)))["answer"]
    return answered


def sliders(tables: dict[str, Any], **asked: Any) -> tuple[dict[str, Any], dict[str, Any]]:
    """Both sliders of a tree that has them."""
    found = sheet(tables, **asked)["sliders"]
    return found["hinge"], found["notch"]


def test_a_sheet_names_the_engine_that_made_it() -> None:
    assert sheet(tree("harrowlees-11"))["engine"] == fellwright.__version__


def test_a_sheet_names_the_profile_in_the_language_asked_for() -> None:
    assert sheet(tree("harrowlees-11"))["profile"] is None
    named = sheet(tree("harrowlees-11"), profile="germany", language="de")["profile"]
    assert named == "Deutschland"


@pytest.mark.parametrize("name", ["harrowlees-11", "harrowlees-26", "pikeless-moss-33"])
@pytest.mark.parametrize("imperial", [False, True])
def test_sliders_keep_within_what_the_planning_names(name: str, imperial: bool) -> None:
    tables = tree(name, cut={"hinge_mm": None, "notch_share": None})
    hinge, notch = sliders(tables, imperial=imperial)
    stump_m = tables["tree"]["stump_diameter_cm"] / 100.0
    unit_m = 0.0254 if imperial else 0.001
    assert hinge["least"] * unit_m >= HINGE_LEAST_SHARE * stump_m - 1e-9
    assert hinge["most"] * unit_m <= HINGE_MOST_M + 1e-9
    assert SHALLOWEST_NOTCH <= notch["least"] < notch["most"] <= DEEPEST_NOTCH
    assert notch["now"] + hinge["most"] * unit_m / stump_m <= MOST_CUT_SHARE + 1e-9
    assert notch["most"] + hinge["now"] * unit_m / stump_m <= MOST_CUT_SHARE + 1e-9


@pytest.mark.parametrize("imperial", [False, True])
def test_every_step_has_its_label_and_its_entry(imperial: bool) -> None:
    for slider in sliders(tree("harrowlees-11"), imperial=imperial, language="de"):
        values = slider["values"]
        assert (values[0], values[-1]) == (slider["least"], slider["most"])
        assert len(values) == len(slider["labels"]) == len(slider["typed"])
        gaps = [later - value for value, later in itertools.pairwise(values)]
        assert gaps == pytest.approx([slider["step"]] * len(gaps))
        assert [float(typed.replace(",", ".")) for typed in slider["typed"]] == values


def test_present_cut_is_at_its_own_step() -> None:
    hinge, notch = sliders(tree("harrowlees-11", cut={"hinge_mm": 46, "notch_share": 0.2}))
    assert (hinge["now"], hinge["values"][hinge["at"]], hinge["labels"][hinge["at"]]) == (
        46.0,
        46.0,
        "46 mm",
    )
    assert (notch["now"], notch["labels"][notch["at"]]) == (0.2, "20 %")


def test_a_cut_out_of_the_usual_sizes_stays_in_reach() -> None:
    hinge, notch = sliders(
        tree("harrowlees-11-straight", cut={"hinge_mm": 30, "notch_share": 0.12})
    )
    assert (hinge["least"], hinge["at"]) == (30.0, 0)
    assert (notch["least"], notch["at"]) == (0.12, 0)


def test_sliders_read_in_inches_are_tenths_of_an_inch() -> None:
    hinge, _ = sliders(
        tree("harrowlees-11", cut={"hinge_mm": None, "hinge_in": 1.8}), imperial=True
    )
    assert (hinge["path"], hinge["now"], hinge["step"]) == ("cut.hinge_in", 1.8, 0.1)
    assert hinge["labels"][hinge["at"]] == "1.8 in"


@pytest.mark.parametrize(
    "changes",
    [
        {"look": {"sound": None}},
        {"look": {"ring_clear": False}},
        {"tree": {"lean": None}},
        {"tree": {"species": None}},
        {"day": {"gust_m_s": 30}},
    ],
)
def test_no_cutting_figures_no_sliders_and_no_sizes(changes: dict[str, dict[str, Any]]) -> None:
    answer = sheet(tree("harrowlees-11", **changes), bare=False)
    assert answer["tip"]["verdict"] in ("LEAVE", "MEASURE")
    assert answer["sliders"] is None
    assert answer["sizes"] is None


def test_sliders_are_there_before_the_advice_is() -> None:
    bare, whole = (sheet(tree("harrowlees-11"), bare=bare) for bare in (True, False))
    assert bare["sizes"] is None
    assert bare["sliders"] == whole["sliders"] is not None


def test_sizes_are_those_of_the_answer_in_the_units_asked_for() -> None:
    metric = sheet(tree("harrowlees-11"), bare=False)
    assert metric["sizes"]["hinge"] == "46 mm"
    assert metric["sizes"]["notch"] == f"{metric['tip']['notch']['depth_mm']:.0f} mm"
    assert metric["sizes"]["preload"] == f"{metric['tip']['cut']['preload_kn']:.0f} kN"
    inches = sheet(tree("harrowlees-11"), bare=False, imperial=True)["sizes"]
    assert (inches["hinge"], inches["opening"]) == ("1.8 in", "45\N{DEGREE SIGN}")


@pytest.mark.parametrize("name", ["harrowlees-11", "quernholt-17"])
def test_every_row_shown_can_be_asked_why_and_says_the_same(name: str) -> None:
    answer = sheet(tree(name))
    rows = {row["key"]: row for row in answer["shown"]["need"]}
    assert set(answer["whys"]) == set(rows)
    for key, figure in answer["whys"].items():
        assert figure in FIGURE_NAMES
        request = {"tree": tree(name), "kit": KIT, "draws": 128, "bare": True, "figure": figure}
        why = json.loads(answer_text("why", json.dumps(request)))["answer"]
        assert why["value"]["p50"].split()[0] == rows[key]["p50"]


def test_a_tree_cut_hinge_first_is_asked_about_that_splitting() -> None:
    assert sheet(tree("quernholt-17"))["whys"]["splitting"] == "splitting_hinge_first"
    assert sheet(tree("harrowlees-11"))["whys"]["splitting"] == "splitting"


def test_sensitivities_lie_on_one_axis() -> None:
    request = {"tree": tree("harrowlees-11"), "kit": KIT, "draws": 128, "figure": "let_go_lift"}
    why = json.loads(answer_text("why", json.dumps(request)))["answer"]
    shares = [share for mover in why["sensitivity"] for share in mover["shares"]]
    assert (min(shares), max(shares)) == (0.0, 1.0)
    assert 0.0 < why["middle_share"] < 1.0
    back = why["sensitivity"][0]["shares"]
    assert back[0] < why["middle_share"] < back[1]


def test_a_figure_that_nothing_moves_has_no_axis() -> None:
    plan = plan_tip(read_tree(tree("harrowlees-11"), "tree"), read_kit(KIT, "kit"), QUICK)
    why = explain(plan, "mass")
    assert why is not None
    written = why_response("Harrowlees 11", replace(why, sensitivity=()))
    assert (written["middle_share"], written["sensitivity"]) == (None, [])
