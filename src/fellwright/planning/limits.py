"""Every threshold of a verdict, with its mark and its reason. Nothing decides by a bare number."""

from dataclasses import dataclass

__all__ = ["ALL_LIMITS", "Limit"]


@dataclass(frozen=True, slots=True)
class Limit:
    """One threshold: key, value, unit and mark (SEEN, PRACTICE, OWN, MEMORY).

    Its name and reason stand in the catalogue under ``assumed.<key>`` and ``assumed.<key>_why``.
    """

    key: str
    value: float
    unit: str
    mark: str


JOINT_SHARE = Limit("limit_joint_share_of_draws", 0.90, "", "OWN")
PUSH_MARGIN = Limit("limit_push_margin", 1.3, "", "PRACTICE")
SIDE_USE_EASY = Limit("limit_side_use_median", 0.25, "", "OWN")
SIDE_USE_MOST = Limit("limit_side_use_most", 0.45, "", "OWN")
EARLY_GO_MOST = Limit("limit_early_go_ratio", 1.0, "", "OWN")
SPLITTING_EASY = Limit("limit_splitting_low", 0.5, "", "OWN")
SPLITTING_MOST = Limit("limit_splitting_most", 1.0, "", "OWN")
HINGE_TENSION_MPA = Limit("limit_net_hinge_tension", 12.5, "MPa", "SEEN")
TIGHT_PUSH_SHARE = Limit("limit_push_quantile_of_tight", 0.75, "", "OWN")
ROOM_GAP_MM = Limit("limit_gap_between_bar_and_device", 20.0, "mm", "PRACTICE")
BEDDING_IN_MM = Limit("limit_bedding_in", 4.0, "mm", "OWN")
LEAST_SEAT_MM = Limit("limit_least_seat", 50.0, "mm", "PRACTICE")
LEAST_WALL_RATIO = Limit("limit_wall_over_radius", 0.30, "", "MEMORY")
LARGEST_LEAN_DEG = Limit("limit_lean", 15.0, "deg", "OWN")
DBH_LOW_CM = Limit("limit_smallest_dbh", 10.0, "cm", "OWN")
DBH_HIGH_CM = Limit("limit_largest_dbh", 120.0, "cm", "OWN")
HEIGHT_LOW_M = Limit("limit_least_height", 5.0, "m", "OWN")
HEIGHT_HIGH_M = Limit("limit_greatest_height", 45.0, "m", "OWN")
RING_LENGTHS = Limit("limit_ring", 2.0, "tree lengths", "SEEN")
FROST_DEGC = Limit("limit_frost", 0.0, "degC", "PRACTICE")
BATTERY_CAUTION = Limit("limit_battery", 2.0, "x need", "PRACTICE")
BLUNTEST_SLOT_DEG = Limit("limit_slot_ramp", 3.0, "deg", "PRACTICE")
STEP_MM = Limit("limit_step_of_the_back_cut", 35.0, "mm", "PRACTICE")
STEEL_STEP_MM = Limit("limit_release_cut_off_the_steel", 20.0, "mm", "PRACTICE")
RIM_MM = Limit("limit_contact_behind_the_rim", 30.0, "mm", "OWN")
NOTCH_SHARE = Limit("limit_notch_share_proposed", 0.20, "", "PRACTICE")
NOTCH_OPENING_DEG = Limit("limit_notch_opening", 45.0, "deg", "PRACTICE")
HINGE_SHARE = Limit("limit_hinge_share_proposed", 0.10, "", "PRACTICE")
HINGE_MOST_MM = Limit("limit_hinge_proposed_most", 60.0, "mm", "OWN")
FASTENING_SHARE = Limit("limit_fastening_height", 0.40, "of height", "OWN")
GUY_ELEVATION_DEG = Limit("limit_guy_elevation", 30.0, "deg", "OWN")
TRIGGER_SHARE = Limit("limit_leave_the_stump_by", 0.8, "of balance lift", "PRACTICE")

ALL_LIMITS: tuple[Limit, ...] = tuple(v for v in list(globals().values()) if isinstance(v, Limit))
