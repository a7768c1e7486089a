"""What happened: the stump card against what was predicted, by the same draws as the plan."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from fellwright.physics.aim_error import aim_error_rad, miss_m
from fellwright.planning import limits
from fellwright.planning.chance import Doubt, Points, doubt, draw_points
from fellwright.planning.drive_train import Driven
from fellwright.planning.need import Need, draw_need
from fellwright.planning.plan import Plan
from fellwright.records.stump_fields import StumpRecord
from fellwright.words import Text, say

__all__ = [
    "ABOVE",
    "BELOW",
    "IN_BAND",
    "LayError",
    "StumpFlag",
    "StumpReport",
    "StumpRow",
    "compare_stump",
]

IN_BAND, BELOW, ABOVE = "in", "below", "above"
TAPER_MM = 10.0
"""PRACTICE: a hinge thicker on one side by more than this leads the tree astray (K11)."""
UNEVEN_MM = 5.0
"""PRACTICE: a hinge is even within this on both sides."""
MISMATCH_MM = 10.0
"""PRACTICE: notch cuts that cross or miss by more than this close early (K11)."""
LAY_ERROR_DEG = 2.0
"""PRACTICE: a sighted tree comes down within this."""
NO_LET_GO = frozenset({"early go", "sat back", "split", "device came out"})
"""After these the lift read off the device is not the lift at let-go."""


@dataclass(frozen=True, slots=True)
class StumpRow:
    """One figure predicted and read, SI; ``kind`` is the unit in which a face writes it.

    ``percentile`` is the share of the draws below the real value, those equal to it counted half.
    ``counts`` says whether the pair may be learned from.
    """

    key: str
    kind: str
    predicted: Doubt | None
    planned: float | None
    real: float | None
    percentile: float | None
    place: str | None
    counts: bool
    text: Text


@dataclass(frozen=True, slots=True)
class LayError:
    """How far beside the lay it came down: angle [rad], side, and metres at a reach [m]."""

    error_rad: float
    side: str | None
    beside_m: float | None
    reach_m: float | None
    text: Text


@dataclass(frozen=True, slots=True)
class StumpFlag:
    """One thing to look at before the next tree."""

    code: str
    text: Text


@dataclass(frozen=True, slots=True)
class StumpReport:
    """Predicted against real for one tree; ``notes`` say what could not be compared, and why."""

    device: str | None
    rows: tuple[StumpRow, ...]
    lay: LayError | None
    flags: tuple[StumpFlag, ...]
    notes: tuple[Text, ...]


def compare_stump(plan: Plan, record: StumpRecord) -> StumpReport:
    """Compare a stump card with its plan.

    Parameters
    ----------
    plan : Plan
        The plan as it was made; a bare one serves.
    record : StumpRecord
        What was read on the stump; every entry may be missing.

    Returns
    -------
    StumpReport
        The bands are those of the plan's own draws, with the gust that was entered.
    """
    notes: list[Text] = []
    driven = _device(plan, record, notes)
    draws = _Draws.of(plan)
    if draws is None:
        notes.append(say("stump.no_prediction"))
    rows = (
        _lift_row(plan, record, driven, draws, notes),
        _hinge_row(plan, record, draws),
        _notch_row(plan, record, draws),
        _step_row(plan, record),
        _push_row(draws),
    )
    lay = _lay(plan, record)
    name = record.device if driven is None else driven.device.name
    return StumpReport(name, rows, lay, tuple(_flags(record, rows, lay)), tuple(notes))


@dataclass(frozen=True, slots=True)
class _Draws:
    """The draws of a plan, points and needs."""

    plan: Plan
    points: Sequence[Points]
    needs: Sequence[Need]

    @classmethod
    def of(cls, plan: Plan) -> "_Draws | None":
        """Draw again what the plan was judged on; None where it had no figures."""
        if plan.situation is None:
            return None
        points = draw_points(plan.options.draws, plan.options.seed)
        gust = 1.0 if plan.tree.day.gust_m_s else 0.0
        needs = [draw_need(u, plan.situation, gust) for u in points]
        return cls(plan, points, needs)

    def notches_m(self) -> list[float]:
        """Depth of the notch over bark in every draw [m]."""
        s = self.plan.situation
        assert s is not None
        return [
            n.notch_m + 0.5 * (s.stump_m + s.stump_sigma_m * u.z_stump - n.wood_m)
            for u, n in zip(self.points, self.needs, strict=True)
        ]


def _device(plan: Plan, record: StumpRecord, notes: list[Text]) -> Driven | None:
    """Find the device that was used: as the card names it, else the one that was chosen."""
    if plan.outcome is None:
        return None
    if record.device is None:
        choice = plan.outcome.choice if plan.drives_device else None
        return None if choice is None else choice.driven
    wanted = record.device.casefold()
    for outcome in plan.outcome.devices:
        if outcome.name.casefold() == wanted and outcome.driven is not None:
            return outcome.driven
    notes.append(say("stump.device_unknown", name=record.device))
    return None


def _lift_row(
    plan: Plan,
    record: StumpRecord,
    driven: Driven | None,
    draws: _Draws | None,
    notes: list[Text],
) -> StumpRow:
    """Opening of the device when it went: lift at let-go and what was lost to bedding in."""
    real = None if record.lift_used_mm is None else record.lift_used_mm / 1000.0
    if record.turns_used is not None:
        per_turn = 0.0 if driven is None else driven.figures.lift_per_turn_m
        if per_turn > 0.0 and driven is not None and not driven.joined:
            real = record.turns_used * per_turn
        else:
            notes.append(say("stump.turns_tell_nothing"))
    values = None
    if draws is not None and (plan.drives_device or record.device is not None):
        lost = limits.BEDDING_IN_MM.value / 1000.0 if driven is None else driven.figures.lost_m
        notes.append(say("stump.bedding", lost=lost))
        values = [n.let_go_lift_m + lost for n in draws.needs]
    counts = not NO_LET_GO & set(record.went)
    return _row("lift", "lift", values, real, counts=counts)


def _hinge_row(plan: Plan, record: StumpRecord, draws: _Draws | None) -> StumpRow:
    """Mean thickness of the hinge as cut."""
    read = [
        thickness / 1000.0
        for thickness in (record.hinge_left_mm, record.hinge_mid_mm, record.hinge_right_mm)
        if thickness is not None
    ]
    real = sum(read) / len(read) if read else None
    values = None if draws is None else [n.hinge_m for n in draws.needs]
    planned = None if plan.cut is None else plan.cut.hinge_m
    return _row("hinge", "lift", values, real, planned=planned)


def _notch_row(plan: Plan, record: StumpRecord, draws: _Draws | None) -> StumpRow:
    real = None if record.notch_depth_cm is None else record.notch_depth_cm / 100.0
    values = None if draws is None else draws.notches_m()
    planned = None
    if plan.cut is not None and plan.model is not None:
        planned = plan.cut.notch_share * plan.model.stump_m
    return _row("notch", "mark", values, real, planned=planned)


def _step_row(plan: Plan, record: StumpRecord) -> StumpRow:
    """Step of the back cut: planned, and not drawn."""
    real = None if record.step_mm is None else record.step_mm / 1000.0
    planned = None if plan.cut is None else plan.cut.step_m
    text = say("stump.step_not_read")
    if real is not None:
        text = say("stump.step_alone", real=real)
        if planned is not None:
            text = say("stump.step", real=real, planned=planned)
    return StumpRow("step", "lift", None, planned, real, None, None, counts=False, text=text)


def _push_row(draws: _Draws | None) -> StumpRow:
    """Push: predicted; nobody reads it off a stump."""
    if draws is None:
        text = say("stump.push_unknown")
        return StumpRow("push", "force", None, None, None, None, None, counts=False, text=text)
    band = doubt([n.push_n for n in draws.needs])
    text = say("stump.push", low=band.p10, middle=band.p50, high=band.p90)
    return StumpRow("push", "force", band, None, None, None, None, counts=False, text=text)


SENTENCES = {
    "lift": ("stump.lift_not_read", "stump.lift_alone", "stump.lift"),
    "hinge": ("stump.hinge_not_read", "stump.hinge_alone", "stump.hinge"),
    "notch": ("stump.notch_not_read", "stump.notch_alone", "stump.notch"),
}


def _row(
    key: str,
    kind: str,
    values: Sequence[float] | None,
    real: float | None,
    *,
    planned: float | None = None,
    counts: bool = True,
) -> StumpRow:
    """Compare one figure with its draws."""
    unread, alone, compared = SENTENCES[key]
    band = None if values is None else doubt(values)
    if band is not None and not all(map(math.isfinite, band)):
        values, band = None, None
    if real is None:
        return StumpRow(key, kind, band, planned, None, None, None, counts=False, text=say(unread))
    if values is None or band is None:
        text = say(alone, real=real)
        return StumpRow(key, kind, None, planned, real, None, None, counts=False, text=text)
    place = BELOW if real < band.p10 else ABOVE if real > band.p90 else IN_BAND
    share = _share_below(values, real)
    text = say(
        compared,
        real=real,
        low=band.p10,
        middle=band.p50,
        high=band.p90,
        place=say(f"stump.place_{place}"),
        share=share,
    )
    return StumpRow(key, kind, band, planned, real, 100.0 * share, place, counts, text)


def _share_below(values: Sequence[float], real: float) -> float:
    """Share of the draws below a value, equal ones counted half."""
    below = sum(value < real for value in values)
    equal = sum(value == real for value in values)
    return (below + 0.5 * equal) / len(values)


def _lay(plan: Plan, record: StumpRecord) -> LayError | None:
    error = None
    if record.lay_error_deg is not None:
        error = math.radians(record.lay_error_deg)
    elif record.lay_beside_m is not None and record.lay_distance_m is not None:
        error = aim_error_rad(record.lay_beside_m, record.lay_distance_m)
    if error is None:
        return None
    side = record.lay_side if error > 0.0 else None
    reach = None if plan.model is None else plan.model.height_m
    beside = None if reach is None else miss_m(reach, error)
    if side is None:
        return LayError(error, None, beside, reach, say("stump.lay_true"))
    if beside is None:
        text = say("stump.lay_left" if side == "left" else "stump.lay_right", error=error)
    else:
        text = say(
            "stump.lay_left_beside" if side == "left" else "stump.lay_right_beside",
            error=error,
            beside=beside,
            reach=reach,
        )
    return LayError(error, side, beside, reach, text)


def _flags(record: StumpRecord, rows: Sequence[StumpRow], lay: LayError | None) -> list[StumpFlag]:
    """What stands out, the gravest first."""
    found = [
        StumpFlag(word.replace(" ", "_"), say(f"stump.went_{word.replace(' ', '_')}"))
        for word in record.went
        if word not in ("no fault seen", "fibre pull")
    ]
    found += [
        StumpFlag(f"{row.key}_{row.place}", say(f"stump.{row.key}_{row.place}"))
        for row in rows
        if row.place in (BELOW, ABOVE) and (row.counts or row.key != "lift")
    ]
    found += _hinge_flags(record)
    if record.notch_mismatch_mm is not None and record.notch_mismatch_mm > MISMATCH_MM:
        mismatch = record.notch_mismatch_mm / 1000.0
        found.append(
            StumpFlag(
                "mismatch",
                say("stump.mismatch", mismatch=mismatch, most=MISMATCH_MM / 1000.0),
            )
        )
    most = math.radians(LAY_ERROR_DEG)
    if lay is not None and lay.error_rad > most * (1.0 + 1e-9):
        found.append(StumpFlag("lay_off", say("stump.lay_off", error=lay.error_rad, most=most)))
    if "fibre pull" in record.went:
        found.append(StumpFlag("fibre_pull", say("stump.went_fibre_pull")))
    return found


def _hinge_flags(record: StumpRecord) -> list[StumpFlag]:
    """Unequal sides: the thick side holds longer and leads the tree towards it."""
    left, right = record.hinge_left_mm, record.hinge_right_mm
    if left is None or right is None or abs(left - right) <= UNEVEN_MM:
        return []
    by = abs(left - right) / 1000.0
    text = say("stump.thick_left" if left > right else "stump.thick_right", by=by)
    return [StumpFlag("taper" if abs(left - right) > TAPER_MM else "uneven", text)]
