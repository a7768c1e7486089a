"""What is read on the stump: the check of the notch, and the nine entries of the stump card.

The nine entries: hinge left, middle and right, depth of the notch, its mismatch, step, lift used
at let-go, error of the lay, and how it went (fibre pull, what broke). The device is the heading.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal, get_args

from fellwright.records.fault_log import FaultLog, Said, shown
from fellwright.records.number_fields import Number
from fellwright.records.table_reader import (
    Field,
    accepted_keys,
    note_missing,
    note_unknown_keys,
    read_fields,
)
from fellwright.records.word_fields import Choice, Text, WordList
from fellwright.words import say

__all__ = [
    "AIM_FIELDS",
    "STUMP_FIELDS",
    "WENT",
    "AimCheck",
    "Side",
    "StumpRecord",
    "read_aim_check",
    "read_stump",
]

Side = Literal["left", "right"]
WENT = (
    "fibre pull",
    "hinge tore",
    "early go",
    "sat back",
    "hung",
    "split",
    "device came out",
    "bar pinched",
    "no fault seen",
)
"""How it went; `no fault seen` is an answer, an empty list is none."""

_ACROSS = say("stump.do_across")
_TURNS = say("stump.do_turns")
_SPINDLE = say("stump.do_spindle")
_SIDE = say("stump.do_side")
_ANGLE = say("stump.do_lay_angle")
_BESIDE = say("stump.do_beside")
_DISTANCE = say("stump.do_distance")
_SIDES = {word: word for word in get_args(Side)}
_LAY_SIDE = Choice("lay_side", _SIDES, _SIDE)

STUMP_FIELDS: tuple[Field, ...] = (
    Number("hinge_left_mm", "mm", 0, 500, _ACROSS),
    Number("hinge_mid_mm", "mm", 0, 500, _ACROSS),
    Number("hinge_right_mm", "mm", 0, 500, _ACROSS),
    Number("notch_depth_cm", "cm", 0.5, 900, say("stump.do_notch")),
    Number("notch_mismatch_mm", "mm", 0, 300, _ACROSS),
    Number("step_mm", "mm", -300, 600, say("stump.do_step")),
    Number("lift_used_mm", "mm", 0, 600, _SPINDLE),
    Number("turns_used", "", 0, 2000, _TURNS),
    Number("lay_error_deg", "", 0, 180, _ANGLE),
    Number("lay_beside_m", "m", 0, 120, _BESIDE),
    Number("lay_distance_m", "m", 0.5, 120, _DISTANCE),
    _LAY_SIDE,
    WordList("went", WENT, say("stump.do_went")),
    Text("device", say("stump.do_device")),
)

AIM_FIELDS: tuple[Field, ...] = (
    Number("aim_error_deg", "", 0, 89, say("notch.do_angle")),
    Number("beside_m", "m", 0, 200, _BESIDE),
    Number("distance_m", "m", 0.5, 500, _DISTANCE),
    Choice("side", _SIDES, _SIDE),
)


@dataclass(frozen=True, slots=True)
class StumpRecord:
    """What was read on the stump; None where it was not. Sides as seen along the lay."""

    hinge_left_mm: float | None = None
    hinge_mid_mm: float | None = None
    hinge_right_mm: float | None = None
    notch_depth_cm: float | None = None
    notch_mismatch_mm: float | None = None
    step_mm: float | None = None
    lift_used_mm: float | None = None
    turns_used: float | None = None
    lay_error_deg: float | None = None
    lay_beside_m: float | None = None
    lay_distance_m: float | None = None
    lay_side: Side | None = None
    went: tuple[str, ...] = ()
    device: str | None = None


@dataclass(frozen=True, slots=True)
class AimCheck:
    """How far the notch points beside its mark: an angle, or metres at a distance; to which side.

    `side` is the side of the mark to which the notch points, as seen along the lay.
    """

    aim_error_deg: float | None = None
    beside_m: float | None = None
    distance_m: float | None = None
    side: Side | None = None


def read_stump(raw: object, source: Said) -> StumpRecord:
    """Read the entries of a stump card.

    Parameters
    ----------
    raw
        The table `stump` of a request.
    source
        What to call it in a fault.

    Returns
    -------
    StumpRecord
        What was entered.

    Raises
    ------
    BadInput
        With every fault found.
    """
    log = FaultLog(source)
    values = _table(log, "stump", raw, STUMP_FIELDS)
    record = StumpRecord(**values)
    _refuse_both(log, record, "stump", ("lift_used_mm", "turns_used"))
    way = ("lay_error_deg", "lay_beside_m", "lay_distance_m", "lay_side")
    _check_angle(log, record, "stump", way)
    if "no fault seen" in record.went and len(record.went) > 1:
        rule = say("stump.none_alone")
        log.add("stump.went", shown(list(record.went)), rule, say("stump.do_went"), "contradiction")
    log.raise_if_any()
    return record


def read_aim_check(raw: object, source: Said) -> AimCheck:
    """Read how the notch was found to point; an error without its side is of no use.

    Parameters
    ----------
    raw
        The table `notch` of a request.
    source
        What to call it in a fault.

    Returns
    -------
    AimCheck
        Angle, or metres at a distance, and the side.

    Raises
    ------
    BadInput
        With every fault found.
    """
    log = FaultLog(source)
    check = AimCheck(**_table(log, "notch", raw, AIM_FIELDS))
    _check_angle(log, check, "notch", ("aim_error_deg", "beside_m", "distance_m", "side"))
    nothing_given = check.aim_error_deg is None and check.beside_m is None
    if nothing_given and not log.faults:
        note_missing(log, "notch.aim_error_deg", say("notch.do_sight"))
    log.raise_if_any()
    return check


def _table(log: FaultLog, path: str, raw: object, fields: tuple[Field, ...]) -> dict[str, Any]:
    if not isinstance(raw, Mapping):
        log.add(path, shown(raw), say("rule.table_of_keys"), say("stump.do_entries"), "not-a-table")
        return {}
    note_unknown_keys(log, path, raw, accepted_keys(fields), {})
    return read_fields(log, path, raw, fields)


def _refuse_both(log: FaultLog, record: object, path: str, keys: tuple[str, str]) -> None:
    first, second = (getattr(record, key) for key in keys)
    if first is not None and second is not None:
        value = say("fault.twice", value=shown(first), key=keys[1], other=shown(second))
        log.add(f"{path}.{keys[0]}", value, say("rule.once"), say("remedy.keep_one"), "given-twice")


def _check_angle(log: FaultLog, record: object, path: str, keys: tuple[str, str, str, str]) -> None:
    """An angle, or metres and their distance; and the side, unless it is none."""
    angle, beside, distance, side = (getattr(record, key) for key in keys)
    _refuse_both(log, record, path, (keys[0], keys[1]))
    if beside is not None and distance is None and not log.has_fault_at(f"{path}.{keys[2]}"):
        note_missing(log, f"{path}.{keys[2]}", _DISTANCE)
    if distance is not None and beside is None and not log.has_fault_at(f"{path}.{keys[1]}"):
        note_missing(log, f"{path}.{keys[1]}", _BESIDE)
    error = angle if angle is not None else beside
    if error and side is None and not log.has_fault_at(f"{path}.{keys[3]}"):
        note_missing(log, f"{path}.{keys[3]}", _SIDE)
