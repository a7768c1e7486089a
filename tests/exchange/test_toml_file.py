from pathlib import Path
from typing import NoReturn

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.records.samples import EXAMPLES, only_fault

from fellwright.errors import BadInput, Fault
from fellwright.exchange import file_text
from fellwright.exchange.toml_file import MOST_BYTES, read_kit_file, read_toml
from fellwright.exchange.tree_file import read_trees


def fault_of(path: Path) -> Fault:
    with pytest.raises(BadInput) as caught:
        read_toml(path)
    fault = only_fault(caught.value.faults)
    assert fault.file == str(path)
    assert fault.remedy.endswith(".")
    assert fault.text.isprintable()
    return fault


def written(folder: Path, content: bytes) -> Path:
    path = folder / "tree.toml"
    path.write_bytes(content)
    return path


def test_a_good_file_gives_its_tables(tmp_path: Path) -> None:
    path = written(tmp_path, b"\xef\xbb\xbf[tree]\r\ndbh_cm = 40\r\n")
    assert read_toml(path) == {"tree": {"dbh_cm": 40}}


def test_every_example_reads(tmp_path: Path) -> None:
    trees = [path for path in EXAMPLES.glob("*.toml") if not path.stem.startswith("van")]
    assert len(trees) == 6
    for path in trees:
        (tree,) = read_trees(path)
        assert tree.lean
    assert {device.name for device in read_kit_file(EXAMPLES / "van-2.toml").devices} == {
        "Dipper",
        "Plover",
        "Bittern",
        "Hand pair",
    }


def test_what_is_no_toml_names_line_and_column(tmp_path: Path) -> None:
    fault = fault_of(written(tmp_path, b"[tree]\ndbh_cm = forty\n"))
    assert fault.code == "not-toml"
    assert "line 2, column 10" in fault.rule


@pytest.mark.parametrize(
    ("content", "code"),
    [
        (b"\xff\xfe[\0t\0", "not-utf8"),
        (b"name = '\xe4'", "not-utf8"),
        (b"a = 1\0", "not-text"),
        (b"a = 1\na = 2\n", "not-toml"),
        (b"a = [" + b"\n[" * 20_000, "not-toml"),
        (b"a = " + b"[" * 900 + b"]" * 90, "not-toml"),
        (b"a = " + b"9" * 5_000, "not-toml"),
        (b"a." * 400_000 + b"a = 1", "not-toml"),
        (b"\n".join([b"a." * 400 + b"a = 1"] * 1000), "not-toml"),
        (b"<html>" * 1000, "not-toml"),
        (b"x" * (MOST_BYTES + 1), "file-too-large"),
    ],
    ids=lambda value: value if isinstance(value, str) else repr(value[:20]),
)
def test_garbage_is_one_plain_fault(tmp_path: Path, content: bytes, code: str) -> None:
    assert fault_of(written(tmp_path, content)).code == code


def test_a_file_of_the_largest_size_is_still_read(tmp_path: Path) -> None:
    line = b"# " + b"x" * 97 + b"\n"
    assert read_toml(written(tmp_path, line * (MOST_BYTES // 100))) == {}


def test_a_missing_file_and_a_folder_are_named(tmp_path: Path) -> None:
    assert fault_of(tmp_path / "none.toml").code == "file-missing"
    assert fault_of(tmp_path).code == "file-is-folder"
    assert fault_of(tmp_path / ("n" * 3000)).code == "file-unreadable"


def test_a_file_without_rights_is_named(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refused(*_: object) -> NoReturn:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(file_text, "open", refused, raising=False)
    fault = fault_of(written(tmp_path, b""))
    assert fault.code == "file-unreadable"
    assert "Permission denied" in fault.rule


@given(st.binary(max_size=400) | st.text(max_size=200).map(lambda text: text.encode()))
def test_any_bytes_are_read_or_refused(
    tmp_path_factory: pytest.TempPathFactory, content: bytes
) -> None:
    path = tmp_path_factory.getbasetemp() / "any.toml"
    path.write_bytes(content)
    for read in (read_toml, read_trees, read_kit_file):
        try:
            read(path)
        except BadInput as error:
            assert all(fault.text.isprintable() for fault in error.faults)
