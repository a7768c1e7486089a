"""The tree itself: side use, early-go, splitting and tension, and what caps any verdict."""

from collections.abc import Sequence
from dataclasses import dataclass

from fellwright.planning import limits
from fellwright.planning.chance import Doubt, doubt
from fellwright.planning.need import Need
from fellwright.planning.reasons import LEAVE, TIGHT, Reason
from fellwright.planning.refusals import has_dead_overhead, is_unsound
from fellwright.records.defects import SHAPE
from fellwright.records.tree import Tree

__all__ = ["Cap", "TreeFigures", "fixed_caps", "judge_tree", "tree_figures"]


@dataclass(frozen=True, slots=True)
class Cap:
    """The boldest verdict that a finding allows; a line can mend it or not."""

    verdict: str
    reason: Reason
    line_helps: bool = False


@dataclass(frozen=True, slots=True)
class TreeFigures:
    """Figures of the tree over the draws, SI units."""

    mass_kg: Doubt
    balance_lift_m: Doubt
    let_go_lift_m: Doubt
    push_n: Doubt
    push_moment_n_m: Doubt
    side_use: Doubt
    early_go_m: Doubt
    early_go_ratio: Doubt
    splitting: Doubt
    splitting_hinge_first: Doubt
    hinge_tension_pa: Doubt
    back_m: Doubt
    side_m: Doubt
    work_j: Doubt

    @property
    def is_forward_leaner(self) -> bool:
        """Whether an ordinary back cut may let it start before the hinge is reached."""
        return not self.early_go_ratio.p90 < limits.EARLY_GO_MOST.value


def tree_figures(needs: Sequence[Need]) -> TreeFigures:
    """Quantiles of every figure of the tree."""

    def of(name: str) -> Doubt:
        return doubt([getattr(need, name) for need in needs])

    return TreeFigures(
        mass_kg=of("mass_kg"),
        balance_lift_m=of("balance_lift_m"),
        let_go_lift_m=of("let_go_lift_m"),
        push_n=of("push_n"),
        push_moment_n_m=of("push_moment_n_m"),
        side_use=of("side_use"),
        early_go_m=of("early_go_m"),
        early_go_ratio=of("early_go_ratio"),
        splitting=of("splitting"),
        splitting_hinge_first=of("splitting_hinge_first"),
        hinge_tension_pa=of("hinge_tension_pa"),
        back_m=of("back_m"),
        side_m=of("side_m"),
        work_j=of("work_j"),
    )


def fixed_caps(tree: Tree) -> list[Cap]:
    """Caps that follow from what was seen, before any figure."""
    caps = []
    if tree.flare not in ("none", "trimmed"):
        caps.append(
            Cap(
                LEAVE,
                Reason(
                    "flare",
                    "the flare is not trimmed: trim where wedge and hinge stand, measure the stump "
                    "again, ask again",
                ),
            )
        )
    temperature = tree.day.temperature_degc
    if temperature is not None and temperature < limits.FROST_DEGC.value:
        caps.append(
            Cap(TIGHT, Reason("frost", "below 0 deg C: ice under plates, hinges break early"))
        )
    if has_dead_overhead(tree):
        caps.append(Cap(TIGHT, Reason("overhead", "dead wood overhead: no hammering, a watcher")))
    if is_unsound(tree):
        caps.append(Cap(TIGHT, Reason("unsound", "the stem is not sound: no hard preload")))
    shapes = [d for d in tree.defects if d in SHAPE]
    if shapes:
        caps.append(
            Cap(TIGHT, Reason("shape", f"{', '.join(shapes)}: the balance point is less certain"))
        )
    return caps


def judge_tree(figures: TreeFigures, method: str | None) -> list[Cap]:
    """Caps that follow from the figures.

    Parameters
    ----------
    figures : TreeFigures
        Quantiles of the tree.
    method : str or None
        Method the feller names; None where the tool proposes it.

    Returns
    -------
    list of Cap
        Empty where nothing caps the verdict.
    """
    caps = []
    side = figures.side_use
    # Written as 'not below', so that a NaN caps.
    if not side.p50 < limits.SIDE_USE_MOST.value:
        text = f"side use: the hinge would carry {side.p50:.2f} of its sideways strength"
        caps.append(Cap(LEAVE, Reason("side_use", f"{text}, it may tear"), line_helps=True))
    elif not (side.p50 < limits.SIDE_USE_EASY.value and side.p90 < limits.SIDE_USE_MOST.value):
        text = f"side use {side.p50:.2f} (to {side.p90:.2f}) of the hinge's sideways strength"
        caps.append(Cap(TIGHT, Reason("side_use", text)))
    tension = figures.hinge_tension_pa.p90 / 1e6
    if not tension <= limits.HINGE_TENSION_MPA.value:
        caps.append(
            Cap(
                LEAVE,
                Reason("hinge_tension", f"the wedge would pull the hinge at {tension:.0f} MPa"),
                line_helps=True,
            )
        )
    caps.extend(_splitting_caps(figures, method))
    return caps


def _splitting_caps(figures: TreeFigures, method: str | None) -> list[Cap]:
    caps = []
    hinge_first = figures.is_forward_leaner or method == "hinge first"
    if figures.is_forward_leaner:
        ratio = figures.early_go_ratio
        text = (
            f"it leans forward: it may start with {1000 * figures.early_go_m.p90:.0f} mm uncut, "
            f"{ratio.p90:.1f} times the hinge"
        )
        if method not in (None, "hinge first"):
            caps.append(Cap(LEAVE, Reason("early_go", f"{text}: never by a {method}, hinge first")))
        else:
            caps.append(Cap(TIGHT, Reason("early_go", f"{text}: hinge first, rear strap cut last")))
    index = figures.splitting_hinge_first if hinge_first else figures.splitting
    if not index.p90 < limits.SPLITTING_MOST.value:
        cut = "hinge first" if hinge_first else "in an ordinary cut"
        caps.append(
            Cap(LEAVE, Reason("splitting", f"it may split {cut}: index {index.p90:.1f} of 1"))
        )
    elif not index.p90 < limits.SPLITTING_EASY.value:
        caps.append(
            Cap(TIGHT, Reason("splitting", f"splitting index {index.p90:.2f}: watch the stem"))
        )
    return caps
