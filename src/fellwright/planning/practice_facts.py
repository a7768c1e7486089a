"""What a plan says of the things that rules of practice ask about, and when a rule applies."""

from dataclasses import dataclass

from fellwright.physics.hinge import hinge_area_m2
from fellwright.planning.judge_device import DeviceOutcome
from fellwright.planning.line import LineNeed
from fellwright.planning.marks import HALF_AND_HALF, HINGE_FIRST, pick_method
from fellwright.planning.plan import Plan
from fellwright.planning.proposal import Stem, diameter_fits, notch_fits
from fellwright.planning.reasons import LINE
from fellwright.planning.refusals import has_dead_overhead, is_unsound
from fellwright.records.defects import LODGED
from fellwright.records.tree import Conductor, Tree
from fellwright.tables.profiles import Rule

__all__ = ["CutFacts", "PlanFacts", "applies", "facts_of"]


@dataclass(frozen=True, slots=True)
class CutFacts:
    """The cut of a plan, SI units; `step_m` is None where two cuts stand at different heights."""

    stem: Stem
    notch_m: float
    opening_rad: float
    hinge_m: float
    hinge_length_m: float
    step_m: float | None
    method: str


@dataclass(frozen=True, slots=True)
class PlanFacts:
    """What rules ask of a plan. None and empty: the plan does not say."""

    tree: Tree
    height_m: float | None
    group: str | None
    cut: CutFacts | None
    back_m: tuple[float, float] | None
    is_forward_leaner: bool | None
    verdict: str | None
    driven: DeviceOutcome | None
    devices: tuple[DeviceOutcome, ...]
    lines: tuple[LineNeed, ...]

    @property
    def is_damaged(self) -> bool | None:
        """Whether the tree is dead, damaged or unsound; None where the look does not say."""
        if has_dead_overhead(self.tree) or is_unsound(self.tree):
            return True
        look = self.tree.look
        return None if look.sound is None or look.clear_overhead is None else False

    @property
    def is_hung(self) -> bool:
        """Whether a tree hangs in this one or beside it."""
        return any(defect in LODGED for defect in self.tree.defects)

    @property
    def live_conductors(self) -> tuple[Conductor, ...]:
        """Conductors without a recorded switch-off."""
        return tuple(c for c in self.tree.conductors if c.switched_off is not True)


def facts_of(plan: Plan) -> PlanFacts:
    """Gather what a plan says.

    Parameters
    ----------
    plan : Plan
        The plan, before or after a profile was laid on it.

    Returns
    -------
    PlanFacts
        The same facts either way: nothing here rests on the plan's own verdict or marks.
    """
    outcome, model = plan.outcome, plan.model
    if outcome is None:
        height = plan.tree.height_m if model is None else model.height_m
        group = None if model is None else model.species.group
        return PlanFacts(plan.tree, height, group, None, None, None, None, None, (), ())
    assert model is not None
    figures = outcome.figures
    pulled = outcome.verdict == LINE
    return PlanFacts(
        tree=plan.tree,
        height_m=model.height_m,
        group=model.species.group,
        cut=_cut_facts(plan),
        back_m=(figures.back_m.p10, figures.back_m.p90),
        is_forward_leaner=figures.is_forward_leaner,
        verdict=outcome.verdict,
        driven=outcome.choice if plan.drives_device else None,
        devices=outcome.devices,
        lines=outcome.lines if pulled else (),
    )


def _cut_facts(plan: Plan) -> CutFacts:
    model, cut, outcome = plan.model, plan.cut, plan.outcome
    assert model is not None
    assert cut is not None
    assert outcome is not None
    method = pick_method(cut, outcome.hinge_first, outcome.choice)
    dbh_cm = plan.tree.dbh_cm
    notch_m = cut.notch_share * model.stump_m
    bark_m = 0.5 * (model.stump_m - model.wood_m)
    area_m2 = hinge_area_m2(model.wood_m, 0.0, max(0.0, notch_m - bark_m), cut.hinge_m)
    driven = None if outcome.choice is None or method == HINGE_FIRST else outcome.choice.driven
    # A release cut beside the steel stands at a height of its own: there is no one step.
    two_levels = method == HALF_AND_HALF and driven is not None and driven.drive.wrench is not None
    return CutFacts(
        stem=Stem(model.stump_m, None if dbh_cm is None else dbh_cm / 100.0),
        notch_m=notch_m,
        opening_rad=cut.opening_rad,
        hinge_m=cut.hinge_m,
        hinge_length_m=area_m2 / cut.hinge_m,
        step_m=None if two_levels else cut.step_m,
        method=method,
    )


def applies(rule: Rule, facts: PlanFacts) -> bool | None:
    """Whether a rule speaks of this plan.

    Parameters
    ----------
    rule : Rule
        The rule.
    facts : PlanFacts
        What the plan says.

    Returns
    -------
    bool or None
        None where the plan does not say.
    """
    answers = [_case_holds(case, facts) for case in rule.when.cases]
    if rule.when.over_m is not None or rule.when.upto_m is not None:
        answers.append(_diameter_holds(rule, facts))
    if any(answer is False for answer in answers):
        return False
    return None if None in answers else True


def _diameter_holds(rule: Rule, facts: PlanFacts) -> bool | None:
    if facts.cut is not None:
        return diameter_fits(rule.when, facts.cut.stem)
    dbh_cm = facts.tree.dbh_cm
    if rule.when.diameter_of != "dbh" or dbh_cm is None:
        return None
    return diameter_fits(rule.when, Stem(0.0, dbh_cm / 100.0))


def _case_holds(case: str, facts: PlanFacts) -> bool | None:
    if case == "damaged tree":
        return facts.is_damaged
    if case == "hung tree":
        return facts.is_hung
    if case == "fork":
        return "fork" in facts.tree.defects
    if case == "broadleaf":
        return None if facts.group is None else facts.group == "hardwood"
    if facts.cut is None:
        return None
    notch = notch_fits(case, facts.cut.opening_rad)
    if notch is not None:
        return notch
    if case == "pull line":
        return bool(facts.lines)
    if case == "felling lever":
        return facts.cut.method == case
    if case == "hydraulic ram":
        return facts.driven is not None and facts.driven.kind == case
    if case == "forward leaner":
        return facts.is_forward_leaner
    assert case == "lean not predictable"
    assert facts.back_m is not None
    return facts.back_m[0] < 0.0 < facts.back_m[1]
