"""The paper: a page a tree, letters large enough, the same bytes again, whole or not at all."""

import importlib.util
import os
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest
from tests.plans.cases import example, van
from tests.print.example_card import CARD, write_shown
from tests.print.reading import (
    EXAMPLES,
    FEW,
    STYLES,
    example_plan,
    one_line,
    read_pages,
    variant_plans,
)

from fellwright.errors import BadInput
from fellwright.planning.tip import plan_tip
from fellwright.print import PAPERS, lay_out, write_card, write_cards
from fellwright.words import Style, render, say

HOSTILE = [
    "#panic()",
    '#import "/etc/passwd": *',
    "*x* _y_ $z$ `r` @a <b> = h // c /* d */",
    '"quote" \' \\ \\u{41} #{1 + 1} ]',
    "{name} {0} {x.y}",
    "tree \N{EVERGREEN TREE} \N{RIGHT-TO-LEFT OVERRIDE}rtl \x07",
    "W" * 400,
    "long words " * 60,
    "line\nbreak\ttab",
    "Дуб 北京 ß",
]
PLAIN = HOSTILE[:5]
A5_MM, A4_ACROSS_MM = (148.0, 210.0), (297.0, 210.0)
LEAST_POINTS = 9.0
LEAST_MARK_POINTS = 14.0


@pytest.mark.parametrize("paper", PAPERS)
def test_paper_has_its_size(paper: str, tmp_path: Path) -> None:
    (page,) = read_pages(
        write_card(example_plan("harrowlees-11"), tmp_path / "c.pdf", Style(), paper)
    )
    wanted = {"a5": A5_MM, "a4": A4_ACROSS_MM}[paper]
    assert (page.width_mm, page.height_mm) == pytest.approx(wanted, abs=0.1)


def test_a4_has_the_stump_plan_beside_the_card(tmp_path: Path) -> None:
    plan = example_plan("harrowlees-11")
    (page,) = read_pages(write_card(plan, tmp_path / "c.pdf", Style(), "a4"))
    assert render(say("pictures.count_from_front")) in page.text
    (page,) = read_pages(write_card(plan, tmp_path / "c.pdf", Style(), "a5"))
    assert render(say("pictures.count_from_front")) not in page.text


@pytest.mark.parametrize("name", EXAMPLES)
@pytest.mark.parametrize("style", STYLES, ids=str)
def test_letters_are_read_at_arms_length(name: str, style: Style, tmp_path: Path) -> None:
    plan = example_plan(name)
    (page,) = read_pages(write_card(plan, tmp_path / "c.pdf", style))
    assert min(page.letters) >= LEAST_POINTS
    large = " ".join(text for size, text in page.letters.items() if size >= LEAST_MARK_POINTS)
    assert plan.marks is not None
    for mark in plan.marks.marks:
        for word in render(say(f"mark.{mark.key}"), style).split():
            assert word in large
    if plan.marks.turns is not None:
        assert render(say("card.turn_stop"), style) in large


@pytest.mark.slow
@pytest.mark.parametrize("style", [Style(), Style("de", "kN", True)], ids=str)
def test_every_plan_fits_one_page_with_letters_large_enough(style: Style, tmp_path: Path) -> None:
    plans = list(variant_plans().values())
    pages = read_pages(write_cards([lay_out(p, style) for p in plans], tmp_path / "c.pdf"))
    assert len(pages) == len(plans)
    for page, plan in zip(pages, plans, strict=True):
        assert min(page.letters) >= LEAST_POINTS, plan.tree.name
        # The foot comes last: it is there whole, so nothing ran off the sheet.
        assert page.text.endswith(str(lay_out(plan, style)["engine"]))


@pytest.mark.parametrize("text", HOSTILE, ids=range(len(HOSTILE)))
def test_names_are_words_and_nothing_else(text: str, tmp_path: Path) -> None:
    kit = van()
    kit = replace(kit, devices=tuple(replace(d, name=f"{text} {d.name}") for d in kit.devices))
    plan = plan_tip(replace(example("harrowlees-11"), name=text), kit, FEW)
    for paper in PAPERS:
        (page,) = read_pages(write_card(plan, tmp_path / "c.pdf", Style(), paper))
        assert render(say("card.signature")) in page.text
        if text in PLAIN:
            assert page.text.startswith(one_line(text))
            assert one_line(f"{text} Dipper; ") in page.text


def test_a_page_a_tree_in_the_order_given(tmp_path: Path) -> None:
    plans = [example_plan(name) for name in EXAMPLES]
    pages = read_pages(write_cards([lay_out(p, Style()) for p in plans], tmp_path / "c.pdf"))
    assert len(pages) == len(plans)
    for page, plan in zip(pages, plans, strict=True):
        assert page.text.startswith(str(plan.tree.name))


@pytest.mark.parametrize("paper", PAPERS)
def test_same_plan_gives_the_same_bytes(paper: str, tmp_path: Path) -> None:
    plan = example_plan("tarnshaw-9")
    first = write_card(plan, tmp_path / "first.pdf", Style("de"), paper).read_bytes()
    second = write_card(plan, tmp_path / "second.pdf", Style("de"), paper).read_bytes()
    assert first == second
    assert b"/CreationDate" not in first
    other = write_card(example_plan("harrowlees-26"), tmp_path / "third.pdf", Style("de"), paper)
    assert other.read_bytes() != first


ELSEWHERE = """
import sys
from tests.print.reading import example_plan
from fellwright.print import write_card
from fellwright.words import Style
write_card(example_plan("tarnshaw-9"), sys.argv[1], Style("de"), "a4")
"""


def test_bytes_do_not_depend_on_process_clock_or_folder(tmp_path: Path) -> None:
    here = write_card(example_plan("tarnshaw-9"), tmp_path / "here.pdf", Style("de"), "a4")
    there = tmp_path / "there.pdf"
    environment = {**os.environ, "TZ": "Asia/Tokyo", "PYTHONHASHSEED": "7"}
    environment["PYTHONPATH"] = str(Path(__file__).parents[2])
    environment["SOURCE_DATE_EPOCH"] = "1000000000"
    subprocess.run(
        [sys.executable, "-c", ELSEWHERE, str(there)], check=True, cwd=tmp_path, env=environment
    )
    assert there.read_bytes() == here.read_bytes()


def refusal(plan_path: Path, paper: str = "a5") -> str:
    with pytest.raises(BadInput) as refused:
        write_card(example_plan("harrowlees-11"), plan_path, Style(), paper)
    (fault,) = refused.value.faults
    return fault.code


def test_folder_that_is_missing_is_refused(tmp_path: Path) -> None:
    assert refusal(tmp_path / "nowhere" / "card.pdf") == "folder-missing"
    assert not (tmp_path / "nowhere").exists()


def test_folder_or_no_file_name_in_place_of_a_file_is_refused(tmp_path: Path) -> None:
    assert refusal(tmp_path) == "is-folder"
    assert refusal(tmp_path / "a\0b.pdf") == "unwritable"
    assert refusal(tmp_path / ("x" * 300 + ".pdf")) == "unwritable"
    assert list(tmp_path.iterdir()) == []


def test_unknown_paper_is_refused(tmp_path: Path) -> None:
    assert refusal(tmp_path / "card.pdf", "a3") == "not-a-choice"


def test_without_the_extra_it_says_what_to_install(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    find = importlib.util.find_spec
    monkeypatch.setattr(
        importlib.util, "find_spec", lambda name: None if name == "typst" else find(name)
    )
    with pytest.raises(BadInput, match=r"extra print: pip install 'fellwright\[print\]'"):
        write_card(example_plan("harrowlees-11"), tmp_path / "card.pdf", Style())


def test_failure_leaves_the_old_card_and_nothing_half_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = write_card(example_plan("harrowlees-11"), tmp_path / "card.pdf", Style())
    before = path.read_bytes()

    def broken(source: str, target: str) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "replace", broken)
    assert refusal(path) == "unwritable"
    assert path.read_bytes() == before
    assert [entry.name for entry in tmp_path.iterdir()] == ["card.pdf"]


def test_card_in_the_documents_is_fresh(tmp_path: Path) -> None:
    # By its words: another release of typst may place the same words in other bytes.
    shown, fresh = read_pages(CARD), read_pages(write_shown(tmp_path / "card.pdf"))
    assert [page.text for page in shown] == [page.text for page in fresh], "run: make pictures"
