"""What is in the van, as the kit book states it: nothing computed, nothing filled in."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

DeviceKind = Literal["screw wedge", "nut wedge", "hand wedge", "threaded cone", "hydraulic ram"]
Grease = Literal["greased", "half", "dry"]
ItemState = Literal["FIT", "GREASE", "LOOK", "OUT", "PART"]


@dataclass(frozen=True, slots=True)
class Device:
    """One lifting device. A field is None where the kit book does not say.

    `rated_t` is in tonne-force; `outer_angle_deg` lies between the wood-facing plates at full
    travel; `hex_mm` are the drive hexes a socket may fit; `thickness_mm` is the whole stack of a
    hand wedge and `stacked` the number of wedges in it. Of a cone, `outer_angle_deg` is the whole
    angle, `root_diameter_mm` lies between the turns midway along the thread, and `engaged_turns`
    are in the wood when it pushes hardest. The plate of a ram is the smaller of base and head.
    """

    name: str
    kind: DeviceKind
    rated_t: float | None = None
    lift_mm: float | None = None
    plate_width_mm: float | None = None
    plate_length_mm: float | None = None
    mm_per_turn: float | None = None
    turns_to_stop: float | None = None
    torque_limit_n_m: float | None = None
    hex_mm: tuple[float, ...] = ()
    depth_full_mm: float | None = None
    mass_kg: float | None = None
    grease: Grease | None = None
    outer_angle_deg: float | None = None
    thread_mean_diameter_mm: float | None = None
    thread_lead_mm: float | None = None
    collar_diameter_mm: float | None = None
    lugs: int | None = None
    thickness_mm: float | None = None
    stacked: int | None = None
    width_mm: float | None = None
    length_mm: float | None = None
    angle_deg: float | None = None
    material: str | None = None
    root_diameter_mm: float | None = None
    pitch_mm: float | None = None
    thread_depth_mm: float | None = None
    engaged_turns: float | None = None
    piston_diameter_mm: float | None = None
    pressure_bar: float | None = None
    state: ItemState | None = None


@dataclass(frozen=True, slots=True)
class Hammer:
    """A hammer or maul for hand wedges."""

    mass_kg: float


@dataclass(frozen=True, slots=True)
class Wrench:
    """A battery wrench: its rated torque and square drive."""

    name: str
    torque_n_m: float
    drive_mm: float


@dataclass(frozen=True, slots=True)
class Socket:
    """A socket: the hex it fits and the square drive it takes."""

    hex_mm: float
    drive_mm: float


@dataclass(frozen=True, slots=True)
class Pack:
    """Charged battery packs of one size; `energy_wh` is of one pack."""

    energy_wh: float
    count: int


@dataclass(frozen=True, slots=True)
class Rope:
    """A pulling set: puller and rope strength in tonne-force, rope length, number of blocks."""

    name: str
    puller_t: float
    strength_t: float | None = None
    length_m: float | None = None
    blocks: int | None = None


@dataclass(frozen=True, slots=True)
class Saw:
    """The saw: bar length, depth of the bar blade, kerf."""

    bar_cm: float | None = None
    bar_depth_mm: float | None = None
    kerf_mm: float | None = None


@dataclass(frozen=True, slots=True)
class Kit:
    """Everything in one van; `as_read` as in `records.tree.Tree`."""

    devices: tuple[Device, ...] = ()
    hammers: tuple[Hammer, ...] = ()
    wrenches: tuple[Wrench, ...] = ()
    sockets: tuple[Socket, ...] = ()
    packs: tuple[Pack, ...] = ()
    ropes: tuple[Rope, ...] = ()
    saw: Saw | None = None
    as_read: Mapping[str, tuple[float, str]] = field(default_factory=dict, hash=False)
