"""Trees from a file of either kind, chosen by its ending."""

from __future__ import annotations

import os

from fellwright.errors import BadInput, Fault
from fellwright.exchange.csv_file import read_csv_rows
from fellwright.exchange.file_text import file_name
from fellwright.exchange.toml_file import read_toml
from fellwright.records.loader import read_tree
from fellwright.records.tree import Tree

TABLE_ENDINGS = (".csv", ".tsv", ".txt")


def is_table_file(path: str | os.PathLike[str]) -> bool:
    """Tell by its ending whether a file is a table of trees."""
    return os.fsdecode(path).casefold().endswith(TABLE_ENDINGS)


def read_trees(path: str | os.PathLike[str]) -> list[Tree]:
    """Read every tree of a file.

    Parameters
    ----------
    path
        A table file (.csv, .tsv, .txt) of one tree a row, or a TOML file of one tree.

    Returns
    -------
    list of Tree
        At least one.

    Raises
    ------
    BadInput
        With every fault of every row.
    """
    if not is_table_file(path):
        return [read_tree(read_toml(path), file_name(path))]
    read = read_csv_rows(path)
    trees: list[Tree] = []
    faults: list[Fault] = list(read.faults)
    for row, data in read.rows:
        try:
            trees.append(read_tree(data, file_name(path), row))
        except BadInput as error:
            faults.extend(error.faults)
    if faults:
        raise BadInput(sorted(faults, key=lambda fault: fault.row or 0))
    return trees
