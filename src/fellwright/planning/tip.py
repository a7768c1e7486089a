"""Will it tip, and with what? The whole answer for one tree and one van."""

from collections.abc import Sequence
from dataclasses import replace

from fellwright.physics.lean import lean_angle_rad
from fellwright.planning import bands
from fellwright.planning.assumed import list_assumed
from fellwright.planning.case import Case, is_freezing, may_preload, prepare_case
from fellwright.planning.cautions import Facts, back_up_means, list_cautions
from fellwright.planning.chance import Points, draw_points
from fellwright.planning.envelope import Envelope, find_envelope
from fellwright.planning.helps import Help, find_helps, off_centre_help
from fellwright.planning.judge_tree import Cap
from fellwright.planning.marks import HINGE_FIRST, Provision, plan_marks
from fellwright.planning.measure_next import MeasureNext, best_reading, deciding_figure
from fellwright.planning.missing import StandIn, stand_ins
from fellwright.planning.need import draw_need
from fellwright.planning.plan import Options, Plan
from fellwright.planning.practice import apply_profile, breaks_law
from fellwright.planning.proposal import share_within
from fellwright.planning.reasons import (
    ADDS_UP,
    LEAVE,
    LINE,
    MEASURE,
    TIGHT,
    Reason,
    because,
    boldness,
)
from fellwright.planning.refusals import (
    CLEAR_LOOK,
    body_refusals,
    has_dead_overhead,
    look_refusals,
    refusals,
    size_refusals,
    unanswered,
    wall_is_unmeasured,
)
from fellwright.planning.scenario import Outcome
from fellwright.planning.situation import CutPlan
from fellwright.planning.stated_errors import height_doubt_ratio, stated_keys
from fellwright.records.kit import Kit
from fellwright.records.tree import Tree
from fellwright.words import listed, say

__all__ = ["plan_tip"]

FORWARD_NOTCH_SHARE = 1.0 / 3.0
"""PRACTICE: a third for a leaner that needs no wedge; it splits less than at a fifth."""
TRIAL_DRAWS = 256


def plan_tip(tree: Tree, kit: Kit, options: Options | None = None) -> Plan:
    """Answer for one tree: will it tip, with which device of this van, and why.

    Parameters
    ----------
    tree : Tree
        The tree as read.
    kit : Kit
        What is in the van.
    options : Options, optional
        Draws and seed.

    Returns
    -------
    Plan
        Verdict with its limiting reason first; figures where they can be had.
    """
    options = options or Options()
    plan = _plan(tree, kit, options)
    return plan if options.profile is None else apply_profile(plan, options.profile)


def _plan(tree: Tree, kit: Kit, options: Options) -> Plan:
    """Plan without a look at the practice profile's rules, but with its cut proposed."""
    stand_in = stand_ins(tree)
    refused = _refused(tree, stand_in)
    no = look_refusals(tree.look)
    if refused:
        return Plan(tree, LEAVE, tuple(refused + no), LEAVE, options, model=stand_in.model)
    open_answers = unanswered(tree.look)
    if not no and not open_answers:
        plan = _answer(tree, kit, options, stand_in)
        if tree.look.sound and tree.look.clear_overhead:
            return plan
        clear = _answer(replace(tree, look=CLEAR_LOOK), kit, replace(options, bare=True), stand_in)
        return replace(plan, if_clear=clear.verdict)
    clear = _answer(replace(tree, look=CLEAR_LOOK), kit, options, stand_in)
    reasons = list(no)
    measure_next = clear.measure_next
    if not no:
        asked = listed(say(f"look.{name}") for name in open_answers)
        reasons = [because("look", asked=asked)]
        measure_next = MeasureNext("look", say("measure.look_how", asked=asked))
    return replace(
        clear,
        tree=tree,
        verdict=LEAVE if no else MEASURE,
        reasons=(*reasons, *(clear.reasons if clear.verdict != ADDS_UP else ())),
        if_clear=clear.verdict,
        # No cutting figure and no bolder word before the look is clear.
        marks=None,
        helps=(),
        envelope=None,
        cautions=tuple(caution for caution in clear.cautions if caution.code != "R12"),
        measure_next=measure_next,
        conditions=(*clear.conditions, say("condition.look")),
    )


def _refused(tree: Tree, stand_in: StandIn) -> list[Reason]:
    """Refusals R1 to R4 and R6 on what was read."""
    model = stand_in.model
    if model is None:
        ratio = bands.HEIGHT.estimated
        if tree.height_m is not None:
            ratio = height_doubt_ratio(tree, tree.height_m, ratio)
        return refusals(tree, tree.height_m, ratio) + size_refusals(tree)
    angle = None
    if tree.lean and stand_in.lean is not None:
        angle = lean_angle_rad(stand_in.lean.offset_m, model.balance_height_m)
    return refusals(tree, model.height_m, model.height_ratio) + body_refusals(
        tree, model.wood_m, angle
    )


def _answer(tree: Tree, kit: Kit, options: Options, stand_in: StandIn) -> Plan:
    """Answer for a tree whose look has no plain no in it."""
    model = stand_in.model
    if model is None:
        first = stand_in.missing[0]
        return Plan(
            tree,
            MEASURE,
            stand_in.missing,
            MEASURE,
            options,
            measure_next=_missing_reading(first),
            conditions=stand_in.conditions,
        )
    points = draw_points(options.draws, options.seed)
    gust = tree.day.gust_m_s or 0.0
    case = prepare_case(tree, kit, stand_in, model, options.drawing, options.profile)
    outcome = case.worst(points, gust)
    if _wants_deeper_notch(case, outcome):
        case = _hinge_first_case(case, outcome, options)
        outcome = case.worst(points, gust)
    return _finish(case, outcome, options)


def _hinge_first_case(case: Case, outcome: Outcome, options: Options) -> Case:
    """Plan the deeper notch hinge first, under the cap that called for it."""
    caps = [Cap(TIGHT, reason) for _, reason in outcome.bars if reason.code == "early_go"][:1]
    return replace(
        case,
        cut=replace(case.cut, notch_share=_forward_notch(case, options)),
        terms=replace(case.terms, caps=(*case.terms.caps, *caps), method=HINGE_FIRST),
    )


def _forward_notch(case: Case, options: Options) -> float:
    """Share of the deeper notch, within the practice profile."""
    dbh_m = None if case.tree.dbh_cm is None else case.tree.dbh_cm / 100.0
    return share_within(options.profile, FORWARD_NOTCH_SHARE, case.model.stump_m, dbh_m)


def _wants_deeper_notch(case: Case, outcome: Outcome) -> bool:
    """Whether a forward leaner should get the deeper notch, which splits less.

    Only where splitting alone keeps the usual notch from TIGHT or nothing does: what else says
    LEAVE must stay, or leaning further forward could make a plan bolder.
    """
    if not (outcome.hinge_first and case.cut.notch_is_proposed):
        return False
    return all(
        boldness(level) >= boldness(TIGHT) or reason.code == "splitting"
        for level, reason in outcome.bars
    )


def _finish(case: Case, outcome: Outcome, options: Options) -> Plan:
    """Add what follows from the verdict: marks, cautions, what to measure, what was assumed."""
    tree, model, stand_in = case.tree, case.model, case.stand_in
    gust = tree.day.gust_m_s or 0.0
    verdict, reasons = outcome.verdict, outcome.reasons
    missing = list(stand_in.missing)
    if wall_is_unmeasured(tree):
        missing.append(because("cavity_wall_cm"))
    if missing:
        verdict = MEASURE
        reasons = (*missing, *reasons)
    plan = Plan(
        tree,
        verdict,
        reasons,
        verdict,
        options,
        model=model,
        cut=case.cut,
        situation=case.situation(gust),
        outcome=outcome,
        conditions=stand_in.conditions,
    )
    if options.bare:
        return plan
    return _with_advice(plan, case, missing)


def _with_advice(plan: Plan, case: Case, missing: list[Reason]) -> Plan:
    """Marks, cautions, measure next and assumptions of a plan."""
    tree, kit, model = case.tree, case.kit, case.model
    outcome, situation = plan.outcome, plan.situation
    assert outcome is not None
    assert situation is not None
    hammering = not has_dead_overhead(tree)
    back_up = back_up_means(kit, outcome.choice, hammering=hammering)
    preload = may_preload(tree) and not outcome.hinge_first
    marks = None
    if plan.may_cut:
        marks = plan_marks(
            model,
            case.cut,
            outcome.figures,
            outcome.choice,
            Provision(
                preload,
                outcome.hinge_first,
                back_up or say("caution.back_up_missing"),
                outcome.lines if plan.verdict == LINE else (),
                outcome.goes_by_itself,
            ),
        )
    trial = draw_points(min(TRIAL_DRAWS, plan.options.draws), plan.options.seed)
    envelope = _envelope(plan, case, trial)
    stands_to = None if envelope is None else envelope.head_gust_m_per_s
    if missing:
        measure = _missing_reading(missing[0])
    else:
        measure = best_reading(
            trial,
            situation,
            1.0 if tree.day.gust_m_s else 0.0,
            [reason.code for reason in plan.reasons],
            _lean_best_sigma_m(case),
            bands.DBH.best / ((tree.dbh_cm or 100.0) / 100.0),
        )
    said = list(case.stand_in.said)
    for item in case.terms.fitted:
        if not isinstance(item.result, Reason):
            said += item.result.said
    if case.cut.notch_is_proposed:
        said.append(say("said.notch", share=case.cut.notch_share))
    if case.cut.hinge_is_proposed:
        said.append(say("said.hinge", hinge=case.cut.hinge_m))
    if tree.flare is None:
        said.append(say("said.flare"))
    if tree.cut.preload is None and preload:
        said.append(say("said.preload"))
    return replace(
        plan,
        marks=marks,
        measure_next=measure,
        envelope=envelope,
        helps=_helps(plan, kit) if not missing else (),
        cautions=tuple(
            list_cautions(
                tree,
                model,
                outcome,
                Facts(plan.verdict, back_up, stands_to, preload, plan.options.draws),
            )
        ),
        assumed=tuple(
            list_assumed(
                model.species,
                kit,
                tuple(dict.fromkeys(said)),
                stated_keys(tree),
                iced=is_freezing(tree),
            )
        ),
    )


def _envelope(plan: Plan, case: Case, points: Sequence[Points]) -> Envelope | None:
    """How far the plan holds, hinges that break a law left out."""
    profile = plan.options.profile

    def lawful(cut: CutPlan) -> bool:
        return profile is None or not breaks_law(replace(plan, cut=cut), profile)

    return find_envelope(case, plan.verdict, points, lawful) if plan.may_cut else None


def _helps(plan: Plan, kit: Kit) -> tuple[Help, ...]:
    """What helps, every change re-run with the same draws."""
    assert plan.cut is not None
    bare = replace(plan.options, bare=True)
    deciding = deciding_figure([reason.code for reason in plan.reasons])
    found = find_helps(
        plan.tree, kit, plan.cut, plan, deciding, lambda tree, van: plan_tip(tree, van, bare)
    )
    if deciding != "side_use" or plan.situation is None or plan.model is None:
        return found
    points = draw_points(plan.options.draws, plan.options.seed)
    gust = 1.0 if plan.tree.day.gust_m_s else 0.0
    needs = [draw_need(u, plan.situation, gust) for u in points]
    aside = off_centre_help(plan, needs, plan.model.stump_m)
    return found if aside is None else (*found, aside)


def _missing_reading(reason: Reason) -> MeasureNext:
    return MeasureNext(reason.code, say(f"measure.{reason.code}_how"))


def _lean_best_sigma_m(case: Case) -> float:
    """Sigma of the lean after one more plumb-line reading from two sides [m]."""
    lean = case.stand_in.lean
    assert lean is not None
    once = bands.LEAN.best * (1.0 + lean.offset_m)
    combined: float = (1.0 / (1.0 / lean.sigma_m**2 + 1.0 / once**2)) ** 0.5
    return combined
