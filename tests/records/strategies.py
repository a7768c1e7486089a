"""Hypothesis strategies for the tables of files, good and spoilt."""

import string
from collections.abc import Sequence
from typing import Any

from hypothesis import strategies as st

from fellwright.records.bearing_field import Bearing
from fellwright.records.kit_fields import KIT_SECTIONS, REQUIRED_BY_KIND
from fellwright.records.number_fields import Number, NumberList, NumberPair
from fellwright.records.table_reader import Field, accepted_keys
from fellwright.records.tree_fields import LEAN_FIELDS, SIGHTED_AT, TREE_SECTIONS
from fellwright.records.word_fields import Choice, Flag, WordList

Table = dict[str, Any]

KNOWN_KEYS = [
    *("tree", "look", "cut", "day", "lean", "conductor", "crown_shift"),
    *("device", "hammer", "wrench", "socket", "pack", "rope", "saw"),
    *accepted_keys([field for fields in TREE_SECTIONS.values() for field in fields]),
    *accepted_keys([field for fields in KIT_SECTIONS.values() for field in fields]),
]

HOURS = st.integers(1, 48).map(lambda quarters: quarters / 4)
"""Every hour that a direction may be read as."""

LEAVES = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(),
    st.floats(),
    st.text(max_size=20),
    st.sampled_from(["top", "trimmed", "half and half", "screw wedge", "crack", "eye", 10**400]),
)
KEYS = st.one_of(st.sampled_from(KNOWN_KEYS), st.text(max_size=12))

ANYTHING = st.recursive(
    LEAVES,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(KEYS, inner, max_size=6),
    max_leaves=40,
)
"""Arbitrary JSON-like data, keys often known ones."""


def _value(field: Field) -> st.SearchStrategy[Any]:
    if isinstance(field, Number):
        whole = st.integers(int(field.low), int(field.high))
        return whole if field.whole else st.floats(field.low, field.high)
    if isinstance(field, Bearing):
        return st.floats(0, 360)
    if isinstance(field, NumberList):
        return st.lists(_value(field.number), min_size=1, max_size=field.longest)
    if isinstance(field, NumberPair):
        return st.lists(_value(field.number), min_size=2, max_size=2)
    if isinstance(field, Choice):
        return st.sampled_from(sorted(field.options))
    if isinstance(field, WordList):
        return st.lists(st.sampled_from(field.vocabulary), unique=True, max_size=4)
    if isinstance(field, Flag):
        return st.booleans()
    return st.text(string.ascii_letters, min_size=1, max_size=20)


@st.composite
def tables(draw: st.DrawFn, fields: Sequence[Field], clock: bool = False) -> Table:
    """Draw a table whose values are each in range, imperial keys among them, hours if wanted."""
    table: Table = {}
    for field in fields:
        if not (field.required or draw(st.booleans())):
            continue
        if clock and isinstance(field, Bearing) and draw(st.booleans()):
            table[field.clock_key] = draw(HOURS)
            continue
        value = draw(_value(field))
        imperial = _in_imperial(field, value) if draw(st.booleans()) else None
        table |= {field.key: value} if imperial is None else imperial
    return table


def _in_imperial(field: Field, value: Any) -> Table | None:
    """Return the entry in imperial; None where there is none, or rounding takes it out of range."""
    if not isinstance(field, Number) or not field.imperial or not field.imperial_key:
        return None
    reading = field.imperial.from_metric(value)
    inside = field.low <= field.imperial.to_metric(reading) <= field.high
    return {field.imperial_key: reading} if inside else None


@st.composite
def tree_files(draw: st.DrawFn) -> Table:
    """Draw a tree file that reads well unless its readings contradict each other."""
    tree, cut = draw(tables(TREE_SECTIONS["[tree]"])), draw(tables(TREE_SECTIONS["[cut]"]))
    clock = "lay_deg" in cut
    tree["lean"] = draw(st.lists(tables(LEAN_FIELDS, clock), max_size=2))
    for reading in tree["lean"]:
        reading["how"] = draw(st.sampled_from(["eye", "plumb line, two sides"]))
        reading["sighted_at"] = draw(st.sampled_from(sorted(SIGHTED_AT)))
    tree["conductor"] = draw(st.lists(tables(TREE_SECTIONS["[[tree.conductor]]"]), max_size=2))
    if draw(st.booleans()):
        tree["crown_shift"] = draw(tables(TREE_SECTIONS["[tree.crown_shift]"], clock))
    day = draw(tables(TREE_SECTIONS["[day]"], clock))
    return {"tree": tree, "look": draw(tables(TREE_SECTIONS["[look]"])), "cut": cut, "day": day}


@st.composite
def kit_files(draw: st.DrawFn) -> Table:
    """Draw a kit file that reads well."""
    data: Table = {}
    for heading, fields in KIT_SECTIONS.items():
        key = heading.strip("[]")
        if not heading.startswith("[["):
            data[key] = draw(tables(fields))
            continue
        data[key] = draw(st.lists(tables(fields), max_size=3))
        for count, entry in enumerate(data[key]):
            if "name" in entry:
                entry["name"] = f"{entry['name']} {count}"
    full = {"rated_t": 5.0, "lift_mm": 30.0, "plate_mm": [60.0, 90.0], "thickness_mm": 48.0}
    for device in data["device"]:
        for key in REQUIRED_BY_KIND[device["kind"]]:
            imperial = f"{key.removesuffix('mm')}in"
            if imperial not in device:
                device.setdefault(key, full[key])
    return data
