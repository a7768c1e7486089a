"""A bundle: the entries of one or more devices as one JSON file, and how two are merged."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from fellwright.errors import BadInput, Fault
from fellwright.records.event import (
    EVENT_SCHEMA,
    MOST_DEPTH,
    Event,
    content_of,
    event_as_data,
    is_device_id,
    is_moment,
    is_name,
    read_event,
)
from fellwright.records.event_kinds import KINDS
from fellwright.records.fault_log import FaultLog, Said, shown
from fellwright.records.table_reader import note_missing, note_unknown_keys
from fellwright.words import Text, say

__all__ = [
    "BUNDLE_SCHEMA",
    "MOST_EVENTS",
    "MOST_TEXT_BYTES",
    "Bundle",
    "Clash",
    "clashes_in",
    "merge",
    "read_bundle",
    "write_bundle",
]

BUNDLE_SCHEMA = "fellwright/bundle/1"
BUNDLE_KEYS = ("schema", "engine", "exported_at", "device", "events")
MOST_EVENTS = 200_000
MOST_TEXT_BYTES = 64 * 2**20
MOST_FAULTS_TOLD = 1_000
"""A spoilt file of 200,000 events would tell a million faults; the rest of them is counted."""
LONGEST_NUMBER = 300
"""Digits; a longer whole number is none that was read off anything."""
LONGEST_ENGINE = 80

_SCHEMA = re.compile(r"fellwright/bundle/([1-9][0-9]{0,8})")
_EXPORT = say("bundle.export_again")
_NEWER = say("bundle.update")


@dataclass(frozen=True, slots=True)
class Clash:
    """Events of one id that do not say the same; every one of them is kept."""

    id: str
    events: tuple[Event, ...]


@dataclass(frozen=True, slots=True)
class Bundle:
    """What a bundle holds: who wrote it, and its events, each once, sorted by id and content."""

    engine: str
    exported_at: str
    device: str
    events: tuple[Event, ...]

    @property
    def clashes(self) -> tuple[Clash, ...]:
        """Ids under which the events do not say the same."""
        return clashes_in(self.events)

    @property
    def unknown_kinds(self) -> int:
        """Number of events whose kind this version does not know; they are kept."""
        return sum(event.kind not in KINDS for event in self.events)


def merge(*heaps: Iterable[Event]) -> tuple[Event, ...]:
    """Unite heaps of events: a set union by id and content.

    Parameters
    ----------
    *heaps
        Events in any order, any of them any number of times.

    Returns
    -------
    tuple of Event
        Every event once, sorted by id, then by content. Order and grouping of the heaps do not
        matter, and merging again changes nothing.
    """
    by_id: dict[str, list[Event]] = {}
    for heap in heaps:
        for event in heap:
            by_id.setdefault(event.id, []).append(event)
    return tuple(event for name in sorted(by_id) for event in _distinct(by_id[name]))


def _distinct(events: list[Event]) -> list[Event]:
    if len(events) == 1:
        return events
    printed = {repr(event): event for event in events}
    if len(printed) == 1:
        return events[:1]
    # In the order in which they print: of 2 and 2.0, which say the same, always the same one stays.
    by_content: dict[str, Event] = {}
    for name in sorted(printed):
        by_content.setdefault(content_of(printed[name]), printed[name])
    return [by_content[content] for content in sorted(by_content)]


def clashes_in(events: Iterable[Event]) -> tuple[Clash, ...]:
    """List the ids under which merged events do not say the same."""
    by_id: dict[str, list[Event]] = {}
    for event in merge(events):
        by_id.setdefault(event.id, []).append(event)
    return tuple(Clash(name, tuple(held)) for name, held in by_id.items() if len(held) > 1)


def write_bundle(bundle: Bundle) -> str:
    """Write a bundle as the text from which `read_bundle` makes the same record."""
    data = {
        "schema": BUNDLE_SCHEMA,
        "engine": bundle.engine,
        "exported_at": bundle.exported_at,
        "device": bundle.device,
        "events": [event_as_data(event) for event in bundle.events],
    }
    return json.dumps(data, ensure_ascii=False, allow_nan=False, separators=(",", ":"))


def read_bundle(text: str, source: Said = "bundle") -> Bundle:
    """Read a bundle from its text.

    Parameters
    ----------
    text
        The JSON text.
    source
        What to call it in a fault.

    Returns
    -------
    Bundle
        Its events, each once. Events of one id that differ are all kept and told as clashes; kinds
        that are not known are kept untouched.

    Raises
    ------
    BadInput
        With every fault found; with one of code ``too-new`` alone where a newer version wrote it.
        Nothing of a faulty bundle is used.
    """
    log = FaultLog(source)
    data = _parsed(log, text)
    _refuse_other_files(log, data)
    _refuse_newer(log, data)
    note_unknown_keys(log, "", data, BUNDLE_KEYS, {})
    _check_heading(log, data)
    raw = data.get("events")
    events = _events(log, raw) if isinstance(raw, list) else []
    if not isinstance(raw, list):
        log.add("events", shown(raw), say("bundle.event_list"), _EXPORT, "not-a-list")
    if log.faults:
        raise BadInput(_told(log.faults))
    return Bundle(data["engine"], data["exported_at"], data["device"], merge(events))


def _parsed(log: FaultLog, text: str) -> dict[str, Any]:
    """Parse a text; what is no JSON table, too long or too deep is one fault."""
    if len(text) > MOST_TEXT_BYTES or len(text.encode("utf-8", "replace")) > MOST_TEXT_BYTES:
        rule = say("bundle.size", most=MOST_TEXT_BYTES // 2**20)
        raise BadInput([_whole(log, rule, _EXPORT, "too-large")])
    try:
        data = json.loads(
            text.removeprefix("\N{ZERO WIDTH NO-BREAK SPACE}"),
            parse_constant=_refuse_constant,
            parse_float=_finite,
            parse_int=_short,
            object_pairs_hook=_once_each,
        )
    except json.JSONDecodeError as error:
        rule = say("bundle.damaged", line=error.lineno, column=error.colno)
        raise BadInput([_whole(log, rule, _EXPORT, "not-json")]) from None
    except _NotPlainError as error:
        raise BadInput([_whole(log, error.rule, _EXPORT, error.code)]) from None
    except RecursionError:
        rule = say("bundle.depth", most=MOST_DEPTH)
        raise BadInput([_whole(log, rule, _EXPORT, "too-deep")]) from None
    if not isinstance(data, dict):
        rule = say("bundle.a_bundle", schema=BUNDLE_SCHEMA)
        raise BadInput([_whole(log, rule, _EXPORT, "unknown-file")])
    return data


class _NotPlainError(ValueError):
    """JSON of a kind that no browser writes."""

    def __init__(self, rule: Text, code: str) -> None:
        super().__init__(str(rule))
        self.rule, self.code = rule, code


def _refuse_constant(word: str) -> float:
    raise _NotPlainError(say("bundle.finite", word=word), "not-a-number")


def _finite(word: str) -> float:
    number = float(word)
    if number - number != 0.0:
        raise _NotPlainError(say("bundle.too_large_number"), "not-a-number")
    return number


def _short(word: str) -> int:
    if len(word) > LONGEST_NUMBER:
        raise _NotPlainError(say("bundle.too_large_number"), "not-a-number")
    return int(word)


def _once_each(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    table = dict(pairs)
    if len(table) != len(pairs):
        raise _NotPlainError(say("bundle.keys_once"), "given-twice")
    return table


def _whole(log: FaultLog, rule: Text, remedy: Text, code: str) -> Fault:
    return Fault(log.source, None, "", "", rule, remedy, code)


def _refuse_other_files(log: FaultLog, data: Mapping[str, object]) -> None:
    schema = data.get("schema")
    if not isinstance(schema, str) or not _SCHEMA.fullmatch(schema):
        value = "" if schema is None else shown(schema)
        rule = say("bundle.a_bundle", schema=BUNDLE_SCHEMA)
        raise BadInput([Fault(log.source, None, "schema", value, rule, _EXPORT, "unknown-file")])


def _refuse_newer(log: FaultLog, data: Mapping[str, object]) -> None:
    """Refuse what a newer version wrote, with that one fault: its other rules are not known."""
    schema = str(data["schema"])
    if schema != BUNDLE_SCHEMA:
        rule = say("bundle.newer", most=BUNDLE_SCHEMA)
        raise BadInput([Fault(log.source, None, "schema", shown(schema), rule, _NEWER, "too-new")])
    events = data.get("events")
    for count, raw in enumerate(events if isinstance(events, list) else [], start=1):
        number = raw.get("schema") if isinstance(raw, dict) else None
        if isinstance(number, int) and number > EVENT_SCHEMA:
            rule = say("bundle.newer", most=EVENT_SCHEMA)
            where = f"events[{count}].schema"
            raise BadInput([Fault(log.source, None, where, shown(number), rule, _NEWER, "too-new")])


def _check_heading(log: FaultLog, data: Mapping[str, object]) -> None:
    """Check who wrote the bundle, and when."""
    tests: dict[str, tuple[Callable[[str], bool], Text]] = {
        "engine": (
            lambda text: is_name(text, LONGEST_ENGINE),
            say("rule.text", most=LONGEST_ENGINE),
        ),
        "exported_at": (is_moment, say("bundle.moment")),
        "device": (is_device_id, say("bundle.device_id")),
    }
    for key, (fits, rule) in tests.items():
        value = data.get(key)
        if value is None:
            note_missing(log, key, _EXPORT)
        elif not isinstance(value, str) or not fits(value):
            log.add(key, shown(value), rule, _EXPORT, "not-text")


def _events(log: FaultLog, raw: list[object]) -> list[Event]:
    if len(raw) > MOST_EVENTS:
        rule = say("rule.most_entries", most=MOST_EVENTS)
        log.add("events", shown(raw), rule, say("bundle.export_parts"), "too-many")
        return []
    read = (read_event(log, f"events[{count}]", one) for count, one in enumerate(raw, start=1))
    return [event for event in read if event is not None]


def _told(faults: list[Fault]) -> list[Fault]:
    """All faults, or as many as a person can use and the number of the others."""
    if len(faults) <= MOST_FAULTS_TOLD:
        return faults
    rest = len(faults) - MOST_FAULTS_TOLD
    rule = say("bundle.more_faults", rest=rest)
    more = Fault(faults[0].file_words, None, "events", "", rule, _EXPORT, "too-many")
    return [*faults[:MOST_FAULTS_TOLD], more]
