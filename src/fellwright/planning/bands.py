"""Doubt of everything that is drawn: bands of assumed quantities and errors of readings."""

from dataclasses import dataclass

__all__ = ["Band", "ReadingError"]


@dataclass(frozen=True, slots=True)
class Band:
    """A quantity drawn uniformly (or log-uniformly) between two bounds."""

    name: str
    low: float
    high: float
    unit: str
    mark: str
    reason: str

    @property
    def text(self) -> str:
        """Bounds as shown to a person."""
        return f"{self.low:g} to {self.high:g} {self.unit}".strip()


@dataclass(frozen=True, slots=True)
class ReadingError:
    """One sigma of a reading, as usually taken, as best taken, and where it is only estimated."""

    name: str
    usual: float
    best: float
    estimated: float
    unit: str
    best_how: str
    mark: str


RESIDUAL = Band(
    "hinge after its peak, share kept", 0.3, 1.0, "", "OWN", "no rotation test of a hinge published"
)
FIBRE = Band(
    "free fibre length over hinge thickness", 1.0, 3.0, "", "OWN", "never fitted to a test"
)
CONTACT = Band("share of the plate in contact", 0.7, 1.0, "", "OWN", "uneven seat")
PLATE_FRICTION = Band(
    "friction of plate on green wood", 0.15, 0.30, "", "OWN", "sap, resin, polish"
)
ICED_FRICTION = Band("friction of plate on frozen wood", 0.03, 0.10, "", "OWN", "film of ice")
WRENCH = Band(
    "steady torque over rated torque", 0.35, 0.70, "", "PRACTICE", "a wrench gives pulses"
)
EFFICIENCY = {
    "greased": Band("drive efficiency, greased", 0.06, 0.10, "", "OWN", "torque to lift"),
    "half": Band("drive efficiency, half greased", 0.04, 0.065, "", "OWN", "torque to lift"),
    "dry": Band("drive efficiency, dry", 0.02, 0.04, "", "OWN", "torque to lift"),
}
THREAD_FRICTION = {
    "greased": Band("thread and face friction, greased", 0.11, 0.15, "", "OWN", "lubricated steel"),
    "half": Band("thread and face friction, half greased", 0.15, 0.20, "", "OWN", "mixed film"),
    "dry": Band("thread and face friction, dry", 0.20, 0.30, "", "OWN", "dirt and rust"),
}
BATTERY_SHARE = Band(
    "battery energy that reaches the spindle", 0.3, 0.5, "", "MEMORY", "motor, hammer, heat"
)
BLOW_SPEED = Band("speed of the hammer", 6.0, 9.0, "m/s", "MEMORY", "a two-handed swing")
WEDGE_STIFFNESS = Band(
    "axial stiffness of a driven wedge", 5e6, 2e7, "N/m", "MEMORY", "assumed about 1e7"
)
DRAG = Band(
    "drag over the published coefficient", 0.71, 1.41, "", "OWN", "published sets differ by two"
)
TOUGHNESS_J_PER_M2 = 300.0
TOUGHNESS_CV = 0.25
TOUGHNESS = Band(
    "fracture energy of green wood along the grain",
    100.0,
    500.0,
    "J/m2",
    "MEMORY",
    "lognormal about 300 with 25 %",
)
RESTITUTION = 0.3
WEDGE_KG = 0.5
SPLIT_PRONE_RATIO = 1.5
"""PRACTICE: splitting index of species known to split, of frozen and of forked stems."""

FORM_RATIO = 0.08
DENSITY_RATIO = 0.07
MASS_RATIO = (FORM_RATIO**2 + DENSITY_RATIO**2) ** 0.5
CROWN_RATIO = 0.25
BALANCE_RATIO = 0.07

LEAN = ReadingError("lean", 0.12, 0.12, 0.43, "m", "plumb line from two sides", "PRACTICE")
DBH = ReadingError("dbh", 0.006, 0.003, 0.006, "m", "tape, twice", "PRACTICE")
HEIGHT = ReadingError("height", 0.04, 0.02, 0.12, "of itself", "clinometer, two sights", "PRACTICE")
STUMP = ReadingError(
    "stump width", 0.010, 0.005, 0.10, "m", "tape through both marks, after trimming", "PRACTICE"
)
HINGE = ReadingError(
    "hinge as cut", 0.006, 0.003, 0.006, "m", "bark marks on both sides", "PRACTICE"
)
NOTCH = ReadingError("notch depth", 0.02, 0.01, 0.02, "of stump", "tape in the notch", "PRACTICE")
CROWN = ReadingError(
    "crown",
    0.25,
    0.15,
    0.35,
    "of its mass",
    "radius by paces on four sides, base sighted",
    "PRACTICE",
)
WALL = ReadingError("sound wall", 0.03, 0.01, 0.03, "m", "three test bores", "PRACTICE")
LEAN_UNKNOWN_LOW_M = -0.5
LEAN_UNKNOWN_HIGH_M = 1.0
