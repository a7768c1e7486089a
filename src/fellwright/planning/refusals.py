"""What comes before any arithmetic: refusals R1 to R6, and the five answers of the look."""

import math

from fellwright.planning.limits import (
    DBH_HIGH_CM,
    DBH_LOW_CM,
    HEIGHT_HIGH_M,
    HEIGHT_LOW_M,
    LARGEST_LEAN_DEG,
    LEAST_WALL_RATIO,
    RING_LENGTHS,
)
from fellwright.planning.reasons import Reason, because
from fellwright.records.defects import CRACKED, DEAD_OVERHEAD, HOLLOW, LODGED, OUT_OF_SCOPE
from fellwright.records.tree import Conductor, Look, Tree
from fellwright.words import Text, say

__all__ = [
    "CLEAR_LOOK",
    "body_refusals",
    "has_dead_overhead",
    "is_unsound",
    "look_refusals",
    "refusals",
    "size_refusals",
    "unanswered",
    "wall_is_unmeasured",
]

CLEAR_LOOK = Look(
    sound=True, clear_overhead=True, no_conductor_in_reach=True, ring_clear=True, ways_out=2
)

CRACKS = ("crack",)
"""A crack is a split that has begun: treated as R3, where the vocabulary only calls it unsound."""

# Clearance by voltage: [DGUV-114-018] and the UK guidance agree; unknown voltage takes the largest.
CLEARANCE_M = ((1.0, 1.0), (110.0, 3.0), (220.0, 4.0), (math.inf, 5.0))


def _clearance_m(voltage_kv: float | None) -> float:
    if voltage_kv is None:
        return CLEARANCE_M[-1][1]
    return next(margin for top, margin in CLEARANCE_M if voltage_kv <= top)


def say_defect(defect: str) -> Text:
    """Name of a defect as a sentence part."""
    return say(f"defect.{defect.replace(' ', '_')}")


def _conductor_refusal(
    conductor: Conductor, height_m: float, height_sigma_ratio: float
) -> Reason | None:
    if conductor.switched_off is True:
        return None
    reach = max(
        RING_LENGTHS.value * height_m,
        height_m * (1.0 + height_sigma_ratio) + _clearance_m(conductor.voltage_kv),
    )
    if conductor.distance_m > reach:
        return None
    if math.isinf(reach):
        return Reason("conductor", say("reason.conductor_unknown", distance=conductor.distance_m))
    return because("conductor", distance=conductor.distance_m, reach=reach)


def refusals(tree: Tree, height_m: float | None, height_sigma_ratio: float) -> list[Reason]:
    """Refusals R1, R2 and R3: conductors, lodged trees, stems out of scope.

    Parameters
    ----------
    tree : Tree
        The tree as read.
    height_m : float or None
        Height used [m]; without one every conductor that is not switched off refuses.
    height_sigma_ratio : float
        Relative sigma of the height.

    Returns
    -------
    list of Reason
        Empty where nothing refuses.
    """
    found = []
    for conductor in tree.conductors:
        refusal = _conductor_refusal(
            conductor, math.inf if height_m is None else height_m, height_sigma_ratio
        )
        if refusal:
            found.append(refusal)
    if any(defect in LODGED for defect in tree.defects):
        found.append(because("lodged"))
    for defect in tree.defects:
        if defect not in OUT_OF_SCOPE and defect not in CRACKS:
            continue
        found.append(because("defect", defect=say_defect(defect)))
    return found


def look_refusals(look: Look) -> list[Reason]:
    """Answers of the look that are a plain no."""
    found = []
    if look.no_conductor_in_reach is False:
        found.append(Reason("conductor", say("reason.conductor_seen")))
    if look.ring_clear is False:
        found.append(because("ring"))
    if look.ways_out is not None and not look.ways_out >= 2:
        found.append(because("ways_out"))
    return found


def unanswered(look: Look) -> list[str]:
    """Names of the answers of the look that are missing."""
    answers = {
        "sound": look.sound,
        "clear_overhead": look.clear_overhead,
        "no_conductor_in_reach": look.no_conductor_in_reach,
        "ring_clear": look.ring_clear,
        "ways_out": look.ways_out,
    }
    return [name for name, answer in answers.items() if answer is None]


def is_unsound(tree: Tree) -> bool:
    """Whether anything read of the tree says it is not sound."""
    named = any(defect in HOLLOW or defect in CRACKED for defect in tree.defects)
    return tree.look.sound is False or tree.cavity_wall_cm is not None or named


def has_dead_overhead(tree: Tree) -> bool:
    """Whether anything read of the tree says that dead wood hangs overhead."""
    return tree.look.clear_overhead is False or any(d in DEAD_OVERHEAD for d in tree.defects)


def wall_is_unmeasured(tree: Tree) -> bool:
    """Whether the stem is unsound and its sound wall was not bored for."""
    return is_unsound(tree) and tree.cavity_wall_cm is None


def size_refusals(tree: Tree) -> list[Reason]:
    """Refusal R6 on sizes as read: outside them no model of the tree is built."""
    found = []
    if tree.dbh_cm is not None and not DBH_LOW_CM.value <= tree.dbh_cm <= DBH_HIGH_CM.value:
        low, high = DBH_LOW_CM.value / 100.0, DBH_HIGH_CM.value / 100.0
        found.append(
            Reason("size", say("reason.size_dbh", dbh=tree.dbh_cm / 100.0, low=low, high=high))
        )
    height = tree.height_m
    if height is not None and not HEIGHT_LOW_M.value <= height <= HEIGHT_HIGH_M.value:
        low, high = HEIGHT_LOW_M.value, HEIGHT_HIGH_M.value
        found.append(Reason("size", say("reason.size_height", height=height, low=low, high=high)))
    return found


def body_refusals(tree: Tree, wood_m: float, lean_rad: float | None) -> list[Reason]:
    """Refusals R4 and R6 on wall and lean: too little sound wood, too much lean.

    Parameters
    ----------
    tree : Tree
        The tree as read.
    wood_m : float
        Stump diameter inside bark [m].
    lean_rad : float or None
        Lean of the line from pith to balance point [rad]; None where no lean was read.

    Returns
    -------
    list of Reason
        Empty where nothing refuses.
    """
    found = []
    if tree.cavity_wall_cm is not None:
        ratio = tree.cavity_wall_cm / 100.0 / (0.5 * wood_m)
        if ratio < LEAST_WALL_RATIO.value:
            found.append(because("hollow", ratio=ratio, least=LEAST_WALL_RATIO.value))
    if lean_rad is not None and math.degrees(lean_rad) > LARGEST_LEAN_DEG.value:
        most = math.radians(LARGEST_LEAN_DEG.value)
        found.append(because("lean", lean=lean_rad, most=most))
    return found
