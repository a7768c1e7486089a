"""Every key of a tree file with its limits and what to do when it is out of them."""

from __future__ import annotations

from typing import get_args

from fellwright.records.defects import DEFECTS
from fellwright.records.number_fields import Number
from fellwright.records.table_reader import Field
from fellwright.records.tree import CutMethod, Flare
from fellwright.records.word_fields import Choice, Flag, Text, WordList

_AZIMUTH = "Write degrees clockwise from true north."
_ONE_OF = "Write one of these words."
_LOOK = "Look at the tree and write true or false; leave the key out if nobody looked."

TREE_FIELDS: tuple[Field, ...] = (
    Text("name", "Write a name or number in quotation marks."),
    Text("species", "Write the name of the species in quotation marks."),
    Number("dbh_cm", "cm", 1, 1000, "Measure the girth, divide by 3.14 and write centimetres."),
    Number("height_m", "m", 0.5, 120, "Measure with a clinometer and write metres."),
    Number("crown_base_m", "m", 0, 110, "Measure the height of the lowest live whorl in metres."),
    Number("crown_radius_m", "m", 0.1, 25, "Pace from the stem to the edge of the crown, metres."),
    Number("stump_diameter_cm", "cm", 1, 1500, "Tape through the marks, over bark, centimetres."),
    Number("cut_height_cm", "cm", 0, 400, "Measure from the ground to the cut in centimetres."),
    Choice("flare", {word: word for word in get_args(Flare)}, _ONE_OF),
    Number("cavity_wall_cm", "cm", 0.1, 700, "Bore, measure the sound wall, write centimetres."),
    WordList("defects", DEFECTS, "Use one of these words, or leave the list empty."),
)

SIGHTED_AT = {"balance point": "balance", "top": "top", "balance": "balance"}

LEAN_FIELDS: tuple[Field, ...] = (
    Number("offset_m", "m", 0, 40, "Read off the plumb line, write metres.", required=True),
    Number("toward_deg", "", 0, 360, _AZIMUTH, required=True),
    Choice("sighted_at", SIGHTED_AT, 'Write "balance point" or "top".', required=True),
    Text("how", 'Write the way it was read, such as "plumb line, two sides".'),
    Number("error_m", "m", 0.01, 20, "Write how far the reading may be off (one sigma), metres."),
)

CROWN_SHIFT_FIELDS: tuple[Field, ...] = (
    Number("offset_m", "m", 0, 15, "Pace from the stem to under the crown's middle, metres.", True),
    Number("toward_deg", "", 0, 360, _AZIMUTH, required=True),
)

CONDUCTOR_FIELDS: tuple[Field, ...] = (
    Number("distance_m", "m", 0, 500, "Pace or tape from stem to line, metres.", required=True),
    Number("height_m", "m", 0.5, 200, "Measure with a clinometer and write metres."),
    Number("voltage_kv", "kv", 0.01, 1500, "Ask the owner of the line; write kilovolts."),
    Flag("switched_off", "Write true only when the owner's switch-off is on record."),
)

LOOK_FIELDS: tuple[Field, ...] = (
    Flag("sound", _LOOK),
    Flag("clear_overhead", _LOOK),
    Flag("no_conductor_in_reach", _LOOK),
    Flag("ring_clear", _LOOK),
    Number("ways_out", "", 0, 12, "Count the ways out that are cleared.", whole=True),
)

CUT_FIELDS: tuple[Field, ...] = (
    Number("lay_deg", "", 0, 360, _AZIMUTH),
    Number("notch_share", "", 0.05, 0.6, "Write the depth of the notch over the stump width."),
    Number("hinge_mm", "mm", 1, 500, "Write the hinge thickness in millimetres."),
    Choice("method", {word: word for word in get_args(CutMethod)}, _ONE_OF),
    Flag("preload", "Write true if the device carries load before the release cut."),
)

DAY_FIELDS: tuple[Field, ...] = (
    Number("gust_m_s", "m_s", 0, 60, "Write the gust at crown height in metres per second."),
    Number("wind_from_deg", "", 0, 360, "Write where the wind comes from, degrees from north."),
    Number("temperature_degc", "degc", -60, 60, "Read a thermometer and write degrees Celsius."),
)

MOST_READINGS = 20
MOST_CONDUCTORS = 20

TREE_TABLES = ("crown_shift", "lean", "conductor")
TOP_TABLES = ("tree", "look", "cut", "day")

TREE_SECTIONS: dict[str, tuple[Field, ...]] = {
    "[tree]": TREE_FIELDS,
    "[[tree.lean]]": LEAN_FIELDS,
    "[tree.crown_shift]": CROWN_SHIFT_FIELDS,
    "[[tree.conductor]]": CONDUCTOR_FIELDS,
    "[look]": LOOK_FIELDS,
    "[cut]": CUT_FIELDS,
    "[day]": DAY_FIELDS,
}
"""Heading as the file writes it -> the fields under it."""
