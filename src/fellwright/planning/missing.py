"""Readings that were not taken: what stands in, so that figures can be shown as 'if ...'."""

import math
from dataclasses import dataclass

from fellwright.planning import bands
from fellwright.planning.reasons import Reason, because
from fellwright.planning.refusals import size_refusals
from fellwright.planning.situation import LeanEstimate, estimate_lean
from fellwright.planning.tree_model import TreeModel, build_tree_model
from fellwright.records.tree import Tree
from fellwright.tables import Species, find_species, names_of, nearest_names, species_by_key
from fellwright.words import Text, in_languages, say

__all__ = ["StandIn", "say_species", "stand_ins"]

UNKNOWN_SPECIES_KEY = "dense_hardwood"
"""The class with the heaviest and hardest wood: the unfavourable one where no species is named."""


@dataclass(frozen=True, slots=True)
class StandIn:
    """The readings, with stand-ins for the missing ones: each missing one bars any verdict."""

    model: TreeModel | None
    lean: LeanEstimate | None
    lay_deg: float
    missing: tuple[Reason, ...]
    conditions: tuple[Text, ...]
    said: tuple[Text, ...]


def say_species(species: Species) -> Text:
    """Name of a species as a sentence part, in the language of the reader."""
    german = names_of(species.key, "de") or (species.name,)
    return in_languages(en=species.name, de=german[0])


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
    conditions: list[Text] = []
    said: list[Text] = []
    species = _species(tree, missing, conditions, said)
    if tree.dbh_cm is None:
        missing.append(because("dbh_cm"))
    model = None
    if tree.dbh_cm is not None and not size_refusals(tree):
        model = build_tree_model(tree, species, tree.dbh_cm)
        said += model.said
    lay = tree.cut.lay_deg
    if not tree.lean:
        missing.append(Reason("lean", say("reason.no_lean")))
    lean = None if model is None else estimate_lean(tree, model)
    if lay is None:
        missing.append(because("lay_deg"))
        conditions.append(say("condition.against_lean"))
        lay = 0.0
        if lean is not None and lean.offset_m > 0.0:
            lay = math.degrees(math.atan2(-lean.east_m, -lean.north_m)) % 360.0
    if lean is None:
        low, high = bands.LEAN_UNKNOWN_LOW_M, bands.LEAN_UNKNOWN_HIGH_M
        conditions.append(say("condition.lean", low=low, high=high))
        back = 0.5 * (low + high)
        toward = math.radians(lay + 180.0)
        lean = LeanEstimate(
            back * math.sin(toward), back * math.cos(toward), bands.LEAN.estimated, ()
        )
    said += lean.said
    return StandIn(model, lean, lay, tuple(missing), tuple(conditions), tuple(said))


def _species(
    tree: Tree, missing: list[Reason], conditions: list[Text], said: list[Text]
) -> Species:
    """Species as named, or the unfavourable class as a stand-in."""
    found = None if tree.species is None else find_species(tree.species)
    if found is not None:
        if found.is_class:
            said.append(say("said.class", name=say_species(found)))
        return found
    stand_in = species_by_key()[UNKNOWN_SPECIES_KEY]
    if tree.species is None:
        missing.append(because("species"))
    else:
        near = nearest_names(tree.species)
        hint = say("reason.species_near", names=", ".join(near)) if near else ""
        sentence = say("reason.species_unknown", name=tree.species[:40], near=hint)
        missing.append(Reason("species", sentence))
    conditions.append(say("condition.species", name=say_species(stand_in)))
    return stand_in
