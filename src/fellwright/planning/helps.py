"""What helps: changes that a feller could make, each re-run whole and priced."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Protocol

from fellwright.planning.device_kinds import GREASED_KINDS
from fellwright.planning.drive_train import grease_taken
from fellwright.planning.line import LineNeed
from fellwright.planning.need import Need
from fellwright.planning.pairs import eased_side_use
from fellwright.planning.reasons import TIGHT, boldness, say_verdict
from fellwright.planning.scenario import Outcome
from fellwright.planning.situation import CutPlan
from fellwright.records.kit import Device, Kit
from fellwright.records.lean_errors import PLUMB_TWO_SIDES
from fellwright.records.tree import Cut, LeanReading, Tree
from fellwright.words import Text, say

__all__ = ["Answered", "Change", "Help", "find_helps", "off_centre_help"]

MOST_HELPS = 6
WORTH_SHARE = 0.03
"""OWN: a change that moves neither verdict nor any figure by 3 % is not worth a line."""
HINGE_TIMES = 0.8
LEAST_HINGE_SHARE = 0.08
NOTCH_DEEPER = 0.08
NOTCH_SHALLOWER = 0.05
DEEPEST_NOTCH = 1.0 / 3.0
SHALLOWEST_NOTCH = 0.15
OFF_CENTRE_MOST_M = 0.12
OFF_CENTRE_SHARE = 0.2
"""OWN: how far a device may stand off the centre line and still find its seat."""
TURNS_DEG = (-45.0, -30.0, -15.0, 15.0, 30.0, 45.0)
MINUTES = {
    "hinge": 0.0,
    "deeper_notch": 1.0,
    "shallower_notch": 0.0,
    "grease": 5.0,
    "second_reading": 3.0,
    "calm": 30.0,
    "turn_lay": 5.0,
    "trim": 10.0,
    "line": 30.0,
    "other_device": 0.0,
    "off_centre": 1.0,
}
"""PRACTICE: minutes that a change takes at the tree."""


class Answered(Protocol):
    """A plan, as far as its verdict and figures go."""

    @property
    def verdict(self) -> str:
        """Verdict word."""

    @property
    def outcome(self) -> Outcome | None:
        """Figures."""


@dataclass(frozen=True, slots=True)
class Change:
    """One change: its code, the sentence that names it, and tree and kit as they would be."""

    code: str
    what: Text
    tree: Tree
    kit: Kit
    mass_kg: float = 0.0


@dataclass(frozen=True, slots=True)
class Help:
    """One change that helps: verdict and median figures after it, SI, and its price."""

    code: str
    what: Text
    verdict: str
    lift_m: float
    push_n: float
    side_use: float
    lift_change_m: float
    push_change_n: float
    side_use_change: float
    mass_kg: float
    minutes: float

    @property
    def text(self) -> Text:
        """What it is, what it gives, what it costs."""
        if self.code == "line":
            return say("helps.rig", what=self.what, minutes=60.0 * self.minutes)
        return say(
            "helps.line",
            what=self.what,
            verdict=say_verdict(self.verdict),
            lift=self.lift_m,
            lift_before=self.lift_m - self.lift_change_m,
            push=self.push_n,
            push_before=self.push_n - self.push_change_n,
            side=self.side_use,
            price=self._price(),
        )

    def _price(self) -> Text:
        minutes = 60.0 * self.minutes
        if self.mass_kg and self.minutes:
            return say("helps.price", mass=self.mass_kg, minutes=minutes)
        if self.mass_kg:
            return say("helps.price_mass", mass=self.mass_kg)
        return say("helps.price_minutes", minutes=minutes)


def find_helps(
    tree: Tree,
    kit: Kit,
    cut: CutPlan,
    now: Answered,
    deciding: str,
    rerun: Callable[[Tree, Kit], Answered],
) -> tuple[Help, ...]:
    """Re-run every change worth trying and keep what helps.

    Parameters
    ----------
    tree, kit : Tree, Kit
        As read.
    cut : CutPlan
        The cut of the plan.
    now : Answered
        The plan as it is.
    deciding : str
        Name of the figure that decides: lift, push, side_use or another.
    rerun : callable
        Plans a changed tree and kit.

    Returns
    -------
    tuple of Help
        Bolder verdicts first, then the larger gain.
    """
    if now.outcome is None:
        return ()
    found: list[Help] = []
    turned: list[Help] = []
    for change in _changes(tree, kit, cut, now.outcome):
        then = rerun(change.tree, change.kit)
        if then.outcome is None or boldness(then.verdict) < boldness(now.verdict):
            continue
        help_ = _help(change, now.outcome, then.verdict, then.outcome)
        if boldness(then.verdict) == boldness(now.verdict) and not _is_worth(help_, deciding):
            continue
        (turned if change.code == "turn_lay" else found).append(help_)
    if turned:
        found.append(max(turned, key=lambda h: _merit(h, deciding)))
    found.extend(_line_help(now))
    found.sort(key=lambda h: _merit(h, deciding), reverse=True)
    return tuple(found[:MOST_HELPS])


def _gain(help_: Help, deciding: str) -> float:
    """Share by which the deciding figure falls; for other figures the largest of the three."""
    gains = {
        "lift": -help_.lift_change_m / max(0.005, help_.lift_m - help_.lift_change_m),
        "push": -help_.push_change_n / max(5e3, help_.push_n - help_.push_change_n),
        "side_use": -help_.side_use_change / max(0.05, help_.side_use - help_.side_use_change),
    }
    return gains[deciding] if deciding in gains else max(gains.values())


def _merit(help_: Help, deciding: str) -> tuple[int, float]:
    return boldness(help_.verdict), _gain(help_, deciding)


def _is_worth(help_: Help, deciding: str) -> bool:
    return _gain(help_, deciding) > WORTH_SHARE


def _help(change: Change, before: Outcome, verdict: str, after: Outcome) -> Help:
    was, now = before.figures, after.figures
    return Help(
        change.code,
        change.what,
        verdict,
        now.let_go_lift_m.p50,
        now.push_n.p50,
        now.side_use.p50,
        now.let_go_lift_m.p50 - was.let_go_lift_m.p50,
        now.push_n.p50 - was.push_n.p50,
        now.side_use.p50 - was.side_use.p50,
        change.mass_kg,
        MINUTES[change.code],
    )


def _line_help(now: Answered) -> list[Help]:
    """Lines that would serve, with what they take."""
    assert now.outcome is not None
    figures = now.outcome.figures
    if boldness(now.verdict) >= boldness(TIGHT):
        return []

    def priced(need: LineNeed) -> Help:
        return Help(
            "line",
            need.text,
            now.verdict,
            figures.let_go_lift_m.p50,
            figures.push_n.p50,
            figures.side_use.p50,
            0.0,
            0.0,
            0.0,
            0.0,
            MINUTES["line"],
        )

    return [priced(need) for need in now.outcome.lines]


def off_centre_help(now: Answered, needs: Sequence[Need], stump_m: float) -> Help | None:
    """Seat the device towards the side that the tree leans to, where side use decides.

    Parameters
    ----------
    now : Answered
        The plan as it is.
    needs : sequence of Need
        Its draws.
    stump_m : float
        Stump over bark [m].

    Returns
    -------
    Help or None
        None where no device serves or it gains nothing; the verdict is left as it is.
    """
    outcome = now.outcome
    if outcome is None or outcome.choice is None or outcome.goes_by_itself:
        return None
    offset = min(OFF_CENTRE_MOST_M, OFF_CENTRE_SHARE * stump_m)
    figures = outcome.figures
    eased = eased_side_use(needs, offset)
    change = eased.p50 - figures.side_use.p50
    if not change < -WORTH_SHARE * figures.side_use.p50 or eased.p90 > figures.side_use.p90:
        return None
    return Help(
        "off_centre",
        say("helps.off_centre", name=outcome.choice.name, offset=offset),
        now.verdict,
        figures.let_go_lift_m.p50,
        figures.push_n.p50,
        eased.p50,
        0.0,
        0.0,
        change,
        0.0,
        MINUTES["off_centre"],
    )


def _changes(tree: Tree, kit: Kit, cut: CutPlan, outcome: Outcome) -> list[Change]:
    """Every change worth a trial on this tree."""
    return [
        *_cut_changes(tree, kit, cut),
        *_day_and_reading_changes(tree, kit),
        *_kit_changes(tree, kit, outcome),
        *_turns(tree, kit, cut),
    ]


def _cut_changes(tree: Tree, kit: Kit, cut: CutPlan) -> list[Change]:
    found = []
    stump_m = (tree.stump_diameter_cm or 0.0) / 100.0

    def with_cut(code: str, what: Text, cut_then: Cut) -> Change:
        return Change(code, what, replace(tree, cut=cut_then), kit)

    thinner = max(
        round(1000.0 * HINGE_TIMES * cut.hinge_m), round(1000.0 * LEAST_HINGE_SHARE * stump_m)
    )
    if 0 < thinner < 1000.0 * cut.hinge_m - 0.5:
        what = say("helps.hinge", now=cut.hinge_m, then=thinner / 1000.0)
        found.append(with_cut("hinge", what, replace(tree.cut, hinge_mm=float(thinner))))
    deeper = min(DEEPEST_NOTCH, cut.notch_share + NOTCH_DEEPER)
    if deeper > cut.notch_share + 0.01:
        what = say("helps.notch", now=cut.notch_share, then=deeper)
        found.append(with_cut("deeper_notch", what, replace(tree.cut, notch_share=deeper)))
    shallower = max(SHALLOWEST_NOTCH, cut.notch_share - NOTCH_SHALLOWER)
    if shallower < cut.notch_share - 0.01:
        what = say("helps.notch", now=cut.notch_share, then=shallower)
        found.append(with_cut("shallower_notch", what, replace(tree.cut, notch_share=shallower)))
    return found


def _day_and_reading_changes(tree: Tree, kit: Kit) -> list[Change]:
    found = []
    if tree.lean:
        again = tree.lean[0]
        second = LeanReading(again.offset_m, again.toward_deg, again.sighted_at, PLUMB_TWO_SIDES)
        found.append(
            Change(
                "second_reading",
                say("helps.second_reading"),
                replace(tree, lean=(*tree.lean, second)),
                kit,
            )
        )
    if tree.day.gust_m_s:
        calm = replace(tree, day=replace(tree.day, gust_m_s=0.0))
        found.append(Change("calm", say("helps.calm"), calm, kit))
    if tree.flare not in ("none", "trimmed"):
        trimmed = replace(tree, flare="trimmed")
        found.append(Change("trim", say("helps.trim"), trimmed, kit))
    return found


def _kit_changes(tree: Tree, kit: Kit, outcome: Outcome) -> list[Change]:
    found = []
    steel = [d for d in kit.devices if d.kind in GREASED_KINDS]
    if any(grease_taken(d) != "greased" for d in steel):
        devices = tuple(_greased(d) if d in steel else d for d in kit.devices)
        found.append(Change("grease", say("helps.grease"), tree, replace(kit, devices=devices)))
    choice = outcome.choice
    if choice is None:
        return found
    serving = [d for d in outcome.devices if d.name != choice.name and boldness(d.verdict) > 0]
    for device in serving[:2]:
        alone = tuple(d for d in kit.devices if d.name == device.name)
        more = (device.mass_kg or 0.0) - (choice.mass_kg or 0.0)
        what = say("helps.other_device", name=device.name)
        found.append(Change("other_device", what, tree, replace(kit, devices=alone), more))
    return found


def _greased(device: Device) -> Device:
    """The device after the grease gun; what else its state says stands."""
    state = "FIT" if device.state == "GREASE" else device.state
    return replace(device, grease="greased", state=state)


def _turns(tree: Tree, kit: Kit, cut: CutPlan) -> list[Change]:
    if tree.cut.lay_deg is None:
        return []
    found = []
    for turn in TURNS_DEG:
        lay = (cut.lay_deg + turn) % 360.0
        what = say("helps.right" if turn > 0 else "helps.left", turn=abs(turn))
        turned = replace(tree, cut=replace(tree.cut, lay_deg=lay))
        found.append(Change("turn_lay", what, turned, kit))
    return found
