"""Cautions R9 to R14, what stands by, and the standing words that every plan carries."""

from dataclasses import dataclass

from fellwright.planning import limits
from fellwright.planning.drive_train import STEEL_KINDS, Driven
from fellwright.planning.judge_device import DeviceOutcome
from fellwright.planning.marks import small_tree_ways
from fellwright.planning.reasons import TIGHT, Reason
from fellwright.planning.refusals import has_dead_overhead, is_unsound
from fellwright.planning.scenario import COLD_CHARGE_RATIO, Outcome, energy_wh
from fellwright.planning.tree_model import TreeModel
from fellwright.records.kit import Kit
from fellwright.records.tree import Tree

__all__ = ["DEFER", "Facts", "back_up_means", "list_cautions"]

DEFER = (
    "Arithmetic only, never tested on a felled tree. Local law, training and the feller's own "
    "no come first."
)


def back_up_means(kit: Kit, choice: DeviceOutcome | None, *, hammering: bool) -> str | None:
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
    str or None
        The first means that is in the van, in words; None where there is none.
    """
    taken = None if choice is None else choice.name
    hand = [d for d in kit.devices if d.kind == "hand wedge" and d.name != taken]
    if hammering and hand and kit.hammers:
        return f"{hand[0].name} and hammer"
    rams = [d for d in kit.devices if d.kind == "hydraulic ram" and d.name != taken]
    if rams:
        return rams[0].name
    if kit.ropes:
        return kit.ropes[0].name
    return None


@dataclass(frozen=True, slots=True)
class Facts:
    """What the cautions depend on: verdict, what stands by, gust it stands to [m/s], preload."""

    verdict: str
    back_up: str | None
    stands_to_gust_m_per_s: float | None
    preload: bool


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
    back_up, stands_to_gust = facts.back_up, facts.stands_to_gust_m_per_s
    found: list[Reason] = []

    def say(code: str, text: str) -> None:
        found.append(Reason(code, text))

    if facts.verdict == TIGHT:
        say("R12", f"TIGHT: second means set before the release cut ({back_up or 'none in van'}).")
    if back_up is None:
        say("back_up", "no second means in the van: a hand wedge and hammer, a ram or a line.")
    if has_dead_overhead(tree):
        say("R10", "dead wood overhead: no hammering; a watcher looks up.")
    if is_unsound(tree) or outcome.figures.is_forward_leaner:
        say("R10", "no hard preload on this stem: it may start the split.")
    if tree.day.gust_m_s is None:
        upto = (
            ""
            if stands_to_gust is None
            else f" The verdict stands to {stands_to_gust:g} m/s head gusts."
        )
        say("gust", f"calm assumed, no gust given.{upto}")
    elif stands_to_gust is not None:
        say("gust", f"the verdict stands to {stands_to_gust:g} m/s head gusts at crown height.")
    if tree.day.gust_m_s and tree.day.wind_from_deg is None:
        say("wind", "wind direction not given: taken as head wind.")
    if tree.day.temperature_degc is None:
        say("frost", "temperature not given: taken above 0 deg C. Below it, TIGHT at best.")
    elif tree.day.temperature_degc < limits.FROST_DEGC.value:
        say("R11", "frost: ice under plates, brittle hinge, splitting.")
    if not facts.preload and outcome.figures.back_m.p90 > 0.0:
        say(
            "pinch",
            "no preload: it sits back one kerf and may pinch the bar; a kerf of lift is lost.",
        )
    if facts.preload and model.species.shallow_roots.holds:
        say("roots", f"{model.species.name} roots flat: on wet ground watch the plate at preload.")
    steel = [d for d in outcome.devices if d.kind in STEEL_KINDS]
    if steel and all(d.limit == "room" for d in steel) and tree.dbh_cm is not None:
        ways = " or ".join(small_tree_ways(tree.dbh_cm))
        say("room", f"no steel device fits behind the hinge: {ways}.")
    found.extend(_drive_cautions(tree, outcome))
    if outcome.sampling_note:
        say("sampling", outcome.sampling_note)
    return found


def _drive_cautions(tree: Tree, outcome: Outcome) -> list[Reason]:
    """Cautions on the drive of the chosen device."""
    found: list[Reason] = []
    choice = outcome.choice
    driven: Driven | None = None if choice is None else choice.driven
    if driven is None:
        return found
    seat_mm = 1000.0 * driven.figures.length_m
    if seat_mm < limits.LEAST_SEAT_MM.value:
        name = driven.device.name
        found.append(
            Reason("seat", f"{name} seats {seat_mm:.0f} mm, under 50: it may fly out.")
        )
    if driven.drive.wrench is None:
        return found
    cold = (
        tree.day.temperature_degc is not None
        and tree.day.temperature_degc < limits.FROST_DEGC.value
    )
    have = driven.drive.charge_wh * (COLD_CHARGE_RATIO if cold else 1.0)
    need = energy_wh(driven, outcome.figures.work_j.p90)
    if have < limits.BATTERY_CAUTION.value * need:
        found.append(
            Reason(
                "battery",
                f"{have:.0f} Wh in the van, this tree may take {need:.0f}: carry a spare.",
            )
        )
    found.append(
        Reason("R9", "remote trigger only where maker and employer allow it; never locked on.")
    )
    if driven.grease != "greased":
        found.append(
            Reason(
                "grease",
                f"{driven.device.name} is {driven.grease}: greased it pushes up to twice as hard.",
            )
        )
    return found
