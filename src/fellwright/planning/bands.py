"""Doubt of everything that is drawn: bands of assumed quantities and errors of readings."""

from dataclasses import dataclass

__all__ = ["Band", "ReadingError"]


@dataclass(frozen=True, slots=True)
class Band:
    """A quantity drawn uniformly (or log-uniformly) between two bounds.

    Its name and reason stand in the catalogue under ``assumed.<key>`` and ``assumed.<key>_why``.
    """

    key: str
    low: float
    high: float
    unit: str
    mark: str


@dataclass(frozen=True, slots=True)
class ReadingError:
    """One sigma of a reading, as usually taken, as best taken, and where it is only estimated."""

    key: str
    usual: float
    best: float
    estimated: float
    unit: str
    mark: str


RESIDUAL = Band("hinge_after_its_peak_share_kept", 0.3, 1.0, "", "OWN")
FIBRE = Band("free_fibre_length_over_hinge_thickness", 1.0, 3.0, "", "OWN")
CONTACT = Band("share_of_the_plate_in_contact", 0.7, 1.0, "", "OWN")
PLATE_FRICTION = Band("friction_of_plate_on_green_wood", 0.15, 0.30, "", "OWN")
ICED_FRICTION = Band("friction_of_plate_on_frozen_wood", 0.02, 0.10, "", "OWN")
WRENCH = Band("steady_torque_over_rated_torque", 0.35, 0.70, "", "PRACTICE")
EFFICIENCY = {
    "greased": Band("drive_efficiency_greased", 0.06, 0.10, "", "OWN"),
    "half": Band("drive_efficiency_half_greased", 0.04, 0.065, "", "OWN"),
    "dry": Band("drive_efficiency_dry", 0.02, 0.04, "", "OWN"),
}
THREAD_FRICTION = {
    "greased": Band("thread_and_face_friction_greased", 0.11, 0.17, "", "OWN"),
    "half": Band("thread_and_face_friction_half_greased", 0.15, 0.24, "", "OWN"),
    "dry": Band("thread_and_face_friction_dry", 0.20, 0.40, "", "OWN"),
}
BATTERY_SHARE = Band("battery_energy_that_reaches_the_spindle", 0.3, 0.5, "", "MEMORY")
FLANK = Band("flank_bearing_over_the_elastic_limit_across_the_grain", 1.0, 2.0, "", "OWN")
ACROSS_CV = 0.32
"""OWN: 28 % from tree to tree, [ASTM-D2555], and 16 % left by the regression on density."""
BLOW_SPEED = Band("speed_of_the_hammer", 6.0, 9.0, "m/s", "MEMORY")
WEDGE_STIFFNESS = Band("axial_stiffness_of_a_driven_wedge", 5e6, 2e7, "N/m", "MEMORY")
DRAG = Band("drag_over_the_published_coefficient", 0.71, 1.41, "", "OWN")
TOUGHNESS_J_PER_M2 = 300.0
TOUGHNESS_CV = 0.25
TOUGHNESS = Band("fracture_energy_of_green_wood_along_the_grain", 100.0, 500.0, "J/m2", "MEMORY")
RESTITUTION = 0.3
WEDGE_KG = 0.5
SPLIT_PRONE_RATIO = 1.5
"""PRACTICE: splitting index of species known to split, of frozen and of forked stems."""

FORM_RATIO = 0.08
DENSITY_RATIO = 0.14
MASS_RATIO = (FORM_RATIO**2 + DENSITY_RATIO**2) ** 0.5
CROWN_RATIO = 0.25
BALANCE_RATIO = 0.09

LEAN = ReadingError("error_lean", 0.12, 0.12, 0.43, "m", "PRACTICE")
DBH = ReadingError("error_dbh", 0.006, 0.003, 0.006, "m", "PRACTICE")
HEIGHT = ReadingError("error_height", 0.04, 0.02, 0.12, "of itself", "PRACTICE")
STUMP = ReadingError("error_stump_width", 0.010, 0.005, 0.10, "m", "PRACTICE")
HINGE = ReadingError("error_hinge_as_cut", 0.006, 0.003, 0.006, "m", "PRACTICE")
NOTCH = ReadingError("error_notch_depth", 0.02, 0.01, 0.02, "of stump", "PRACTICE")
CROWN = ReadingError("error_crown", 0.25, 0.15, 0.35, "of its mass", "PRACTICE")
WALL = ReadingError("error_sound_wall", 0.03, 0.01, 0.03, "m", "PRACTICE")
LEAN_UNKNOWN_LOW_M = -0.5
LEAN_UNKNOWN_HIGH_M = 1.0
