"""Practice profiles: one of those that ship with the package, or a user's own TOML file."""

from __future__ import annotations

import os

from fellwright.exchange.file_text import file_name
from fellwright.exchange.toml_file import read_toml
from fellwright.tables.profiles import Profile, load_profile, parse_profile


def read_profile(name_or_path: str) -> Profile:
    """Read a profile by name, or from a file where the name has an ending or a folder.

    Parameters
    ----------
    name_or_path
        `alberta`, or `rules/ours.toml`.

    Returns
    -------
    Profile
        The profile.

    Raises
    ------
    BadInput
        With every fault of the file, or where there is no such profile.
    """
    if name_or_path.endswith(".toml") or os.sep in name_or_path:
        return parse_profile(read_toml(name_or_path), file_name(name_or_path))
    return load_profile(name_or_path)
