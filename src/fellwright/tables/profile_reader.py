"""Reads one table of a profile file key by key and notes everything that is wrong with it."""

from __future__ import annotations

import difflib
import itertools
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
from fellwright.words import Text, say

__all__ = ["Reader", "clean_name", "file_fault", "nearest_remedy"]

LONGEST_TEXT = 400
MOST_TEXTS = 40
FRACTION = re.compile(r"(\d{1,4})\s*/\s*(\d{1,4})")


def file_fault(source: str | Text, rule: Text, remedy: Text, code: str) -> Fault:
    """Make a fault that belongs to the whole profile."""
    return Fault(source, None, "", "", rule, remedy, code)


def nearest_remedy(word: str, known: Iterable[str]) -> Text:
    """Say which known word was probably meant, else all of them."""
    words = list(known)
    close = difflib.get_close_matches(word[:60], words, n=1)
    if close:
        return say("remedy.nearest", word=close[0])
    return say("remedy.known", words=", ".join(words))


class Reader:
    """One table with its path; what cannot be read is noted and stands in as nothing."""

    def __init__(
        self, source: str | Text, path: str, table: Mapping[str, object], known: tuple[str, ...]
    ) -> None:
        self.source, self.path, self.table = source, path, table
        self.faults: list[Fault] = []
        for key in table:
            if key not in known:
                remedy = nearest_remedy(str(key), known)
                self.add(clean_name(key), table[key], say("rule.key_known"), remedy, "unknown-key")

    def add(self, key: str, value: object, rule: Text, remedy: Text, code: str) -> None:
        """Note one fault."""
        where = f"{self.path}.{key}" if self.path else key
        shown = repr(value)[:60] if isinstance(value, str | float | bool) else _kind(value)
        self.faults.append(Fault(self.source, None, where, shown, rule, remedy, code))

    def text(self, key: str) -> str:
        """Text that must be given."""
        value = self.table.get(key)
        if isinstance(value, str) and _is_plain(value.strip()):
            return value.strip()
        rule = say("rule.text_printable", most=LONGEST_TEXT)
        self.add(key, value, rule, say("remedy.quotation_marks"), "not-text")
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
        self.add(key, value, say("rule.texts"), say("remedy.text_or_list"), "not-text")
        return ()

    def choice(self, key: str, known: Iterable[str], default: str | None = None) -> str:
        """One of the known words."""
        words = tuple(known)
        value = self.table.get(key, default)
        if isinstance(value, str) and value in words:
            return value
        remedy = nearest_remedy(value if isinstance(value, str) else "", words)
        self.add(key, value, say("rule.known_word"), remedy, "not-a-choice")
        return ""

    def subject(self) -> str:
        """What the rule speaks of."""
        return self.choice("subject", SUBJECTS)

    def force(self, subject: str) -> str:
        """Law, guidance or conflict; conflicts have subjects of their own."""
        force = self.choice("force", FORCES)
        if force and subject and subject != NOTE and (force == CONFLICT) != is_conflict(subject):
            remedy = say("remedy.change_subject")
            self.add("force", force, say("rule.conflict_force"), remedy, "contradiction")
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
            rule = say("rule.note_only")
            self.add("text", self.table["text"], rule, say("remedy.drop"), "contradiction")
        return None

    def yes(self, key: str) -> bool:
        """Truth of a key; false where it is absent."""
        value = self.table.get(key, False)
        if isinstance(value, bool):
            return value
        rule, remedy = say("rule.true_or_false"), say("remedy.true_or_false")
        self.add(key, value, rule, remedy, "not-yes-or-no")
        return False

    def cases(self) -> tuple[str, ...]:
        """When the rule applies."""
        found = self.texts("cases")
        for case in found:
            if case not in CASES:
                remedy = nearest_remedy(case, CASES)
                self.add("cases", case, say("rule.known_case"), remedy, "not-a-choice")
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
        rule, remedy = say("rule.fraction", most=most / factor), say("remedy.printed")
        self.add(key, self.table[key], rule, remedy, "out-of-range")
        return None

    def bounds(self, subject: str) -> tuple[float | None, float | None, float | None]:
        """Low, high and about in SI or shares; none for a plain demand."""
        dimension = SUBJECTS[subject]
        given = [key for key in ("low", "high", "about") if key in self.table]
        if not dimension:
            for key in (*given, *(["unit"] if "unit" in self.table else [])):
                rule = say("rule.demand")
                self.add(key, self.table[key], rule, say("remedy.drop"), "contradiction")
            return None, None, None
        factor = UNITS[dimension].get(self.choice("unit", UNITS[dimension]), 1.0)
        most = LARGEST[dimension]
        low, high, about = (self.number(key, factor, most) for key in ("low", "high", "about"))
        one = THRESHOLDS.get(subject)
        if one is not None and given != [one]:
            rule, remedy = say("rule.alone", key=one), say("remedy.figure_one")
            self.add(one, self.table.get(one), rule, remedy, "missing-key")
        elif not given or ("about" in given and len(given) > 1):
            rule = say("rule.low_high_about")
            self.add("low", None, rule, say("remedy.figure_again"), "missing-key")
        if low is not None and high is not None and low > high:
            rule, remedy = say("rule.not_over_high"), say("remedy.swap")
            self.add("low", self.table["low"], rule, remedy, "contradiction")
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


def clean_name(key: object) -> str:
    """Show a key or a name with nothing a terminal would obey."""
    clean = (letter if letter.isprintable() else "\N{REPLACEMENT CHARACTER}" for letter in str(key))
    return "".join(itertools.islice(clean, 60))


def _kind(value: object) -> str | Text:
    if value is None:
        return ""
    if isinstance(value, int):
        return str(value) if value.bit_length() <= 200 else say("fault.very_long_number")
    if isinstance(value, Mapping):
        return say("fault.a_table")
    if isinstance(value, list):
        return say("fault.a_list", count=len(value))
    return say("fault.a_kind", kind=type(value).__name__)
