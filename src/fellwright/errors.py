"""What can go wrong, as one tree.

FellwrightError                 anything this package refuses, said in one line a person can act on
└── BadInput                    a file or request holds faults; carries all of them at once

Anything else that escapes is a defect of this package. The command line and the app translate by
`Fault.code`; codes are stable, wording is not.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass


class FellwrightError(Exception):
    """Anything this package refuses, with a text a person can act on."""


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing wrong with one place of one file.

    Parameters
    ----------
    file
        Where it stands: a file name, or a word such as "request".
    row
        Row of a table file as a spreadsheet numbers it (the heading is row 1), or None.
    field
        Path of the key, list entries counted from 1, as in `tree.lean[2].offset_m`; "" when the
        fault belongs to the whole file.
    value
        The offending value as shown to a person; "" when there is none (a missing key).
    rule
        What must hold, starting with a verb: "must be between 1 and 1000 cm".
    remedy
        What to measure or do next, as whole sentences.
    code
        Stable name of the kind of fault, for translation.
    """

    file: str
    row: int | None
    field: str
    value: str
    rule: str
    remedy: str
    code: str

    @property
    def text(self) -> str:
        """The fault in one line."""
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
        super().__init__("\n".join(fault.text for fault in self.faults))
