"""How much room a text takes on paper, estimated, and how it is fitted into less."""

__all__ = ["BODY", "LEADING", "LEAST", "shorten", "text_width_mm", "wrap_text"]

BODY = 3.6
"""Usual height of letters [mm]."""
LEAST = 3.2
"""Smallest height of letters [mm]: read at arm's length from an A5 page."""
LEADING = 1.35
"""From line to line, over the height of the letters."""

_EM_SHARE = {
    "ijlI'": 0.30,
    ".,:; ": 0.34,
    "ft()[]/\\|!-\N{HYPHEN}": 0.41,
    "rJ": 0.42,
    "cksvxyz\N{EN DASH}": 0.60,
    "mwMW%@\N{EM DASH}\N{HORIZONTAL ELLIPSIS}": 1.0,
    "DGHNOQU&+=<>\N{MULTIPLICATION SIGN}": 0.84,
    "ABCKPRSVXY\N{LATIN CAPITAL LETTER A WITH DIAERESIS}": 0.71,
}
"""Widths in a wide face over the height of the letters, rounded up."""
_WIDTHS = {letter: share for letters, share in _EM_SHARE.items() for letter in letters}
_USUAL = 0.645
_WIDEST = 1.05
_BOLD = 1.12
_LAST_LATIN = 0x24F


def text_width_mm(text: str, size_mm: float, *, bold: bool = False) -> float:
    """Width of a text in a wide sans-serif face.

    Parameters
    ----------
    text : str
        One line.
    size_mm : float
        Height of the letters [mm].
    bold : bool
        Whether it is set bold.

    Returns
    -------
    float
        Width [mm], on the wide side: which face a reader has is not known. OWN.
    """
    ems = sum(
        _WIDTHS.get(letter, _USUAL if ord(letter) <= _LAST_LATIN else _WIDEST) for letter in text
    )
    return ems * size_mm * (_BOLD if bold else 1.0)


def shorten(text: str, width_mm: float, size_mm: float, *, bold: bool = False) -> str:
    """Cut a text to a width, with an ellipsis where something went.

    Parameters
    ----------
    text : str
        One line.
    width_mm, size_mm : float
        Room and height of the letters [mm].
    bold : bool
        Whether it is set bold.

    Returns
    -------
    str
        The text, or its beginning.
    """
    if text_width_mm(text, size_mm, bold=bold) <= width_mm:
        return text
    kept = text
    while kept and text_width_mm(f"{kept}\N{HORIZONTAL ELLIPSIS}", size_mm, bold=bold) > width_mm:
        kept = kept[:-1]
    return f"{kept.rstrip()}\N{HORIZONTAL ELLIPSIS}"


def wrap_text(text: str, width_mm: float, size_mm: float, *, bold: bool = False) -> list[str]:
    """Break a text into lines of a width; a word that is too long for any line is cut.

    Parameters
    ----------
    text : str
        The text.
    width_mm, size_mm : float
        Room and height of the letters [mm].
    bold : bool
        Whether it is set bold.

    Returns
    -------
    list of str
        The lines, none for an empty text.
    """
    lines: list[str] = []
    line = ""
    for word in text.split():
        longer = f"{line} {word}" if line else word
        if line and text_width_mm(longer, size_mm, bold=bold) > width_mm:
            lines.append(line)
            longer = word
        line = longer
    if line:
        lines.append(line)
    return [shorten(one, width_mm, size_mm, bold=bold) for one in lines]
