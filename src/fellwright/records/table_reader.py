"""Reads one table of a file against its fields; unknown keys and wrong shapes are faults."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, Protocol

from fellwright.records.fault_log import FaultLog, Said, nearest, shown, shown_text
from fellwright.words import Text, say

MOST_UNKNOWN_KEYS = 20
"""Past this many unknown keys in one table the file is something else: one fault says so."""

Homes = Mapping[str, Said]
"""Key -> where it belongs, as the file writes it ("[cut]"), or which file that is."""


class Field(Protocol):
    """What the loader asks of every kind of field."""

    @property
    def key(self) -> str:
        """The key as the file writes it, in metric units."""

    @property
    def accepted_keys(self) -> tuple[str, ...]:
        """Every key under which the field may stand."""

    @property
    def remedy(self) -> Said:
        """What to measure or write, as whole sentences."""

    @property
    def required(self) -> bool:
        """Whether the table is of no use without it."""

    def read(self, log: FaultLog, path: str, table: Mapping[str, object]) -> dict[str, Any]:
        """Read the field from its table into record fields, noting what is wrong."""


def read_fields(
    log: FaultLog, path: str, table: Mapping[str, object], fields: Sequence[Field]
) -> dict[str, Any]:
    """Read every field of a table; a required field that is absent is a fault."""
    values: dict[str, Any] = {}
    for field in fields:
        values.update(field.read(log, path, table))
        if field.required and all(table.get(key) is None for key in field.accepted_keys):
            note_missing(log, f"{path}.{field.key}", field.remedy)
    return values


def note_missing(log: FaultLog, where: str, remedy: Said) -> None:
    """Note a key without which its table is of no use."""
    log.add(where, "", say("rule.given"), remedy, "missing-key")


def accepted_keys(fields: Sequence[Field]) -> tuple[str, ...]:
    """Every key the fields may stand under."""
    return tuple(key for field in fields for key in field.accepted_keys)


def note_unknown_keys(
    log: FaultLog, path: str, table: Mapping[Any, object], known: Sequence[str], homes: Homes
) -> None:
    """Note each key that is not known here, with its home or the nearest known one."""
    unknown = [key for key in table if key not in known]
    if len(unknown) > MOST_UNKNOWN_KEYS:
        log.add(
            path,
            say("fault.unknown_keys", count=len(unknown)),
            say("rule.keys_known", first=shown(unknown[0])),
            say("remedy.known", words=", ".join(known)),
            "unknown-key",
        )
        return
    for key in unknown:
        note_unknown_key(log, path, key, table[key], known, homes)


def note_unknown_key(
    log: FaultLog, path: str, key: object, value: object, known: Sequence[str], homes: Homes
) -> None:
    """Note one key that is not known here."""
    name = shown_text(key) if isinstance(key, str) else str(shown(key))
    where = f"{path}.{name}" if path else name
    log.add(
        where,
        shown(value),
        say("rule.key_known_here"),
        unknown_remedy(key, known, homes),
        "unknown-key",
    )


def unknown_remedy(key: object, known: Sequence[str], homes: Homes) -> Text:
    """Say what an unknown key was probably meant to be."""
    near = nearest(key, known) if isinstance(key, str) else None
    if isinstance(key, str) and key in homes:
        return say("remedy.belongs", home=homes[key])
    if near is not None:
        return say("remedy.key_nearest", key=near)
    far = nearest(key, homes) if isinstance(key, str) else None
    if far is not None:
        return say("remedy.key_nearest_in", key=far, home=homes[far])
    return say("remedy.known", words=", ".join(known))


def table_at(
    log: FaultLog, path: str, parent: Mapping[str, object], key: str, brackets: str
) -> Mapping[str, object] | None:
    """Return the table under a key, or None where it is absent or no table."""
    raw = parent.get(key)
    if raw is None:
        return None
    if isinstance(raw, Mapping):
        return raw
    remedy = say("remedy.brackets", heading=brackets)
    log.add(path, shown(raw), say("rule.table"), remedy, "not-a-table")
    return None


def tables_at(
    log: FaultLog, path: str, parent: Mapping[str, object], key: str, brackets: str, longest: int
) -> list[tuple[str, Mapping[str, object]]]:
    """Return the tables of a list with their paths, counted from 1."""
    raw = parent.get(key)
    if raw is None:
        return []
    remedy = say("remedy.brackets_each", heading=brackets)
    if not isinstance(raw, (list, tuple)):
        log.add(path, shown(raw), say("rule.tables"), remedy, "not-a-list")
        return []
    if len(raw) > longest:
        rule = say("rule.most_entries", most=longest)
        log.add(path, shown(raw), rule, say("remedy.split"), "too-many")
        return []
    entries: list[tuple[str, Mapping[str, object]]] = []
    for count, item in enumerate(raw, start=1):
        where = f"{path}[{count}]"
        if isinstance(item, Mapping):
            entries.append((where, item))
        else:
            log.add(where, shown(item), say("rule.table"), remedy, "not-a-table")
    return entries
