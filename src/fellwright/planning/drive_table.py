"""How the chosen device is driven: turn by turn, or millimetre by millimetre, up to its stop."""

import math
from dataclasses import dataclass

from fellwright.physics.power_screw import turns_count
from fellwright.planning import limits
from fellwright.planning.chance import Doubt
from fellwright.planning.drive_train import Driven
from fellwright.planning.judge_tree import TreeFigures
from fellwright.planning.plan import Plan
from fellwright.planning.reasons import LINE, say_verdict
from fellwright.words import Text, say

__all__ = [
    "BALANCE",
    "BED_IN",
    "GOES",
    "MM",
    "STOP",
    "TURNS",
    "DriveRow",
    "DriveStage",
    "DriveTable",
    "drive_table",
    "no_drive_reason",
]

BED_IN, BALANCE, GOES, STOP = "bed in", "balance", "goes", "stop"
TURNS, MM = "turns", "mm"
MOST_ROWS = 60
STEPS_MM = (1.0, 2.0, 5.0, 10.0, 20.0)
NEARLY = 1e-9


@dataclass(frozen=True, slots=True)
class DriveRow:
    """One count: turns (None where openings are counted), opening [m], stage, whether remote."""

    turns: float | None
    opening_m: float
    stage: str
    is_remote: bool


@dataclass(frozen=True, slots=True)
class DriveStage:
    """A stage: its P10, P50 and P90 in turns, or in metres of opening; one figure thrice is known.

    ``past_stop`` says that its P90 lies past the stop.
    """

    key: str
    at: Doubt
    past_stop: bool


@dataclass(frozen=True, slots=True)
class DriveTable:
    """All counts of one device, its stages, the count to leave the stump by, and the stop.

    Counts are turns, or metres of opening where a device has no turns. ``leave_by`` is rounded down
    to a whole one; it is None for what is driven with a hammer, which nobody drives from outside.
    """

    name: str
    unit: str
    rows: tuple[DriveRow, ...]
    stages: tuple[DriveStage, ...]
    leave_by: float | None
    stop: float


def no_drive_reason(plan: Plan) -> Text | None:
    """Why a plan has no driving table; None where it has one.

    Parameters
    ----------
    plan : Plan
        The plan.

    Returns
    -------
    Text or None
        What stands against it: a verdict without cutting figures, a tree that goes by itself or is
        pulled by a line, or several devices that work as one.
    """
    if not plan.may_cut or plan.marks is None:
        return say("drive.no_cut", verdict=say_verdict(plan.verdict))
    assert plan.outcome is not None
    if not plan.drives_device:
        return say("drive.by_itself")
    choice = plan.outcome.choice
    pulled = any(line.purpose == "pull line" for line in plan.outcome.lines)
    # Where no device serves and something may be cut, a line does it.
    if (pulled and plan.verdict == LINE) or choice is None or choice.driven is None:
        return say("drive.pulled")
    if choice.driven.joined:
        return say("drive.joined", name=choice.driven.device.name)
    return None


def drive_table(plan: Plan) -> DriveTable | None:
    """Lay out the driving of the chosen device.

    Parameters
    ----------
    plan : Plan
        The plan.

    Returns
    -------
    DriveTable or None
        Rows from closed to the stop, never past it. None where nothing is driven, or where the
        counts of one device do not tell the lift; see :func:`no_drive_reason`.
    """
    if no_drive_reason(plan) is not None:
        return None
    assert plan.outcome is not None
    choice = plan.outcome.choice
    assert choice is not None
    assert choice.driven is not None
    assert plan.marks is not None
    count = _Count(choice.driven, plan.outcome.figures, plan.marks.turns is not None)
    return DriveTable(
        name=choice.driven.device.name,
        unit=TURNS if count.by_turns else MM,
        rows=_rows(count),
        stages=_stages(count),
        leave_by=count.leave_by,
        stop=count.stop,
    )


@dataclass(frozen=True, slots=True)
class _Count:
    """Openings of the device at which something happens [m], and how they are counted."""

    driven: Driven
    figures: TreeFigures
    by_turns: bool

    def of(self, opening_m: float) -> float:
        """Turns, or metres of opening."""
        if not self.by_turns:
            return opening_m
        return turns_count(opening_m, self.driven.figures.lift_per_turn_m)

    @property
    def bed_in(self) -> float:
        return self.of(self.driven.figures.lost_m)

    @property
    def stop(self) -> float:
        return self.of(self.driven.figures.lift_m)

    @property
    def leave_by(self) -> float | None:
        if self.driven.drive.hammer_kg is not None:
            return None
        share = limits.TRIGGER_SHARE.value
        at = self.bed_in + self.of(share * self.figures.balance_lift_m.p10)
        return self.whole(at)

    def whole(self, at: float) -> float:
        """Whole turns or millimetres, down."""
        one = 1.0 if self.by_turns else 0.001
        return one * math.floor(at / one * (1.0 + NEARLY))

    def reach(self, lift: Doubt) -> Doubt:
        """Counts at which the tree has been lifted so far, bedding in first."""
        p10, p50, p90 = (self.bed_in + self.of(value) for value in lift)
        return Doubt(p10, p50, p90)


def _stages(count: _Count) -> tuple[DriveStage, ...]:
    found = []
    for key, at in (
        (BED_IN, Doubt(*[count.bed_in] * 3)),
        (BALANCE, count.reach(count.figures.balance_lift_m)),
        (GOES, count.reach(count.figures.let_go_lift_m)),
        (STOP, Doubt(*[count.stop] * 3)),
    ):
        found.append(DriveStage(key, at, past_stop=at.p90 > count.stop * (1.0 + NEARLY)))
    return tuple(found)


def _rows(count: _Count) -> tuple[DriveRow, ...]:
    leave_by = count.leave_by
    return tuple(
        DriveRow(
            at if count.by_turns else None,
            _opening_m(count, at),
            _stage(count, at),
            # From the count by which the stump is left, everything is driven from outside.
            is_remote=leave_by is not None and at >= leave_by,
        )
        for at in _counts(count)
    )


def _counts(count: _Count) -> list[float]:
    """Whole turns, or whole steps of opening, and the stop itself as the last."""
    step = 1.0 if count.by_turns else _step_m(count.stop)
    whole = math.floor(count.stop / step * (1.0 + NEARLY))
    counts = [step * i for i in range(whole + 1)]
    # The stop itself ends the table, to the last bit: a whole count beside it is the same one.
    if count.stop - counts[-1] > NEARLY:
        return [*counts, count.stop]
    counts[-1] = count.stop
    return counts


def _step_m(stop_m: float) -> float:
    """Finest step that keeps the table short [m]."""
    for step_mm in STEPS_MM:
        if stop_m * 1000.0 / step_mm <= MOST_ROWS:
            return step_mm / 1000.0
    return STEPS_MM[-1] / 1000.0


def _opening_m(count: _Count, at: float) -> float:
    if not count.by_turns:
        return at
    figures = count.driven.figures
    return min(at * figures.lift_per_turn_m, figures.lift_m)


def _stage(count: _Count, at: float) -> str:
    """Stage at a count; a tree may go from the whole count before the P10 of its let-go on."""
    if at >= count.stop:
        return STOP
    if at < count.bed_in:
        return BED_IN
    return GOES if at >= count.whole(count.reach(count.figures.let_go_lift_m).p10) else BALANCE
