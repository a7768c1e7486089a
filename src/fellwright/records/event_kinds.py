"""What the body of each kind of event must hold; more than that is kept as it is."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from fellwright.records.fault_log import FaultLog, Said, shown
from fellwright.records.number_fields import Number
from fellwright.records.stump_fields import AIM_FIELDS, STUMP_FIELDS
from fellwright.records.table_reader import Field, note_missing, read_fields
from fellwright.records.word_fields import Choice, Flag, Text
from fellwright.words import say

__all__ = ["ABOUT_A_TREE", "KINDS", "TREE_STATES", "check_body"]

TREE_STATES = ("marked", "looked at", "carded", "loaded", "down", "hung", "left")
READING_PATH = re.compile(r"[a-z][a-z0-9_]*(\.[a-z0-9_]+)+")

_AGAIN = say("bundle.confirm_again")
_PATH = say("bundle.path_how")
_WITHDRAWN = say("bundle.withdrawn_how")


@dataclass(frozen=True, slots=True)
class Path:
    """Where a reading belongs, as `tree.dbh_cm`; one that is not known yet is kept."""

    key: str = "path"
    remedy: Said = _PATH
    required: bool = True

    @property
    def accepted_keys(self) -> tuple[str, ...]:
        """The one key."""
        return (self.key,)

    def read(self, log: FaultLog, path: str, table: Mapping[str, object]) -> dict[str, Any]:
        """Note a fault for anything that is no path."""
        raw = table.get(self.key)
        fits = isinstance(raw, str) and len(raw) <= 80 and READING_PATH.fullmatch(raw) is not None
        if raw is not None and not fits:
            rule = say("bundle.path")
            log.add(f"{path}.{self.key}", shown(raw), rule, self.remedy, "not-text")
        return {}


@dataclass(frozen=True, slots=True)
class Whole:
    """A table that is kept whole: a kit, the request of a plan, its answer."""

    key: str
    required: bool = True
    remedy: Said = _AGAIN

    @property
    def accepted_keys(self) -> tuple[str, ...]:
        """The one key."""
        return (self.key,)

    def read(self, log: FaultLog, path: str, table: Mapping[str, object]) -> dict[str, Any]:
        """Note a fault for anything that is no table."""
        raw = table.get(self.key)
        if raw is not None and not isinstance(raw, Mapping):
            rule = say("rule.table_of_keys")
            log.add(f"{path}.{self.key}", shown(raw), rule, self.remedy, "not-a-table")
        return {}


@dataclass(frozen=True, slots=True)
class AnyValue:
    """Any JSON value under a key that must be there; null says that it was withdrawn."""

    key: str = "value"
    required: bool = False
    remedy: Said = _WITHDRAWN

    @property
    def accepted_keys(self) -> tuple[str, ...]:
        """The one key."""
        return (self.key,)

    def read(self, log: FaultLog, path: str, table: Mapping[str, object]) -> dict[str, Any]:
        """Note a fault where the key is absent."""
        if self.key not in table:
            note_missing(log, f"{path}.{self.key}", self.remedy)
        return {}


_STATES = {word: word for word in TREE_STATES}

KINDS: dict[str, Sequence[Field]] = {
    "tree": (Text("name", _AGAIN, required=True),),
    "reading": (Path(), AnyValue(), Text("typed", _AGAIN), Text("how", _AGAIN)),
    "kit": (Text("name", _AGAIN, required=True), Whole("kit")),
    "van": (Text("device", _AGAIN, required=True), Flag("present", _AGAIN, required=True)),
    "setting": (Text("key", _AGAIN, required=True), AnyValue()),
    "plan": (
        Whole("request"),
        Text("verdict", _AGAIN, required=True),
        Text("engine", _AGAIN, required=True),
        Whole("answer"),
    ),
    "trimmed": (
        Number("stump_diameter_cm", "cm", 1, 1500, say("remedy.stump_diameter_cm"), required=True),
    ),
    "notch": AIM_FIELDS,
    "ready": (Text("item", _AGAIN, required=True), Flag("done", _AGAIN, required=True)),
    "drive": (
        Text("stage", _AGAIN, required=True),
        Number("turns", "", 0, 2000, say("stump.do_turns")),
    ),
    "stump": STUMP_FIELDS,
    "state": (Choice("state", _STATES, _AGAIN, required=True),),
}
"""Kinds of schema 1 -> what their bodies hold. A kind that is not here is kept untouched."""

ABOUT_A_TREE = ("tree", "trimmed", "notch", "ready", "drive", "stump", "state")
"""Kinds that mean nothing without the tree that they are about."""


def check_body(log: FaultLog, path: str, kind: str, body: Mapping[str, object]) -> None:
    """Note every fault of a body of a known kind; nothing in it is changed.

    Parameters
    ----------
    log
        Where faults go.
    path
        What to call the body, as in `events[3].body`.
    kind
        Kind of the event; one that is not known has no faults.
    body
        The body as read.
    """
    read_fields(log, path, body, KINDS.get(kind, ()))
