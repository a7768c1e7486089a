"""Rows of the open biomass and allometry database, matched to the engine's species."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from tests.validation.folder import Folder, Row, number
from tests.validation.standing_trees import in_the_range_of_a_plan, species_of_latin

__all__ = [
    "CROWN_FILE",
    "GENERA",
    "MASS_FILE",
    "SOURCE",
    "MassTree",
    "binomial",
    "contradictory_studies",
    "filled",
    "genus",
    "heights",
    "mass_trees",
    "our_species",
]

SOURCE = "felled trees of the open biomass database [BAAD-2015]"
MASS_FILE = "tree/baad_dbh5_mass.csv"
CROWN_FILE = "tree/baad_crown.csv"
MASS_COLUMNS = ("studyName", "species", "d.bh", "h.t", "m.so", "m.br", "m.lf")
# Genus to the species of ours that stands for it where the tree's own species is not in the tables.
# Pines differ too much in form for that.
GENERA = {
    "Picea": "norway_spruce",
    "Abies": "silver_fir",
    "Pseudotsuga": "douglas_fir",
    "Larix": "european_larch",
    "Fagus": "beech",
    "Quercus": "oak",
    "Fraxinus": "ash",
    "Acer": "sugar_maple",
    "Betula": "birch",
    "Populus": "aspen",
    "Prunus": "black_cherry",
}


class MassTree(NamedTuple):
    """A tree that was felled, dried and weighed: sizes [cm, m] and dry masses above ground [kg].

    ``crown_kg`` is branches and foliage, None where they were not weighed apart.
    """

    study: str
    name: str
    dbh_cm: float
    height_m: float
    above_ground_kg: float
    crown_kg: float | None

    @property
    def label(self) -> str:
        """Name, size and study."""
        return f"{self.name} {self.dbh_cm:.1f} cm, {self.height_m:.1f} m ({self.study})"


def genus(name: str) -> str:
    """First word of a scientific name."""
    return name.split(maxsplit=1)[0]


def binomial(name: str) -> str:
    """First two words of a scientific name, without its author."""
    return " ".join(name.split()[:2])


def our_species(name: str) -> str | None:
    """Key of the species of ours that stands for a scientific name."""
    own = species_of_latin(name)
    return GENERA.get(genus(name)) if own is None else own.key


def mass_trees(folder: Folder) -> list[MassTree]:
    """Weighed trees within the range of a plan, without crowns that contradict the whole."""
    every = [tree for row in folder.read(MASS_FILE, MASS_COLUMNS) if (tree := _mass_tree(row))]
    doubtful = _contradictory(every)
    return [
        tree._replace(crown_kg=None) if tree.study in doubtful else tree
        for tree in every
        if in_the_range_of_a_plan(tree.dbh_cm, tree.height_m)
    ]


def contradictory_studies(folder: Folder) -> list[str]:
    """Studies in which branches and foliage of some tree weigh as much as the whole or more.

    Their branches are then no part of their whole, and nobody can say in which rows.
    """
    rows = folder.read(MASS_FILE, MASS_COLUMNS)
    return sorted(_contradictory([tree for row in rows if (tree := _mass_tree(row))]))


def _contradictory(trees: Iterable[MassTree]) -> set[str]:
    return {
        tree.study
        for tree in trees
        if tree.crown_kg is not None and tree.crown_kg >= tree.above_ground_kg
    }


def _mass_tree(row: Row) -> MassTree | None:
    dbh, height, mass = number(row, "d.bh"), number(row, "h.t"), number(row, "m.so")
    if dbh is None or height is None or not mass:
        return None
    branches, foliage = number(row, "m.br"), number(row, "m.lf")
    crown = None if branches is None or foliage is None else branches + foliage
    return MassTree(row["studyName"], row["species"], 100.0 * dbh, height, mass, crown)


def heights(folder: Folder) -> list[tuple[str, float, float]]:
    """Scientific name, dbh [cm] and height [m] of every tree, those in both files once."""
    columns = ("studyName", "species", "d.bh", "h.t")
    files = [Counter(_height_keys(folder.read(file, columns))) for file in (MASS_FILE, CROWN_FILE)]
    return [
        (name, 100.0 * dbh, height)
        for (_, name, dbh, height) in sorted((files[0] | files[1]).elements())
        if in_the_range_of_a_plan(100.0 * dbh, height)
    ]


def _height_keys(rows: Iterable[Row]) -> Iterator[tuple[str, str, float, float]]:
    for row in rows:
        dbh, height = number(row, "d.bh"), number(row, "h.t")
        if dbh is not None and height is not None:
            yield row["studyName"], row["species"], dbh, height


def filled(rows: Iterable[Mapping[str, str]], column: str) -> int:
    """How many rows have a number in a column."""
    return sum(number(row, column) is not None for row in rows)
