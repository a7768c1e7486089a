"""`tip` and `mark` on real files: words, widths, exit codes, JSON."""

import json
from pathlib import Path

import pytest
from tests.cli.running import run

ROOT = Path(__file__).parents[2]
KIT = str(ROOT / "examples" / "van-2.toml")
TREE = str(ROOT / "examples" / "harrowlees-11.toml")
TREES = sorted(path for path in (ROOT / "examples").glob("*.toml") if "van-" not in path.name)


@pytest.mark.parametrize("path", TREES, ids=lambda path: path.stem)
@pytest.mark.parametrize("command", ["tip", "mark"])
def test_text_fits_80_columns(command: str, path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    result = run(capsys, command, str(path), "--kit", KIT)
    assert result.exit_code == 0
    assert result.out
    assert max(len(line) for line in result.out.splitlines()) <= 80


def test_text_names_verdict_choice_and_limiting_reason(
    capsys: pytest.CaptureFixture[str],
) -> None:
    lines = run(capsys, "tip", TREE, "--kit", KIT).out.splitlines()
    assert lines[2].startswith("[==]  ADDS UP   Dipper (W8, 19 mm socket, greased)")
    assert lines[3].strip().startswith("- lift: Dipper gives")


def test_no_text_calls_anything_safe(capsys: pytest.CaptureFixture[str]) -> None:
    for path in TREES:
        for command in ("tip", "mark"):
            text = run(capsys, command, str(path), "--kit", KIT).out.lower()
            assert "safe" not in text
            assert "permission" not in text


def test_json_is_one_answer_for_a_tree_and_a_list_for_a_table(
    capsys: pytest.CaptureFixture[str],
) -> None:
    one = json.loads(run(capsys, "tip", TREE, "--kit", KIT, "--json", "--draws", "64").out)
    assert one["tree"] == "Harrowlees 11"
    table = str(ROOT / "examples" / "trees.csv")
    many = json.loads(run(capsys, "tip", table, "--kit", KIT, "--json", "--draws", "64").out)
    assert many[0]["tree"] == "Harrowlees 11"
    assert len(many) == len((ROOT / "examples" / "trees.csv").read_text().splitlines()) - 1


@pytest.mark.parametrize("language", ["en", "de"])
def test_a_list_names_a_device_only_where_it_may_be_driven_and_shortens_no_word(
    language: str, capsys: pytest.CaptureFixture[str]
) -> None:
    table = str(ROOT / "examples" / "trees.csv")
    van = str(ROOT / "examples" / "van-3.toml")
    asked = ("tip", table, "--kit", van, "--draws", "64", "--language", language)
    heading, *rows = run(capsys, *asked).out.splitlines()
    answers = json.loads(run(capsys, *asked, "--json").out)
    assert {"ADDS UP", "LEAVE"} <= {answer["verdict"] for answer in answers}
    ends = {row.index(" " * 2, len(heading.rstrip())) for row in rows}
    assert len(ends) == 1, "columns are not aligned"
    for row, answer in zip(rows, answers, strict=True):
        told = row[len(heading) :]
        assert len(row) <= 80
        if answer["verdict"] in ("LEAVE", "MEASURE"):
            assert answer["choice"] is None
        words = told.removesuffix("...").split()
        whole = answer["choice"]["name"] if answer["choice"] else answer["reasons"][0]["text"]
        assert words == whole.split()[: len(words)]
        assert told.endswith("...") == (told != whole)


def test_csv_row_and_tree_file_give_the_same_answer(
    capsys: pytest.CaptureFixture[str],
) -> None:
    table = str(ROOT / "examples" / "trees.csv")
    many = json.loads(run(capsys, "tip", table, "--kit", KIT, "--json", "--draws", "64").out)
    by_name = {answer["tree"]: answer for answer in many}
    for path in TREES:
        one = json.loads(run(capsys, "tip", str(path), "--kit", KIT, "--json", "--draws", "64").out)
        assert by_name[one["tree"]] == one


def test_lay_replaces_the_one_in_the_file(capsys: pytest.CaptureFixture[str]) -> None:
    turned = json.loads(run(capsys, "tip", TREE, "--kit", KIT, "--json", "--lay", "220").out)
    assert turned["lay_deg"] == 220
    assert turned["back_offset_m"]["p50"] == pytest.approx(-0.5, abs=0.01)


def test_lean_by_the_clock_stays_where_it_is_under_another_lay(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    text = Path(TREE).read_text(encoding="utf-8")
    clock = text.replace("toward_deg = 220", "toward_clock = 6")
    path = tmp_path / "tree.toml"
    path.write_text(clock.replace("wind_from_deg = 40", "wind_from_clock = 12"), encoding="utf-8")
    for lay in ((), ("--lay", "130"), ("--lay", "220")):
        asked = ("--kit", KIT, "--json", "--draws", "64", *lay)
        by_clock = run(capsys, "tip", str(path), *asked)
        assert by_clock.exit_code == 0
        assert by_clock.out == run(capsys, "tip", TREE, *asked).out


def test_mark_prints_no_marks_without_the_look(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    text = (ROOT / "examples" / "harrowlees-11.toml").read_text()
    path = tmp_path / "tree.toml"
    path.write_text(text.replace("ring_clear = true", "# not answered"))
    result = run(capsys, "mark", str(path), "--kit", KIT)
    assert result.exit_code == 0
    assert "MEASURE" in result.out
    assert "hinge back edge" not in result.out
    assert "mm of hinge" not in result.out


@pytest.mark.parametrize(
    ("arguments", "word"),
    [
        (["--draws", "10"], "whole number from 64"),
        (["--lay", "400"], "between 0 and 360"),
        (["--lay", "nan"], "between 0 and 360"),
        (["--seed", "-1"], "whole number"),
    ],
)
def test_bad_option_is_one_line_and_exit_2(
    arguments: list[str], word: str, capsys: pytest.CaptureFixture[str]
) -> None:
    result = run(capsys, "tip", TREE, "--kit", KIT, *arguments)
    assert result.exit_code == 2
    assert result.out == ""
    assert word in result.err
    assert "Traceback" not in result.err


def test_draws_are_rounded_up_and_said(capsys: pytest.CaptureFixture[str]) -> None:
    answer = json.loads(run(capsys, "tip", TREE, "--kit", KIT, "--json", "--draws", "500").out)
    assert answer["draws"] == 512
    assert "draws" in [caution["code"] for caution in answer["cautions"]]


def test_faults_of_tree_and_kit_come_together(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    tree = tmp_path / "tree.toml"
    tree.write_text("[tree]\ndbh_cm = 4000\nheigth_m = 25\n")
    kit = tmp_path / "kit.toml"
    kit.write_text('[[device]]\nname = "X"\nkind = "screw wegde"\n')
    result = run(capsys, "tip", str(tree), "--kit", str(kit))
    assert result.exit_code == 2
    assert "dbh_cm = 4000" in result.err
    assert "height_m" in result.err
    assert "screw wedge" in result.err
