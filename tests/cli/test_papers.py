"""`tip --card --paper --pictures`: files beside the answer, for one tree and for a list."""

from pathlib import Path

import pytest
from tests.cli.running import run
from tests.print.reading import read_pages

from fellwright.api import plan_tip
from fellwright.cli import tip

ROOT = Path(__file__).parents[2]
KIT = str(ROOT / "examples" / "van-2.toml")
TREE = str(ROOT / "examples" / "harrowlees-11.toml")
TREES = ROOT / "examples" / "trees.csv"
QUICK = ("--kit", KIT, "--draws", "64")


def names() -> list[str]:
    rows = TREES.read_text(encoding="utf-8").splitlines()[1:]
    return [row.split(",")[0] for row in rows]


def test_card_of_a_tree_is_one_page_and_the_answer_is_unchanged(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    plain = run(capsys, "tip", TREE, *QUICK)
    card = tmp_path / "card.pdf"
    result = run(capsys, "tip", TREE, *QUICK, "--card", str(card), "--language", "de")
    assert result.exit_code == 0
    (page,) = read_pages(card)
    assert page.text.startswith("Harrowlees 11 GEHT AUF")
    assert run(capsys, "tip", TREE, *QUICK, "--card", str(card)).out == plain.out


def test_list_has_a_page_a_tree_in_its_order(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    card = tmp_path / "cards.pdf"
    plain = run(capsys, "tip", str(TREES), *QUICK)
    result = run(capsys, "tip", str(TREES), *QUICK, "--card", str(card), "--paper", "a4")
    assert result.out == plain.out
    pages = read_pages(card)
    assert len(pages) == len(names())
    for page, name in zip(pages, names(), strict=True):
        assert page.text.startswith(name)
        assert page.width_mm == pytest.approx(297.0, abs=0.1)


def test_pictures_of_every_tree_go_into_one_folder(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = tmp_path / "new" / "pictures"
    result = run(capsys, "tip", str(TREES), *QUICK, "--pictures", str(folder))
    assert result.exit_code == 0
    found = sorted(path.name for path in folder.iterdir())
    assert len(found) == 4 * len(names())
    assert "harrowlees-11-stump.svg" in found


def test_two_trees_of_one_name_are_refused_before_anything_is_written(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    rows = TREES.read_text(encoding="utf-8").splitlines()
    table = tmp_path / "trees.csv"
    table.write_text("\n".join([*rows, rows[1].replace("Harrowlees 11", "harrowlees-11")]))
    folder = tmp_path / "pictures"
    result = run(capsys, "tip", str(table), *QUICK, "--pictures", str(folder))
    assert result.exit_code == 2
    assert result.out == ""
    assert "harrowlees-11" in result.err
    assert not folder.exists()


def test_missing_folder_is_one_line_and_exit_2(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    result = run(capsys, "tip", TREE, *QUICK, "--card", str(tmp_path / "no" / "card.pdf"))
    assert result.exit_code == 2
    assert result.out == ""
    assert "must lie in a folder that exists" in result.err
    assert "Traceback" not in result.err


@pytest.mark.parametrize("more", [(), ("--json",)])
def test_ctrl_c_keeps_the_cards_that_are_done(
    more: tuple[str, ...],
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    done = 0

    def stopping(*args: object) -> object:
        nonlocal done
        done += 1
        if done > 2:
            raise KeyboardInterrupt
        return plan_tip(*args)  # type: ignore[arg-type]  # handed on as it came

    monkeypatch.setattr(tip, "plan_tip", stopping)
    card = tmp_path / "cards.pdf"
    result = run(capsys, "tip", str(TREES), *QUICK, *more, "--card", str(card))
    assert result.exit_code == 130
    assert [
        page.text.split("[")[0].startswith(name)
        for page, name in zip(read_pages(card), names(), strict=False)
    ] == [True, True]


def test_mark_writes_no_card(capsys: pytest.CaptureFixture[str]) -> None:
    result = run(capsys, "mark", TREE, *QUICK, "--card", "card.pdf")
    assert result.exit_code == 2
