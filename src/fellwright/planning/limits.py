"""Every threshold of a verdict, with its mark and its reason. Nothing decides by a bare number."""

from dataclasses import dataclass

__all__ = ["ALL_LIMITS", "Limit"]


@dataclass(frozen=True, slots=True)
class Limit:
    """One threshold: name, value, unit, mark (SEEN, PRACTICE, OWN, MEMORY) and reason."""

    name: str
    value: float
    unit: str
    mark: str
    reason: str


JOINT_SHARE = Limit(
    "joint share of draws", 0.90, "", "OWN", "lift, push, seat, hold and drive together"
)
PUSH_MARGIN = Limit(
    "push margin", 1.3, "", "PRACTICE", "median push available over median push needed"
)
SIDE_USE_EASY = Limit("side use, median", 0.25, "", "OWN", "judgement: no test of hinges found")
SIDE_USE_MOST = Limit("side use, most", 0.45, "", "OWN", "judgement: no test of hinges found")
EARLY_GO_MOST = Limit(
    "early-go ratio", 1.0, "", "OWN", "the tree would start before the hinge is reached"
)
SPLITTING_EASY = Limit("splitting, low", 0.5, "", "OWN", "energy released over fracture energy")
SPLITTING_MOST = Limit("splitting, most", 1.0, "", "OWN", "energy released over fracture energy")
HINGE_TENSION_MPA = Limit(
    "net hinge tension", 12.5, "MPa", "SEEN", "a quarter of the strength, [Gullberg-hinge]"
)
TIGHT_PUSH_SHARE = Limit(
    "push quantile of TIGHT", 0.75, "", "OWN", "median available against upper quartile needed"
)
ROOM_GAP_MM = Limit("gap between bar and device", 20.0, "mm", "PRACTICE", "chain and steel apart")
BEDDING_IN_MM = Limit("bedding-in", 4.0, "mm", "OWN", "lift that closes slack before it lifts")
LEAST_SEAT_MM = Limit("least seat", 50.0, "mm", "PRACTICE", "a shorter one flies out")
LEAST_WALL_RATIO = Limit(
    "wall over radius", 0.30, "", "MEMORY", "shell rule for standing hollow trees"
)
LARGEST_LEAN_DEG = Limit("lean", 15.0, "deg", "OWN", "outside what this arithmetic knows")
DBH_LOW_CM = Limit("smallest dbh", 10.0, "cm", "OWN", "outside what this arithmetic knows")
DBH_HIGH_CM = Limit("largest dbh", 120.0, "cm", "OWN", "outside what this arithmetic knows")
HEIGHT_LOW_M = Limit("least height", 5.0, "m", "OWN", "outside what this arithmetic knows")
HEIGHT_HIGH_M = Limit("greatest height", 45.0, "m", "OWN", "outside what this arithmetic knows")
RING_LENGTHS = Limit("ring", 2.0, "tree lengths", "SEEN", "people zone, [OSHA-eTool]")
FROST_DEGC = Limit("frost", 0.0, "degC", "PRACTICE", "ice under plates, brittle hinges")
BATTERY_CAUTION = Limit("battery", 2.0, "x need", "PRACTICE", "charge against one tree's need")
BLUNTEST_SLOT_DEG = Limit("slot ramp", 3.0, "deg", "PRACTICE", "flatter than the device")
STEP_MM = Limit("step of the back cut", 35.0, "mm", "PRACTICE", "30 to 40 mm over the notch floor")
STEEL_STEP_MM = Limit(
    "release cut off the steel", 20.0, "mm", "PRACTICE", "chain and steel share no plane"
)
RIM_MM = Limit(
    "contact behind the rim", 30.0, "mm", "OWN", "middle of a 50 mm seat, a little further in"
)
NOTCH_SHARE = Limit(
    "notch share proposed", 0.20, "", "PRACTICE", "a fifth for trees that are wedged"
)
NOTCH_OPENING_DEG = Limit("notch opening", 45.0, "deg", "PRACTICE", "45 to 60 degrees")
HINGE_SHARE = Limit("hinge share proposed", 0.10, "", "PRACTICE", "a tenth of the stump")
HINGE_MOST_MM = Limit(
    "hinge proposed, most", 60.0, "mm", "OWN", "thicker ones cost push for nothing"
)
FASTENING_SHARE = Limit(
    "fastening height", 0.40, "of height", "OWN", "reached by pole or throw line"
)
GUY_ELEVATION_DEG = Limit("guy elevation", 30.0, "deg", "OWN", "steeper lines load the hinge")
TRIGGER_SHARE = Limit(
    "leave the stump by", 0.8, "of balance lift", "PRACTICE", "before the tree can go"
)

ALL_LIMITS: tuple[Limit, ...] = tuple(v for v in list(globals().values()) if isinstance(v, Limit))
