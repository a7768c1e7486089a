from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.records.samples import EXAMPLES, only_fault

from fellwright.errors import BadInput, Fault
from fellwright.exchange.columns import SECTIONS, column_of, known_headings
from fellwright.exchange.csv_file import MOST_BYTES, read_csv
from fellwright.exchange.tree_file import read_trees
from fellwright.records.table_reader import accepted_keys
from fellwright.records.tree import Conductor, CrownShift, LeanReading


def written(folder: Path, content: str | bytes) -> Path:
    path = folder / "list.csv"
    path.write_bytes(content.encode() if isinstance(content, str) else content)
    return path


def faults_of(path: Path) -> tuple[Fault, ...]:
    with pytest.raises(BadInput) as caught:
        read_trees(path)
    return caught.value.faults


def test_the_list_of_examples_holds_the_same_trees_as_their_own_files() -> None:
    from_list = read_trees(EXAMPLES / "trees.csv")
    paths = [path for path in EXAMPLES.glob("*.toml") if not path.stem.startswith("van")]
    from_files = {tree.name: tree for path in paths for tree in read_trees(path)}
    assert len(from_list) == len(from_files) == 6
    for tree in from_list:
        assert tree == from_files[tree.name]


@pytest.mark.parametrize(
    "content",
    [
        "name,dbh_cm,sound,defects\nA 1,40.5,yes,crack;fork\n",
        "name;dbh_cm;sound;defects\nA 1;40,5;true;crack, fork\n",
        "name;dbh_cm;sound;defects\nA 1;40.5;1;crack/fork\n",
        "name\tdbh_cm\tsound\tdefects\nA 1\t40.5\tYes\tcrack|fork\n",
        "\ufeffname,dbh_cm,sound,defects\r\nA 1,40.5,TRUE,crack|fork\r\n",
        "Tree.Name, tree.dbh_cm ,look.sound,defects\n\n,,,\n A 1 , 40.5 ,y,crack|fork,\n\n",
        'name,dbh_cm,sound,defects\n"A 1","40.5","yes","crack;fork"',
    ],
)
def test_each_way_a_spreadsheet_writes_a_list_gives_the_same(tmp_path: Path, content: str) -> None:
    assert read_csv(written(tmp_path, content)) == [
        {
            "tree": {"name": "A 1", "dbh_cm": 40.5, "defects": ["crack", "fork"]},
            "look": {"sound": True},
        }
    ]


def test_no_and_empty_cells_differ(tmp_path: Path) -> None:
    no, absent = read_trees(written(tmp_path, "name,sound\nA,no\nB,\n"))
    assert no.look.sound is False
    assert absent.look.sound is None


def test_prefixed_and_numbered_headings_reach_every_place(tmp_path: Path) -> None:
    content = (
        "name,offset_m,toward_deg,sighted_at,lean.2.offset_m,lean.2.toward_deg,lean.2.sighted_at,"
        "crown_shift.offset_m,crown_shift.toward_deg,conductor.distance_m,tree.conductor.height_m,"
        "conductor.2.distance_m,height_ft\n"
        "A,0.5,220,balance,1.2,220,top,0.3,10,21,11,40,82\n"
    )
    (tree,) = read_trees(written(tmp_path, content))
    assert tree.lean == (LeanReading(0.5, 220, "balance"), LeanReading(1.2, 220, "top"))
    assert tree.crown_shift == CrownShift(0.3, 10.0)
    assert tree.conductors == (Conductor(21.0, 11.0), Conductor(40.0))
    assert tree.as_read == {"tree.height_m": (82.0, "ft")}


def test_directions_by_the_clock_have_headings_of_their_own(tmp_path: Path) -> None:
    content = (
        "name;lay_deg;offset_m;toward_clock;sighted_at;lean.2.offset_m;lean.2.toward_clock;"
        "lean.2.sighted_at;crown_shift.offset_m;crown_shift.toward_clock;wind_from_clock\n"
        "A;350;0,5;6;balance;1,2;0,5;top;0,3;3;11,5\n"
    )
    (tree,) = read_trees(written(tmp_path, content))
    assert tree.lean == (LeanReading(0.5, 170, "balance"), LeanReading(1.2, 5, "top"))
    assert tree.crown_shift == CrownShift(0.3, 80.0)
    assert tree.day.wind_from_deg == 335.0
    assert tree.as_read["tree.lean[2].toward_deg"] == (0.5, "o'clock")


def test_a_row_without_a_lay_cannot_have_hours(tmp_path: Path) -> None:
    content = (
        "name,lay_deg,offset_m,toward_clock,sighted_at\nA,40,1,6,top\nB,,1,6,top\nC,x,1,6,top\n"
    )
    faults = faults_of(written(tmp_path, content))
    assert [(fault.row, fault.field, fault.code) for fault in faults] == [
        (3, "tree.lean[1].toward_clock", "no-lay"),
        (4, "cut.lay_deg", "not-a-number"),
    ]


def test_every_key_of_a_tree_file_has_a_heading() -> None:
    for section, fields in SECTIONS.items():
        for key in accepted_keys(fields):
            column = column_of(f"{section}.{key}")
            assert column is not None
            assert (column.section, column.key) == (section, key)
    for heading in known_headings():
        assert column_of(heading) is not None


@pytest.mark.parametrize(
    "heading", ["", "tree", "lean.0.offset_m", "look.2.sound", "cut.dbh_cm", "a.b.c.d"]
)
def test_other_headings_stand_for_nothing(heading: str) -> None:
    assert column_of(heading) is None


def test_all_faults_of_all_rows_come_at_once_with_their_rows(tmp_path: Path) -> None:
    content = "name,dbh_cm,heigth_m,hinge_mm\nA,4000,25,46\n\nB,40,25,46,77\nC,40\nD,forty,25,-1\n"
    faults = faults_of(written(tmp_path, content))
    assert [(fault.row, fault.field, fault.code) for fault in faults] == [
        (1, "column 3", "unknown-key"),
        (2, "tree.dbh_cm", "out-of-range"),
        (4, "", "ragged-row"),
        (5, "", "ragged-row"),
        (6, "tree.dbh_cm", "not-a-number"),
        (6, "cut.hinge_mm", "out-of-range"),
    ]
    assert "height_m" in faults[0].remedy
    assert faults[1].text.startswith(f"{tmp_path}/list.csv: row 2: tree.dbh_cm = 4000: must be")


@pytest.mark.parametrize(
    "headings", ["dbh_cm,dbh_cm", "dbh_cm,tree.dbh_cm", "hinge_mm,Cut.Hinge_mm"]
)
def test_a_heading_given_twice_is_refused(tmp_path: Path, headings: str) -> None:
    fault = only_fault(faults_of(written(tmp_path, f"{headings}\n40,41\n")))
    assert (fault.row, fault.field, fault.code) == (1, "column 2", "given-twice")


@pytest.mark.parametrize("cell", ["NaN", "inf", "1e999", "0x28", "4_0", "٤٠", "40 cm", "1.234,5"])
def test_what_is_no_number_in_a_cell_is_told(tmp_path: Path, cell: str) -> None:
    fault = only_fault(faults_of(written(tmp_path, f"name;dbh_cm\nA;{cell}\n")))
    assert (fault.row, fault.field, fault.code) == (2, "tree.dbh_cm", "not-a-number")


def test_a_maybe_is_no_answer(tmp_path: Path) -> None:
    fault = only_fault(faults_of(written(tmp_path, "name,sound\nA,maybe\n")))
    assert fault.code == "not-yes-or-no"


@pytest.mark.parametrize(
    ("content", "code"),
    [
        (b"", "not-csv"),
        (b"name,dbh_cm\n", "not-csv"),
        (b'name,dbh_cm\n"A,40\n', "not-csv"),
        (b"name;species\nA;Kiefer \xe4\n", "not-utf8"),
        ("name\nA\n".encode("utf-16"), "not-utf8"),
        (b"name\0\nA\n", "not-text"),
        (b"x" * (MOST_BYTES + 1), "file-too-large"),
        (b"name" + b",name" * 300 + b"\nA\n", "too-many"),
        (b"name\n" + b"A\n" * 50_001, "too-many"),
        (b"name\n" + b"A" * 200_000, "not-csv"),
        (b"<!doctype html>\n<p>\n", "unknown-key"),
    ],
    ids=lambda value: value if isinstance(value, str) else repr(value[:20]),
)
def test_garbage_is_one_plain_fault(tmp_path: Path, content: bytes, code: str) -> None:
    assert only_fault(faults_of(written(tmp_path, content))).code == code


CELLS = st.text(max_size=8) | st.sampled_from(["40", "220", "top", "yes", "crack", "-1", "eye"])


@given(
    st.lists(st.sampled_from(known_headings()) | st.text(max_size=8), min_size=1, max_size=6),
    st.lists(st.lists(CELLS, max_size=6), max_size=4),
    st.sampled_from([",", ";", "\t"]),
)
def test_any_table_is_read_or_refused(
    tmp_path_factory: pytest.TempPathFactory,
    headings: list[str],
    rows: list[list[str]],
    delimiter: str,
) -> None:
    lines: list[Any] = [delimiter.join(cells) for cells in (headings, *rows)]
    path = tmp_path_factory.getbasetemp() / "any.csv"
    path.write_bytes("\n".join(lines).encode("utf-8", "surrogatepass"))
    try:
        assert read_trees(path)
    except BadInput as error:
        assert all(fault.text.isprintable() and fault.remedy for fault in error.faults)
