"""`tip` and `mark` in German, in tonnes and in imperial units, on the example trees."""

import json
import re
from pathlib import Path

import pytest
from tests.cli.running import run

Capsys = pytest.CaptureFixture[str]
EXAMPLES = Path(__file__).parents[2] / "examples"
KIT = str(EXAMPLES / "van-2.toml")
TREES = sorted(str(path) for path in EXAMPLES.glob("*.toml") if not path.stem.startswith("van"))
TREE = str(EXAMPLES / "harrowlees-11.toml")
QUICK = ("--kit", KIT, "--draws", "64")
GERMAN = ("--language", "de")


@pytest.mark.parametrize("path", TREES, ids=lambda path: Path(path).stem)
@pytest.mark.parametrize("command", ["tip", "mark"])
@pytest.mark.parametrize(
    "options", [(), ("--force", "t"), ("--imperial",)], ids=["metric", "tonnes", "imperial"]
)
def test_german_fits_80_columns_and_writes_commas(
    command: str, path: str, options: tuple[str, ...], capsys: Capsys
) -> None:
    ran = run(capsys, command, path, *QUICK, *GERMAN, *options)
    assert ran.exit_code == 0
    assert ran.err == ""
    assert max(len(line) for line in ran.out.splitlines()) <= 80
    assert "Fällrichtung" in ran.out
    assert not re.search(r"\d\.\d", ran.out)
    assert "sicher" not in ran.out.casefold()


@pytest.mark.parametrize("path", TREES, ids=lambda path: Path(path).stem)
def test_german_reads_german_in_every_line_that_is_no_name(path: str, capsys: Capsys) -> None:
    english = run(capsys, "tip", path, *QUICK).out.splitlines()
    german = run(capsys, "tip", path, *QUICK, *GERMAN).out.splitlines()
    same = [line for line in english if line in german and re.search("[a-z]{3}", line)]
    assert same == []


def test_the_verdict_is_a_german_word_and_stays_a_code_in_json(capsys: Capsys) -> None:
    lines = run(capsys, "tip", TREE, *QUICK, *GERMAN).out.splitlines()
    assert lines[0] == "Harrowlees 11, Fällrichtung 40°"
    assert lines[2] == "[==]  GEHT AUF   Dipper (W8, Nuss 19 mm, gefettet)"
    table = next(i for i, line in enumerate(lines) if "Ergebnis" in line)
    column = lines[table].index("Ergebnis")
    words = [line[column:].split("  ")[0] for line in lines[table + 1 : table + 5]]
    assert set(words) <= {"GEHT AUF", "KNAPP", "SEIL", "STEHEN LASSEN", "MESSEN"}
    answer = json.loads(run(capsys, "tip", TREE, *QUICK, *GERMAN, "--json").out)
    assert answer["verdict"] == "ADDS UP"
    assert {device["verdict"] for device in answer["devices"]} <= {"ADDS UP", "TIGHT", "LEAVE"}
    assert answer["cut"]["method"] == "half and half"
    assert answer["reasons"][0]["text"].startswith("Hub: Dipper gibt")


def test_the_verdict_were_the_look_clear_is_told_in_german(tmp_path: Path, capsys: Capsys) -> None:
    text = Path(TREE).read_text(encoding="utf-8").replace("ring_clear = true", "")
    tree = tmp_path / "tree.toml"
    tree.write_text(text, encoding="utf-8")
    lines = run(capsys, "tip", str(tree), *QUICK, *GERMAN).out.splitlines()
    assert lines[2] == "[??]  MESSEN   (Baumansprache ohne Befund: GEHT AUF)"
    assert lines[3].strip() == "- die Baumansprache ist offen: Gefahrenbereich frei"
    assert "Zahlen, wenn die Baumansprache ohne Befund bleibt:" in lines


def test_an_aside_that_does_not_fit_gets_a_line_of_its_own(tmp_path: Path, capsys: Capsys) -> None:
    text = Path(TREE).read_text(encoding="utf-8")
    tree = tmp_path / "tree.toml"
    tree.write_text(text.replace("clear_overhead = true", "clear_overhead = false"), "utf-8")
    kit = tmp_path / "kit.toml"
    named = Path(KIT).read_text(encoding="utf-8").replace('"Dipper"', '"Dipper with a long name"')
    kit.write_text(named, encoding="utf-8")
    out = run(capsys, "tip", str(tree), "--kit", str(kit), *QUICK[2:], *GERMAN).out
    lines = out.splitlines()
    assert lines[2] == "[/\\]  KNAPP   Dipper with a long name (W8, Nuss 19 mm, gefettet)"
    assert lines[3] == "      (Baumansprache ohne Befund: GEHT AUF)"


def test_force_in_tonnes_is_that_in_kilonewtons(capsys: Capsys) -> None:
    def pushes(*options: str) -> list[float]:
        lines = run(capsys, "tip", TREE, *QUICK, *options).out.splitlines()
        row = next(line for line in lines if line.startswith("  push "))
        assert row.split()[-1] == ("t" if options else "kN")
        return [float(word) for word in row.split()[1:4]]

    for kilonewtons, tonnes in zip(pushes(), pushes("--force", "t"), strict=True):
        assert tonnes == pytest.approx(kilonewtons / 9.80665, abs=0.11)


def test_imperial_leaves_no_metric_figure_but_sizes_of_steel(capsys: Capsys) -> None:
    for command in ("tip", "mark"):
        out = run(capsys, command, TREE, *QUICK, "--imperial").out
        assert set(re.findall(r"\d (mm|cm|m|kg|kN|t|m/s)\b", out)) == {"mm"}
        assert re.findall(r"\S+ mm\b", out) == ["19 mm"]


def test_json_keeps_metric_figures_whatever_the_text(capsys: Capsys) -> None:
    plain = json.loads(run(capsys, "tip", TREE, *QUICK, "--json").out)
    other = json.loads(run(capsys, "tip", TREE, *QUICK, "--json", "--imperial", *GERMAN).out)
    for key in ("lift_mm", "push_kn", "mass_kg", "hinge", "notch", "turns", "choice"):
        assert other[key] == plain[key]
    assert other["reasons"] != plain["reasons"]


def test_a_name_in_braces_is_printed_as_it_is(tmp_path: Path, capsys: Capsys) -> None:
    tree = tmp_path / "tree.toml"
    text = Path(TREE).read_text(encoding="utf-8").replace('"Harrowlees 11"', '"{x} {0} {name}"')
    tree.write_text(text, encoding="utf-8")
    kit = tmp_path / "kit.toml"
    kit.write_text(Path(KIT).read_text(encoding="utf-8").replace('"Dipper"', '"{gives:lift}"'))
    for options in ((), GERMAN):
        ran = run(capsys, "tip", str(tree), "--kit", str(kit), *QUICK[2:], *options)
        assert ran.exit_code == 0
        assert ran.out.startswith("{x} {0} {name}, ")
        assert "{gives:lift} (W8" in ran.out


@pytest.mark.parametrize("command", ["tip", "mark", "why"])
def test_faults_are_told_in_german(command: str, tmp_path: Path, capsys: Capsys) -> None:
    tree, kit = tmp_path / "tree.toml", tmp_path / "none.toml"
    tree.write_text("[tree]\ndbh_cm = 4000\nheight_m = 'hoch'\n", encoding="utf-8")
    figure = ("push",) if command == "why" else ()
    ran = run(capsys, command, *figure, str(tree), "--kit", str(kit), *GERMAN)
    assert ran.exit_code == 2
    assert ran.out == ""
    assert ran.err == (
        f"{tree}: tree.dbh_cm = 4000: muss zwischen 1 und 1000 cm liegen. "
        "Umfang messen, durch 3,14 teilen, in Zentimetern angeben.\n"
        f'{tree}: tree.height_m = "hoch": muss eine Zahl sein, ohne Einheit und ohne '
        "Anführungszeichen. Mit dem Höhenmesser messen, in Metern angeben.\n"
        f"{kit}: muss vorhanden sein. Dateinamen prüfen.\n"
    )


@pytest.mark.parametrize(
    ("options", "told"),
    [
        (("--lay", "400"), "muss zwischen 0 und 360 Grad liegen"),
        (("--draws", "1"), "muss eine ganze Zahl von 64 bis 65536 sein"),
        (("--profile", "albertta"), "ist keines. Am nächsten liegt alberta."),
        (("--card", "no/such/card.pdf"), "muss in einem vorhandenen Ordner liegen"),
    ],
)
def test_faults_of_options_are_told_in_german(
    options: tuple[str, ...], told: str, capsys: Capsys
) -> None:
    ran = run(capsys, "tip", TREE, *QUICK, *GERMAN, *options)
    assert ran.exit_code == 2
    assert told in ran.err
    assert len(ran.err.splitlines()) == 1


@pytest.mark.parametrize(
    ("option", "value"), [("--language", "fr"), ("--language", "DE "), ("--force", "N")]
)
def test_an_unknown_language_or_unit_is_a_usage_error(
    option: str, value: str, capsys: Capsys
) -> None:
    ran = run(capsys, "tip", TREE, "--kit", KIT, option, value)
    assert ran.exit_code == 2
    assert ran.out == ""
    assert value in ran.err
