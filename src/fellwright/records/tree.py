"""One standing tree as it was read: nothing computed, nothing filled in.

A field is None where the reading was not taken. What stands in for it is planning's to decide
and to say.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

SightedAt = Literal["balance", "top"]
Flare = Literal["none", "trimmed", "untrimmed"]
CutMethod = Literal["normal back cut", "half and half", "hinge first", "felling lever"]


@dataclass(frozen=True, slots=True)
class LeanReading:
    """How far a sighted point stands from the foot, and toward which azimuth from true north.

    A reading sighted at the balance point already holds the crown; one at the top does not.
    """

    offset_m: float
    toward_deg: float
    sighted_at: SightedAt
    how: str | None = None
    error_m: float | None = None


@dataclass(frozen=True, slots=True)
class CrownShift:
    """How far the crown's middle stands from the stem, and toward which azimuth."""

    offset_m: float
    toward_deg: float


@dataclass(frozen=True, slots=True)
class Conductor:
    """A power line near the tree; `switched_off` is True only on a recorded switch-off."""

    distance_m: float
    height_m: float | None = None
    voltage_kv: float | None = None
    switched_off: bool | None = None


@dataclass(frozen=True, slots=True)
class Look:
    """The five answers of the look; None is unanswered."""

    sound: bool | None = None
    clear_overhead: bool | None = None
    no_conductor_in_reach: bool | None = None
    ring_clear: bool | None = None
    ways_out: int | None = None


@dataclass(frozen=True, slots=True)
class Cut:
    """What the feller means to cut; `notch_share` is of the stump width."""

    lay_deg: float | None = None
    notch_share: float | None = None
    hinge_mm: float | None = None
    method: CutMethod | None = None
    preload: bool | None = None


@dataclass(frozen=True, slots=True)
class Day:
    """Weather at the tree; the gust is at crown height, the wind blows from `wind_from_deg`."""

    gust_m_s: float | None = None
    wind_from_deg: float | None = None
    temperature_degc: float | None = None


@dataclass(frozen=True, slots=True)
class Tree:
    """One tree, the look at it, the cut meant for it and the day.

    `as_read` holds what was given in imperial units: path of the metric field, list entries
    counted from 1 (`tree.lean[1].offset_m`), to the value as written and its unit.
    """

    name: str | None = None
    species: str | None = None
    dbh_cm: float | None = None
    dbh_error_cm: float | None = None
    height_m: float | None = None
    height_error_m: float | None = None
    crown_base_m: float | None = None
    crown_radius_m: float | None = None
    stump_diameter_cm: float | None = None
    cut_height_cm: float | None = None
    flare: Flare | None = None
    cavity_wall_cm: float | None = None
    defects: tuple[str, ...] = ()
    lean: tuple[LeanReading, ...] = ()
    crown_shift: CrownShift | None = None
    conductors: tuple[Conductor, ...] = ()
    look: Look = Look()
    cut: Cut = Cut()
    day: Day = Day()
    as_read: Mapping[str, tuple[float, str]] = field(default_factory=dict, hash=False)
