"""What the readings of one tree must satisfy together; each fault names both sides."""

from __future__ import annotations

import itertools
import math

from fellwright.records.fault_log import FaultLog, shown
from fellwright.records.lean_errors import (
    CONTRADICTION_SIGMAS,
    TOP_TO_BALANCE_SHARE,
    WAYS_OF_READING,
    reading_sigma_m,
)
from fellwright.records.tree import LeanReading, Tree
from fellwright.units import CM_PER_M, MM_PER_CM, rad_from_deg

LEAST_SLENDERNESS = 8.0
MOST_SLENDERNESS = 300.0
LEAST_STUMP_RATIO = 0.6
MOST_STUMP_RATIO = 3.0
MOST_CUT_HEIGHT_SHARE = 0.5
CROWN_SHIFT_DOUBT_SHARE = 0.25
"""OWN: a crown is about a quarter of the mass and moves the balance point by that share."""


def check_tree(log: FaultLog, tree: Tree) -> None:
    """Note every contradiction between the readings of a tree."""
    _check_slenderness(log, tree)
    _check_crown(log, tree)
    _check_stump(log, tree)
    _check_cavity(log, tree)
    _check_cut(log, tree)
    _check_leans(log, tree)


def _given(tree: Tree, key: str, value: float) -> str:
    """Show a value, with the imperial reading it came from."""
    as_read = tree.as_read.get(key)
    plain = f"{value:.6g}"
    return plain if as_read is None else f"{plain} (read as {as_read[0]:.6g} {as_read[1]})"


def _contradiction(
    log: FaultLog, where: str, value: str, rule: str, remedy: str, code: str = "contradiction"
) -> None:
    log.add(where, value, rule, remedy, code)


def _check_slenderness(log: FaultLog, tree: Tree) -> None:
    if tree.dbh_cm is None or tree.height_m is None:
        return
    ratio = tree.height_m * CM_PER_M / tree.dbh_cm
    if LEAST_SLENDERNESS <= ratio <= MOST_SLENDERNESS:
        return
    dbh = _given(tree, "tree.dbh_cm", tree.dbh_cm)
    _contradiction(
        log,
        "tree.height_m",
        f"{_given(tree, 'tree.height_m', tree.height_m)} with tree.dbh_cm = {dbh}",
        f"must be {LEAST_SLENDERNESS:g} to {MOST_SLENDERNESS:g} times the diameter, "
        f"is {ratio:.3g} times",
        "One of the two is off by a factor: measure the girth and the height again, "
        "and write centimetres and metres.",
        "wrong-factor",
    )


def _check_crown(log: FaultLog, tree: Tree) -> None:
    if tree.height_m is None or tree.crown_base_m is None:
        return
    if tree.crown_base_m < tree.height_m:
        return
    height = _given(tree, "tree.height_m", tree.height_m)
    _contradiction(
        log,
        "tree.crown_base_m",
        f"{_given(tree, 'tree.crown_base_m', tree.crown_base_m)} with tree.height_m = {height}",
        "must be less than the height",
        "Measure the height of the lowest live whorl again.",
    )


def _check_stump(log: FaultLog, tree: Tree) -> None:
    _check_cut_height(log, tree)
    if tree.dbh_cm is None or tree.stump_diameter_cm is None:
        return
    ratio = tree.stump_diameter_cm / tree.dbh_cm
    if LEAST_STUMP_RATIO <= ratio <= MOST_STUMP_RATIO:
        return
    stump = _given(tree, "tree.stump_diameter_cm", tree.stump_diameter_cm)
    _contradiction(
        log,
        "tree.stump_diameter_cm",
        f"{stump} with tree.dbh_cm = {_given(tree, 'tree.dbh_cm', tree.dbh_cm)}",
        f"must be {LEAST_STUMP_RATIO:g} to {MOST_STUMP_RATIO:g} times the diameter at breast "
        f"height, is {ratio:.3g} times",
        "Tape the stump in the fall axis and the girth at breast height again.",
        "wrong-factor",
    )


def _check_cut_height(log: FaultLog, tree: Tree) -> None:
    if tree.cut_height_cm is None or tree.height_m is None:
        return
    if tree.cut_height_cm < MOST_CUT_HEIGHT_SHARE * tree.height_m * CM_PER_M:
        return
    height = _given(tree, "tree.height_m", tree.height_m)
    _contradiction(
        log,
        "tree.cut_height_cm",
        f"{_given(tree, 'tree.cut_height_cm', tree.cut_height_cm)} with tree.height_m = {height}",
        "must be in the lower half of the tree",
        "Measure the height of the cut over the ground in centimetres.",
    )


def _widest_stump_cm(tree: Tree) -> float | None:
    """Return the stump width, or where it was not taken the widest the girth allows."""
    if tree.stump_diameter_cm is not None:
        return tree.stump_diameter_cm
    return None if tree.dbh_cm is None else MOST_STUMP_RATIO * tree.dbh_cm


def _check_cavity(log: FaultLog, tree: Tree) -> None:
    stump_cm = _widest_stump_cm(tree)
    if tree.cavity_wall_cm is None or stump_cm is None or tree.cavity_wall_cm < stump_cm / 2.0:
        return
    wall = _given(tree, "tree.cavity_wall_cm", tree.cavity_wall_cm)
    _contradiction(
        log,
        "tree.cavity_wall_cm",
        f"{wall} on a stump of {stump_cm:.6g} cm",
        "must be less than half the stump width",
        "Measure the sound wall again; leave the key out if the stem is not hollow.",
    )


def _check_cut(log: FaultLog, tree: Tree) -> None:
    stump_cm, hinge_mm = _widest_stump_cm(tree), tree.cut.hinge_mm
    if stump_cm is None or hinge_mm is None:
        return
    notch_share = tree.cut.notch_share or 0.0
    if notch_share * stump_cm + hinge_mm / MM_PER_CM < stump_cm:
        return
    notch = f" behind a notch of {notch_share:g}" if notch_share else ""
    _contradiction(
        log,
        "cut.hinge_mm",
        f"{_given(tree, 'cut.hinge_mm', hinge_mm)}{notch} on a stump of {stump_cm:.6g} cm",
        "must leave wood behind the hinge",
        "Write the hinge thickness in millimetres; a tenth of the stump is common.",
    )


def _check_leans(log: FaultLog, tree: Tree) -> None:
    for count, reading in enumerate(tree.lean, start=1):
        _check_lean(log, tree, f"tree.lean[{count}]", reading)
    for first, second in itertools.combinations(range(len(tree.lean)), 2):
        _check_pair(log, tree, first, second)
    if tree.crown_shift is None or any(reading.sighted_at == "top" for reading in tree.lean):
        return
    if not tree.lean and any(fault.field.startswith("tree.lean") for fault in log.faults):
        return  # the reading at the top may be the one that has the fault
    _contradiction(
        log,
        "tree.crown_shift",
        f"{tree.crown_shift.offset_m:g} m",
        'must come with a lean reading sighted at "top"',
        "Leave it out: a reading at the balance point already holds the crown.",
    )


def _check_lean(log: FaultLog, tree: Tree, path: str, reading: LeanReading) -> None:
    if reading.how is not None and reading.error_m is None and reading.how not in WAYS_OF_READING:
        ways = ", ".join(f'"{way}"' for way in WAYS_OF_READING)
        log.add(
            f"{path}.how",
            shown(reading.how),
            f"must be one of: {ways}; any other way needs error_m beside it",
            "Write error_m, how far the reading may be off in metres (one sigma).",
            "not-a-choice",
        )
    if tree.height_m is not None and reading.offset_m > tree.height_m:
        _contradiction(
            log,
            f"{path}.offset_m",
            f"{_given(tree, f'{path}.offset_m', reading.offset_m)} with tree.height_m = "
            f"{_given(tree, 'tree.height_m', tree.height_m)}",
            "must be less than the height",
            "Read the offset of the balance point from the foot in metres.",
        )


def _check_pair(log: FaultLog, tree: Tree, first: int, second: int) -> None:
    east_1, north_1, sigma_1 = _at_balance(tree, tree.lean[first])
    east_2, north_2, sigma_2 = _at_balance(tree, tree.lean[second])
    apart_m = math.hypot(east_1 - east_2, north_1 - north_2)
    sigma_m = math.hypot(sigma_1, sigma_2)
    if apart_m <= CONTRADICTION_SIGMAS * sigma_m:
        return
    log.add(
        f"tree.lean[{second + 1}]",
        f"{_lean_words(tree.lean[second])} against tree.lean[{first + 1}] = "
        f"{_lean_words(tree.lean[first])}",
        f"must agree within {CONTRADICTION_SIGMAS:g} times their error, "
        f"{CONTRADICTION_SIGMAS * sigma_m:.2f} m at the balance point; they lie {apart_m:.2f} m "
        "apart",
        "Read the lean again with a plumb line from two sides and delete the wrong one.",
        "contradiction",
    )


def _at_balance(tree: Tree, reading: LeanReading) -> tuple[float, float, float]:
    """Return east, north and one sigma of a reading, brought down to the balance point."""
    share, shift_m = 1.0, 0.0
    if reading.sighted_at == "top":
        share = TOP_TO_BALANCE_SHARE
        if tree.crown_shift is not None:
            shift_m = CROWN_SHIFT_DOUBT_SHARE * tree.crown_shift.offset_m
    toward_rad = rad_from_deg(reading.toward_deg)
    offset_m = share * reading.offset_m
    sigma_m = math.hypot(share * reading_sigma_m(reading), shift_m)
    return offset_m * math.sin(toward_rad), offset_m * math.cos(toward_rad), sigma_m


def _lean_words(reading: LeanReading) -> str:
    where = "balance point" if reading.sighted_at == "balance" else "top"
    return f"{reading.offset_m:g} m toward {reading.toward_deg:g} at the {where}"
