"""Every key of a kit file with its limits and what to do when it is out of them."""

from __future__ import annotations

from typing import get_args

from fellwright.records.kit import DeviceKind, Grease, ItemState
from fellwright.records.number_fields import Number, NumberList, NumberPair
from fellwright.records.table_reader import Field
from fellwright.records.word_fields import Choice, Text

_ONE_OF = "Write one of these words."
_KIND = 'Write "screw wedge", "hand wedge" or whichever kind it is.'
_BOOK = "See the maker's sheet."
_TONNES = "Write tonnes of force as stamped on the tool."
_NAME = "Give it a short name in quotation marks."
_DRIVE = "Write the square drive in millimetres (a half-inch drive is 12.7)."
_HEX = "Write the width across flats in millimetres."
_PLATE = Number("plate_mm", "mm", 5, 1000, "Write [width, length] of the plate in millimetres.")

DEVICE_FIELDS: tuple[Field, ...] = (
    Text("name", _NAME, required=True),
    Choice("kind", {word: word for word in get_args(DeviceKind)}, _KIND, required=True),
    Number("rated_t", "t", 0.1, 200, _TONNES),
    Number("lift_mm", "mm", 1, 500, "Write how far it opens in millimetres."),
    NumberPair(_PLATE, "plate_width_mm", "plate_length_mm"),
    Number("mm_per_turn", "per_turn", 0.05, 20, "Count ten turns and divide the lift by ten."),
    Number("turns_to_stop", "", 0.5, 2000, "Count the turns from closed to the stop mark."),
    Number("torque_limit_n_m", "n_m", 5, 20000, _BOOK),
    NumberList(Number("hex_mm", "mm", 4, 100, _HEX), longest=6),
    Number("depth_full_mm", "mm", 10, 2000, "Measure how deep it reaches in at full travel."),
    Number("mass_kg", "kg", 0.05, 300, "Put it on a scale and write kilograms."),
    Choice("grease", {word: word for word in get_args(Grease)}, _ONE_OF),
    Number("outer_angle_deg", "", 0.1, 60, "Measure between the wood-facing plates, full travel."),
    Number("thread_mean_diameter_mm", "mm", 3, 200, _BOOK),
    Number("thread_lead_mm", "mm", 0.2, 50, _BOOK),
    Number("collar_diameter_mm", "mm", 3, 300, _BOOK),
    Number("lugs", "", 1, 12, "Count them.", whole=True),
    Number("thickness_mm", "mm", 2, 500, "Measure the whole stack in millimetres."),
    Number("stacked", "", 1, 6, "Count the wedges in the stack.", whole=True),
    Number("width_mm", "mm", 5, 1000, "Measure the face of the wedge in millimetres."),
    Number("length_mm", "mm", 10, 2000, "Measure the wedge from tip to head in millimetres."),
    Number("angle_deg", "", 0.5, 45, "Measure between the two faces of the wedge."),
    Text("material", "Write what it is made of in quotation marks."),
    Number("root_diameter_mm", "mm", 5, 200, "Measure between the turns, midway along the thread."),
    Number("pitch_mm", "mm", 0.5, 50, "Measure over ten turns of the thread and divide by ten."),
    Number("thread_depth_mm", "mm", 0.2, 30, "Measure from the crest of the thread to its root."),
    Number("engaged_turns", "", 0.5, 200, "Count the turns in the wood half way through its lift."),
    Number("piston_diameter_mm", "mm", 5, 300, _BOOK),
    Number("pressure_bar", "", 10, 3000, "Write the highest pressure of the pump in bar."),
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

HAMMER_FIELDS: tuple[Field, ...] = (
    Number("mass_kg", "kg", 0.2, 30, "Put it on a scale and write kilograms.", required=True),
)

WRENCH_FIELDS: tuple[Field, ...] = (
    Text("name", _NAME, required=True),
    Number("torque_n_m", "n_m", 5, 20000, "Write the rated torque in newton metres.", True),
    Number("drive_mm", "mm", 5, 60, _DRIVE, required=True),
)

SOCKET_FIELDS: tuple[Field, ...] = (
    Number("hex_mm", "mm", 4, 100, _HEX, required=True),
    Number("drive_mm", "mm", 5, 60, _DRIVE, required=True),
)

PACK_FIELDS: tuple[Field, ...] = (
    Number("energy_wh", "wh", 1, 20000, "Write the watt-hours of one pack.", required=True),
    Number("count", "", 0, 100, "Count the charged packs.", required=True, whole=True),
)

ROPE_FIELDS: tuple[Field, ...] = (
    Text("name", _NAME, required=True),
    Number("puller_t", "t", 0.05, 100, _TONNES, required=True),
    Number("strength_t", "t", 0.1, 200, "Write the breaking strength in tonnes."),
    Number("length_m", "m", 1, 1000, "Write the length of the rope in metres."),
    Number("blocks", "", 0, 20, "Count the blocks.", whole=True),
)

SAW_FIELDS: tuple[Field, ...] = (
    Number("bar_cm", "cm", 10, 300, "Write the length of the bar in centimetres."),
    Number("bar_depth_mm", "mm", 20, 300, "Measure across the bar blade in millimetres."),
    Number("kerf_mm", "mm", 2, 30, "Measure the width of the cut in millimetres."),
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
