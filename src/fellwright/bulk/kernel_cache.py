"""Where compiled kernels are kept between runs: one folder for each state of their sources.

numba notices a change in the file of the function that it compiled, but not in the file of a
function which that one calls. So the folder is named by a hash of every source that may take part:
whatever changes, a new folder starts empty and nothing stale is ever loaded.
"""

import hashlib
import os
import stat
import sys
import tempfile
from collections.abc import Iterable, Mapping
from pathlib import Path

import numba

import fellwright

__all__ = ["cache_folder", "kernel_sources", "sources_key"]

PARTS = ("kernel.py", "physics", "planning", "bulk")
KEY_LENGTH = 16


def kernel_sources(package: Path | None = None) -> list[Path]:
    """Every source file from which a kernel or a constant in it may come.

    Parameters
    ----------
    package : Path, optional
        Folder of the package; the installed one if absent.

    Returns
    -------
    list of Path
        Sorted; empty where the package is not kept as plain files.
    """
    package = package or Path(fellwright.__file__).parent
    found: list[Path] = []
    for part in PARTS:
        path = package / part
        found += sorted(path.rglob("*.py")) if path.is_dir() else [path] * path.is_file()
    return found


def sources_key(sources: Iterable[Path], package: Path) -> str:
    """Short hash of sources, with the versions of numba and Python.

    Parameters
    ----------
    sources : iterable of Path
        Files.
    package : Path
        Folder to which their names are taken relative.

    Returns
    -------
    str
        Hexadecimal digits.
    """
    digest = hashlib.sha256()
    digest.update(f"numba {numba.__version__} {sys.implementation.cache_tag}".encode())
    for path in sources:
        content = path.read_bytes()
        digest.update(f"\0{path.relative_to(package).as_posix()}\0{len(content)}\0".encode())
        digest.update(content)
    return digest.hexdigest()[:KEY_LENGTH]


def cache_folder(
    package: Path | None = None, environment: Mapping[str, str] | None = None
) -> Path | None:
    """Folder for the compiled kernels of these sources, made if need be.

    Parameters
    ----------
    package : Path, optional
        Folder of the package; the installed one if absent.
    environment : mapping, optional
        Environment variables; those of the process if absent.

    Returns
    -------
    Path or None
        Below ``$XDG_CACHE_HOME/fellwright`` or ``~/.cache/fellwright``, else below the temporary
        folder. None where none of them can be written, or is not this user's alone: what is loaded
        from the folder is run.
    """
    package = package or Path(fellwright.__file__).parent
    environment = os.environ if environment is None else environment
    try:
        sources = kernel_sources(package)
        if not sources:
            return None
        name = f"kernels-{sources_key(sources, package)}"
    except OSError:
        return None
    for parent in _parents(environment):
        folder = parent / name
        if _is_ours_to_write(parent, folder):
            return folder
    return None


def _parents(environment: Mapping[str, str]) -> list[Path]:
    found = []
    given = environment.get("XDG_CACHE_HOME", "")
    home = environment.get("HOME") or environment.get("USERPROFILE") or ""
    # The convention: a relative XDG_CACHE_HOME does not count.
    if given and Path(given).is_absolute():
        found.append(Path(given) / "fellwright")
    elif home:
        found.append(Path(home) / ".cache" / "fellwright")
    user = f"-{os.getuid()}" if hasattr(os, "getuid") else ""
    temporary = environment.get("TMPDIR") or tempfile.gettempdir()
    found.append(Path(temporary) / f"fellwright{user}")
    return found


def _is_ours_to_write(parent: Path, folder: Path) -> bool:
    """Make the folders for this user alone, and see whether they are that and can be written."""
    try:
        parent.parent.mkdir(parents=True, exist_ok=True)
        for path in (parent, folder):
            path.mkdir(mode=0o700, exist_ok=True)
            if not _belongs_to_user(path):
                return False
        with tempfile.TemporaryFile(dir=folder):
            return True
    except OSError:
        return False


def _belongs_to_user(path: Path) -> bool:
    """Whether a folder is a real one of this user that nobody else may write into."""
    status = path.lstat()
    if not stat.S_ISDIR(status.st_mode):
        return False
    if not hasattr(os, "getuid"):
        return True
    others = stat.S_IWGRP | stat.S_IWOTH
    return status.st_uid == os.getuid() and not status.st_mode & others
