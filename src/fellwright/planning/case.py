"""One tree with its van and cut, made ready once and run at any gust."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from fellwright.planning import limits
from fellwright.planning.chance import Points
from fellwright.planning.device_kinds import fit_device
from fellwright.planning.drawn import Drawing
from fellwright.planning.drive_train import Setting
from fellwright.planning.judge_tree import Cap, fixed_caps
from fellwright.planning.missing import StandIn
from fellwright.planning.need import Situation
from fellwright.planning.reasons import LEAVE, because, boldness
from fellwright.planning.refusals import has_dead_overhead, is_unsound
from fellwright.planning.scenario import Fitted, Outcome, Terms, run_scenario
from fellwright.planning.situation import CutPlan, build_situation, propose_cut
from fellwright.planning.tree_model import TreeModel
from fellwright.records.kit import Kit
from fellwright.records.tree import Tree
from fellwright.tables.profiles import Profile

__all__ = ["Case", "is_freezing", "may_preload", "prepare_case"]

MOST_CUT_SHARE = 0.8
"""OWN: notch and hinge together may take this share of the stump, else nothing is left to wedge."""


@dataclass(frozen=True, slots=True)
class Case:
    """One tree with its van and cut, ready to be run at any gust."""

    tree: Tree
    kit: Kit
    model: TreeModel
    stand_in: StandIn
    cut: CutPlan
    terms: Terms
    drawing: Drawing

    def situation(self, gust_m_per_s: float) -> Situation:
        """Medians and errors with a gust [m/s]."""
        assert self.stand_in.lean is not None
        return build_situation(self.tree, self.model, self.stand_in.lean, self.cut, gust_m_per_s)

    def run(self, points: Sequence[Points], situation: Situation, gust_share: float) -> Outcome:
        """Verdict of one state of the day."""
        return run_scenario(points, situation, gust_share, self.terms, self.drawing)

    def worst(self, points: Sequence[Points], gust_m_per_s: float) -> Outcome:
        """The worse of calm and gust; figures with the gust where both say the same."""
        situation = self.situation(gust_m_per_s)
        calm = self.run(points, situation, 0.0)
        if gust_m_per_s <= 0.0:
            return calm
        gusty = self.run(points, situation, 1.0)
        hinge_first = calm.hinge_first or gusty.hinge_first
        bars = (*gusty.bars, *calm.bars)
        if boldness(gusty.verdict) <= boldness(calm.verdict):
            return replace(gusty, hinge_first=hinge_first, bars=bars)
        # The figures show the gust, the verdict is that of calm.
        return replace(
            gusty,
            verdict=calm.verdict,
            reasons=calm.reasons,
            bars=bars,
            hinge_first=hinge_first,
            devices=calm.devices,
            choice=calm.choice,
            lines=calm.lines,
            lines_missing=calm.lines_missing,
        )


def is_freezing(tree: Tree) -> bool:
    """Whether the day is given as below freezing."""
    temperature = tree.day.temperature_degc
    return temperature is not None and not temperature >= limits.FROST_DEGC.value


def prepare_case(
    tree: Tree,
    kit: Kit,
    stand_in: StandIn,
    model: TreeModel,
    drawing: Drawing,
    profile: Profile | None,
) -> Case:
    """Close the drive trains and collect the caps."""
    cut = propose_cut(tree, model, stand_in.lay_deg, profile)
    preload = may_preload(tree)
    setting = Setting(
        kit,
        model.species,
        iced=is_freezing(tree),
        preloaded=preload,
        hammering=not has_dead_overhead(tree),
    )
    fitted = tuple(Fitted(device, fit_device(device, setting)) for device in kit.devices)
    caps = fixed_caps(tree)
    if cut.notch_share + cut.hinge_m / model.stump_m > MOST_CUT_SHARE:
        caps.append(Cap(LEAVE, because("cut")))
    terms = Terms(
        fitted, tuple(caps), kit.ropes, model.height_m, cut.method, cold=is_freezing(tree)
    )
    return Case(tree, kit, model, stand_in, cut, terms, drawing)


def may_preload(tree: Tree) -> bool:
    """Whether a steel device is loaded before the release cut (R10 bars it on unsound stems)."""
    return tree.cut.preload is not False and not is_unsound(tree)
