"""Write cards to one PDF, whole or not at all; the same cards give the same bytes."""

import importlib.util
import json
import os
import tempfile
from collections.abc import Sequence
from importlib.resources import files
from pathlib import Path

from fellwright.errors import BadInput, Fault
from fellwright.planning.plan import Plan
from fellwright.print.card import Card, lay_out
from fellwright.words import Style, Text, listed, say, system_words

__all__ = ["PAPERS", "check_target", "write_card", "write_cards"]

PAPERS = ("a5", "a4")
"""A5 upright; A4 across, to fold once: the card and the stump plan side by side."""
EPOCH = 0


def write_card(plan: Plan, path: str | os.PathLike[str], style: Style, paper: str = "a5") -> Path:
    """Write the card of one tree.

    Parameters
    ----------
    plan : Plan
        The plan, not a bare one.
    path : path
        File to write; one of that name is replaced.
    style : Style
        Language and units.
    paper : str
        One of ``PAPERS``.

    Returns
    -------
    Path
        The file.

    Raises
    ------
    BadInput
        As :func:`write_cards`.
    """
    return write_cards([lay_out(plan, style, paper)], path, paper)


def write_cards(cards: Sequence[Card], path: str | os.PathLike[str], paper: str = "a5") -> Path:
    """Write cards, one a page, in their order.

    Parameters
    ----------
    cards : sequence of dict
        From :func:`fellwright.print.lay_out`, at least one.
    path : path
        File to write; one of that name is replaced.
    paper : str
        One of ``PAPERS``.

    Returns
    -------
    Path
        The file.

    Raises
    ------
    BadInput
        If the extra is not installed, there is no such paper, the folder is missing, or the file
        cannot be written. Nothing half-written is left behind.
    """
    check_target(path, paper)
    whole = _compile(cards, paper)
    target = Path(path)
    try:
        return _write_whole(target, whole)
    except OSError as error:
        rule = say("rule.unwritable", why=system_words(error))
        raise _refused(path, rule, say("remedy.file_other"), "unwritable") from None


def check_target(path: str | os.PathLike[str], paper: str = "a5") -> None:
    """Find out before any planning whether cards can be written there.

    Parameters
    ----------
    path : path
        File to write.
    paper : str
        One of ``PAPERS``.

    Raises
    ------
    BadInput
        If the extra is not installed, there is no such paper, or no such folder.
    """
    if paper not in PAPERS:
        rule = say("rule.choice", choices=listed(PAPERS, say("fault.or")))
        raise _refused(paper, rule, say("remedy.choose"), "not-a-choice")
    if importlib.util.find_spec("typst") is None:
        rule, remedy = say("rule.typst_missing"), say("remedy.print_extra")
        raise _refused(path, rule, remedy, "extra-missing")
    fault = _place_fault(path)
    if fault is not None:
        rule, remedy, code = fault
        raise _refused(path, rule, remedy, code)


def _place_fault(path: str | os.PathLike[str]) -> tuple[Text, Text, str] | None:
    """Rule, remedy and code where no file can stand at a path."""
    if "\0" in os.fspath(path):
        return say("rule.file_name"), say("remedy.file_other"), "unwritable"
    try:
        if not Path(path).parent.is_dir():
            return say("rule.folder_exists"), say("remedy.folder_make"), "folder-missing"
        if Path(path).is_dir():
            return say("rule.file"), say("remedy.file_in_folder"), "is-folder"
    except OSError as error:  # a name too long, a folder without the right to look in
        rule = say("rule.unwritable", why=system_words(error))
        return rule, say("remedy.file_other"), "unwritable"
    return None


def _compile(cards: Sequence[Card], paper: str) -> bytes:
    """Set the pages; every text reaches the page as a string, never as markup."""
    import typst

    source = files(__package__).joinpath("card.typ").read_bytes()
    data = json.dumps(cards, ensure_ascii=True, allow_nan=False)
    return typst.compile(
        source,
        format="pdf",
        sys_inputs={"cards": data, "paper": paper},
        # Only the faces that come with it, and no clock: the same bytes on every machine.
        ignore_system_fonts=True,
        timestamp=EPOCH,
    )


def _write_whole(path: Path, content: bytes) -> Path:
    """Write beside the target and rename, so that a reader sees the old file or the new one."""
    handle, temporary = tempfile.mkstemp(dir=path.parent, prefix=".", suffix=".pdf.tmp")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
        # A temporary file is private; a card is as open as any file made here.
        umask = os.umask(0)
        os.umask(umask)
        os.chmod(temporary, 0o666 & ~umask)
        os.replace(temporary, path)
    except BaseException:
        Path(temporary).unlink(missing_ok=True)
        raise
    return path


def _refused(path: str | os.PathLike[str], rule: Text, remedy: Text, code: str) -> BadInput:
    shown = os.fsencode(path).decode("utf-8", "replace")
    shown = "".join(c if c.isprintable() else "\N{REPLACEMENT CHARACTER}" for c in shown)
    return BadInput([Fault(say("fault.card"), None, "", shown, rule, remedy, code)])
