"""One confirmed entry: appended, never changed; a correction is another event."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from fellwright.records.event_kinds import ABOUT_A_TREE, check_body
from fellwright.records.fault_log import FaultLog, shown
from fellwright.records.table_reader import note_missing, note_unknown_keys
from fellwright.words import Text, say

__all__ = ["EVENT_KEYS", "EVENT_SCHEMA", "Event", "content_of", "event_as_data", "read_event"]

EVENT_SCHEMA = 1
EVENT_KEYS = ("id", "device", "seq", "at", "schema", "kind", "tree", "by", "body")
LARGEST_SEQ = 2**53 - 1
"""The largest whole number that a browser counts exactly."""
LONGEST_BY = 40
MOST_DEPTH = 24
"""An answer that is kept with its plan nests seven deep."""

UUID = re.compile(r"[0-9a-f]{8}-[0-9a-f]{4}-[1-8][0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}")
UUID_7 = re.compile(r"[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}")
DEVICE = re.compile(r"[a-z0-9-]{8,40}")
KIND = re.compile(r"[a-z][a-z0-9_-]{0,39}")
MOMENT = re.compile(
    r"[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}(\.[0-9]{1,9})?(Z|[+-][0-9]{2}:[0-9]{2})"
)


@dataclass(frozen=True, slots=True)
class Event:
    """One entry as it was confirmed: what, when, on which device, about which tree, by whom.

    `id` is a UUIDv7, `seq` counts the entries of one device from 1, `at` carries its offset from
    UTC. `body` is held as it was read, whatever more it holds than its kind asks for.
    """

    id: str
    device: str
    seq: int
    at: str
    schema: int
    kind: str
    tree: str | None
    by: str | None
    body: Mapping[str, Any]


def event_as_data(event: Event) -> dict[str, Any]:
    """Return the table from which `read_event` makes the same record."""
    return {key: getattr(event, key) for key in EVENT_KEYS}


def content_of(event: Event) -> str:
    """Everything an event says, as one text: equal for events that say the same.

    Keys are sorted, and a number is written as a browser holds it, so that 2 and 2.0 are one.
    """
    return json.dumps(
        _as_a_browser_holds_it(event_as_data(event)),
        sort_keys=True,
        separators=(",", ":"),
        ensure_ascii=False,
        allow_nan=False,
    )


def _as_a_browser_holds_it(value: Any) -> Any:
    if isinstance(value, Mapping):
        return {key: _as_a_browser_holds_it(item) for key, item in value.items()}
    if isinstance(value, (list, tuple)):
        return [_as_a_browser_holds_it(item) for item in value]
    if isinstance(value, (int, float)) and not isinstance(value, bool):
        number = float(value)
        whole = number.is_integer() and abs(number) <= LARGEST_SEQ
        return int(number) if whole else number
    return value


def read_event(log: FaultLog, path: str, raw: object) -> Event | None:
    """Read one event; None, with every fault noted, where it is not one of schema 1.

    Parameters
    ----------
    log
        Where faults go.
    path
        What to call the event, as in `events[3]`.
    raw
        The event as a JSON parser gives it.

    Returns
    -------
    Event or None
        The event, its body untouched. A kind that is not known is an event too.
    """
    if not isinstance(raw, Mapping):
        log.add(path, shown(raw), say("rule.table_of_keys"), _EXPORT, "not-a-table")
        return None
    before = len(log.faults)
    note_unknown_keys(log, path, raw, EVENT_KEYS, {})
    for key in EVENT_KEYS:
        if key not in raw or (raw[key] is None and key not in ("tree", "by")):
            note_missing(log, f"{path}.{key}", _EXPORT)
        else:
            _check(log, f"{path}.{key}", key, raw[key])
    kind, body = raw.get("kind"), raw.get("body")
    if isinstance(kind, str) and isinstance(body, Mapping) and _is_plain(log, path, body):
        check_body(log, f"{path}.body", kind, body)
        if kind in ABOUT_A_TREE and raw.get("tree") is None:
            note_missing(log, f"{path}.tree", say("bundle.about_a_tree", kind=kind))
    if len(log.faults) > before:
        return None
    return Event(**{key: raw[key] for key in EVENT_KEYS})


_EXPORT = say("bundle.export_again")


def _check(log: FaultLog, where: str, key: str, value: object) -> None:
    """Check one of the nine keys of an event; absent ones are told apart."""
    rule = _broken_rule(key, value)
    if rule is not None:
        log.add(where, shown(value), rule, _EXPORT, _CODES.get(key, "not-text"))


_CODES = {"seq": "not-whole", "schema": "not-whole", "body": "not-a-table"}


def _broken_rule(key: str, value: object) -> Text | None:
    """Return the rule that a value breaks, or None."""
    if key in ("tree", "by") and value is None:
        return None
    if key in ("seq", "schema"):
        most = LARGEST_SEQ if key == "seq" else EVENT_SCHEMA
        whole = isinstance(value, int) and not isinstance(value, bool)
        fits = whole and 1 <= value <= most  # type: ignore[operator]  # whole says so
        return None if fits else say("rule.whole_range", low=1, high=most)
    if key == "body":
        return None if isinstance(value, Mapping) else say("rule.table_of_keys")
    return None if isinstance(value, str) and _TEXT_TESTS[key](value) else _TEXT_RULES[key]


def is_device_id(text: str) -> bool:
    """Whether a text can name a device."""
    return DEVICE.fullmatch(text) is not None


def is_moment(text: str) -> bool:
    """Whether a text is a date and time with its offset from UTC."""
    if not MOMENT.fullmatch(text):
        return False
    try:
        datetime.fromisoformat(text)
    except ValueError:
        return False
    return True


def is_name(text: str, longest: int) -> bool:
    """Whether a text can be shown on one line as a name: nothing that a screen would obey."""
    return 1 <= len(text) <= longest and text.isprintable()


_TEXT_TESTS: dict[str, Callable[[str], bool]] = {
    "id": lambda text: UUID_7.fullmatch(text) is not None,
    "device": is_device_id,
    "at": is_moment,
    "kind": lambda text: KIND.fullmatch(text) is not None,
    "tree": lambda text: UUID.fullmatch(text) is not None,
    "by": lambda text: is_name(text, LONGEST_BY),
}
_TEXT_RULES = {
    "id": say("bundle.uuid_7"),
    "device": say("bundle.device_id"),
    "at": say("bundle.moment"),
    "kind": say("bundle.kind"),
    "tree": say("bundle.uuid_or_null"),
    "by": say("bundle.name_or_null", most=LONGEST_BY),
}


def _is_plain(log: FaultLog, path: str, body: Mapping[str, object]) -> bool:
    """Whether a body nests no deeper than it may and every text in it can be written out."""
    level: list[object] = [body]
    for _ in range(MOST_DEPTH):
        inner: list[object] = []
        for item in level:
            if isinstance(item, Mapping):
                inner += [*item.keys(), *item.values()]
            elif isinstance(item, (list, tuple)):
                inner += item
            elif isinstance(item, str) and not _can_be_written(item):
                log.add(f"{path}.body", "", say("bundle.half_pair"), _EXPORT, "not-text")
                return False
        if not inner:
            return True
        level = inner
    log.add(f"{path}.body", "", say("bundle.depth", most=MOST_DEPTH), _EXPORT, "too-deep")
    return False


def _can_be_written(text: str) -> bool:
    try:
        text.encode("utf-8")
    except UnicodeEncodeError:
        return False
    return True
