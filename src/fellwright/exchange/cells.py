"""From the text of a cell to the value a TOML file would hold; what cannot be read stays text."""

from __future__ import annotations

import re

YES = ("true", "yes", "1", "y")
NO = ("false", "no", "0", "n")

_INTEGER = re.compile(r"[+-]?[0-9]{1,15}")
_DECIMAL = re.compile(r"[+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]{1,3})?")
_WORD_BREAK = re.compile(r"[;|,/]")


def cell_value(text: str, kind: str, *, decimal_comma: bool) -> object:
    """Return what a cell says; None for an empty one.

    A number or answer that cannot be read stays text, and the loader says what is wrong with it.
    """
    text = text.strip()
    if not text:
        return None
    if kind == "number":
        return _number(text.replace(",", ".", 1) if decimal_comma else text, text)
    if kind == "flag":
        return True if text.casefold() in YES else False if text.casefold() in NO else text
    if kind == "words":
        return [word.strip() for word in _WORD_BREAK.split(text) if word.strip()]
    return text


def _number(text: str, original: str) -> int | float | str:
    if _INTEGER.fullmatch(text):
        return int(text)
    return float(text) if _DECIMAL.fullmatch(text) else original
