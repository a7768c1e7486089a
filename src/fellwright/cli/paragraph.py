"""Lines of text that fit a narrow terminal."""

from __future__ import annotations

import textwrap

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
