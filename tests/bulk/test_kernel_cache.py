"""The cache folder follows the sources, and does without where it cannot be kept."""

import os
import shutil
from pathlib import Path

import pytest

pytest.importorskip("numba", reason="the compiled twin needs the extra 'bulk'")

import fellwright
from fellwright.bulk.kernel_cache import cache_folder, kernel_sources

PACKAGE = Path(fellwright.__file__).parent


@pytest.fixture
def package(tmp_path: Path) -> Path:
    """Copy the package's kernels, to be edited."""
    copy = tmp_path / "fellwright"
    for path in kernel_sources(PACKAGE):
        target = copy / path.relative_to(PACKAGE)
        target.parent.mkdir(parents=True, exist_ok=True)
        shutil.copy(path, target)
    return copy


def folder_of(package: Path, home: Path) -> Path:
    folder = cache_folder(package, {"XDG_CACHE_HOME": str(home)})
    assert folder is not None
    return folder


def edit(path: Path, old: str, new: str) -> None:
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")


def test_every_kernel_lies_in_a_hashed_source() -> None:
    sources = kernel_sources(PACKAGE)
    with_mark = [path for path in PACKAGE.rglob("*.py") if "\n@kernel\n" in path.read_text("utf-8")]
    assert len(with_mark) > 10
    assert set(with_mark) <= set(sources)


def test_a_changed_callee_changes_the_folder(package: Path, tmp_path: Path) -> None:
    before = folder_of(package, tmp_path / "cache")
    assert folder_of(package, tmp_path / "cache") == before
    edit(package / "physics" / "notch.py", "return 2.0 * math.sqrt", "return 2.1 * math.sqrt")
    assert folder_of(package, tmp_path / "cache") != before


def test_a_moved_or_new_source_changes_the_folder(package: Path, tmp_path: Path) -> None:
    before = folder_of(package, tmp_path / "cache")
    (package / "physics" / "notch.py").rename(package / "physics" / "mouth.py")
    moved = folder_of(package, tmp_path / "cache")
    (package / "physics" / "empty.py").touch()
    assert len({before, moved, folder_of(package, tmp_path / "cache")}) == 3


def test_touching_a_source_keeps_the_folder(package: Path, tmp_path: Path) -> None:
    before = folder_of(package, tmp_path / "cache")
    os.utime(package / "physics" / "notch.py", (1, 1))
    assert folder_of(package, tmp_path / "cache") == before


def test_another_numba_has_another_folder(
    package: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = folder_of(package, tmp_path / "cache")
    monkeypatch.setattr("numba.__version__", "0.0.1")
    assert folder_of(package, tmp_path / "cache") != before


def test_folder_lies_in_the_users_cache(package: Path, tmp_path: Path) -> None:
    home = {"HOME": str(tmp_path / "home"), "TMPDIR": str(tmp_path / "tmp")}
    at_home = cache_folder(package, home)
    assert at_home is not None
    assert at_home.parent == tmp_path / "home" / ".cache" / "fellwright"
    given = cache_folder(package, home | {"XDG_CACHE_HOME": str(tmp_path / "xdg")})
    assert given == tmp_path / "xdg" / "fellwright" / at_home.name
    assert cache_folder(package, home | {"XDG_CACHE_HOME": "relative"}) == at_home


def test_folder_falls_back_to_the_temporary_one_and_then_to_none(
    package: Path, tmp_path: Path
) -> None:
    blocked = tmp_path / "file"
    blocked.write_text("in the way", encoding="utf-8")
    (tmp_path / "tmp").mkdir()
    temporary = cache_folder(
        package, {"XDG_CACHE_HOME": str(blocked), "TMPDIR": str(tmp_path / "tmp")}
    )
    assert temporary is not None
    assert temporary.is_relative_to(tmp_path / "tmp")
    nowhere = {"XDG_CACHE_HOME": str(blocked), "TMPDIR": str(blocked)}
    assert cache_folder(package, nowhere) is None


@pytest.mark.skipif(os.name == "nt", reason="file modes are those of POSIX")
def test_a_folder_that_others_may_write_or_redirect_is_not_used(
    package: Path, tmp_path: Path
) -> None:
    (tmp_path / "file").write_text("in the way", encoding="utf-8")
    nowhere = {"XDG_CACHE_HOME": str(tmp_path / "xdg"), "TMPDIR": str(tmp_path / "file")}
    (tmp_path / "xdg" / "fellwright").mkdir(parents=True)
    (tmp_path / "xdg" / "fellwright").chmod(0o777)
    assert cache_folder(package, nowhere) is None
    (tmp_path / "xdg" / "fellwright").rmdir()
    (tmp_path / "elsewhere").mkdir()
    (tmp_path / "xdg" / "fellwright").symlink_to(tmp_path / "elsewhere")
    assert cache_folder(package, nowhere) is None


def test_a_package_without_plain_files_has_no_folder(tmp_path: Path) -> None:
    assert cache_folder(tmp_path / "packed.zip", {"XDG_CACHE_HOME": str(tmp_path)}) is None
