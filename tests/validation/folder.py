"""Data sets read in place from a folder that is no part of the repository."""

from __future__ import annotations

import csv
from collections.abc import Mapping, Sequence
from pathlib import Path

__all__ = ["KNOWN_FILES", "Folder", "MissingFolderError", "number"]

KNOWN_FILES = (
    "tree/baad_crown.csv",
    "tree/baad_dbh5_mass.csv",
    "tree/bdat_check_values.csv",
    "tree/fia_species_wood_bark_green.csv",
    "tree/form_height_laer_speidel_1959.csv",
    "tree/jenkins2003_coefficients.csv",
    "tree/measured_stem_centroids.csv",
    "tree/mori1991_hinoki_fresh.csv",
    "tree/taper_models_computed.csv",
    "tree/tree_mass_cog_computed.csv",
    "wood/friction.csv",
    "wood/species.csv",
    "wood/variability.csv",
    "wood/wood_handbook_green_psi.csv",
)

Row = Mapping[str, str]


class MissingFolderError(RuntimeError):
    """There is nothing to compare with; the text says why."""


class Folder:
    """A folder of data sets; remembers what was read from it and what it lacks."""

    def __init__(self, root: Path) -> None:
        if not root.is_dir():
            raise MissingFolderError(f"--references must be a folder, got {root}: no such folder.")
        if not any((root / name).is_file() for name in KNOWN_FILES):
            raise MissingFolderError(
                f"--references must hold at least one of {len(KNOWN_FILES)} known data sets, such "
                f"as {KNOWN_FILES[0]}; {root} has none."
            )
        self._root = root
        self._tables: dict[str, list[Row]] = {}
        self.rows_read: dict[str, int] = {}
        self.lacks: list[str] = []

    def read(self, name: str, columns: Sequence[str]) -> list[Row]:
        """Rows of a data set; none where the file or a column is missing, which is remembered."""
        table = self._table(name)
        if not table:
            return []
        missing = [column for column in columns if column not in table[0]]
        for column in missing:
            self._remember(f"`{name}` has no column `{column}`")
        return [] if missing else table

    def _table(self, name: str) -> list[Row]:
        if name not in self._tables:
            self._tables[name] = self._load(name)
        return self._tables[name]

    def _load(self, name: str) -> list[Row]:
        path = self._root / name
        if not path.is_file():
            self._remember(f"`{name}` is not there")
            return []
        with path.open(encoding="utf-8", newline="") as lines:
            rows: list[Row] = list(csv.DictReader(lines))
        if not rows:
            self._remember(f"`{name}` has no rows")
        self.rows_read[name] = len(rows)
        return rows

    def _remember(self, lack: str) -> None:
        if lack not in self.lacks:
            self.lacks.append(lack)


def number(row: Row, column: str) -> float | None:
    """Read the number in a cell; None where it is empty or no number."""
    try:
        return float(row[column])
    except (TypeError, ValueError):
        return None
