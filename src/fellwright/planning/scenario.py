"""One state of the day (calm, or the gust entered): draws, devices, caps, line, verdict."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from fellwright.physics.reliability import share_standard_error
from fellwright.planning import bands, limits
from fellwright.planning.chance import Points, doubt
from fellwright.planning.drawn import Drawing, Drawn, draw_plainly
from fellwright.planning.drive_train import Driven
from fellwright.planning.judge_device import DeviceOutcome, judge_device, ruled_out
from fellwright.planning.judge_tree import Cap, TreeFigures, is_hinge_first, judge_tree
from fellwright.planning.line import LineNeed, guy_moment_n_m, line_need, serve_lines
from fellwright.planning.need import Need, Situation
from fellwright.planning.pairs import Tried, joined_outcomes
from fellwright.planning.reasons import (
    ADDS_UP,
    LEAVE,
    LINE,
    TIGHT,
    Reason,
    because,
    boldness,
    worse,
)
from fellwright.records.kit import Device, Rope
from fellwright.words import Text, say

__all__ = ["Fitted", "Outcome", "Terms", "energy_wh", "run_scenario", "weigh_scenario"]

COLD_CHARGE_RATIO = 0.65
"""MEMORY: charge left at -10 deg C; the unfavourable bound below freezing."""


@dataclass(frozen=True, slots=True)
class Fitted:
    """A device of the kit, driven or ruled out."""

    device: Device
    result: Driven | Reason


@dataclass(frozen=True, slots=True)
class Outcome:
    """Verdict of one state of the day, with everything it rests on.

    ``bars`` are the findings that hold the verdict down, each with the boldest verdict it allows;
    ``hinge_first`` says that the hinge is bored first and no device is driven.
    """

    verdict: str
    reasons: tuple[Reason, ...]
    bars: tuple[tuple[str, Reason], ...]
    hinge_first: bool
    figures: TreeFigures
    devices: tuple[DeviceOutcome, ...]
    choice: DeviceOutcome | None
    lines: tuple[LineNeed, ...]
    lines_missing: tuple[Reason, ...]
    sampling_note: Text | None

    @property
    def goes_by_itself(self) -> bool:
        """Whether it goes without a wedge once the hinge is bored and the strap is cut."""
        return self.hinge_first and not self.figures.push_n.p50 > 0.0


@dataclass(frozen=True, slots=True)
class Terms:
    """What the draws are judged with: devices, caps, ropes, height [m], method named, frost."""

    fitted: tuple[Fitted, ...]
    caps: tuple[Cap, ...]
    ropes: tuple[Rope, ...]
    height_m: float
    method: str | None
    cold: bool


def run_scenario(
    points: Sequence[Points],
    situation: Situation,
    gust_share: float,
    terms: Terms,
    drawing: Drawing = draw_plainly,
) -> Outcome:
    """Draw the tree and judge every device on it.

    Parameters
    ----------
    points : sequence of Points
        Draws.
    situation : Situation
        The tree.
    gust_share : float
        1 with the gust entered, 0 in calm.
    terms : Terms
        Devices, caps, ropes and the rest that does not change from draw to draw.
    drawing : Drawing
        How the draws are worked out.

    Returns
    -------
    Outcome
        The verdict, its limiting reason first.
    """
    terms = replace(terms, caps=(*terms.caps, *_spoilt(situation)))
    drawn = drawing(points, situation, gust_share)
    return weigh_scenario(drawn, len(points), terms, calm=gust_share <= 0.0)


def _spoilt(situation: Situation) -> tuple[Cap, ...]:
    """Bar every verdict where a figure is not a number: min and max in the draws may swallow it."""
    if all(map(math.isfinite, situation)):
        return ()
    return (Cap(LEAVE, because("not_a_number")),)


def weigh_scenario(drawn: Drawn, draws: int, terms: Terms, *, calm: bool) -> Outcome:
    """Judge finished draws, of a gust or in calm; see :func:`run_scenario`."""
    figures = drawn.tree()
    need = drawn.need()
    devices: list[DeviceOutcome] = []
    tried: list[Tried] = []
    for item in terms.fitted:
        if isinstance(item.result, Reason):
            device = item.device
            devices.append(ruled_out(device.name, device.kind, device.mass_kg, item.result))
            continue
        tally = drawn.device(item.result.figures)
        outcome = _charged(judge_device(item.result, tally, need), figures, cold=terms.cold)
        if outcome.driven is not None:
            tried.append(Tried(item.result, tally))
        devices.append(outcome)
    if not any(boldness(device.verdict) >= boldness(TIGHT) for device in devices):
        joined = joined_outcomes(drawn, tried, need, calm=calm)
        devices += [_charged(outcome, figures, cold=terms.cold) for outcome in joined]
    best = _best(devices)
    own = judge_tree(figures, terms.method)
    told = {cap.reason.code for cap in own}
    # The cap that called for a deeper notch stays, unless the tree still says so itself.
    kept = [
        cap for cap in terms.caps if cap.reason.code not in told or cap.reason.code != "early_go"
    ]
    all_caps = [*own, *kept]
    verdict, bars = _verdict(best, all_caps)
    reasons = [reason for level, reason in bars if level != ADDS_UP or verdict == ADDS_UP]
    lines, missing = _lines(drawn, figures, best, terms)
    if verdict == LEAVE and _line_may_serve(all_caps, figures):
        reasons = [*reasons, *missing]
        if lines and not missing:
            verdict = LINE
    return Outcome(
        verdict,
        tuple(reasons),
        bars,
        is_hinge_first(figures, terms.method),
        figures,
        tuple(devices),
        best if best is not None and boldness(best.verdict) > 0 else None,
        lines,
        tuple(missing),
        _sampling_note(best, draws),
    )


def energy_wh(driven: Driven, work_j: float) -> float:
    """Charge that a work on the tree may take [Wh], at the unfavourable end of the drive."""
    return work_j / driven.efficiency.low / bands.BATTERY_SHARE.low / 3600.0


def _charged(outcome: DeviceOutcome, figures: TreeFigures, *, cold: bool) -> DeviceOutcome:
    """Rule a device out that the charge in the van does not drive."""
    flat = None
    if outcome.driven is not None:
        flat = _charge_lack(outcome.driven, figures, cold=cold)
    if flat is None:
        return outcome
    return ruled_out(outcome.name, outcome.kind, outcome.mass_kg, flat)


def _charge_lack(driven: Driven, figures: TreeFigures, *, cold: bool) -> Reason | None:
    if driven.drive.wrench is None:
        return None
    have = driven.drive.charge_wh * (COLD_CHARGE_RATIO if cold else 1.0)
    need = energy_wh(driven, figures.work_j.p90)
    if have >= need:
        return None
    return because("charge", name=driven.device.name, need=3600.0 * need, have=3600.0 * have)


def _best(devices: Sequence[DeviceOutcome]) -> DeviceOutcome | None:
    """The device that decides: the boldest, then the lightest; else the one nearest to enough."""
    if not devices:
        return None
    return max(
        devices,
        key=lambda d: (
            boldness(d.verdict),
            -(d.mass_kg if d.mass_kg is not None else 99.0) if boldness(d.verdict) else 0.0,
            d.lift_margin,
        ),
    )


def _verdict(
    best: DeviceOutcome | None, caps: Sequence[Cap]
) -> tuple[str, tuple[tuple[str, Reason], ...]]:
    """Combine the best device with the caps; what bars the verdict most comes first."""
    barred: list[tuple[str, Reason]] = [(cap.verdict, cap.reason) for cap in caps]
    if best is None:
        barred.append((LEAVE, because("no_device")))
    else:
        barred.extend((best.verdict, reason) for reason in best.reasons)
    verdict = ADDS_UP
    for level, _ in barred:
        verdict = worse(level, verdict)
    barred.sort(key=lambda pair: boldness(pair[0]))
    return verdict, tuple(barred)


def _line_may_serve(caps: Sequence[Cap], figures: TreeFigures) -> bool:
    """A line mends missing lift or push and side lean; nothing else that says LEAVE."""
    if figures.bars_ordinary_cut:
        return False
    return all(cap.line_helps or boldness(cap.verdict) > 0 for cap in caps)


def _lines(
    drawn: Drawn,
    figures: TreeFigures,
    best: DeviceOutcome | None,
    terms: Terms,
) -> tuple[tuple[LineNeed, ...], list[Reason]]:
    """Lines that would serve where no device does or the hinge does not hold, and what lacks."""
    device_serves = best is not None and boldness(best.verdict) >= boldness(TIGHT)
    tension_bars = not figures.hinge_tension_pa.p90 <= limits.HINGE_TENSION_MPA.value * 1e6
    side_bars = not figures.side_use.p50 < limits.SIDE_USE_MOST.value
    if device_serves and not tension_bars and not side_bars:
        return (), []
    moment = None if device_serves and not tension_bars else figures.push_moment_n_m.p90
    side = None
    if not figures.side_use.p90 < limits.SIDE_USE_MOST.value:
        side = doubt([guy_moment_n_m(n.side_n_m, n.side_use) for n in drawn.needs]).p90
        if not _guy_serves(drawn.needs):
            return (), [Reason("side_use", say("reason.side_use_either"))]
    if not moment and side is None:
        return (), []
    behind = figures.back_m.p90 + 0.5 * drawn.needs[0].wood_m
    lines = line_need(
        terms.height_m, behind, moment or None, side, leans_right=figures.side_m.p50 > 0.0
    )
    return serve_lines(lines, terms.ropes)


def _guy_serves(needs: Sequence[Need]) -> bool:
    """Whether a guy that holds one side leaves side use P90 within its limit.

    A guy takes what leans away from it and nothing of what leans the other way.
    """
    right = sum(need.side_m > 0.0 for need in needs) * 2 >= len(needs)
    wrong_way = sum(
        (need.side_m > 0.0) != right and not need.side_use < limits.SIDE_USE_MOST.value
        for need in needs
    )
    return wrong_way < (1.0 - limits.JOINT_SHARE.value) * len(needs)


def _sampling_note(best: DeviceOutcome | None, draws: int) -> Text | None:
    """A word where the sampling error of the joint share could turn the verdict."""
    if best is None or best.driven is None:
        return None
    error = share_standard_error(best.joint_share, draws)
    limit = limits.JOINT_SHARE.value
    if abs(best.joint_share - limit) > 2.0 * error:
        return None
    return say(
        "caution.sampling", share=best.joint_share, name=best.name, limit=limit, error=2.0 * error
    )
