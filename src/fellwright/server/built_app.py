"""The built web app: where it lies in this installation, and a copy of it for any HTTPS host."""

import os
import shutil
import tempfile
from importlib.resources import files
from pathlib import Path

from fellwright.errors import BadInput, Fault
from fellwright.words import Text, say, system_words

__all__ = ["app_folder", "write_app"]

FIRST_PAGE = "index.html"
WORKER = "service-worker.js"
"""Every build holds both; a folder with both is an app that may be replaced."""


def app_folder() -> Path:
    """Folder of the built app.

    Returns
    -------
    Path
        The folder, whole.

    Raises
    ------
    BadInput
        If this installation was made without the app.
    """
    folder = Path(str(files(__package__))) / "static"
    if not _is_app(folder):
        raise BadInput([_fault("app", say("rule.app_built"), say("remedy.app_build"), "no-app")])
    return folder


def _is_app(folder: Path) -> bool:
    return all((folder / name).is_file() for name in (FIRST_PAGE, WORKER))


def write_app(target: str | os.PathLike[str]) -> int:
    """Copy the app into a folder, whole or not at all.

    Parameters
    ----------
    target : path
        A folder that does not exist yet, is empty, or holds an older copy.

    Returns
    -------
    int
        Number of files written.

    Raises
    ------
    BadInput
        If the folder holds anything else, or cannot be written.
    """
    source, to = app_folder(), Path(target)
    if to.exists() and not (to.is_dir() and (_is_app(to) or not any(to.iterdir()))):
        raise BadInput(
            [_fault(str(target), say("rule.app_target"), say("remedy.folder_other"), "not-empty")]
        )
    try:
        _swap_in(source, to)
    except OSError as error:
        rule = say("rule.folder_written", why=system_words(error))
        remedy = say("remedy.folder_other")
        raise BadInput([_fault(str(target), rule, remedy, "folder-unwritable")]) from None
    return sum(1 for path in to.rglob("*") if path.is_file())


def _swap_in(source: Path, to: Path) -> None:
    """Copy beside the target, then change over: a host never sees half an app."""
    to.parent.mkdir(parents=True, exist_ok=True)
    beside = Path(tempfile.mkdtemp(prefix=".app-", dir=to.parent))
    try:
        shutil.copytree(source, beside / "new")
        if to.exists():
            os.replace(to, beside / "old")
        try:
            os.replace(beside / "new", to)
        except OSError:
            if (beside / "old").exists():
                os.replace(beside / "old", to)
            raise
    finally:
        shutil.rmtree(beside, ignore_errors=True)


def _fault(place: str, rule: Text, remedy: Text, code: str) -> Fault:
    return Fault(place, None, "", "", rule, remedy, code)
