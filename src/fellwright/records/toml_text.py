"""From the text of a TOML file to its tables, or the one fault that stands in the way."""

from __future__ import annotations

import re
import tomllib
from typing import Any

from fellwright.errors import BadInput, Fault, Words
from fellwright.words import Text, in_languages, say

__all__ = ["parse_toml"]

MOST_CHARACTERS = 1_000_000
LONGEST_LINE = 1_000
MOST_DOTS = 40
"""No line a person writes has more; a dotted key of a thousand parts takes the parser seconds."""
START = say("remedy.start")


def parse_toml(text: str, source: Words) -> dict[str, Any]:
    """Parse the text of a TOML file.

    Parameters
    ----------
    text
        The text.
    source
        Where it stands, for the fault.

    Returns
    -------
    dict
        The tables as written.

    Raises
    ------
    BadInput
        With one fault, with line and column where it is not TOML.
    """
    _refuse_endless_lines(text, source)
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        told = in_languages(en=_one_line(str(error)), de=_place(str(error)))
        raise _refused(source, say("rule.toml", why=told), say("remedy.toml")) from None
    except (ValueError, RecursionError):  # endless digits; brackets nested a thousand deep
        raise _refused(source, say("rule.toml_of_readings"), START) from None


def _refused(source: Words, rule: Text, remedy: Text) -> BadInput:
    return BadInput([Fault(source, None, "", "", rule, remedy, "not-toml")])


def _refuse_endless_lines(text: str, source: Words) -> None:
    if len(text) > MOST_CHARACTERS:
        most = say("rule.most_megabytes", most=MOST_CHARACTERS / 1_000_000)
        raise _refused(source, most, START)
    for count, line in enumerate(text.splitlines(), start=1):
        if len(line) <= LONGEST_LINE and line.partition("#")[0].count(".") <= MOST_DOTS:
            continue
        rule = say("rule.lines_short", characters=LONGEST_LINE, dots=MOST_DOTS, line=count)
        raise _refused(source, rule, START)


def _one_line(message: str) -> str:
    """Bring the parser's message to the form of a rule: one line, no capital, no full stop."""
    words = re.sub(r"[^\x20-\x7e]", "?", " ".join(message.split()))[:160].rstrip(".")
    return words[:1].lower() + words[1:]


def _place(message: str) -> Text:
    """Say in the words of the catalogue where the parser stopped; its own are English."""
    at = re.search(r"at line (\d+), column (\d+)", message)
    if at is not None:
        return say("fault.toml_at", line=at[1], column=at[2])
    return say("fault.toml_at_end" if "end of document" in message else "fault.toml_somewhere")
