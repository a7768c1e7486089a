"""Read one table: a CSV file and the TOML file beside it that says where it came from."""

from __future__ import annotations

import csv
import hashlib
import io
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from fellwright.package_text import package_text

__all__ = [
    "MARKS",
    "TABLE_NAMES",
    "DamagedTableError",
    "Row",
    "Sidecar",
    "Table",
    "checksum",
    "load_table",
]

MARKS = frozenset({"SEEN", "MEMORY", "PRACTICE", "OWN", "DERIVED"})
"""How a value is known: read in its source, recalled, custom, own judgement, computed here."""

TABLE_NAMES = (
    "effects",
    "form_factor",
    "friction",
    "species",
    "species_names",
    "strength_regression",
    "strength_variability",
    "taper",
)

SIDECAR_TEXTS = ("title", "table_and_page", "licence", "how_taken", "date", "sha256")


class DamagedTableError(RuntimeError):
    """A table of this package that disagrees with its sidecar: a defect, not bad input."""


@dataclass(frozen=True, slots=True)
class Sidecar:
    """What a table says about itself.

    Parameters
    ----------
    title
        What the table holds.
    reference_keys
        Every source named in the table, as keyed in docs/references.md.
    table_and_page
        Where in those sources.
    licence
        Terms under which the figures may be used.
    how_taken
        Typed, converted, fitted: how the figures got here.
    date
        Day on which they were taken, ISO 8601.
    row_count
        Rows below the heading.
    sha256
        Checksum of the CSV text with line ends as LF.
    notes
        Doubts and choices.
    """

    title: str
    reference_keys: tuple[str, ...]
    table_and_page: str
    licence: str
    how_taken: str
    date: str
    row_count: int
    sha256: str
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Row:
    """One row with typed access to its cells by heading.

    Parameters
    ----------
    cells
        Text of each cell under its heading.
    """

    cells: Mapping[str, str]

    def text(self, column: str) -> str:
        """Text of a cell; may be empty."""
        return self.cells[column]

    def number(self, column: str) -> float:
        """Read the number in a cell that must hold one."""
        return float(self.cells[column])

    def number_or_none(self, column: str) -> float | None:
        """Read a number, or None where the source gives none."""
        cell = self.cells[column]
        return float(cell) if cell else None

    def whole(self, column: str) -> int:
        """Whole number in a cell."""
        return int(self.cells[column])

    def yes(self, column: str) -> bool:
        """Truth of a cell that says yes or no."""
        cell = self.cells[column]
        if cell not in {"yes", "no"}:
            raise DamagedTableError(f"{column} must be yes or no, got {cell!r}")
        return cell == "yes"

    def mark(self, column: str, *, required: bool = True) -> str:
        """Mark in a cell; empty only where no value stands beside it."""
        cell = self.cells[column]
        if cell in MARKS or (not cell and not required):
            return cell
        raise DamagedTableError(f"{column} must be one of {sorted(MARKS)}, got {cell!r}")


@dataclass(frozen=True, slots=True)
class Table:
    """A table whose rows and checksum agree with its sidecar.

    Parameters
    ----------
    name
        File name without its ending.
    sidecar
        What it says about itself.
    columns
        Headings in order.
    rows
        Rows in order.
    """

    name: str
    sidecar: Sidecar
    columns: tuple[str, ...]
    rows: tuple[Row, ...]


def checksum(csv_text: str) -> str:
    """SHA-256 of a table's text, the same on systems that end lines differently."""
    return hashlib.sha256(csv_text.replace("\r\n", "\n").encode()).hexdigest()


@cache
def load_table(name: str) -> Table:
    """Load a table and hold it against its sidecar.

    Parameters
    ----------
    name
        File name without its ending, one of `TABLE_NAMES`.

    Returns
    -------
    Table
        Its rows and where they come from.

    Raises
    ------
    DamagedTableError
        If the sidecar is incomplete, or row count or checksum disagree.
    """
    sidecar = parse_sidecar(name, package_text(__package__, f"{name}.toml"))
    return parse_table(name, package_text(__package__, f"{name}.csv"), sidecar)


def parse_sidecar(name: str, toml_text: str) -> Sidecar:
    """Sidecar from its TOML text; every key but `notes` must be filled."""
    raw = tomllib.loads(toml_text)
    wanted = {*SIDECAR_TEXTS, "reference_keys", "row_count"}
    missing = sorted(key for key in wanted if not raw.get(key))
    unknown = sorted(set(raw) - wanted - {"notes"})
    if missing or unknown:
        raise DamagedTableError(f"{name}.toml: missing {missing}, unknown {unknown}")
    return Sidecar(
        reference_keys=tuple(raw["reference_keys"]),
        row_count=int(raw["row_count"]),
        notes=tuple(raw.get("notes", ())),
        **{key: str(raw[key]).strip() for key in SIDECAR_TEXTS},
    )


def parse_table(name: str, csv_text: str, sidecar: Sidecar) -> Table:
    """Table from its CSV text, refused unless it is the text that the sidecar describes."""
    found = checksum(csv_text)
    if found != sidecar.sha256:
        raise DamagedTableError(f"{name}.csv: checksum {found}, sidecar says {sidecar.sha256}")
    reader = csv.DictReader(io.StringIO(csv_text), strict=True)
    rows = tuple(Row(cells) for cells in reader)
    if len(rows) != sidecar.row_count:
        raise DamagedTableError(f"{name}.csv: {len(rows)} rows, sidecar says {sidecar.row_count}")
    columns = tuple(reader.fieldnames or ())
    for number, row in enumerate(rows, start=2):
        if set(row.cells) != set(columns) or None in row.cells.values():
            raise DamagedTableError(f"{name}.csv: row {number} has too few or too many cells")
    return Table(name=name, sidecar=sidecar, columns=columns, rows=rows)
