"""Collects the faults of one file, and shows any value to a person in a few plain characters."""

from __future__ import annotations

import datetime as dt
import difflib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from fellwright.errors import BadInput, Fault
from fellwright.words import Text, say

SHOWN_LENGTH = 60
NEAREST_CUTOFF = 0.6

Said = str | Text
"""A name or figure as it stands in a file, or a sentence of the catalogue."""


@dataclass(slots=True)
class FaultLog:
    """What was found in one file, or in one row of one, so far."""

    source: Said
    row: int | None = None
    faults: list[Fault] = field(default_factory=list)
    as_read: dict[str, tuple[float, str]] = field(default_factory=dict)
    lay_deg: float | None = None
    """The lay from which hours of a clock are counted."""
    lay_has_fault: bool = False
    """Whether it was written and cannot be read: then the hours need no fault of their own."""

    def add(self, where: str, value: Said, rule: Said, remedy: Said, code: str) -> None:
        """Note one fault."""
        self.faults.append(Fault(self.source, self.row, where, value, rule, remedy, code))

    def has_fault_at(self, where: str) -> bool:
        """Tell whether a fault was noted at exactly this path."""
        return any(fault.field == where for fault in self.faults)

    def raise_if_any(self) -> None:
        """Raise every fault at once."""
        if self.faults:
            raise BadInput(self.faults)


def shown(value: object) -> Said:
    """Show a value on one line, cut short, with nothing a terminal would obey."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if value is None:
        return say("fault.nothing")
    if isinstance(value, int):
        # Python refuses to print very long integers; 200 bits is far beyond any reading.
        return str(value) if value.bit_length() <= 200 else say("fault.long_number")
    if isinstance(value, float):
        return repr(value)
    if isinstance(value, str):
        return f'"{shown_text(value)}"'
    if isinstance(value, Mapping):
        return say("fault.a_table")
    if isinstance(value, (list, tuple)):
        return say("fault.a_list", count=len(value))
    return _kind_of(value)


def _kind_of(value: object) -> Text:
    """Name what a TOML file can hold beside numbers, texts and tables, and anything else."""
    if isinstance(value, dt.date):
        return say("fault.a_date")
    if isinstance(value, dt.time):
        return say("fault.a_time")
    return say("fault.a_kind", kind=type(value).__name__)


def shown_text(text: str) -> str:
    """Cut a text short and replace what cannot be printed."""
    clean = "".join(
        letter if letter.isprintable() else "\N{REPLACEMENT CHARACTER}"
        for letter in text[:SHOWN_LENGTH]
    )
    return clean if len(text) <= SHOWN_LENGTH else f"{clean}..."


def nearest(word: str, known: Iterable[str]) -> str | None:
    """Return the known word nearest in spelling, or None."""
    by_folded = {candidate.casefold(): candidate for candidate in known}
    found = difflib.get_close_matches(
        word[:SHOWN_LENGTH].casefold(), by_folded, n=1, cutoff=NEAREST_CUTOFF
    )
    return by_folded[found[0]] if found else None


def folded(text: str) -> str:
    """Bring a word to the form in which vocabularies are compared."""
    return " ".join(text.split()).casefold()
