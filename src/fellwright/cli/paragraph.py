"""Lines of text that fit a narrow terminal."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence

WIDTH = 80


def wrapped(text: str, label: str = "", indent: int = 2) -> list[str]:
    """Wrap a text behind a label, continuation lines hanging under it."""
    head = " " * indent + label
    return textwrap.wrap(
        text,
        WIDTH,
        initial_indent=head,
        subsequent_indent=" " * len(head),
        break_on_hyphens=False,
    )


def rule() -> str:
    """A line across the page."""
    return "-" * WIDTH


def beside(first: str, asides: Sequence[str], between: str = "   ", indent: int = 6) -> list[str]:
    """Put asides behind a word on its line, those that do not fit on lines of their own."""
    lines = [first]
    for aside in asides:
        longer = f"{lines[-1]}{between}{aside}"
        if len(longer) <= WIDTH:
            lines[-1] = longer
        else:
            lines += wrapped(aside, indent=indent)
    return lines
