"""Files of bundles: the entries of one or more devices as JSON."""

from __future__ import annotations

import os

from fellwright.exchange.file_text import file_name, read_text
from fellwright.records.bundle import MOST_TEXT_BYTES, Bundle, read_bundle

ENDING = ".json"


def is_bundle_file(path: str | os.PathLike[str]) -> bool:
    """Tell by its ending whether a file is a bundle."""
    return os.fsdecode(path).casefold().endswith(ENDING)


def read_bundle_file(path: str | os.PathLike[str]) -> Bundle:
    """Read a bundle, with every fault at once.

    Parameters
    ----------
    path
        The file.

    Returns
    -------
    Bundle
        Its events, each once.

    Raises
    ------
    BadInput
        With every fault of the file.
    """
    return read_bundle(read_text(path, MOST_TEXT_BYTES), file_name(path))
