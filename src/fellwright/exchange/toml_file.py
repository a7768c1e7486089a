"""TOML files of trees and kit."""

from __future__ import annotations

import os
from typing import Any

from fellwright.exchange.file_text import file_name, read_text
from fellwright.records.kit import Kit
from fellwright.records.loader import read_kit
from fellwright.records.toml_text import parse_toml

MOST_BYTES = 1_000_000


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
    return parse_toml(read_text(path, MOST_BYTES), file_name(path))


def read_kit_file(path: str | os.PathLike[str]) -> Kit:
    """Read a kit from a TOML file, with every fault at once."""
    return read_kit(read_toml(path), file_name(path))
