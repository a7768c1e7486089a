"""Records back into the tables a file holds, imperial readings under their imperial keys."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from fellwright.records.bearing_field import Bearing
from fellwright.records.kit import Kit
from fellwright.records.kit_fields import (
    DEVICE_FIELDS,
    HAMMER_FIELDS,
    PACK_FIELDS,
    ROPE_FIELDS,
    SAW_FIELDS,
    SOCKET_FIELDS,
    WRENCH_FIELDS,
)
from fellwright.records.number_fields import Number, NumberList, NumberPair
from fellwright.records.table_reader import Field
from fellwright.records.tree import Tree
from fellwright.records.tree_fields import (
    CONDUCTOR_FIELDS,
    CROWN_SHIFT_FIELDS,
    CUT_FIELDS,
    DAY_FIELDS,
    LEAN_FIELDS,
    LOOK_FIELDS,
    TREE_FIELDS,
)
from fellwright.units import deg_from_clock

AsRead = Mapping[str, tuple[float, str]]


def tree_as_data(tree: Tree) -> dict[str, Any]:
    """Return the tables from which `read_tree` makes the same record."""
    as_read = _still_true(tree)
    table = _table(tree, "tree", TREE_FIELDS, as_read)
    table |= _kept("lean", _tables(tree.lean, "tree.lean", LEAN_FIELDS, as_read))
    if tree.crown_shift is not None:
        path = "tree.crown_shift"
        table["crown_shift"] = _table(tree.crown_shift, path, CROWN_SHIFT_FIELDS, as_read)
    conductors = _tables(tree.conductors, "tree.conductor", CONDUCTOR_FIELDS, as_read)
    table |= _kept("conductor", conductors)
    return (
        {"tree": table}
        | _kept("look", _table(tree.look, "look", LOOK_FIELDS, as_read))
        | _kept("cut", _table(tree.cut, "cut", CUT_FIELDS, as_read))
        | _kept("day", _table(tree.day, "day", DAY_FIELDS, as_read))
    )


def kit_as_data(kit: Kit) -> dict[str, Any]:
    """Return the tables from which `read_kit` makes the same record."""
    lists: tuple[tuple[str, Sequence[object], Sequence[Field]], ...] = (
        ("device", kit.devices, DEVICE_FIELDS),
        ("hammer", kit.hammers, HAMMER_FIELDS),
        ("wrench", kit.wrenches, WRENCH_FIELDS),
        ("socket", kit.sockets, SOCKET_FIELDS),
        ("pack", kit.packs, PACK_FIELDS),
        ("rope", kit.ropes, ROPE_FIELDS),
    )
    data: dict[str, Any] = {}
    for key, records, fields in lists:
        data |= _kept(key, _tables(records, key, fields, kit.as_read))
    if kit.saw is not None:
        data["saw"] = _table(kit.saw, "saw", SAW_FIELDS, kit.as_read)
    return data


def _still_true(tree: Tree) -> AsRead:
    """Drop the hours that another lay has made wrong: the azimuth is written in their place."""
    azimuths, lay_deg = dict(_azimuths(tree)), tree.cut.lay_deg
    return {
        path: read
        for path, read in tree.as_read.items()
        if path not in azimuths
        or (lay_deg is not None and deg_from_clock(read[0], lay_deg) == azimuths[path])
    }


def _azimuths(tree: Tree) -> Iterator[tuple[str, float | None]]:
    for count, reading in enumerate(tree.lean, start=1):
        yield f"tree.lean[{count}].toward_deg", reading.toward_deg
    if tree.crown_shift is not None:
        yield "tree.crown_shift.toward_deg", tree.crown_shift.toward_deg
    yield "day.wind_from_deg", tree.day.wind_from_deg


def _kept(key: str, content: Any) -> dict[str, Any]:
    return {key: content} if content else {}


def _tables(
    records: Sequence[object], path: str, fields: Sequence[Field], as_read: AsRead
) -> list[dict[str, Any]]:
    return [
        _table(record, f"{path}[{count}]", fields, as_read)
        for count, record in enumerate(records, start=1)
    ]


def _table(record: object, path: str, fields: Sequence[Field], as_read: AsRead) -> dict[str, Any]:
    table: dict[str, Any] = {}
    for field in fields:
        table |= _entry(record, path, field, as_read)
    return table


def _entry(record: object, path: str, field: Field, as_read: AsRead) -> dict[str, Any]:
    if isinstance(field, (NumberList, NumberPair)):
        return _list_entry(record, path, field, as_read)
    value = getattr(record, field.key)
    if value is None or value == ():
        return {}
    read = as_read.get(f"{path}.{field.key}")
    if read is not None and isinstance(field, Number) and field.imperial_key:
        return {field.imperial_key: read[0]}
    if read is not None and isinstance(field, Bearing):
        return {field.clock_key: read[0]}
    return {field.key: list(value) if isinstance(value, tuple) else value}


def _list_entry(
    record: object, path: str, field: NumberList | NumberPair, as_read: AsRead
) -> dict[str, Any]:
    if isinstance(field, NumberPair):
        names = [field.first, field.second]
        values = [getattr(record, name) for name in names]
    else:
        values = list(getattr(record, field.key))
        names = [f"{field.key}[{count}]" for count in range(1, len(values) + 1)]
    if not values or None in values:
        return {}
    paths = [f"{path}.{name}" for name in names]
    if field.number.imperial_key and all(where in as_read for where in paths):
        return {field.number.imperial_key: [as_read[where][0] for where in paths]}
    return {field.key: values}
