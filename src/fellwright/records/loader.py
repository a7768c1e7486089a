"""From the tables of a file to records: every fault of the file at once, or the records."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from fellwright.records.fault_log import FaultLog, Said, folded, shown
from fellwright.records.kit import Device, Hammer, Kit, Pack, Rope, Saw, Socket, Wrench
from fellwright.records.kit_fields import (
    DEVICE_FIELDS,
    HAMMER_FIELDS,
    KIT_SECTIONS,
    MOST_ITEMS,
    PACK_FIELDS,
    REQUIRED_BY_KIND,
    ROPE_FIELDS,
    SAW_FIELDS,
    SOCKET_FIELDS,
    TOP_KEYS,
    WRENCH_FIELDS,
)
from fellwright.records.table_reader import (
    Field,
    accepted_keys,
    note_missing,
    note_unknown_keys,
    read_fields,
    table_at,
    tables_at,
)
from fellwright.records.tree import Conductor, CrownShift, Cut, Day, LeanReading, Look, Tree
from fellwright.records.tree_fields import (
    CONDUCTOR_FIELDS,
    CROWN_SHIFT_FIELDS,
    CUT_FIELDS,
    DAY_FIELDS,
    LAY_FIELD,
    LEAN_FIELDS,
    LOOK_FIELDS,
    MOST_CONDUCTORS,
    MOST_READINGS,
    TOP_TABLES,
    TREE_FIELDS,
    TREE_SECTIONS,
    TREE_TABLES,
)
from fellwright.records.tree_rules import check_tree
from fellwright.words import say

__all__ = ["kit_homes", "read_kit", "read_tree", "tree_homes"]


def read_tree(data: Mapping[str, object], source: Said, row: int | None = None) -> Tree:
    """Read one tree from the tables of a file or request.

    Parameters
    ----------
    data
        Tables as a TOML or JSON parser gives them: `tree`, `look`, `cut`, `day`.
    source
        What to call the file in a fault.
    row
        Row of a table file as a spreadsheet numbers it.

    Returns
    -------
    Tree
        The readings as taken; None where a reading was not taken.

    Raises
    ------
    BadInput
        With every fault found.
    """
    log = FaultLog(source, row)
    _refuse_other_than_table(log, data)
    tree = _tree(log, data)
    check_tree(log, tree)
    log.raise_if_any()
    return tree


def read_kit(data: Mapping[str, object], source: Said) -> Kit:
    """Read a kit from the tables of a file or request.

    Parameters
    ----------
    data
        Tables as a TOML or JSON parser gives them: `device`, `hammer`, `wrench`, `socket`,
        `pack`, `rope`, `saw`.
    source
        What to call the file in a fault.

    Returns
    -------
    Kit
        The kit as written; None where the book does not say.

    Raises
    ------
    BadInput
        With every fault found.
    """
    log = FaultLog(source)
    _refuse_other_than_table(log, data)
    kit = _kit(log, data)
    log.raise_if_any()
    return kit


def tree_homes() -> dict[str, str]:
    """Return every key of a tree file with the heading it belongs under."""
    homes = _homes(TREE_SECTIONS)
    homes |= {"lean": "[[tree.lean]]", "conductor": "[[tree.conductor]]"}
    return homes | {"crown_shift": "[tree.crown_shift]"}


def kit_homes() -> dict[str, str]:
    """Return every key of a kit file with the heading it belongs under."""
    return _homes(KIT_SECTIONS)


def _homes(sections: Mapping[str, Sequence[Field]]) -> dict[str, str]:
    homes: dict[str, str] = {}
    for heading, fields in sections.items():
        for key in accepted_keys(fields):
            homes.setdefault(key, heading)
    return homes


def _refuse_other_than_table(log: FaultLog, data: object) -> None:
    if not isinstance(data, Mapping):
        log.add("", shown(data), say("rule.table_of_keys"), say("remedy.start"), "not-a-table")
        log.raise_if_any()


def _tree(log: FaultLog, data: Mapping[str, object]) -> Tree:
    homes = tree_homes()
    kit_keys = dict.fromkeys(TOP_KEYS, say("fault.kit_file"))
    note_unknown_keys(log, "", data, TOP_TABLES, {**homes, **kit_keys})
    if data.get("tree") is None:
        note_missing(log, "tree", say("remedy.tree_heading"))
    table = table_at(log, "tree", data, "tree", "[tree]") or {}
    known = (*accepted_keys(TREE_FIELDS), *TREE_TABLES)
    note_unknown_keys(log, "tree", table, known, homes)
    _find_lay(log, data)
    values = read_fields(log, "tree", table, TREE_FIELDS)
    return Tree(
        **values,
        lean=_leans(log, table),
        crown_shift=_crown_shift(log, table),
        conductors=_conductors(log, table),
        look=Look(**_section(log, data, "look", LOOK_FIELDS)),
        cut=Cut(**_section(log, data, "cut", CUT_FIELDS)),
        day=Day(**_section(log, data, "day", DAY_FIELDS)),
        as_read=log.as_read,
    )


def _find_lay(log: FaultLog, data: Mapping[str, object]) -> None:
    """Find the lay before [cut] is read in its turn; what is wrong with it is told there."""
    cut = data.get("cut")
    aside = FaultLog(log.source)
    if isinstance(cut, Mapping):
        log.lay_deg = LAY_FIELD.read(aside, "cut", cut).get(LAY_FIELD.key)
    log.lay_has_fault = bool(aside.faults) or not isinstance(cut, Mapping | None)


def _section(
    log: FaultLog, data: Mapping[str, object], key: str, fields: Sequence[Field]
) -> dict[str, Any]:
    homes = kit_homes() if key in TOP_KEYS else tree_homes()
    table = table_at(log, key, data, key, f"[{key}]") or {}
    note_unknown_keys(log, key, table, accepted_keys(fields), homes)
    return read_fields(log, key, table, fields)


def _entry(
    log: FaultLog, path: str, table: Mapping[str, object], fields: Sequence[Field]
) -> dict[str, Any] | None:
    """Read one entry of a list; None where a required field is missing or faulty."""
    note_unknown_keys(log, path, table, accepted_keys(fields), {})
    values = read_fields(log, path, table, fields)
    complete = all(field.key in values for field in fields if field.required)
    return values if complete else None


def _leans(log: FaultLog, table: Mapping[str, object]) -> tuple[LeanReading, ...]:
    entries = tables_at(log, "tree.lean", table, "lean", "[[tree.lean]]", MOST_READINGS)
    read = [_entry(log, path, entry, LEAN_FIELDS) for path, entry in entries]
    return tuple(LeanReading(**values) for values in read if values is not None)


def _crown_shift(log: FaultLog, table: Mapping[str, object]) -> CrownShift | None:
    path = "tree.crown_shift"
    entry = table_at(log, path, table, "crown_shift", f"[{path}]")
    values = None if entry is None else _entry(log, path, entry, CROWN_SHIFT_FIELDS)
    return None if values is None else CrownShift(**values)


def _conductors(log: FaultLog, table: Mapping[str, object]) -> tuple[Conductor, ...]:
    path = "tree.conductor"
    entries = tables_at(log, path, table, "conductor", f"[[{path}]]", MOST_CONDUCTORS)
    read = [_entry(log, where, entry, CONDUCTOR_FIELDS) for where, entry in entries]
    return tuple(Conductor(**values) for values in read if values is not None)


def _kit(log: FaultLog, data: Mapping[str, object]) -> Kit:
    tree_keys = dict.fromkeys(TOP_TABLES, say("fault.tree_file"))
    note_unknown_keys(log, "", data, TOP_KEYS, {**kit_homes(), **tree_keys})
    devices = _devices(log, data)
    return Kit(
        devices=devices,
        hammers=tuple(Hammer(**entry) for entry in _items(log, data, "hammer", HAMMER_FIELDS)),
        wrenches=_wrenches(log, data),
        sockets=tuple(Socket(**entry) for entry in _items(log, data, "socket", SOCKET_FIELDS)),
        packs=tuple(Pack(**entry) for entry in _items(log, data, "pack", PACK_FIELDS)),
        ropes=tuple(Rope(**entry) for entry in _items(log, data, "rope", ROPE_FIELDS)),
        saw=None if data.get("saw") is None else Saw(**_section(log, data, "saw", SAW_FIELDS)),
        as_read=log.as_read,
    )


def _items(
    log: FaultLog, data: Mapping[str, object], key: str, fields: Sequence[Field]
) -> list[dict[str, Any]]:
    entries = tables_at(log, key, data, key, f"[[{key}]]", MOST_ITEMS)
    read = [_entry(log, path, entry, fields) for path, entry in entries]
    _note_same_names(log, key, entries)
    return [values for values in read if values is not None]


def _wrenches(log: FaultLog, data: Mapping[str, object]) -> tuple[Wrench, ...]:
    return tuple(Wrench(**entry) for entry in _items(log, data, "wrench", WRENCH_FIELDS))


def _devices(log: FaultLog, data: Mapping[str, object]) -> tuple[Device, ...]:
    items = _items(log, data, "device", DEVICE_FIELDS)
    for path, entry in tables_at(FaultLog(""), "device", data, "device", "", MOST_ITEMS):
        _note_missing_by_kind(log, path, entry)
    return tuple(Device(**values) for values in items)


def _note_missing_by_kind(log: FaultLog, path: str, entry: Mapping[str, object]) -> None:
    kind = entry.get("kind")
    needed = REQUIRED_BY_KIND.get(folded(kind), ()) if isinstance(kind, str) else ()
    for field in DEVICE_FIELDS:
        if field.key in needed and all(entry.get(key) is None for key in field.accepted_keys):
            remedy = say("remedy.device_needs", kind=folded(str(kind)))
            note_missing(log, f"{path}.{field.key}", remedy)


def _note_same_names(
    log: FaultLog, key: str, entries: Sequence[tuple[str, Mapping[str, object]]]
) -> None:
    first_by_name: dict[str, str] = {}
    for path, entry in entries:
        name = entry.get("name")
        if not isinstance(name, str):
            continue
        first = first_by_name.setdefault(folded(name), path)
        if first != path:
            log.add(
                f"{path}.name",
                shown(name),
                say("rule.name_own", first=first),
                say("remedy.name_each", key=key),
                "duplicate-name",
            )
