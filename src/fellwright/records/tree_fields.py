"""Every key of a tree file with its limits and what to do when it is out of them."""

from __future__ import annotations

from typing import get_args

from fellwright.records.bearing_field import Bearing
from fellwright.records.defects import DEFECTS
from fellwright.records.number_fields import Number
from fellwright.records.table_reader import Field
from fellwright.records.tree import CutMethod, Flare
from fellwright.records.word_fields import Choice, Flag, Text, WordList
from fellwright.words import say

_TOWARD = say("remedy.azimuth_or_clock", key="toward_clock")
_WIND = say("remedy.wind_from_deg", key="wind_from_clock")
_ONE_OF = say("remedy.one_of_these")
_LOOK = say("remedy.look")

TREE_FIELDS: tuple[Field, ...] = (
    Text("name", say("remedy.tree_name")),
    Text("species", say("remedy.species")),
    Number("dbh_cm", "cm", 1, 1000, say("remedy.dbh_cm")),
    Number("dbh_error_cm", "cm", 0.01, 100, say("sight.do_dbh_error")),
    Number("height_m", "m", 0.5, 120, say("remedy.height_m")),
    Number("height_error_m", "m", 0.01, 60, say("remedy.error_m")),
    Number("crown_base_m", "m", 0, 110, say("remedy.crown_base_m")),
    Number("crown_radius_m", "m", 0.1, 25, say("remedy.crown_radius_m")),
    Number("stump_diameter_cm", "cm", 1, 1500, say("remedy.stump_diameter_cm")),
    Number("cut_height_cm", "cm", 0, 400, say("remedy.cut_height_cm")),
    Choice("flare", {word: word for word in get_args(Flare)}, _ONE_OF),
    Number("cavity_wall_cm", "cm", 0.1, 700, say("remedy.cavity_wall_cm")),
    WordList("defects", DEFECTS, say("remedy.defects")),
)

SIGHTED_AT = {"balance point": "balance", "top": "top", "balance": "balance"}

LEAN_FIELDS: tuple[Field, ...] = (
    Number("offset_m", "m", 0, 40, say("remedy.lean_offset_m"), required=True),
    Bearing("toward_deg", "toward_clock", _TOWARD, required=True),
    Choice("sighted_at", SIGHTED_AT, say("remedy.sighted_at"), required=True),
    Text("how", say("remedy.how")),
    Number("error_m", "m", 0.01, 20, say("remedy.error_m")),
)

CROWN_SHIFT_FIELDS: tuple[Field, ...] = (
    Number("offset_m", "m", 0, 15, say("remedy.crown_shift_offset_m"), True),
    Bearing("toward_deg", "toward_clock", _TOWARD, required=True),
)

CONDUCTOR_FIELDS: tuple[Field, ...] = (
    Number("distance_m", "m", 0, 500, say("remedy.conductor_distance_m"), required=True),
    Number("height_m", "m", 0.5, 200, say("remedy.height_m")),
    Number("voltage_kv", "kv", 0.01, 1500, say("remedy.voltage_kv")),
    Flag("switched_off", say("remedy.switched_off")),
)

LOOK_FIELDS: tuple[Field, ...] = (
    Flag("sound", _LOOK),
    Flag("clear_overhead", _LOOK),
    Flag("no_conductor_in_reach", _LOOK),
    Flag("ring_clear", _LOOK),
    Number("ways_out", "", 0, 12, say("remedy.ways_out"), whole=True),
)

LAY_FIELD = Number("lay_deg", "", 0, 360, say("remedy.azimuth"))

CUT_FIELDS: tuple[Field, ...] = (
    LAY_FIELD,
    Number("notch_share", "", 0.05, 0.6, say("remedy.notch_share")),
    Number("hinge_mm", "mm", 1, 500, say("remedy.hinge_mm")),
    Choice("method", {word: word for word in get_args(CutMethod)}, _ONE_OF),
    Flag("preload", say("remedy.preload")),
)

DAY_FIELDS: tuple[Field, ...] = (
    Number("gust_m_s", "m_s", 0, 60, say("remedy.gust_m_s")),
    Bearing("wind_from_deg", "wind_from_clock", _WIND),
    Number("temperature_degc", "degc", -60, 60, say("remedy.temperature_degc")),
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
