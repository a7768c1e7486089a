"""Faults on stderr in the language that a command was asked for."""

from __future__ import annotations

import functools
from collections.abc import Callable
from typing import Any

from fellwright.errors import BadInput, FellwrightError
from fellwright.words import Style, fault_text


def told_as_asked(command: Callable[..., None]) -> Callable[..., None]:
    """Say the faults of a command that takes `language` and `imperial` in these."""

    @functools.wraps(command)
    def told(**given: Any) -> None:
        try:
            command(**given)
        except BadInput as bad:
            style = Style(given["language"], imperial=given["imperial"])
            lines = [fault_text(fault, style) for fault in bad.faults]
            raise FellwrightError("\n".join(lines)) from bad

    return told
