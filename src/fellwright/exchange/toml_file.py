"""TOML files of trees and kit."""

from __future__ import annotations

import os
import re
import tomllib
from typing import Any

from fellwright.errors import BadInput
from fellwright.exchange.file_text import START, file_name, read_text, whole_file_fault
from fellwright.records.kit import Kit
from fellwright.records.loader import read_kit

MOST_BYTES = 1_000_000
LONGEST_LINE = 1_000
MOST_DOTS = 40
"""No line a person writes has more; a dotted key of a thousand parts takes the parser seconds."""


def read_toml(path: str | os.PathLike[str]) -> dict[str, Any]:
    """Read the tables of a TOML file.

    Parameters
    ----------
    path
        The file.

    Returns
    -------
    dict
        The tables as written.

    Raises
    ------
    BadInput
        With one fault, with line and column where it is not TOML.
    """
    text = read_text(path, MOST_BYTES)
    _refuse_endless_lines(path, text)
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        rule = f"must be TOML: {_one_line(str(error))}"
        remedy = "Mend that place; texts stand in quotation marks, numbers do not."
        raise BadInput([whole_file_fault(path, rule, remedy, "not-toml")]) from None
    except (ValueError, RecursionError):  # endless digits; brackets nested a thousand deep
        rule = "must be TOML of readings, and holds no number or list a reading has"
        raise BadInput([whole_file_fault(path, rule, START, "not-toml")]) from None


def _refuse_endless_lines(path: str | os.PathLike[str], text: str) -> None:
    for count, line in enumerate(text.splitlines(), start=1):
        if len(line) <= LONGEST_LINE and line.partition("#")[0].count(".") <= MOST_DOTS:
            continue
        limits = f"at most {LONGEST_LINE} characters and {MOST_DOTS} dots"
        rule = f"must have lines of {limits}, line {count} has more"
        raise BadInput([whole_file_fault(path, rule, START, "not-toml")])


def _one_line(message: str) -> str:
    """Bring the parser's message to the form of a rule: one line, no capital, no full stop."""
    words = re.sub(r"[^\x20-\x7e]", "?", " ".join(message.split()))[:160].rstrip(".")
    return words[:1].lower() + words[1:]


def read_kit_file(path: str | os.PathLike[str]) -> Kit:
    """Read a kit from a TOML file, with every fault at once."""
    return read_kit(read_toml(path), file_name(path))
