"""Verdict words in their order, and the reasons that go with them."""

from dataclasses import dataclass

from fellwright.words import Text, say

__all__ = [
    "ADDS_UP",
    "LEAVE",
    "LINE",
    "MEASURE",
    "TIGHT",
    "Reason",
    "because",
    "boldness",
    "say_verdict",
    "worse",
]

ADDS_UP = "ADDS UP"
TIGHT = "TIGHT"
LINE = "LINE"
LEAVE = "LEAVE"
MEASURE = "MEASURE"

_BOLDNESS = {ADDS_UP: 3, TIGHT: 2, LINE: 1, LEAVE: 0, MEASURE: 0}


@dataclass(frozen=True, slots=True)
class Reason:
    """One reason: a stable code and a sentence that a feller can act on."""

    code: str
    text: Text


def because(code: str, **values: object) -> Reason:
    """Make a reason whose sentence stands in the catalogue under its code."""
    return Reason(code, say(f"reason.{code}", **values))


def say_verdict(verdict: str) -> Text:
    """Verdict as its reader's word; the code stays English."""
    return say(f"verdict.{verdict.replace(' ', '_')}")


def boldness(verdict: str) -> int:
    """How bold a verdict is: ADDS UP 3, TIGHT 2, LINE 1, LEAVE and MEASURE 0."""
    return _BOLDNESS[verdict]


def worse(first: str, second: str) -> str:
    """Return the less bold of two verdicts, the first where they are equal."""
    return first if boldness(first) <= boldness(second) else second
