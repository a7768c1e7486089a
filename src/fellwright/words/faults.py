"""Faults in the language of a face, and what the system says of a file that it does not give."""

import errno

from fellwright.errors import Fault, Words
from fellwright.words.text import METRIC, Style, Text, in_languages, render, say

__all__ = ["fault_data", "fault_text", "system_words"]

HEADING = "column "
"""How the field of a fault begins that belongs to a heading of a table."""

SYSTEM: dict[int, str] = {
    errno.EACCES: "system_no_rights",
    errno.EEXIST: "system_exists",
    errno.EISDIR: "system_is_folder",
    errno.ENAMETOOLONG: "system_long_name",
    errno.ENOENT: "system_missing",
    errno.ENOSPC: "system_full",
    errno.ENOTDIR: "system_no_folder",
    errno.EPERM: "system_no_rights",
    errno.EROFS: "system_read_only",
}


def fault_text(fault: Fault, style: Style = METRIC) -> str:
    """Write a fault in one line of a language.

    Parameters
    ----------
    fault : Fault
        The fault.
    style : Style
        Language and units. The value stays as the file writes it.

    Returns
    -------
    str
        ``list.csv: row 3: tree.dbh_cm = 4000: must be between 1 and 1000 cm. Measure ...``
    """
    place: Words = fault.file_words
    if fault.row is not None:
        place = say("fault.row", file=place, row=fault.row)
    subject = _subject(fault)
    if subject is not None:
        place = say("fault.place", place=place, subject=subject)
    words = {"rule": fault.rule_words, "remedy": fault.remedy_words}
    return render(say("fault.line", place=place, **words), style)


def fault_data(fault: Fault, style: Style = METRIC) -> dict[str, object]:
    """Return a fault as plain data for JSON.

    Parameters
    ----------
    fault : Fault
        The fault.
    style : Style
        Language and units of ``file``, ``value``, ``rule``, ``remedy`` and ``text``; ``field`` and
        ``code`` are the same in all.

    Returns
    -------
    dict
        ``file``, ``row``, ``field``, ``value``, ``rule``, ``remedy``, ``code``, ``text``.
    """
    return {
        "file": _written(fault.file_words, style),
        "row": fault.row,
        "field": fault.field,
        "value": _written(fault.value_words, style),
        "rule": _written(fault.rule_words, style),
        "remedy": _written(fault.remedy_words, style),
        "code": fault.code,
        "text": fault_text(fault, style),
    }


def system_words(error: OSError | ValueError) -> Text:
    """Say why the system did not read or write a file.

    Parameters
    ----------
    error : OSError or ValueError
        What it raised; a ValueError is a name that no file can have.

    Returns
    -------
    Text
        In English the words of the system itself.
    """
    if not isinstance(error, OSError):
        return say("fault.system_bad_name")
    known = None if error.errno is None else SYSTEM.get(error.errno)
    told = say("fault.system_other", number=error.errno) if known is None else say(f"fault.{known}")
    return in_languages(en=error.strerror or str(error), de=told)


def _subject(fault: Fault) -> Words | None:
    """What the rule speaks of: field, value or both."""
    field: Words = fault.field
    if fault.field.startswith(HEADING):
        field = say("fault.column", count=fault.field.removeprefix(HEADING))
    if not fault.value:
        return field if fault.field else None
    if not fault.field:
        return fault.value_words
    return say("fault.subject", field=field, value=fault.value_words)


def _written(words: Words, style: Style) -> str:
    return render(words, style) if isinstance(words, Text) else str(words)
