"""A plan: how it was asked for, and everything the answer holds."""

from dataclasses import dataclass, field

from fellwright.planning.assumed import Assumed
from fellwright.planning.chance import DRAWS_DEFAULT, SEED_DEFAULT
from fellwright.planning.drawn import Drawing, draw_plainly
from fellwright.planning.envelope import Envelope
from fellwright.planning.helps import Help
from fellwright.planning.marks import Marks
from fellwright.planning.measure_next import MeasureNext
from fellwright.planning.need import Situation
from fellwright.planning.reasons import ADDS_UP, LINE, TIGHT, Reason
from fellwright.planning.scenario import Outcome
from fellwright.planning.situation import CutPlan
from fellwright.planning.tree_model import TreeModel
from fellwright.records.tree import Tree
from fellwright.tables.profiles import Profile
from fellwright.words import Text

__all__ = ["Options", "Plan"]


@dataclass(frozen=True, slots=True)
class Options:
    """How to answer: draws (a power of two), seed, whether to stop at the bare verdict, profile.

    ``drawing`` works the draws out, in plain Python or compiled; the answer is the same.
    """

    draws: int = DRAWS_DEFAULT
    seed: int = SEED_DEFAULT
    bare: bool = False
    profile: Profile | None = None
    drawing: Drawing = field(default=draw_plainly, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Plan:
    """The answer for one tree. Figures are None where they cannot or must not be had."""

    tree: Tree
    verdict: str
    reasons: tuple[Reason, ...]
    if_clear: str
    options: Options
    model: TreeModel | None = None
    cut: CutPlan | None = None
    situation: Situation | None = None
    outcome: Outcome | None = None
    marks: Marks | None = None
    measure_next: MeasureNext | None = None
    envelope: Envelope | None = None
    helps: tuple[Help, ...] = ()
    cautions: tuple[Reason, ...] = ()
    assumed: tuple[Assumed, ...] = ()
    conditions: tuple[Text, ...] = ()

    @property
    def may_cut(self) -> bool:
        """Whether hinge, notch, marks and turns may be shown."""
        return self.verdict in (ADDS_UP, TIGHT, LINE)

    @property
    def drives_device(self) -> bool:
        """Whether a device is driven: not where the tree goes by itself, hinge first."""
        return self.outcome is not None and not self.outcome.goes_by_itself
