import os
from pathlib import Path

import pytest
from tests.cli.running import run
from tests.records.bundles import event, text, uuid_7
from tests.records.samples import EXAMPLES

from fellwright.cli.check import check_files

Capsys = pytest.CaptureFixture[str]


def test_every_example_reads_well(capsys: Capsys) -> None:
    paths = sorted(str(path) for path in EXAMPLES.iterdir())
    ran = run(capsys, "check", *paths)
    assert ran.exit_code == 0
    assert ran.err == ""
    assert ran.out.splitlines() == [
        f"{path}: reads well: "
        + (
            "6 trees"
            if path.endswith(".csv")
            else "kit of 4 devices, 1 hammer, 2 wrenches, 2 sockets, 2 packs, 1 rope"
            if "van-2" in path
            else "kit of 5 devices, 1 hammer, 1 wrench, 2 sockets, 2 packs"
            if "van-3" in path
            else "1 tree"
        )
        for path in paths
    ]


def test_every_fault_of_every_file_is_told_and_good_files_are_named(
    capsys: Capsys, tmp_path: Path
) -> None:
    tree, kit, table = tmp_path / "a.toml", tmp_path / "b.toml", tmp_path / "c.csv"
    tree.write_text("[tree]\ndbh_cm = 0\nheight_m = 'tall'\n")
    kit.write_text("[[device]]\nname = 'Dipper'\nkind = 'screw wedge'\n")
    table.write_text("name,dbh_cm\nA,40\nB,-40\n")
    good = str(EXAMPLES / "harrowlees-11.toml")
    ran = run(capsys, "check", str(tree), good, str(kit), str(table), str(tmp_path / "none.toml"))
    assert ran.exit_code == 2
    assert ran.out == f"{good}: reads well: 1 tree\n"
    assert [line.split(": must")[0] for line in ran.err.splitlines()] == [
        f"{tree}: tree.dbh_cm = 0",
        f'{tree}: tree.height_m = "tall"',
        f"{kit}: device[1].rated_t",
        f"{kit}: device[1].lift_mm",
        f"{kit}: device[1].plate_mm",
        f"{table}: row 3: tree.dbh_cm = -40",
        f"{tmp_path / 'none.toml'}",
    ]


@pytest.mark.parametrize(
    ("text", "field"),
    [
        ("[tre]\ndbh_cm = 40\n", "tre"),
        ("[[devices]]\nname = 'Dipper'\n", "devices"),
        ("a = 1\n", ""),
        ("", ""),
    ],
)
def test_a_file_is_taken_for_what_it_comes_nearest_to(
    tmp_path: Path, text: str, field: str
) -> None:
    path = tmp_path / "a.toml"
    path.write_text(text)
    checked = check_files([str(path)])
    assert checked.good == ()
    assert field in {fault.field for fault in checked.faults}


@pytest.mark.parametrize("ending", ["toml", "csv", "bin"])
def test_ten_megabytes_of_garbage_are_refused_in_one_line(
    capsys: Capsys, tmp_path: Path, ending: str
) -> None:
    path = tmp_path / f"garbage.{ending}"
    path.write_bytes(os.urandom(1_000_000) * 10)
    ran = run(capsys, "check", str(path))
    assert ran.exit_code == 2
    assert ran.out == ""
    assert ran.err.startswith(f"{path}: must be at most ")
    assert len(ran.err.splitlines()) == 1
    assert list(tmp_path.iterdir()) == [path]


def test_no_file_at_all_is_a_usage_error(capsys: Capsys) -> None:
    ran = run(capsys, "check")
    assert ran.exit_code == 2
    assert "Missing argument" in ran.err


def test_a_name_a_terminal_would_obey_is_not_repeated(capsys: Capsys, tmp_path: Path) -> None:
    ran = run(capsys, "check", f"{tmp_path}/\x1b[2J.toml")
    assert ran.exit_code == 2
    assert "\x1b" not in ran.err


def test_a_bundle_reads_well_and_its_clashes_and_strange_kinds_are_counted(
    capsys: Capsys, tmp_path: Path
) -> None:
    path = tmp_path / "crew.JSON"
    events = [event("state"), event("state", body={"state": "hung"}), event("x", id=uuid_7(2))]
    path.write_text(text(*events), encoding="utf-8")
    ran = run(capsys, "check", str(path))
    assert (ran.exit_code, ran.err) == (0, "")
    assert ran.out == (
        f"{path}: reads well: bundle of 3 events, 1 id with events that clash, all kept, "
        "1 of a kind not known here, kept\n"
    )


def test_a_spoilt_bundle_has_every_fault_told(capsys: Capsys, tmp_path: Path) -> None:
    path = tmp_path / "crew.json"
    path.write_text(text(event(seq=0), event(at="now"), 3), encoding="utf-8")
    ran = run(capsys, "check", str(path))
    assert ran.exit_code == 2
    assert [line.split(": must")[0] for line in ran.err.splitlines()] == [
        f"{path}: events[1].seq = 0",
        f'{path}: events[2].at = "now"',
        f"{path}: events[3] = 3",
    ]


def test_a_bundle_from_a_newer_version_is_one_line_that_says_nothing_was_changed(
    capsys: Capsys, tmp_path: Path
) -> None:
    path = tmp_path / "crew.json"
    path.write_text(text(3, schema="fellwright/bundle/2"), encoding="utf-8")
    ran = run(capsys, "check", str(path))
    assert ran.exit_code == 2
    assert len(ran.err.splitlines()) == 1
    assert "Nothing was changed" in ran.err
