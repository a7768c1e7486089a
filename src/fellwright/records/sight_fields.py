"""Every key of a request to a measuring helper, with its limits and what to do out of them."""

from __future__ import annotations

from fellwright.records.bearing_field import FIRST_HOUR, LAST_HOUR
from fellwright.records.number_fields import Number, NumberList
from fellwright.records.table_reader import Field
from fellwright.records.tree_fields import SIGHTED_AT
from fellwright.records.word_fields import Choice, Flag
from fellwright.words import say

DISTANCE_IS = {"level": "level", "along the ground": "ground", "eye to foot": "eye"}
ANGLE_BY = {"hand clinometer": "hand", "phone": "phone"}

MOST_READINGS = 24
LEAST_LEVEL_READINGS = 3
LEAST_DIRECTIONS = 2

HEIGHT_FIELDS: tuple[Field, ...] = (
    Choice("distance_is", DISTANCE_IS, say("sight.do_distance_is"), required=True),
    Number("distance_m", "m", 1.0, 200.0, say("sight.do_distance")),
    Number("paces", "", 1.0, 400.0, say("sight.do_distance")),
    Number("pace_length_m", "m", 0.3, 1.5, say("sight.do_pace")),
    Number("top_deg", "deg", -30.0, 85.0, say("sight.do_top"), required=True),
    Number("foot_deg", "deg", -85.0, 60.0, say("sight.do_foot"), required=True),
    Choice("angle_by", ANGLE_BY, say("sight.do_angle_by"), required=True),
    Number("angle_error_deg", "deg", 0.01, 10.0, say("sight.do_angle_error")),
    Number("zero_deg", "deg", -5.0, 5.0, say("sight.do_level")),
    Number("eye_height_m", "m", 0.3, 2.5, say("sight.do_eye")),
)

PLUMB_FIELDS: tuple[Field, ...] = (
    Choice("sighted_at", SIGHTED_AT, say("sight.do_sighted_at"), required=True),
    Number("dbh_cm", "cm", 1.0, 1000.0, say("sight.do_girth")),
    Number("lay_deg", "deg", 0.0, 360.0, say("sight.do_lay")),
)

STATION_FIELDS: tuple[Field, ...] = (
    Number("bearing_deg", "deg", 0.0, 360.0, say("sight.do_bearing")),
    Number("bearing_clock", "", FIRST_HOUR, LAST_HOUR, say("sight.do_bearing")),
    Number("bearing_error_deg", "deg", 0.1, 45.0, say("sight.do_bearing")),
    Number("right_m", "m", -15.0, 15.0, say("sight.do_right")),
    Number("right_widths", "", -30.0, 30.0, say("sight.do_right")),
    Number("distance_m", "m", 2.0, 200.0, say("sight.do_distance")),
)

GIRTH_FIELDS: tuple[Field, ...] = (
    Number("girth_cm", "cm", 3.2, 3141.0, say("sight.do_girth"), required=True),
    Number("girth_error_cm", "cm", 0.1, 100.0, say("sight.do_girth")),
)

CROWN_FIELDS: tuple[Field, ...] = (
    NumberList(Number("paces", "", 0.1, 80.0, say("sight.do_crown")), MOST_READINGS, required=True),
    Number("pace_length_m", "m", 0.3, 1.5, say("sight.do_pace"), required=True),
)

BORE_FIELDS: tuple[Field, ...] = (
    NumberList(
        Number("bores_cm", "cm", 0.1, 700.0, say("sight.do_bore")), MOST_READINGS, required=True
    ),
    Flag("over_bark", say("sight.do_over_bark"), required=True),
    Number("bark_cm", "cm", 0.0, 50.0, say("sight.do_bark")),
)

LEVEL_FIELDS: tuple[Field, ...] = (
    NumberList(
        Number("first_deg", "deg", -90.0, 90.0, say("sight.do_level")), MOST_READINGS, required=True
    ),
    NumberList(
        Number("turned_deg", "deg", -90.0, 90.0, say("sight.do_level")),
        MOST_READINGS,
        required=True,
    ),
)
