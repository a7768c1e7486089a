"""Files of the package are found, zipped or not, and sentences by their area."""

import zipfile
from pathlib import Path

import pytest
from tests.words.uses import PACKAGE

from fellwright.package_text import package_text
from fellwright.words import catalogue


def test_a_file_is_read_from_a_folder() -> None:
    expected = (PACKAGE / "tables" / "species.csv").read_bytes().decode("utf-8")
    assert package_text("fellwright.tables", "species.csv") == expected


def test_a_file_is_read_from_a_zipped_package(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with zipfile.ZipFile(tmp_path / "packed.zip", "w") as archive:
        archive.writestr("packed_here/__init__.py", "")
        archive.writestr("packed_here/de/words.toml", "key = 'Fällkerb'\n")
    monkeypatch.syspath_prepend(tmp_path / "packed.zip")
    assert package_text("packed_here", "de/words.toml") == "key = 'Fällkerb'\n"
    with pytest.raises(FileNotFoundError, match=r"packed_here holds no de/other\.toml"):
        package_text("packed_here", "de/other.toml")


def test_a_missing_file_is_named() -> None:
    with pytest.raises(FileNotFoundError, match=r"fellwright\.tables holds no oak\.csv"):
        package_text("fellwright.tables", "oak.csv")


@pytest.mark.parametrize(
    "key", ["no_such_area.key", "shape.no_such_key", "shape", "", "../en/shape"]
)
def test_a_key_that_the_catalogue_lacks_is_a_key_error(key: str) -> None:
    with pytest.raises(KeyError, match="^'?" + key.replace(".", r"\.")):
        catalogue("en")[key]
