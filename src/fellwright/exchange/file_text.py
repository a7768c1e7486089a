"""Reads the text of a file, and says in one fault why it cannot."""

from __future__ import annotations

import os
from pathlib import Path

from fellwright.errors import BadInput, Fault
from fellwright.words import Text, say, system_words

BYTES_PER_MB = 1_000_000
START = say("remedy.start")


def file_name(path: str | os.PathLike[str]) -> str:
    """Show a path to a person, whatever bytes it is made of."""
    text = os.fsencode(path).decode("utf-8", "replace")
    return "".join(
        letter if letter.isprintable() else "\N{REPLACEMENT CHARACTER}" for letter in text
    )


def whole_file_fault(
    path: str | os.PathLike[str],
    rule: str | Text,
    remedy: str | Text,
    code: str,
    row: int | None = None,
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
        rule = say("rule.most_megabytes", most=most_bytes / BYTES_PER_MB)
        raise BadInput([whole_file_fault(path, rule, START, "file-too-large")])
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        rule = say("rule.utf8", byte=error.start + 1)
        remedy = say("remedy.utf8", then=START)
        raise BadInput([whole_file_fault(path, rule, remedy, "not-utf8")]) from None
    if "\0" in text:
        rule = say("rule.text_without_zeros")
        raise BadInput([whole_file_fault(path, rule, START, "not-text")])
    return text


def _read_bytes(path: str | os.PathLike[str], most_bytes: int) -> bytes:
    try:
        if not Path(path).is_dir():
            with open(path, "rb") as file:
                return file.read(most_bytes + 1)
    except FileNotFoundError:
        rule, remedy, code = say("rule.exists"), say("remedy.file_check"), "file-missing"
    except (OSError, ValueError) as error:  # ValueError: a zero byte in the name
        rule = say("rule.readable", why=system_words(error))
        remedy, code = say("remedy.file_check_rights"), "file-unreadable"
    else:
        rule, remedy, code = say("rule.file"), say("remedy.file_in_folder"), "file-is-folder"
    raise BadInput([whole_file_fault(path, rule, remedy, code)])
