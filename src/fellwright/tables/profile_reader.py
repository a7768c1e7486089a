"""Reads one table of a profile file key by key and notes everything that is wrong with it."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable, Mapping

from fellwright.errors import Fault
from fellwright.tables.practice_subjects import (
    BASES,
    CASES,
    CONFLICT,
    FORCES,
    LARGEST,
    NOTE,
    SUBJECTS,
    THRESHOLDS,
    UNITS,
    is_conflict,
)
from fellwright.tables.read import MARKS

__all__ = ["Reader", "file_fault", "nearest_remedy"]

LONGEST_TEXT = 400
MOST_TEXTS = 40
FRACTION = re.compile(r"(\d{1,4})\s*/\s*(\d{1,4})")


def file_fault(source: str, rule: str, remedy: str, code: str) -> Fault:
    """Make a fault that belongs to the whole profile."""
    return Fault(source, None, "", "", rule, remedy, code)


def nearest_remedy(word: str, known: Iterable[str]) -> str:
    """Say which known word was probably meant, else all of them."""
    words = list(known)
    close = difflib.get_close_matches(word[:60], words, n=1)
    return f"The nearest is {close[0]}." if close else f"Known here: {', '.join(words)}."


class Reader:
    """One table with its path; what cannot be read is noted and stands in as nothing."""

    def __init__(
        self, source: str, path: str, table: Mapping[str, object], known: tuple[str, ...]
    ) -> None:
        self.source, self.path, self.table = source, path, table
        self.faults: list[Fault] = []
        for key in table:
            if key not in known:
                remedy = nearest_remedy(str(key), known)
                self.add(str(key)[:60], table[key], "must be a known key", remedy, "unknown-key")

    def add(self, key: str, value: object, rule: str, remedy: str, code: str) -> None:
        """Note one fault."""
        where = f"{self.path}.{key}" if self.path else key
        shown = repr(value)[:60] if isinstance(value, str | float | bool) else _kind(value)
        self.faults.append(Fault(self.source, None, where, shown, rule, remedy, code))

    def text(self, key: str) -> str:
        """Text that must be given."""
        value = self.table.get(key)
        if isinstance(value, str) and _is_plain(value.strip()):
            return value.strip()
        rule = f"must be a text of 1 to {LONGEST_TEXT} printable characters"
        self.add(key, value, rule, "Write it in quotation marks.", "not-text")
        return ""

    def texts(self, key: str, *, required: bool = False) -> tuple[str, ...]:
        """One text or a list of them."""
        value = self.table.get(key)
        if value is None and not required:
            return ()
        items = [value] if isinstance(value, str) else value
        if (
            isinstance(items, list)
            and 0 < len(items) <= MOST_TEXTS
            and all(isinstance(item, str) and _is_plain(item) for item in items)
        ):
            return tuple(items)
        self.add(key, value, "must be texts", "Write one text or a list of texts.", "not-text")
        return ()

    def choice(self, key: str, known: Iterable[str], default: str | None = None) -> str:
        """One of the known words."""
        words = tuple(known)
        value = self.table.get(key, default)
        if isinstance(value, str) and value in words:
            return value
        remedy = nearest_remedy(value if isinstance(value, str) else "", words)
        self.add(key, value, "must be a known word", remedy, "not-a-choice")
        return ""

    def subject(self) -> str:
        """What the rule speaks of."""
        return self.choice("subject", SUBJECTS)

    def force(self, subject: str) -> str:
        """Law, guidance or conflict; conflicts have subjects of their own."""
        force = self.choice("force", FORCES)
        if force and subject and subject != NOTE and (force == CONFLICT) != is_conflict(subject):
            rule = "must be conflict for a subject that starts with conflict_, and for no other"
            self.add("force", force, rule, "Change subject or force.", "contradiction")
        return force

    def mark(self) -> str:
        """How the rule is known."""
        return self.choice("mark", sorted(MARKS))

    def basis(self, key: str, default: str) -> str:
        """Diameter that is meant."""
        return self.choice(key, BASES, default)

    def note(self, subject: str) -> str | None:
        """Words of a note; every other subject has its own."""
        if subject == NOTE:
            return self.text("text")
        if "text" in self.table:
            rule = "must be given for the subject note only"
            self.add("text", self.table["text"], rule, "Drop it.", "contradiction")
        return None

    def yes(self, key: str) -> bool:
        """Truth of a key; false where it is absent."""
        value = self.table.get(key, False)
        if isinstance(value, bool):
            return value
        self.add(key, value, "must be true or false", "Write true or false.", "not-yes-or-no")
        return False

    def cases(self) -> tuple[str, ...]:
        """When the rule applies."""
        found = self.texts("cases")
        for case in found:
            if case not in CASES:
                remedy = nearest_remedy(case, CASES)
                self.add("cases", case, "must be a known case", remedy, "not-a-choice")
        return found

    def number(self, key: str, factor: float = 1.0, most: float = 1e6) -> float | None:
        """Positive number or fraction such as "1/3" in SI, or None."""
        value = self.table.get(key)
        if value is None:
            return None
        fraction = FRACTION.fullmatch(value) if isinstance(value, str) else None
        if fraction and int(fraction[2]):
            value = int(fraction[1]) / int(fraction[2])
        highest = most / factor * (1.0 + 1e-9)
        # Compared before it is turned into a float: a whole number may be too long for one.
        if (
            isinstance(value, int | float)
            and not isinstance(value, bool)
            and 0.0 <= value <= highest
        ):
            return value * factor
        rule = f'must be a number or a fraction such as "1/3", from 0 to {most / factor:g}'
        self.add(key, self.table[key], rule, "Write it as printed, with its unit.", "out-of-range")
        return None

    def bounds(self, subject: str) -> tuple[float | None, float | None, float | None]:
        """Low, high and about in SI or shares; none for a plain demand."""
        dimension = SUBJECTS[subject]
        given = [key for key in ("low", "high", "about") if key in self.table]
        if not dimension:
            for key in (*given, *(["unit"] if "unit" in self.table else [])):
                rule = "must not be given: the subject is a demand without a figure"
                self.add(key, self.table[key], rule, "Drop it.", "contradiction")
            return None, None, None
        factor = UNITS[dimension].get(self.choice("unit", UNITS[dimension]), 1.0)
        most = LARGEST[dimension]
        low, high, about = (self.number(key, factor, most) for key in ("low", "high", "about"))
        one = THRESHOLDS.get(subject)
        if one is not None and given != [one]:
            rule = f"must have {one} alone"
            self.add(one, self.table.get(one), rule, "Write the one figure.", "missing-key")
        elif not given or ("about" in given and len(given) > 1):
            rule = "must have low, high or both, or about alone"
            self.add("low", None, rule, "Write the figure as printed.", "missing-key")
        if low is not None and high is not None and low > high:
            self.add("low", self.table["low"], "must not be over high", "Swap.", "contradiction")
        return low, high, about

    def diameters(self) -> tuple[float | None, float | None]:
        """Diameters between which the rule applies [m]."""
        if "over" not in self.table and "upto" not in self.table:
            return None, None
        known = UNITS["diameter"]
        factor = known.get(self.choice("unit", known), 1.0)
        most = LARGEST["diameter"]
        return self.number("over", factor, most), self.number("upto", factor, most)


def _is_plain(text: str) -> bool:
    """Whether a text fits a line and holds nothing that a terminal would obey."""
    return 0 < len(text) <= LONGEST_TEXT and text.isprintable()


def _kind(value: object) -> str:
    if value is None:
        return ""
    if isinstance(value, int):
        return str(value) if value.bit_length() <= 200 else "a very long number"
    return f"a {type(value).__name__}"
