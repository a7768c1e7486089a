"""Which heading of a table file stands for which key of a tree file."""

from __future__ import annotations

import re
from dataclasses import dataclass

from fellwright.records.bearing_field import Bearing
from fellwright.records.number_fields import Number
from fellwright.records.table_reader import Field
from fellwright.records.tree_fields import (
    CONDUCTOR_FIELDS,
    CROWN_SHIFT_FIELDS,
    CUT_FIELDS,
    DAY_FIELDS,
    LEAN_FIELDS,
    LOOK_FIELDS,
    TREE_FIELDS,
)
from fellwright.records.word_fields import Flag, WordList

SECTIONS: dict[str, tuple[Field, ...]] = {
    "tree": TREE_FIELDS,
    "lean": LEAN_FIELDS,
    "look": LOOK_FIELDS,
    "cut": CUT_FIELDS,
    "day": DAY_FIELDS,
    "conductor": CONDUCTOR_FIELDS,
    "crown_shift": CROWN_SHIFT_FIELDS,
}
ALWAYS_PREFIXED = ("conductor", "crown_shift")
"""Their keys stand elsewhere too (height_m, offset_m), so the bare key is not theirs."""
LISTS = ("lean", "conductor")

_HEADING = re.compile(r"(?:(?P<section>[a-z_]+)(?:\.(?P<entry>[1-9][0-9]?))?\.)?(?P<key>[a-z_]+)")


@dataclass(frozen=True, slots=True)
class Column:
    """One column: its section, the entry of a list (counted from 1) and the key."""

    section: str
    entry: int
    key: str
    kind: str  # "number", "flag", "words" or "text"


def _kind(field: Field) -> str:
    if isinstance(field, (Number, Bearing)):
        return "number"
    if isinstance(field, Flag):
        return "flag"
    return "words" if isinstance(field, WordList) else "text"


def _kinds() -> dict[tuple[str, str], str]:
    return {
        (section, key): _kind(field)
        for section, fields in SECTIONS.items()
        for field in fields
        for key in field.accepted_keys
    }


_KINDS = _kinds()


def column_of(heading: str) -> Column | None:
    """Return the column a heading stands for, or None.

    `dbh_cm` and `tree.dbh_cm` are the same; `lean.2.offset_m` is the second reading.
    """
    name = heading.strip().casefold()
    if name.startswith("tree.") and name.split(".")[1] in (*LISTS, "crown_shift"):
        name = name.removeprefix("tree.")  # as a fault of the loader calls it
    match = _HEADING.fullmatch(name)
    if match is None:
        return None
    section, key = match["section"] or _home_of(match["key"]), match["key"]
    if section is None or (section, key) not in _KINDS:
        return None
    if match["entry"] is not None and section not in LISTS:
        return None
    return Column(section, int(match["entry"] or 1), key, _KINDS[(section, key)])


def _home_of(key: str) -> str | None:
    for section in SECTIONS:
        if section not in ALWAYS_PREFIXED and (section, key) in _KINDS:
            return section
    return None


def known_headings() -> tuple[str, ...]:
    """Return every heading without numbers, for the nearest known one."""
    return tuple(
        f"{section}.{key}" if section in ALWAYS_PREFIXED else key for section, key in _KINDS
    )
