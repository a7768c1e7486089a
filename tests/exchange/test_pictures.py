"""Pictures reach the disk whole, under names that are no paths."""

from __future__ import annotations

import os
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.draw.example_pictures import FOLDER, SHOWN, write_shown
from tests.draw.pages import ENGLISH, example

from fellwright.draw import PICTURES
from fellwright.errors import BadInput
from fellwright.exchange.pictures import file_stem, write_pictures

NAMES = {f"{SHOWN}-{picture}.svg" for picture in PICTURES}


def test_pictures_in_the_documents_are_up_to_date(tmp_path: Path) -> None:
    written = write_shown(tmp_path)
    assert {path.name for path in written} == NAMES
    for path in written:
        shown = (FOLDER / path.name).read_text(encoding="utf-8")
        assert shown == path.read_text(encoding="utf-8"), f"{path.name}: run `make pictures`"
    assert {path.name for path in FOLDER.glob("*.svg")} == NAMES


def test_pictures_are_written_into_a_new_folder_and_replace_old_ones(tmp_path: Path) -> None:
    folder = tmp_path / "new" / "pictures"
    plan = example(SHOWN)
    first = write_pictures(plan, folder, ENGLISH)
    first[0].write_text("old", encoding="utf-8")
    second = write_pictures(plan, folder, ENGLISH)
    assert first == second
    assert first[0].read_text(encoding="utf-8").startswith("<svg")
    assert {path.name for path in folder.iterdir()} == NAMES


@pytest.mark.parametrize(
    ("name", "stem"),
    [
        ("Harrowlees 11", "harrowlees-11"),
        ("../../etc/passwd", "etc-passwd"),
        ("C:\\trees\\*.svg", "c-trees-svg"),
        ("Große Fichte über dem Weg", "grosse-fichte-uber-dem-weg"),
        ("", "tree"),
        (None, "tree"),
        ("...", "tree"),
        ("CON", "tree-con"),
        ("松", "tree"),
        ("x" * 300, "x" * 60),
    ],
)
def test_file_name_is_plain(name: str | None, stem: str) -> None:
    assert file_stem(name) == stem


@given(st.text())
def test_file_name_never_leaves_its_folder(name: str) -> None:
    stem = file_stem(name)
    assert stem == Path(stem).name
    assert stem.isascii()
    assert 0 < len(stem) <= 66
    assert not stem.startswith(("-", "."))


def test_interrupted_writing_leaves_the_old_picture_whole(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    plan = example(SHOWN)
    written = write_pictures(plan, tmp_path, ENGLISH)
    before = {path: path.read_bytes() for path in written}

    def fail(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "replace", fail)
    renamed = replace(plan, verdict="LEAVE")
    with pytest.raises(BadInput, match="No space left"):
        write_pictures(renamed, tmp_path, ENGLISH)
    assert {path: path.read_bytes() for path in written} == before
    assert {path.name for path in tmp_path.iterdir()} == NAMES, "no temporary file stays"


@pytest.mark.parametrize("name", ["taken", "with\0zero"])
def test_folder_that_cannot_be_written_is_bad_input(tmp_path: Path, name: str) -> None:
    (tmp_path / "taken").write_text("a file", encoding="utf-8")
    with pytest.raises(BadInput, match="folder"):
        write_pictures(example(SHOWN), str(tmp_path / name), ENGLISH)


def test_nothing_is_written_if_a_picture_cannot_be_drawn(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(*_: object) -> str:
        raise ValueError("a picture needs finite lengths, got nan")

    monkeypatch.setitem(PICTURES, "stump", fail)
    with pytest.raises(ValueError, match="finite"):
        write_pictures(example(SHOWN), tmp_path / "folder", ENGLISH)
    assert not (tmp_path / "folder").exists()
