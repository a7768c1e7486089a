"""Reads the text of a file, and says in one fault why it cannot."""

from __future__ import annotations

import os
from pathlib import Path

from fellwright.errors import BadInput, Fault

BYTES_PER_MB = 1_000_000
START = "Start from the files that `fellwright new` writes."


def file_name(path: str | os.PathLike[str]) -> str:
    """Show a path to a person, whatever bytes it is made of."""
    text = os.fsencode(path).decode("utf-8", "replace")
    return "".join(
        letter if letter.isprintable() else "\N{REPLACEMENT CHARACTER}" for letter in text
    )


def whole_file_fault(
    path: str | os.PathLike[str], rule: str, remedy: str, code: str, row: int | None = None
) -> Fault:
    """Make a fault that belongs to the whole file or to a whole row."""
    return Fault(file_name(path), row, "", "", rule, remedy, code)


def read_text(path: str | os.PathLike[str], most_bytes: int) -> str:
    """Read a file of UTF-8 text; size and kind are checked before anything is parsed.

    Parameters
    ----------
    path
        The file.
    most_bytes
        A larger file is refused unread.

    Returns
    -------
    str
        The text, line ends as they are, without a byte order mark.

    Raises
    ------
    BadInput
        With one fault: missing, a folder, unreadable, too large, not UTF-8, or not text.
    """
    raw = _read_bytes(path, most_bytes)
    if len(raw) > most_bytes:
        rule = f"must be at most {most_bytes / BYTES_PER_MB:g} MB"
        raise BadInput([whole_file_fault(path, rule, START, "file-too-large")])
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        rule = f"must be UTF-8 text, byte {error.start + 1} is none"
        remedy = f"Save it as UTF-8. {START}"
        raise BadInput([whole_file_fault(path, rule, remedy, "not-utf8")]) from None
    if "\0" in text:
        rule = "must be text, and holds zero bytes"
        raise BadInput([whole_file_fault(path, rule, START, "not-text")])
    return text


def _read_bytes(path: str | os.PathLike[str], most_bytes: int) -> bytes:
    try:
        if not Path(path).is_dir():
            with open(path, "rb") as file:
                return file.read(most_bytes + 1)
    except FileNotFoundError:
        fault = whole_file_fault(path, "must exist", "Check the name of the file.", "file-missing")
    except (OSError, ValueError) as error:  # ValueError: a zero byte in the name
        why = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
        rule = f"must be readable ({why})"
        fault = whole_file_fault(path, rule, "Check name and rights.", "file-unreadable")
    else:
        rule = "must be a file, and is a folder"
        fault = whole_file_fault(path, rule, "Name a file in it.", "file-is-folder")
    raise BadInput([fault])
