"""What a rule of practice may speak of: subjects, their dimension, units, and the cases of a rule.

A subject without a dimension is a plain demand ("wedges follow the jack"). A profile that needs
words of its own uses the subject `note` with a text.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from fellwright import units

__all__ = [
    "BASES",
    "CASES",
    "FORCES",
    "LARGEST",
    "NOTE",
    "SUBJECTS",
    "THRESHOLDS",
    "UNITS",
    "is_conflict",
]

LAW = "law"
GUIDANCE = "guidance"
CONFLICT = "conflict"
FORCES = (LAW, GUIDANCE, CONFLICT)
"""Law binds where it holds; guidance advises; a conflict says that sources disagree."""

NOTE = "note"
BASES = ("stump", "dbh")
"""Diameter of which a share is taken."""

_SIZES = {"mm": 1.0 / units.MM_PER_M, "cm": 1.0 / units.CM_PER_M, "in": units.M_PER_IN}

UNITS: Mapping[str, Mapping[str, float]] = MappingProxyType(
    {
        "share": {"share": 1.0, "percent": 0.01},
        "angle": {"deg": units.RAD_PER_DEG},
        "size": _SIZES,
        "diameter": _SIZES,
        "distance": {"m": 1.0, "ft": units.M_PER_FT},
        "lengths": {"tree lengths": 1.0},
        "times": {"times": 1.0},
        "count": {"count": 1.0},
        "density": {"per ha": 1.0},
    }
)
"""Dimension -> unit as a profile writes it -> factor to what planning works in (SI, shares)."""

LARGEST: Mapping[str, float] = MappingProxyType(
    {
        "share": 1.0,
        "angle": 180.0 * units.RAD_PER_DEG,
        "size": 1.0,
        "diameter": 5.0,
        "distance": 1000.0,
        "lengths": 10.0,
        "times": 100.0,
        "count": 100.0,
        "density": 10000.0,
    }
)
"""Dimension -> largest value a rule may hold, in what planning works in."""

SUBJECTS: Mapping[str, str] = MappingProxyType(
    {
        # Cuts
        "notch_share": "share",
        "notch_opening": "angle",
        "notch_crossing": "",
        "notch_needed_over": "diameter",
        "notch_cleaned": "",
        "hinge": "size",
        "hinge_share": "share",
        "hinge_length_share": "share",
        "hinge_left": "",
        "step": "size",
        "step_share": "share",
        "back_cut_above": "",
        "back_cut_clear": "",
        "forward_leaner_cut": "",
        "lever_most": "diameter",
        "no_sawing_in_fall": "",
        # Wedges and jacks
        "wedges_ready": "count",
        "wedge_used": "",
        "wedge_driver": "",
        "wedge_in_time": "",
        "wedge_or_rope": "",
        "aid_at_hand": "",
        "dead_tree_wedging": "",
        "struck_wedge": "",
        "rope_in_leaf": "",
        "jack_follow_up": "",
        "jack_plate": "",
        "jack_gauge": "",
        "jack_uphill": "",
        "jack_people": "count",
        # Lines
        "line_strength": "times",
        "rope_lengths": "lengths",
        "rope_slack": "",
        "rope_inner_angle": "",
        "rope_straight": "",
        "rope_signals": "",
        "rope_feller_decides": "",
        "rope_by_hand": "",
        # People and place
        "ring": "lengths",
        "ring_metres": "distance",
        "danger_tree_ring": "lengths",
        "machines_ring": "lengths",
        "feller_separation": "distance",
        "bystanders_out": "",
        "second_person": "",
        "warning_call": "",
        "ways_out": "count",
        "way_out_angle": "angle",
        "way_out_length": "distance",
        "way_out_from_stem": "distance",
        "way_out_diagonal": "",
        "way_out_past_crown": "",
        "pushing": "",
        "roads_closed": "",
        "road_signs": "distance",
        "emergency_plan": "",
        "slope_order": "",
        "slope_quartered": "share",
        "felling_uphill": "",
        # Tree and day
        "wind": "",
        "weather": "",
        "daylight": "",
        "ice_and_snow": "",
        "loose_bark": "",
        "snags_by_hand": "density",
        "no_hand_felling": "",
        "fork_method": "distance",
        "felling_into_felling": "",
        "hung_tree": "",
        "hung_tree_left": "",
        "cut_tree_left": "",
        "line_clearance": "distance",
        "line_reach": "lengths",
        # Where sources disagree
        "conflict_notch_share": "share",
        "conflict_notch_tests": "share",
        "conflict_notch_opening": "angle",
        "conflict_step": "size",
        "conflict_step_share": "share",
        "conflict_diameter": "",
        "conflict_notch_needed": "diameter",
        "conflict_back_cut": "",
        "conflict_lever": "diameter",
        "conflict_ring": "lengths",
        "conflict_way_out": "distance",
        "conflict_hung_freeing": "",
        "conflict_hung_pieces": "",
        "conflict_rope_slack": "",
        "conflict_dead_wedging": "",
        "conflict_wind": "",
        "conflict_alone": "",
        NOTE: "",
    }
)
"""Subject -> its dimension, empty for a plain demand."""

THRESHOLDS: Mapping[str, str] = MappingProxyType(
    {
        "notch_needed_over": "high",
        "ring": "low",
        "ring_metres": "low",
        "danger_tree_ring": "low",
        "machines_ring": "low",
        "slope_quartered": "high",
        "snags_by_hand": "high",
        "fork_method": "high",
    }
)
"""Subjects whose words say already on which side the rule lies, and the one bound they take."""

CASES = (
    "conventional notch",
    "open face",
    "reverse notch",
    "felling lever",
    "hydraulic ram",
    "pull line",
    "forward leaner",
    "lean not predictable",
    "damaged tree",
    "hung tree",
    "fork",
    "broadleaf",
)
"""Words by which a rule says when it applies; all that it names must hold."""


def is_conflict(subject: str) -> bool:
    """Whether a subject says that sources disagree."""
    return subject.startswith("conflict_")
