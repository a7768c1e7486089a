"""The engine's body of a tree from dbh and height alone, as a plan would build it."""

from __future__ import annotations

import math
from collections.abc import Iterator

from fellwright.physics.green_mass import over_bark_density_kg_per_m3
from fellwright.planning import limits
from fellwright.planning.tree_model import TreeModel, build_tree_model, stem_volume_and_centre
from fellwright.records.tree import Tree
from fellwright.tables import Species, all_species, species_by_key

__all__ = [
    "dry_density_kg_per_m3",
    "dry_mass_kg",
    "form_height_m",
    "in_the_range_of_a_plan",
    "species",
    "species_of_latin",
    "stem_centroid_ratio",
    "stem_volume_m3",
    "whole_tree",
]


def species(key: str) -> Species:
    """Species or density class of a key."""
    return species_by_key()[key]


def species_of_latin(name: str) -> Species | None:
    """Species whose scientific name this is; an author behind it does not count."""
    wanted = " ".join(name.split()[:2])
    for wood in all_species():
        if wanted in _latin_names(wood.latin):
            return wood
    return None


def _latin_names(latin: str) -> Iterator[str]:
    """'Quercus robur, Q. petraea' names two species."""
    first_genus = latin.split(maxsplit=1)[0]
    for part in latin.split(","):
        words = part.split()
        yield " ".join([first_genus if words[0].endswith(".") else words[0], *words[1:]])


def in_the_range_of_a_plan(dbh_cm: float, height_m: float) -> bool:
    """Whether a plan would take the tree at all (refusal R6)."""
    return (
        limits.DBH_LOW_CM.value <= dbh_cm <= limits.DBH_HIGH_CM.value
        and limits.HEIGHT_LOW_M.value <= height_m <= limits.HEIGHT_HIGH_M.value
    )


def stem_volume_m3(key: str, dbh_cm: float, height_m: float) -> float:
    """Volume of the whole stem over bark, from the ground to the tip [m3]."""
    return stem_volume_and_centre(species(key), dbh_cm, height_m, 0.0)[0]


def stem_centroid_ratio(key: str, dbh_cm: float, height_m: float) -> float:
    """Height of the centroid of the whole stem above the ground, over tree height."""
    return stem_volume_and_centre(species(key), dbh_cm, height_m, 0.0)[1] / height_m


def form_height_m(key: str, dbh_cm: float, height_m: float) -> float:
    """Stem volume over basal area [m]."""
    return stem_volume_m3(key, dbh_cm, height_m) / (math.pi / 4.0 * (dbh_cm / 100.0) ** 2)


def dry_density_kg_per_m3(key: str) -> float:
    """Dry mass of a cubic metre of stem over bark, green volume [kg/m3]."""
    wood = species(key)
    return over_bark_density_kg_per_m3(
        wood.density.basic_kg_per_m3,
        wood.bark.basic_kg_per_m3,
        wood.bark.volume_percent / 100.0,
    )


def dry_mass_kg(key: str, dbh_cm: float, height_m: float) -> float:
    """Dry mass above ground from the engine's volume, density and crown share [kg]."""
    stem = stem_volume_m3(key, dbh_cm, height_m) * dry_density_kg_per_m3(key)
    return stem / (1.0 - species(key).crown_share.median_dry)


def whole_tree(key: str, dbh_cm: float, height_m: float, cut_cm: float = 0.0) -> TreeModel:
    """Body of a tree of which only dbh and height are known; by default cut at the ground."""
    tree = Tree(
        dbh_cm=dbh_cm, height_m=height_m, stump_diameter_cm=1.2 * dbh_cm, cut_height_cm=cut_cm
    )
    return build_tree_model(tree, species(key), dbh_cm)
