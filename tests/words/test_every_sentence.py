"""Whatever the planner says can be said in both languages and in every unit."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping
from functools import cache

import pytest
from tests.words.test_catalogue import FORBIDDEN
from tests.words.variants import variants

from fellwright.api.tip_response import mark_response, tip_response
from fellwright.cli.paragraph import WIDTH
from fellwright.cli.show_mark import mark_lines
from fellwright.cli.show_tip import heading_lines, tip_lines
from fellwright.planning.plan import Options, Plan
from fellwright.words import Style, catalogue

VARIANTS = variants()
OPTIONS = Options(draws=64)
STYLES = [
    Style("en"),
    Style("en", "t", imperial=True),
    Style("en", "t"),
    Style("de"),
    Style("de", "t"),
    Style("de", "kN", imperial=True),
]
SPOKEN = (
    "caution",
    "condition",
    "cut",
    "envelope",
    "line",
    "look",
    "mark",
    "reason",
    "said",
    "show",
    "verdict",
)
"""Areas that only `tip` and `mark` speak: every sentence of theirs must come up in some variant."""

pytestmark = pytest.mark.slow


class Recording(Mapping[str, str]):
    """A catalogue that remembers what it was asked for."""

    def __init__(self, sentences: Mapping[str, str], asked: set[str]) -> None:
        self.sentences, self.asked = sentences, asked

    def __getitem__(self, key: str) -> str:
        self.asked.add(key)
        return self.sentences[key]

    def __iter__(self) -> Iterator[str]:
        return iter(self.sentences)

    def __len__(self) -> int:
        return len(self.sentences)


@cache
def plan_of(name: str) -> Plan:
    """Plan of a variant, worked out once."""
    return VARIANTS[name].plan(OPTIONS)


@pytest.fixture(scope="module")
def spoken() -> set[str]:
    """Keys of all sentences that the variants bring up between them."""
    asked: set[str] = set()
    recording = Recording(catalogue("en"), asked)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("fellwright.words.text.catalogue", lambda _language: recording)
        for name in VARIANTS:
            pages(plan_of(name), Style())
    return asked


def pages(plan: Plan, style: Style) -> tuple[str, str, str]:
    """Answer to `tip` as JSON, as text, and answer to `mark` as text."""
    tip, mark = tip_response(plan, style), mark_response(plan, style)
    tipped = "\n".join(tip_lines(tip, style))
    marked = "\n".join(heading_lines(mark, style) + mark_lines(mark, style))
    return json.dumps(tip, ensure_ascii=False, allow_nan=False), tipped, marked


@pytest.mark.parametrize("name", VARIANTS)
def test_every_plan_can_be_told_in_every_style(name: str) -> None:
    plan = plan_of(name)
    for style in STYLES:
        told, tipped, marked = pages(plan, style)
        for page in (told, tipped, marked):
            assert not FORBIDDEN.search(page)
            assert not re.search(r"\d °(?![CF])", page)
            assert not re.search(r"(?<![\d.,-])-0(?:[.,]0+)? ", page)
        for page in (tipped, marked):
            assert max(len(line) for line in page.splitlines()) <= WIDTH
            # No figure with the decimal mark of the other language; "0, 1" is a list.
            assert not re.search(r"\d\.\d" if style.language == "de" else r"\d,\d", page)


def test_figures_and_codes_are_the_same_in_every_style() -> None:
    for name in ("example harrowlees-11", "seen: hollow", "unread: no species"):
        plan = plan_of(name)
        answers = [tip_response(plan, style) for style in STYLES]
        for answer in answers[1:]:
            for key in ("verdict", "if_clear", "push_kn", "lift_mm", "hinge", "turns", "choice"):
                assert answer[key] == answers[0][key]
            assert codes(answer) == codes(answers[0])


def codes(answer: dict[str, object]) -> list[object]:
    found: list[object] = []
    for area in ("reasons", "cautions", "helps"):
        listed = answer[area]
        assert isinstance(listed, list)
        found += [item["code"] for item in listed]
    return found


@pytest.mark.parametrize("area", SPOKEN)
def test_the_variants_bring_up_every_sentence(area: str, spoken: set[str]) -> None:
    known = {key for key in catalogue("en") if key.startswith(f"{area}.")}
    assert known
    assert sorted(known - spoken) == []
