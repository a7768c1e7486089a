"""From the name a person writes to the species, whatever its case, dashes or umlauts."""

from __future__ import annotations

import difflib
import unicodedata
from collections.abc import Mapping
from functools import lru_cache
from types import MappingProxyType

from fellwright.tables.read import load_table
from fellwright.tables.species import Species, species_by_key

__all__ = ["find_species", "folded_name", "names_of", "nearest_names"]

LANGUAGES = ("en", "de", "la", "code")
SPOKEN = ("en", "de")
# Longer than any name in the table; a pasted page is not worth comparing.
LONGEST_NAME = 80
SHORTEST_PART = 3
UMLAUTS = str.maketrans({"ä": "ae", "ö": "oe", "ü": "ue", "ß": "ss"})


def folded_name(name: str) -> str:
    """Name reduced to what counts in a match: lower-case letters and digits, umlauts spelled out.

    Parameters
    ----------
    name
        Name as written.

    Returns
    -------
    str
        "Küsten-Tanne" and "kuestentanne" both give "kuestentanne".
    """
    composed = unicodedata.normalize("NFC", name).lower().translate(UMLAUTS)
    plain = unicodedata.normalize("NFKD", composed)
    return "".join(letter for letter in plain if letter.isalnum())


def find_species(name: str) -> Species | None:
    """Species or density class of a name in English, German, Latin or as a short code.

    Parameters
    ----------
    name
        Name as written, or a species key.

    Returns
    -------
    Species or None
        None where the name is not known; `nearest_names` then says what was close.
    """
    key = _key_by_folded_name().get(folded_name(name))
    return None if key is None else species_by_key()[key]


def nearest_names(name: str, count: int = 3) -> tuple[str, ...]:
    """Known names that look like an unknown one, nearest first.

    Parameters
    ----------
    name
        Name as written.
    count
        How many at most.

    Returns
    -------
    tuple of str
        Names as printed in the table, one a species; empty where nothing is near.
    """
    wanted = folded_name(name[:LONGEST_NAME])
    if not wanted:
        return ()
    printed = _printed_by_folded_name()
    # "spruce" stands for many trees: their usual names come before rare ones that are as near.
    worth = len(wanted) >= SHORTEST_PART
    usual = [folded for folded in _usual_folded_names() if worth and folded.endswith(wanted)]
    close = difflib.get_close_matches(wanted, printed, n=3 * count, cutoff=0.6)
    within = [folded for folded in printed if worth and wanted in folded]
    keys = _key_by_folded_name()
    chosen: dict[str, str] = {}
    for folded in (*usual, *close, *within):
        chosen.setdefault(keys[folded], printed[folded])
    return tuple(chosen.values())[:count]


def names_of(key: str, language: str) -> tuple[str, ...]:
    """Names of one species in one language, the usual one first.

    Parameters
    ----------
    key
        Species key.
    language
        en, de, la or code.

    Returns
    -------
    tuple of str
        Names; empty where the table has none.
    """
    rows = load_table("species_names").rows
    return tuple(
        row.text("name")
        for row in rows
        if row.text("species") == key and row.text("language") == language
    )


@lru_cache(maxsize=1)
def _printed_by_folded_name() -> Mapping[str, str]:
    """Names worth offering: a short code says nothing to somebody who mistyped a name."""
    rows = [row for row in load_table("species_names").rows if row.text("language") != "code"]
    return MappingProxyType({folded_name(row.text("name")): row.text("name") for row in rows})


@lru_cache(maxsize=1)
def _usual_folded_names() -> tuple[str, ...]:
    """First name of every species in every spoken language, in the order of the table."""
    first: dict[tuple[str, str], str] = {}
    for row in load_table("species_names").rows:
        if row.text("language") in SPOKEN:
            first.setdefault((row.text("species"), row.text("language")), row.text("name"))
    return tuple(folded_name(name) for name in first.values())


@lru_cache(maxsize=1)
def _key_by_folded_name() -> Mapping[str, str]:
    rows = load_table("species_names").rows
    known = {folded_name(key): key for key in species_by_key()}
    known.update({folded_name(row.text("name")): row.text("species") for row in rows})
    return MappingProxyType(known)
