"""Every key of a kit file with its limits and what to do when it is out of them."""

from __future__ import annotations

from typing import get_args

from fellwright.records.kit import DeviceKind, Grease, ItemState
from fellwright.records.number_fields import Number, NumberList, NumberPair
from fellwright.records.table_reader import Field
from fellwright.records.word_fields import Choice, Text
from fellwright.words import say

_ONE_OF = say("remedy.one_of_these")
_KIND = say("remedy.kind")
_BOOK = say("remedy.book")
_TONNES = say("remedy.tonnes")
_NAME = say("remedy.name")
_DRIVE = say("remedy.drive_mm")
_HEX = say("remedy.hex_mm")
_PLATE = Number("plate_mm", "mm", 5, 1000, say("remedy.plate_mm"))

DEVICE_FIELDS: tuple[Field, ...] = (
    Text("name", _NAME, required=True),
    Choice("kind", {word: word for word in get_args(DeviceKind)}, _KIND, required=True),
    Number("rated_t", "t", 0.1, 200, _TONNES),
    Number("lift_mm", "mm", 1, 500, say("remedy.lift_mm")),
    NumberPair(_PLATE, "plate_width_mm", "plate_length_mm"),
    Number("mm_per_turn", "per_turn", 0.05, 20, say("remedy.mm_per_turn")),
    Number("turns_to_stop", "", 0.5, 2000, say("remedy.turns_to_stop")),
    Number("torque_limit_n_m", "n_m", 5, 20000, _BOOK),
    NumberList(Number("hex_mm", "mm", 4, 100, _HEX), longest=6),
    Number("depth_full_mm", "mm", 10, 2000, say("remedy.depth_full_mm")),
    Number("mass_kg", "kg", 0.05, 300, say("remedy.mass_kg")),
    Choice("grease", {word: word for word in get_args(Grease)}, _ONE_OF),
    Number("outer_angle_deg", "", 0.1, 60, say("remedy.outer_angle_deg")),
    Number("thread_mean_diameter_mm", "mm", 3, 200, _BOOK),
    Number("thread_lead_mm", "mm", 0.2, 50, _BOOK),
    Number("collar_diameter_mm", "mm", 3, 300, _BOOK),
    Number("lugs", "", 1, 12, say("remedy.lugs"), whole=True),
    Number("thickness_mm", "mm", 2, 500, say("remedy.thickness_mm")),
    Number("stacked", "", 1, 6, say("remedy.stacked"), whole=True),
    Number("width_mm", "mm", 5, 1000, say("remedy.width_mm")),
    Number("length_mm", "mm", 10, 2000, say("remedy.length_mm")),
    Number("angle_deg", "", 0.5, 45, say("remedy.wedge_angle_deg")),
    Text("material", say("remedy.material")),
    Number("root_diameter_mm", "mm", 5, 200, say("remedy.root_diameter_mm")),
    Number("pitch_mm", "mm", 0.5, 50, say("remedy.pitch_mm")),
    Number("thread_depth_mm", "mm", 0.2, 30, say("remedy.thread_depth_mm")),
    Number("engaged_turns", "", 0.5, 200, say("remedy.engaged_turns")),
    Number("piston_diameter_mm", "mm", 5, 300, _BOOK),
    Number("pressure_bar", "", 10, 3000, say("remedy.pressure_bar")),
    Choice("state", {word: word for word in get_args(ItemState)}, _ONE_OF),
)

REQUIRED_BY_KIND: dict[str, tuple[str, ...]] = {
    "screw wedge": ("rated_t", "lift_mm", "plate_mm"),
    "nut wedge": ("rated_t", "lift_mm", "plate_mm"),
    "hand wedge": ("thickness_mm",),
    "threaded cone": ("lift_mm",),
    "hydraulic ram": ("rated_t", "lift_mm"),
}
"""Kind -> the keys without which nothing can be said of the device."""

_DRIVEN = ("torque_limit_n_m", "hex_mm", "depth_full_mm", "mass_kg", "grease", "state")
_SCREW = (
    *("rated_t", "lift_mm", "plate_mm", "mm_per_turn", "turns_to_stop", "outer_angle_deg"),
    *_DRIVEN,
    *("thread_mean_diameter_mm", "thread_lead_mm", "collar_diameter_mm", "lugs"),
)
KEYS_BY_KIND: dict[str, tuple[str, ...]] = {
    "screw wedge": _SCREW,
    "nut wedge": _SCREW,
    "hand wedge": (
        *("thickness_mm", "stacked", "rated_t", "width_mm", "length_mm", "angle_deg", "material"),
        *("mass_kg", "state"),
    ),
    "threaded cone": (
        *("lift_mm", "outer_angle_deg", "root_diameter_mm", "pitch_mm", "thread_depth_mm"),
        *("engaged_turns", "rated_t", "turns_to_stop"),
        *_DRIVEN,
    ),
    "hydraulic ram": (
        *("rated_t", "lift_mm", "plate_mm", "piston_diameter_mm", "pressure_bar"),
        *("depth_full_mm", "mass_kg", "state"),
    ),
}
"""Kind -> the keys that mean something for it, in the order in which a person is asked."""

HAMMER_FIELDS: tuple[Field, ...] = (
    Number("mass_kg", "kg", 0.2, 30, say("remedy.mass_kg"), required=True),
)

WRENCH_FIELDS: tuple[Field, ...] = (
    Text("name", _NAME, required=True),
    Number("torque_n_m", "n_m", 5, 20000, say("remedy.torque_n_m"), True),
    Number("drive_mm", "mm", 5, 60, _DRIVE, required=True),
)

SOCKET_FIELDS: tuple[Field, ...] = (
    Number("hex_mm", "mm", 4, 100, _HEX, required=True),
    Number("drive_mm", "mm", 5, 60, _DRIVE, required=True),
)

PACK_FIELDS: tuple[Field, ...] = (
    Number("energy_wh", "wh", 1, 20000, say("remedy.energy_wh"), required=True),
    Number("count", "", 0, 100, say("remedy.count"), required=True, whole=True),
)

ROPE_FIELDS: tuple[Field, ...] = (
    Text("name", _NAME, required=True),
    Number("puller_t", "t", 0.05, 100, _TONNES, required=True),
    Number("strength_t", "t", 0.1, 200, say("remedy.strength_t")),
    Number("length_m", "m", 1, 1000, say("remedy.rope_length_m")),
    Number("blocks", "", 0, 20, say("remedy.blocks"), whole=True),
)

SAW_FIELDS: tuple[Field, ...] = (
    Number("bar_cm", "cm", 10, 300, say("remedy.bar_cm")),
    Number("bar_depth_mm", "mm", 20, 300, say("remedy.bar_depth_mm")),
    Number("kerf_mm", "mm", 2, 30, say("remedy.kerf_mm")),
)

MOST_ITEMS = 200

KIT_SECTIONS: dict[str, tuple[Field, ...]] = {
    "[[device]]": DEVICE_FIELDS,
    "[[hammer]]": HAMMER_FIELDS,
    "[[wrench]]": WRENCH_FIELDS,
    "[[socket]]": SOCKET_FIELDS,
    "[[pack]]": PACK_FIELDS,
    "[[rope]]": ROPE_FIELDS,
    "[saw]": SAW_FIELDS,
}
"""Heading as the file writes it -> the fields under it."""

TOP_KEYS = tuple(heading.strip("[]") for heading in KIT_SECTIONS)
