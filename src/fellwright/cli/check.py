"""`fellwright check`: read files and list every fault in them."""

from __future__ import annotations

import itertools
from collections.abc import Mapping, Sequence
from typing import NamedTuple

import click

from fellwright.errors import BadInput, Fault
from fellwright.exchange.bundle_file import is_bundle_file, read_bundle_file
from fellwright.exchange.file_text import file_name
from fellwright.exchange.toml_file import read_toml
from fellwright.exchange.tree_file import is_table_file, read_trees
from fellwright.records.bundle import Bundle
from fellwright.records.fault_log import nearest
from fellwright.records.kit import Kit
from fellwright.records.kit_fields import TOP_KEYS as KIT_KEYS
from fellwright.records.loader import read_kit, read_tree
from fellwright.records.tree_fields import TOP_TABLES as TREE_KEYS
from fellwright.words import say

MOST_KEYS_COMPARED = 50
"""Tree and kit files have four and seven; spelling is compared in the first few of a stray file."""


class Checked(NamedTuple):
    """What the check of some files found: a line for each good file, and all faults."""

    good: tuple[str, ...]
    faults: tuple[Fault, ...]


def check_files(paths: Sequence[str]) -> Checked:
    """Check tree files, kit files, table files and bundles.

    Parameters
    ----------
    paths
        The files; what each holds is told by its ending and its headings.

    Returns
    -------
    Checked
        One line for each file that reads well, and every fault of the others.
    """
    good: list[str] = []
    faults: list[Fault] = []
    for path in paths:
        try:
            good.append(f"{file_name(path)}: reads well: {_content(path)}")
        except BadInput as error:
            faults.extend(error.faults)
    return Checked(tuple(good), tuple(faults))


def _content(path: str) -> str:
    """Read a file and say what it holds."""
    if is_table_file(path):
        return _counted(len(read_trees(path)), "tree")
    if is_bundle_file(path):
        return _bundle_words(read_bundle_file(path))
    data = read_toml(path)
    if _closeness(data, KIT_KEYS) > _closeness(data, TREE_KEYS):
        return _kit_words(read_kit(data, file_name(path)))
    if _closeness(data, TREE_KEYS) == 0.0:
        rule, remedy = say("rule.tree_or_kit"), say("remedy.start")
        raise BadInput([Fault(file_name(path), None, "", "", rule, remedy, "unknown-file")])
    read_tree(data, file_name(path))
    return _counted(1, "tree")


def _closeness(data: Mapping[str, object], known: Sequence[str]) -> float:
    """Count the keys that are known, a misspelt one for half."""
    first = itertools.islice(data, MOST_KEYS_COMPARED)
    return sum(1.0 if key in known else 0.5 if nearest(key, known) else 0.0 for key in first)


def _counted(count: int, word: str) -> str:
    return f"{count} {word}" if count == 1 else f"{count} {word}s"


def _bundle_words(bundle: Bundle) -> str:
    words = [f"bundle of {_counted(len(bundle.events), 'event')}"]
    if bundle.clashes:
        words.append(f"{_counted(len(bundle.clashes), 'id')} with events that clash, all kept")
    if bundle.unknown_kinds:
        words.append(f"{bundle.unknown_kinds} of a kind not known here, kept")
    return ", ".join(words)


def _kit_words(kit: Kit) -> str:
    counts = (
        (len(kit.devices), "device"),
        (len(kit.hammers), "hammer"),
        (len(kit.wrenches), "wrench"),
        (len(kit.sockets), "socket"),
        (sum(pack.count for pack in kit.packs), "pack"),
        (len(kit.ropes), "rope"),
    )
    words = [
        _counted(count, word).replace("wrenchs", "wrenches") for count, word in counts if count
    ]
    return f"kit of {', '.join(words)}" if words else "kit without devices"


@click.command()
@click.argument("files", nargs=-1, required=True, type=click.Path())
def check(files: tuple[str, ...]) -> None:
    """Check trees and kits (TOML), tables (CSV) and bundles (JSON); list every fault at once."""
    checked = check_files(files)
    for line in checked.good:
        click.echo(line)
    if checked.faults:
        raise BadInput(checked.faults)
