"""What the readings of one tree must satisfy together; each fault names both sides."""

from __future__ import annotations

import itertools
import math

from fellwright.records.fault_log import FaultLog, Said, shown
from fellwright.records.lean_errors import (
    CONTRADICTION_SIGMAS,
    TOP_TO_BALANCE_SHARE,
    WAYS_OF_READING,
    reading_sigma_m,
)
from fellwright.records.tree import LeanReading, Tree
from fellwright.units import CM_PER_M, MM_PER_CM, rad_from_deg
from fellwright.words import Text, say

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


def _given(tree: Tree, key: str, value: float) -> Said:
    """Show a value as a file writes it, with the imperial reading it came from."""
    as_read = tree.as_read.get(key)
    plain = f"{value:.6g}"
    if as_read is None:
        return plain
    return say("fault.read_as", value=plain, reading=f"{as_read[0]:.6g}", unit=as_read[1])


def _both(tree: Tree, key: str, value: float, other_key: str, other: float) -> Text:
    """Show a value and the other one that it does not go with."""
    value_words, other_words = _given(tree, key, value), _given(tree, other_key, other)
    return say("fault.with", value=value_words, key=other_key, other=other_words)


def _rounded(ratio: float) -> float:
    return float(f"{ratio:.3g}")


def _contradiction(
    log: FaultLog, where: str, value: Said, rule: Text, remedy: Text, code: str = "contradiction"
) -> None:
    log.add(where, value, rule, remedy, code)


def _check_slenderness(log: FaultLog, tree: Tree) -> None:
    if tree.dbh_cm is None or tree.height_m is None:
        return
    ratio = tree.height_m * CM_PER_M / tree.dbh_cm
    if LEAST_SLENDERNESS <= ratio <= MOST_SLENDERNESS:
        return
    low, high = LEAST_SLENDERNESS, MOST_SLENDERNESS
    _contradiction(
        log,
        "tree.height_m",
        _both(tree, "tree.height_m", tree.height_m, "tree.dbh_cm", tree.dbh_cm),
        say("rule.slenderness", low=low, high=high, ratio=_rounded(ratio)),
        say("remedy.off_by_factor"),
        "wrong-factor",
    )


def _check_crown(log: FaultLog, tree: Tree) -> None:
    if tree.height_m is None or tree.crown_base_m is None:
        return
    if tree.crown_base_m < tree.height_m:
        return
    _contradiction(
        log,
        "tree.crown_base_m",
        _both(tree, "tree.crown_base_m", tree.crown_base_m, "tree.height_m", tree.height_m),
        say("rule.below_height"),
        say("remedy.crown_base_again"),
    )


def _check_stump(log: FaultLog, tree: Tree) -> None:
    _check_cut_height(log, tree)
    if tree.dbh_cm is None or tree.stump_diameter_cm is None:
        return
    ratio = tree.stump_diameter_cm / tree.dbh_cm
    if LEAST_STUMP_RATIO <= ratio <= MOST_STUMP_RATIO:
        return
    key, low, high = "tree.stump_diameter_cm", LEAST_STUMP_RATIO, MOST_STUMP_RATIO
    _contradiction(
        log,
        key,
        _both(tree, key, tree.stump_diameter_cm, "tree.dbh_cm", tree.dbh_cm),
        say("rule.stump_ratio", low=low, high=high, ratio=_rounded(ratio)),
        say("remedy.stump_again"),
        "wrong-factor",
    )


def _check_cut_height(log: FaultLog, tree: Tree) -> None:
    if tree.cut_height_cm is None or tree.height_m is None:
        return
    if tree.cut_height_cm < MOST_CUT_HEIGHT_SHARE * tree.height_m * CM_PER_M:
        return
    _contradiction(
        log,
        "tree.cut_height_cm",
        _both(tree, "tree.cut_height_cm", tree.cut_height_cm, "tree.height_m", tree.height_m),
        say("rule.lower_half"),
        say("remedy.cut_height_again"),
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
        say("fault.stump", value=wall, stump=stump_cm),
        say("rule.half_stump"),
        say("remedy.cavity_wall_again"),
    )


def _check_cut(log: FaultLog, tree: Tree) -> None:
    stump_cm, hinge_mm = _widest_stump_cm(tree), tree.cut.hinge_mm
    if stump_cm is None or hinge_mm is None:
        return
    notch_share = tree.cut.notch_share or 0.0
    if notch_share * stump_cm + hinge_mm / MM_PER_CM < stump_cm:
        return
    hinge = _given(tree, "cut.hinge_mm", hinge_mm)
    value = say("fault.stump", value=hinge, stump=stump_cm)
    if notch_share:
        value = say("fault.notch_and_stump", value=hinge, notch=notch_share, stump=stump_cm)
    rule, remedy = say("rule.wood_behind"), say("remedy.hinge_again")
    _contradiction(log, "cut.hinge_mm", value, rule, remedy)


def _check_leans(log: FaultLog, tree: Tree) -> None:
    for count, reading in enumerate(tree.lean, start=1):
        _check_lean(log, tree, f"tree.lean[{count}]", reading)
    for first, second in itertools.combinations(range(len(tree.lean)), 2):
        _check_pair(log, tree, first, second)
    if tree.crown_shift is None or any(reading.sighted_at == "top" for reading in tree.lean):
        return
    faulty = any(fault.field.startswith("tree.lean") for fault in log.faults)
    if not tree.lean and (faulty or log.lay_has_fault):
        return  # the reading at the top may be the one that has the fault
    _contradiction(
        log,
        "tree.crown_shift",
        say("fault.metres", value=tree.crown_shift.offset_m),
        say("rule.with_top"),
        say("remedy.crown_shift_out"),
    )


def _check_lean(log: FaultLog, tree: Tree, path: str, reading: LeanReading) -> None:
    if reading.how is not None and reading.error_m is None and reading.how not in WAYS_OF_READING:
        ways = ", ".join(f'"{way}"' for way in WAYS_OF_READING)
        log.add(
            f"{path}.how",
            shown(reading.how),
            say("rule.way_known", words=ways),
            say("remedy.error_beside"),
            "not-a-choice",
        )
    if tree.height_m is not None and reading.offset_m > tree.height_m:
        key = f"{path}.offset_m"
        _contradiction(
            log,
            key,
            _both(tree, key, reading.offset_m, "tree.height_m", tree.height_m),
            say("rule.below_height"),
            say("remedy.lean_offset_again"),
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
        say(
            "fault.against",
            value=_lean_words(tree.lean[second]),
            path=f"tree.lean[{first + 1}]",
            other=_lean_words(tree.lean[first]),
        ),
        say(
            "rule.leans_agree",
            sigmas=CONTRADICTION_SIGMAS,
            most=CONTRADICTION_SIGMAS * sigma_m,
            apart=apart_m,
        ),
        say("remedy.lean_again"),
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


def _lean_words(reading: LeanReading) -> Text:
    key = "fault.lean_balance" if reading.sighted_at == "balance" else "fault.lean_top"
    return say(key, offset=reading.offset_m, toward=reading.toward_deg)
