"""A site as it was walked: stems, obstacles, ground and habits; nothing computed.

Places are metres east and north of the site's own origin, heights metres over it. Where a figure
was not measured it is None; what stands in for it is planning's to decide and to say.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, get_args

from fellwright.records.tree import LeanReading, Tree

Role = Literal["fell", "kept"]
Standing = Literal["marked", "looked at", "carded", "loaded", "down", "hung", "left"]
ObstacleKind = Literal[
    "conductor",
    "road",
    "path",
    "building",
    "wall",
    "water",
    "regeneration",
    "people",
    "stump",
    "log",
]

OBSTACLE_KINDS: tuple[ObstacleKind, ...] = get_args(ObstacleKind)


@dataclass(frozen=True, slots=True)
class Place:
    """A point of the site: metres east, north and up of its origin."""

    east_m: float
    north_m: float
    up_m: float = 0.0


@dataclass(frozen=True, slots=True)
class Stem:
    """One standing tree of the site, to be felled or kept.

    `lay_deg` is the lay meant for it, None where it is to be chosen; `error_m` one sigma of its
    place. `readings` holds what a tree file holds, where the tree has been looked at.
    """

    name: str
    place: Place
    role: Role = "fell"
    species: str | None = None
    dbh_cm: float | None = None
    height_m: float | None = None
    crown_base_m: float | None = None
    crown_radius_m: float | None = None
    lean: tuple[LeanReading, ...] = ()
    lay_deg: float | None = None
    error_m: float | None = None
    standing: Standing = "marked"
    purpose: str | None = None
    readings: Tree | None = None


@dataclass(frozen=True, slots=True)
class Obstacle:
    """What must not be hit, or must be closed: a point, a line or the ring of an area.

    The first point of an area is its last as well. `height_m` is that of the thing over the ground;
    `closed` says that a road or path is closed, a conductor switched off, on record.
    """

    kind: ObstacleKind
    points: tuple[Place, ...]
    name: str | None = None
    height_m: float | None = None
    closed: bool = False


@dataclass(frozen=True, slots=True)
class Ground:
    """The slope of the site as one plane: rise over run, and the azimuth that points downhill."""

    slope_ratio: float = 0.0
    downhill_deg: float = 0.0


@dataclass(frozen=True, slots=True)
class Site:
    """Everything that stands on one site.

    `declination_deg` is that of the compass readings it was made from, east positive;
    `extraction_deg` the azimuth along which stems are drawn out; `has_sighting_aid` whether lays
    are aimed with one. `crs` names the reference system of the file and `origin` the place of the
    site's origin in it, both None for a site of its own metres.
    """

    name: str | None = None
    stems: tuple[Stem, ...] = ()
    obstacles: tuple[Obstacle, ...] = ()
    ground: Ground = Ground()
    extraction_deg: float | None = None
    has_sighting_aid: bool = False
    declination_deg: float | None = None
    crs: str | None = None
    origin: tuple[float, float] | None = None
    rescue_point: str | None = None
