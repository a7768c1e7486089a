"""Table files (CSV) of trees: one row a tree, the same keys as a tree file in the headings."""

from __future__ import annotations

import csv
import io
import os
from collections.abc import Sequence
from typing import Any, NamedTuple

from fellwright.errors import BadInput, Fault
from fellwright.exchange.cells import cell_value
from fellwright.exchange.columns import LISTS, Column, column_of, known_headings
from fellwright.exchange.file_text import file_name, read_text, whole_file_fault
from fellwright.records.fault_log import nearest, shown_text
from fellwright.words import in_languages, say

MOST_BYTES = 5_000_000
MOST_COLUMNS = 200
MOST_ROWS = 50_000
DELIMITERS = (";", "\t", ",")


class CsvRow(NamedTuple):
    """One row as the tables of a tree file; the heading is row 1."""

    row: int
    data: dict[str, Any]


class CsvRows(NamedTuple):
    """The rows that could be read, and the faults of the headings and of the others."""

    rows: list[CsvRow]
    faults: list[Fault]


def read_csv(path: str | os.PathLike[str]) -> list[dict[str, Any]]:
    """Read the rows of a table file as the tables of a tree file.

    Parameters
    ----------
    path
        The file; delimiter comma, semicolon or tab; with a semicolon numbers may have a decimal
        comma.

    Returns
    -------
    list of dict
        One entry a row, for `read_tree`; empty cells are absent keys.

    Raises
    ------
    BadInput
        With every fault of headings and rows.
    """
    read = read_csv_rows(path)
    if read.faults:
        raise BadInput(read.faults)
    return [row.data for row in read.rows]


def read_csv_rows(path: str | os.PathLike[str]) -> CsvRows:
    """Read the rows of a table file, keeping faults of headings and rows beside them."""
    text = read_text(path, MOST_BYTES)
    delimiter = _delimiter(text)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True)
    try:
        records = list(reader)
    except csv.Error as error:
        broken = say("fault.cells_broken", line=reader.line_num)
        rule = say("rule.cells", why=in_languages(en=str(error), de=broken))
        remedy = say("remedy.quotation_mark")
        raise BadInput([whole_file_fault(path, rule, remedy, "not-csv")]) from None
    filled = [(row, cells) for row, cells in enumerate(records, start=1) if _has_text(cells)]
    if len(filled) < 2:
        rule, remedy = say("rule.headings"), say("remedy.start")
        raise BadInput([whole_file_fault(path, rule, remedy, "not-csv")])
    if len(filled) > MOST_ROWS or len(filled[0][1]) > MOST_COLUMNS:
        rule = say("rule.most_rows", rows=MOST_ROWS, columns=MOST_COLUMNS)
        raise BadInput([whole_file_fault(path, rule, say("remedy.split"), "too-many")])
    return _rows(path, filled, decimal_comma=delimiter == ";")


def _has_text(cells: Sequence[str]) -> bool:
    return any(cell.strip() for cell in cells)


def _delimiter(text: str) -> str:
    """Return the first of semicolon, tab and comma that stands in the first line."""
    first = text.lstrip("\r\n").split("\n", 1)[0]
    return next((mark for mark in DELIMITERS if mark in first), ",")


def _rows(
    path: str | os.PathLike[str], filled: Sequence[tuple[int, list[str]]], *, decimal_comma: bool
) -> CsvRows:
    (heading_row, headings), *records = filled
    columns, faults = _columns(path, heading_row, headings)
    if not any(columns):
        return CsvRows([], faults)  # no tree file at all: its rows have nothing more to tell
    rows: list[CsvRow] = []
    for row, cells in records:
        if len(cells) < len(columns) or _has_text(cells[len(columns) :]):
            faults.append(_ragged(path, row, len(cells), len(columns)))
        else:
            rows.append(CsvRow(row, _data(columns, cells, decimal_comma=decimal_comma)))
    return CsvRows(rows, faults)


def _ragged(path: str | os.PathLike[str], row: int, found: int, wanted: int) -> Fault:
    rule = say("rule.ragged", wanted=wanted, found=found)
    return whole_file_fault(path, rule, say("remedy.separator"), "ragged-row", row)


def _columns(
    path: str | os.PathLike[str], row: int, headings: Sequence[str]
) -> tuple[list[Column | None], list[Fault]]:
    columns: list[Column | None] = []
    faults: list[Fault] = []
    for count, heading in enumerate(headings, start=1):
        column = column_of(heading)
        where = f"column {count}"
        if column is None:
            faults.append(_unknown_heading(path, row, where, heading))
        elif column in columns:
            faults.append(_second_heading(path, row, where, heading))
        columns.append(column)
    return columns, faults


def _unknown_heading(path: str | os.PathLike[str], row: int, where: str, heading: str) -> Fault:
    near = nearest(heading.strip(), known_headings())
    remedy = say("remedy.heading_known")
    if near is not None:
        remedy = say("remedy.heading_nearest", word=near)
    rule = say("rule.heading_known")
    value = f'"{shown_text(heading)}"'
    return Fault(file_name(path), row, where, value, rule, remedy, "unknown-key")


def _second_heading(path: str | os.PathLike[str], row: int, where: str, heading: str) -> Fault:
    rule, remedy = say("rule.heading_once"), say("remedy.heading_twice")
    value = f'"{shown_text(heading)}"'
    return Fault(file_name(path), row, where, value, rule, remedy, "given-twice")


def _data(
    columns: Sequence[Column | None], cells: Sequence[str], *, decimal_comma: bool
) -> dict[str, Any]:
    flat: dict[tuple[str, int], dict[str, object]] = {}
    for column, cell in zip(columns, cells, strict=False):
        if column is None:
            continue
        value = cell_value(cell, column.kind, decimal_comma=decimal_comma)
        if value is not None:
            flat.setdefault((column.section, column.entry), {})[column.key] = value
    return _nested(flat)


def _nested(flat: dict[tuple[str, int], dict[str, object]]) -> dict[str, Any]:
    data: dict[str, Any] = {"tree": dict(flat.get(("tree", 1), {}))}
    for section, entry in sorted(flat):
        table = flat[(section, entry)]
        if section in LISTS:
            data["tree"].setdefault(section, []).append(table)
        elif section == "crown_shift":
            data["tree"][section] = table
        elif section != "tree":
            data[section] = table
    return data
