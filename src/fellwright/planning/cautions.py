"""Cautions R9 to R14, what stands by, and the standing words that every plan carries."""

from dataclasses import dataclass

from fellwright.planning import limits
from fellwright.planning.chance import DRAWS_DEFAULT
from fellwright.planning.device_kinds import GREASED_KINDS, STEEL_KINDS, kind_cautions
from fellwright.planning.drive_train import Driven
from fellwright.planning.judge_device import DeviceOutcome
from fellwright.planning.marks import small_tree_ways
from fellwright.planning.missing import say_species
from fellwright.planning.reasons import TIGHT, Reason
from fellwright.planning.refusals import has_dead_overhead, is_unsound
from fellwright.planning.scenario import COLD_CHARGE_RATIO, Outcome, energy_wh
from fellwright.planning.tree_model import TreeModel
from fellwright.records.kit import Kit
from fellwright.records.tree import Tree
from fellwright.words import Text, listed, say

__all__ = ["Facts", "back_up_means", "list_cautions"]


def back_up_means(kit: Kit, choice: DeviceOutcome | None, *, hammering: bool) -> Text | None:
    """What stands by next to the chosen device: hand wedge and hammer, another device, a line.

    Parameters
    ----------
    kit : Kit
        What is in the van.
    choice : DeviceOutcome or None
        The device chosen.
    hammering : bool
        Whether a wedge may be struck.

    Returns
    -------
    Text or None
        The first means that is in the van; None where there is none.
    """
    taken = () if choice is None else (choice.name, *_parts(choice))
    hand = [d for d in kit.devices if d.kind == "hand wedge" and d.name not in taken]
    if hammering and hand and kit.hammers:
        return say("caution.hand_wedge", name=hand[0].name)
    rams = [d for d in kit.devices if d.kind == "hydraulic ram" and d.name not in taken]
    if rams:
        return say("caution.means", name=rams[0].name)
    if kit.ropes:
        return say("caution.means", name=kit.ropes[0].name)
    return None


def _parts(choice: DeviceOutcome) -> tuple[str, ...]:
    """Names of the devices that work as one."""
    return () if choice.driven is None else choice.driven.joined


@dataclass(frozen=True, slots=True)
class Facts:
    """What the cautions depend on: verdict, back-up, gust it stands to [m/s], preload, draws."""

    verdict: str
    back_up: Text | None
    stands_to_gust_m_per_s: float | None
    preload: bool
    draws: int


def list_cautions(tree: Tree, model: TreeModel, outcome: Outcome, facts: Facts) -> list[Reason]:
    """List the cautions of one plan, the sharpest first.

    Parameters
    ----------
    tree : Tree
        The tree as read.
    model : TreeModel
        Its body.
    outcome : Outcome
        The state of the day that decides.
    facts : Facts
        What else they depend on.

    Returns
    -------
    list of Reason
        Codes and sentences.
    """
    found: list[Reason] = [warn("local_law")]

    def caution(code: str, **values: object) -> None:
        found.append(warn(code, **values))

    back_up, stands_to = facts.back_up, facts.stands_to_gust_m_per_s
    day, figures = tree.day, outcome.figures
    if facts.verdict == TIGHT:
        caution("R12", means=back_up or say("caution.none_in_van"))
    if back_up is None:
        caution("back_up")
    if has_dead_overhead(tree):
        caution("R10")
    if is_unsound(tree) or outcome.hinge_first:
        found.append(Reason("R10", say("caution.no_preload")))
    if day.gust_m_s is None:
        caution("gust")
        if stands_to is not None:
            caution("stands_to", gust=stands_to)
    if day.gust_m_s and day.wind_from_deg is None:
        caution("wind")
    if day.temperature_degc is None:
        caution("temperature")
    elif day.temperature_degc < limits.FROST_DEGC.value:
        caution("R11")
    if not facts.preload and figures.back_m.p90 > 0.0:
        caution("pinch")
    if facts.preload and model.species.shallow_roots.holds:
        caution("roots", species=say_species(model.species))
    steel = [d for d in outcome.devices if d.kind in STEEL_KINDS]
    if steel and all(d.limit == "room" for d in steel) and tree.dbh_cm is not None:
        caution("room", ways=listed(small_tree_ways(tree.dbh_cm), "; "))
    found.extend(_drive_cautions(tree, outcome))
    if facts.draws < DRAWS_DEFAULT:
        caution("draws", draws=facts.draws, least=DRAWS_DEFAULT)
    if outcome.sampling_note:
        found.append(Reason("sampling", outcome.sampling_note))
    return found


def warn(code: str, **values: object) -> Reason:
    """Make a caution whose sentence stands in the catalogue under its code."""
    return Reason(code, say(f"caution.{code}", **values))


def _drive_cautions(tree: Tree, outcome: Outcome) -> list[Reason]:
    """Cautions on the drive of the chosen device."""
    found: list[Reason] = []
    choice = outcome.choice
    driven: Driven | None = None if choice is None else choice.driven
    if driven is None:
        return found
    name, seat = driven.device.name, driven.figures.length_m
    if seat < limits.LEAST_SEAT_MM.value / 1000.0:
        found.append(warn("seat", name=name, seat=seat, least=limits.LEAST_SEAT_MM.value / 1000.0))
    if driven.device.state is None:
        found.append(warn("state", name=name))
    found.extend(kind_cautions(driven))
    if driven.drive.wrench is None:
        return found
    cold = (
        tree.day.temperature_degc is not None
        and tree.day.temperature_degc < limits.FROST_DEGC.value
    )
    have = driven.drive.charge_wh * (COLD_CHARGE_RATIO if cold else 1.0)
    need = energy_wh(driven, outcome.figures.work_j.p90)
    if have < limits.BATTERY_CAUTION.value * need:
        found.append(warn("battery", have=3600.0 * have, need=3600.0 * need))
    found.append(warn("R9"))
    if driven.grease != "greased" and driven.device.kind in GREASED_KINDS:
        found.append(warn("grease", name=name, state=say(f"kit.{driven.grease}")))
    return found
