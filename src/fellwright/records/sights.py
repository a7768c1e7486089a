"""What was read for one measuring helper: nothing computed, nothing filled in."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal

from fellwright.records.fault_log import FaultLog, shown
from fellwright.records.sight_fields import (
    BORE_FIELDS,
    CROWN_FIELDS,
    GIRTH_FIELDS,
    HEIGHT_FIELDS,
    LEAST_DIRECTIONS,
    LEAST_LEVEL_READINGS,
    LEVEL_FIELDS,
    PLUMB_FIELDS,
    STATION_FIELDS,
)
from fellwright.records.table_reader import (
    Field,
    accepted_keys,
    note_missing,
    note_unknown_keys,
    read_fields,
    tables_at,
)
from fellwright.records.tree import SightedAt
from fellwright.words import Text, say

__all__ = [
    "BoreSight",
    "CrownSight",
    "GirthSight",
    "HeightSight",
    "LevelSight",
    "PlumbLook",
    "PlumbSight",
    "read_bore",
    "read_crown",
    "read_girth",
    "read_height",
    "read_level",
    "read_plumb",
]

MOST_STATIONS = 2
PATH = "sight"


@dataclass(frozen=True, slots=True)
class HeightSight:
    """Two angles and a distance, by tape (`distance_m`) or by paces."""

    distance_is: Literal["level", "ground", "eye"]
    top_deg: float
    foot_deg: float
    angle_by: Literal["hand", "phone"]
    distance_m: float | None = None
    paces: float | None = None
    pace_length_m: float | None = None
    angle_error_deg: float | None = None
    zero_deg: float | None = None
    eye_height_m: float | None = None


@dataclass(frozen=True, slots=True)
class PlumbLook:
    """One look along a plumb line; right of the foot is positive."""

    bearing_deg: float | None = None
    bearing_clock: float | None = None
    bearing_error_deg: float | None = None
    right_m: float | None = None
    right_widths: float | None = None
    distance_m: float | None = None


@dataclass(frozen=True, slots=True)
class PlumbSight:
    """One or two looks along a plumb line."""

    sighted_at: SightedAt
    looks: tuple[PlumbLook, ...]
    dbh_cm: float | None = None
    lay_deg: float | None = None


@dataclass(frozen=True, slots=True)
class GirthSight:
    """Girth at breast height."""

    girth_cm: float
    girth_error_cm: float | None = None


@dataclass(frozen=True, slots=True)
class CrownSight:
    """Paces from the stem to under the edge of the crown, one number a direction."""

    paces: tuple[float, ...]
    pace_length_m: float


@dataclass(frozen=True, slots=True)
class BoreSight:
    """Depths at which the chips of test bores turned dark or soft."""

    bores_cm: tuple[float, ...]
    over_bark: bool
    bark_cm: float | None = None


@dataclass(frozen=True, slots=True)
class LevelSight:
    """Readings of one edge by a phone, then by the same phone turned end for end."""

    first_deg: tuple[float, ...]
    turned_deg: tuple[float, ...]


def read_height(table: Mapping[str, object], log: FaultLog) -> HeightSight:
    """Read what a height takes.

    Raises
    ------
    BadInput
        With every fault, those that `log` holds already among them.
    """
    values = _read(log, table, HEIGHT_FIELDS)
    _one_of(log, table, ("distance_m", "distance_ft"), ("paces",), say("sight.do_distance"))
    if table.get("paces") is not None and _absent(table, "pace_length_m", "pace_length_ft"):
        note_missing(log, f"{PATH}.pace_length_m", say("sight.do_pace"))
    if values.get("angle_by") == "phone" and _absent(table, "angle_error_deg"):
        note_missing(log, f"{PATH}.angle_error_deg", say("sight.do_level"))
    log.raise_if_any()
    return HeightSight(**values)


def read_plumb(table: Mapping[str, object], log: FaultLog) -> PlumbSight:
    """Read what a lean takes, from one or two stations.

    Raises
    ------
    BadInput
        With every fault, those that `log` holds already among them.
    """
    values = _read(log, table, PLUMB_FIELDS, ("station",))
    path = f"{PATH}.station"
    entries = tables_at(log, path, table, "station", "station", MOST_STATIONS)
    if not entries and not log.has_fault_at(path):
        note_missing(log, path, say("sight.do_station"))
    looks = [_look(log, where, entry, values) for where, entry in entries]
    ways = {(look.bearing_deg is None, look.bearing_clock is None) for look in looks}
    if {(True, False), (False, True)} <= ways and _absent(table, "lay_deg"):
        note_missing(log, f"{PATH}.lay_deg", say("sight.do_lay"))
    log.raise_if_any()
    return PlumbSight(**values, looks=tuple(looks))


def _look(
    log: FaultLog, path: str, entry: Mapping[str, object], sight: Mapping[str, object]
) -> PlumbLook:
    note_unknown_keys(log, path, entry, accepted_keys(STATION_FIELDS), {})
    values = read_fields(log, path, entry, STATION_FIELDS)
    _one_of(log, entry, ("bearing_deg",), ("bearing_clock",), say("sight.do_bearing"), path)
    _one_of(log, entry, ("right_m", "right_ft"), ("right_widths",), say("sight.do_right"), path)
    dbh = f"{PATH}.dbh_cm"
    faulty = any(fault.field.startswith(f"{PATH}.dbh") for fault in log.faults)
    if "right_widths" in values and "dbh_cm" not in sight and not faulty:
        note_missing(log, dbh, say("sight.do_girth"))
    return PlumbLook(**values)


def read_girth(table: Mapping[str, object], log: FaultLog) -> GirthSight:
    """Read a girth.

    Raises
    ------
    BadInput
        With every fault, those that `log` holds already among them.
    """
    values = _read(log, table, GIRTH_FIELDS)
    log.raise_if_any()
    return GirthSight(**values)


def read_crown(table: Mapping[str, object], log: FaultLog) -> CrownSight:
    """Read the paces of a crown.

    Raises
    ------
    BadInput
        With every fault, those that `log` holds already among them.
    """
    values = _read(log, table, CROWN_FIELDS)
    _at_least(log, values, "paces", LEAST_DIRECTIONS, say("sight.do_crown"))
    log.raise_if_any()
    return CrownSight(**values)


def read_bore(table: Mapping[str, object], log: FaultLog) -> BoreSight:
    """Read test bores.

    Raises
    ------
    BadInput
        With every fault, those that `log` holds already among them.
    """
    values = _read(log, table, BORE_FIELDS)
    if values.get("over_bark") is True and _absent(table, "bark_cm", "bark_in"):
        note_missing(log, f"{PATH}.bark_cm", say("sight.do_bark"))
    if values.get("over_bark") is False and values.get("bark_cm"):
        log.add(
            f"{PATH}.bark_cm",
            f"{values['bark_cm']:.6g}",
            say("sight.must_be_over_bark"),
            say("sight.do_over_bark"),
            "contradiction",
        )
    log.raise_if_any()
    return BoreSight(**values)


def read_level(table: Mapping[str, object], log: FaultLog) -> LevelSight:
    """Read the readings of one edge.

    Raises
    ------
    BadInput
        With every fault, those that `log` holds already among them.
    """
    values = _read(log, table, LEVEL_FIELDS)
    for key in ("first_deg", "turned_deg"):
        _at_least(log, values, key, LEAST_LEVEL_READINGS, say("sight.do_level"))
    log.raise_if_any()
    return LevelSight(**values)


def _read(
    log: FaultLog,
    table: Mapping[str, object],
    fields: tuple[Field, ...],
    lists: tuple[str, ...] = (),
) -> dict[str, Any]:
    note_unknown_keys(log, PATH, table, (*accepted_keys(fields), *lists), {})
    return read_fields(log, PATH, table, fields)


def _absent(table: Mapping[str, object], *keys: str) -> bool:
    return all(table.get(key) is None for key in keys)


def _one_of(
    log: FaultLog,
    table: Mapping[str, object],
    first: tuple[str, ...],
    second: tuple[str, ...],
    remedy: Text,
    path: str = PATH,
) -> None:
    """Note a fault unless exactly one of two ways to say the same is used."""
    one, other = not _absent(table, *first), not _absent(table, *second)
    if not one and not other:
        note_missing(log, f"{path}.{first[0]}", remedy)
    elif one and other:
        log.add(
            f"{path}.{second[0]}",
            shown(table[second[0]]),
            say("sight.must_be_one", other=first[0]),
            remedy,
            "given-twice",
        )


def _at_least(
    log: FaultLog, values: Mapping[str, object], key: str, least: int, remedy: Text
) -> None:
    held = values.get(key)
    if isinstance(held, tuple) and len(held) < least:
        log.add(
            f"{PATH}.{key}",
            shown(held),
            say("sight.must_hold", least=least),
            remedy,
            "too-few",
        )
