"""Readings that were not taken: what stands in, so that figures can be shown as 'if ...'."""

import math
from dataclasses import dataclass

from fellwright.planning import bands
from fellwright.planning.reasons import Reason
from fellwright.planning.refusals import size_refusals
from fellwright.planning.situation import LeanEstimate, estimate_lean
from fellwright.planning.tree_model import TreeModel, build_tree_model
from fellwright.records.tree import Tree
from fellwright.tables import Species, find_species, nearest_names, species_by_key

__all__ = ["StandIn", "stand_ins"]

UNKNOWN_SPECIES_KEY = "dense_hardwood"
"""The class with the heaviest and hardest wood: the unfavourable one where no species is named."""


@dataclass(frozen=True, slots=True)
class StandIn:
    """The readings, with stand-ins for the missing ones: each missing one bars any verdict."""

    model: TreeModel | None
    lean: LeanEstimate | None
    lay_deg: float
    missing: tuple[Reason, ...]
    conditions: tuple[str, ...]
    said: tuple[str, ...]


def stand_ins(tree: Tree) -> StandIn:
    """Find what is missing and what figures can still be shown, under which condition.

    Parameters
    ----------
    tree : Tree
        The tree as read.

    Returns
    -------
    StandIn
        ``missing`` is empty where a verdict may be given.
    """
    missing: list[Reason] = []
    conditions: list[str] = []
    said: list[str] = []
    species = _species(tree, missing, conditions, said)
    if tree.dbh_cm is None:
        missing.append(Reason("dbh_cm", "dbh is not measured: tape at 1.3 m"))
    model = None
    if tree.dbh_cm is not None and not size_refusals(tree):
        model = build_tree_model(tree, species, tree.dbh_cm)
        said += model.said
    lay = tree.cut.lay_deg
    if not tree.lean:
        missing.append(
            Reason("lean", "the lean is not read: plumb line from two sides, at the balance point")
        )
    lean = None if model is None else estimate_lean(tree, model)
    if lay is None:
        missing.append(Reason("lay_deg", "the lay is not chosen: say the direction in degrees"))
        conditions.append("if it is felled straight against its lean")
        lay = 0.0
        if lean is not None and lean.offset_m > 0.0:
            lay = math.degrees(math.atan2(-lean.east_m, -lean.north_m)) % 360.0
    if lean is None:
        low, high = bands.LEAN_UNKNOWN_LOW_M, bands.LEAN_UNKNOWN_HIGH_M
        conditions.append(f"if its balance point stands {low:g} to {high:g} m back")
        back = 0.5 * (low + high)
        toward = math.radians(lay + 180.0)
        lean = LeanEstimate(
            back * math.sin(toward), back * math.cos(toward), bands.LEAN.estimated, ()
        )
    said += lean.said
    return StandIn(model, lean, lay, tuple(missing), tuple(conditions), tuple(said))


def _species(tree: Tree, missing: list[Reason], conditions: list[str], said: list[str]) -> Species:
    """Species as named, or the unfavourable class as a stand-in."""
    found = None if tree.species is None else find_species(tree.species)
    if found is not None:
        if found.is_class:
            said.append(f"species by density class: {found.name}")
        return found
    stand_in = species_by_key()[UNKNOWN_SPECIES_KEY]
    if tree.species is None:
        missing.append(Reason("species", "the species is not named"))
    else:
        near = ", ".join(nearest_names(tree.species))
        hint = f"did you mean {near}? " if near else ""
        missing.append(
            Reason(
                "species",
                f"species {tree.species[:40]!r} is not in the table: {hint}"
                "Or give a class such as 'hardwood' or 'light softwood'",
            )
        )
    conditions.append(f"if it is a {stand_in.name}")
    return stand_in
