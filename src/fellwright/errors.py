"""What can go wrong, as one tree.

FellwrightError                 anything this package refuses, said in one line a person can act on
└── BadInput                    a file or request holds faults; carries all of them at once

Anything else that escapes is a defect of this package. `words.fault_text` says a fault in the
language of a face. Codes are stable, wording is not.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Protocol


class FellwrightError(Exception):
    """Anything this package refuses, with a text a person can act on."""


class Words(Protocol):
    """A text, or a sentence of the catalogue that `str` writes in English."""

    def __str__(self) -> str:
        """Return the English words."""


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing wrong with one place of one file.

    What a person reads comes as words that a face can render in its language; `file`, `value`,
    `rule`, `remedy` and `text` are their English.

    Parameters
    ----------
    file_words
        Where it stands: a file name, or a word such as "request".
    row
        Row of a table file as a spreadsheet numbers it (the heading is row 1), or None.
    field
        Path of the key, list entries counted from 1, as in `tree.lean[2].offset_m`, or `column 3`
        of the headings of a table; "" when the fault belongs to the whole file.
    value_words
        The offending value as shown to a person; "" when there is none (a missing key).
    rule_words
        What must hold, starting with a verb: "must be between 1 and 1000 cm".
    remedy_words
        What to measure or do next, as whole sentences.
    code
        Stable name of the kind of fault, for translation.
    """

    file_words: Words
    row: int | None
    field: str
    value_words: Words
    rule_words: Words
    remedy_words: Words
    code: str

    @property
    def file(self) -> str:
        """Where it stands, in English."""
        return str(self.file_words)

    @property
    def value(self) -> str:
        """The offending value, in English."""
        return str(self.value_words)

    @property
    def rule(self) -> str:
        """What must hold, in English."""
        return str(self.rule_words)

    @property
    def remedy(self) -> str:
        """What to do next, in English."""
        return str(self.remedy_words)

    @property
    def text(self) -> str:
        """The fault in one line of English; `words.fault_text` has the other languages."""
        place = self.file if self.row is None else f"{self.file}: row {self.row}"
        subject = f"{self.field} = {self.value}" if self.field and self.value else self.field
        if not self.field and self.value:
            subject = self.value
        head = f"{place}: {subject}" if subject else place
        return f"{head}: {self.rule}. {self.remedy}"

    def __str__(self) -> str:
        return self.text


class BadInput(FellwrightError):  # noqa: N818 - reads as what it is
    """A file or request that cannot be used, with every fault found in it."""

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults: tuple[Fault, ...] = tuple(faults)
        super().__init__(self.faults)

    def __str__(self) -> str:
        # Written when it is asked for: a table of trees may hold a hundred thousand faults.
        return "\n".join(fault.text for fault in self.faults)
