"""`fellwright new`: write commented example files to start from."""

from __future__ import annotations

import contextlib
import os
from collections.abc import Mapping
from importlib import resources
from pathlib import Path

import click

from fellwright.errors import BadInput, Fault
from fellwright.exchange.file_text import file_name
from fellwright.words import say, system_words

TEMPLATES = ("tree.toml", "kit.toml")


def template_text(name: str) -> str:
    """Return the text of one of the templates."""
    folder = resources.files("fellwright.cli") / "templates"
    return (folder / name).read_text(encoding="utf-8")


def write_new_files(folder: Path, texts: Mapping[str, str]) -> list[Path]:
    """Write files that must not exist yet, all of them whole or none.

    Parameters
    ----------
    folder
        Where to; made if it does not exist.
    texts
        File name to text.

    Returns
    -------
    list of Path
        The files written.

    Raises
    ------
    BadInput
        If one of the files exists, or the folder cannot be written; then nothing is written.
    """
    targets = {folder / name: text for name, text in texts.items()}
    faults = [_exists_fault(path) for path in targets if os.path.lexists(path)]
    if faults:
        raise BadInput(faults)
    try:
        folder.mkdir(parents=True, exist_ok=True)
        _write_all(targets)
    except OSError as error:
        rule = say("rule.folder_written", why=system_words(error))
        remedy = say("remedy.folder_other")
        fault = Fault(file_name(folder), None, "", "", rule, remedy, "folder-unwritable")
        raise BadInput([fault]) from None
    return list(targets)


def _exists_fault(path: Path) -> Fault:
    rule, remedy = say("rule.without_file"), say("remedy.file_move")
    return Fault(file_name(path), None, "", "", rule, remedy, "file-exists")


def _write_all(targets: Mapping[Path, str]) -> None:
    """Write each text beside its target, then move all into place."""
    parts = {path: path.with_name(f".{path.name}.{os.getpid()}.part") for path in targets}
    placed: list[Path] = []
    try:
        for path, text in targets.items():
            _write_synced(parts[path], text)
        for path, part in parts.items():
            os.replace(part, path)
            placed.append(path)
    except OSError:
        for path in (*parts.values(), *placed):
            with contextlib.suppress(OSError):
                path.unlink()
        raise


def _write_synced(path: Path, text: str) -> None:
    with open(path, "x", encoding="utf-8", newline="\n") as file:
        file.write(text)
        file.flush()
        os.fsync(file.fileno())


@click.command()
@click.argument("folder", metavar="DIR", type=click.Path())
def new(folder: str) -> None:
    """Write DIR/tree.toml and DIR/kit.toml, every key with a comment; overwrites nothing."""
    for path in write_new_files(Path(folder), {name: template_text(name) for name in TEMPLATES}):
        click.echo(f"wrote {file_name(path)}")
    click.echo("The look is left unanswered in tree.toml: answer it at the tree.")
