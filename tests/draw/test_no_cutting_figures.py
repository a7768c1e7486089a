"""Where nothing may be cut, no picture shows how."""

from __future__ import annotations

import re

import pytest
from tests.draw.pages import DRAWERS, ENGLISH, GERMAN, boxes, classed, planned, varied, words

from fellwright.planning.plan import Plan

BARRED = [
    "look open",
    "ring not clear",
    "no dbh",
    "no species",
    "no lean",
    "no lay",
    "leans far back",
    "leans a metre back",
    "lodged",
]
CUTS = (
    "hinge",
    "notch",
    "first-half",
    "second-half",
    "back-cut",
    "notch-floor",
    "strap",
    "wedge",
    "wedge-full",
    "bar-room",
    "mark",
    "device",
    "device-end",
    "have",
    "axis opening",
    "opening",
)


def barred(case: str) -> Plan:
    plan = planned(varied()[case])
    assert not plan.may_cut
    return plan


@pytest.mark.parametrize("picture", DRAWERS)
@pytest.mark.parametrize("case", BARRED)
def test_barred_plan_shows_no_cut(case: str, picture: str) -> None:
    plan = barred(case)
    svg = DRAWERS[picture](plan, ENGLISH)
    assert not [name for name in CUTS if classed(svg, name)]
    told = words(svg)
    assert plan.verdict in told
    assert not re.search(r"\d[\d.]* turns", told)
    assert not re.search(r"(hinge|notch|lever) \d", told)
    assert "46 mm" not in re.sub(r"gives 46 mm", "", told), "the hinge of this tree"
    assert "92 mm" not in told, "the notch of this tree"
    if plan.marks is not None:
        for mark in plan.marks.marks:
            assert f"{mark.from_front_mm / 10:.1f} cm" not in told


@pytest.mark.parametrize("case", BARRED)
def test_barred_stump_says_so_and_why(case: str) -> None:
    plan = barred(case)
    told = words(DRAWERS["stump"](plan, ENGLISH))
    assert "No hinge, notch, marks or turns are shown for this verdict." in told
    first = str(plan.reasons[0].text).split()[:3]
    assert " ".join(first) in told
    assert "Bruchleiste, Fällkerb, Marken" in words(DRAWERS["stump"](plan, GERMAN))


@pytest.mark.parametrize("case", ["look open", "leans far back"])
def test_barred_plan_still_shows_its_need(case: str) -> None:
    plan = barred(case)
    assert plan.outcome is not None
    svg = DRAWERS["need-have"](plan, ENGLISH)
    assert len(classed(svg, "need")) == 2
    assert len(classed(DRAWERS["push-lift"](plan, ENGLISH), "curve")) == 1
    lift = plan.outcome.figures.let_go_lift_m.p50
    assert f"Let-go: {1000 * lift:.0f} mm of lift." in words(DRAWERS["tipping"](plan, ENGLISH))


@pytest.mark.parametrize("picture", DRAWERS)
def test_figures_of_an_open_look_stand_under_their_condition(picture: str) -> None:
    svg = DRAWERS[picture](barred("look open"), ENGLISH)
    assert any("if the look is clear" in box.text for box in boxes(svg))


@pytest.mark.parametrize("picture", DRAWERS)
@pytest.mark.parametrize("case", ["no dbh", "lodged"])
def test_plan_without_figures_says_that_there_are_none(case: str, picture: str) -> None:
    told = words(DRAWERS[picture](barred(case), ENGLISH))
    assert "No picture" in told or "No hinge" in told
