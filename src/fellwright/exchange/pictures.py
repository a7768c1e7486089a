"""Write the pictures of a plan into a folder, each whole or not at all."""

import os
import tempfile
import unicodedata
from pathlib import Path

from fellwright.draw import PICTURES
from fellwright.errors import BadInput
from fellwright.exchange.file_text import whole_file_fault
from fellwright.planning.plan import Plan
from fellwright.words import Style, say, system_words

__all__ = ["file_stem", "write_pictures"]

LONGEST_STEM = 60
NAMELESS = "tree"
RESERVED = {
    "aux",
    "con",
    "nul",
    "prn",
    *(f"{port}{i}" for port in ("com", "lpt") for i in range(10)),
}
"""Names that one widespread system keeps for itself, whatever follows the dot."""


def file_stem(name: str | None) -> str:
    """Make a file name of a tree's name: small letters, digits and hyphens.

    Parameters
    ----------
    name : str or None
        Name of the tree as read.

    Returns
    -------
    str
        Never empty, never a path, never a reserved name.
    """
    plain = (
        unicodedata.normalize("NFKD", name or "")
        .lower()
        .replace("\N{LATIN SMALL LETTER SHARP S}", "ss")
    )
    kept = "".join(
        letter if letter.isascii() and letter.isalnum() else "-"
        for letter in plain
        if not unicodedata.combining(letter)
    )
    stem = "-".join(part for part in kept.split("-") if part)[:LONGEST_STEM].strip("-")
    if not stem or stem in RESERVED:
        return f"{NAMELESS}-{stem}".strip("-")
    return stem


def write_pictures(plan: Plan, folder: str | os.PathLike[str], style: Style) -> list[Path]:
    """Write ``<tree>-<picture>.svg`` for every picture of a plan.

    Parameters
    ----------
    plan : Plan
        The plan.
    folder : path
        Where to; it is made if it does not exist.
    style : Style
        Language and units.

    Returns
    -------
    list of Path
        The files written. A file of that name is replaced: two trees of one list need two names.

    Raises
    ------
    BadInput
        If the folder cannot be made or written to. Nothing half-written is left behind.
    """
    drawn = {name: draw(plan, style) for name, draw in PICTURES.items()}
    stem = file_stem(plan.tree.name)
    target = Path(folder)
    try:
        target.mkdir(parents=True, exist_ok=True)
        return [_write_whole(target / f"{stem}-{name}.svg", text) for name, text in drawn.items()]
    except (OSError, ValueError) as error:  # ValueError: a zero byte in the name
        rule = say("rule.folder_written", why=system_words(error))
        remedy = say("remedy.folder_other")
        fault = whole_file_fault(folder, rule, remedy, "folder-unwritable")
        raise BadInput([fault]) from None


def _write_whole(path: Path, text: str) -> Path:
    """Write beside the target and rename, so that a reader sees the old file or the new one."""
    handle, temporary = tempfile.mkstemp(dir=path.parent, prefix=".", suffix=".svg.tmp")
    try:
        with os.fdopen(handle, "w", encoding="utf-8", newline="\n") as file:
            file.write(text)
        # A temporary file is private; a picture is as open as any file made here.
        umask = os.umask(0)
        os.umask(umask)
        os.chmod(temporary, 0o666 & ~umask)
        os.replace(temporary, path)
    except BaseException:
        Path(temporary).unlink(missing_ok=True)
        raise
    return path
