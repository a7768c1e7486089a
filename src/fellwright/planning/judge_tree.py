"""The tree itself: side use, early-go, splitting and tension, and what caps any verdict."""

from collections.abc import Sequence
from dataclasses import dataclass

from fellwright.planning import limits
from fellwright.planning.chance import Doubt, doubt
from fellwright.planning.need import Need
from fellwright.planning.reasons import LEAVE, TIGHT, Reason, because
from fellwright.planning.refusals import has_dead_overhead, is_unsound, say_defect
from fellwright.records.defects import SHAPE
from fellwright.records.tree import Tree
from fellwright.words import listed, say

__all__ = ["Cap", "TreeFigures", "fixed_caps", "is_hinge_first", "judge_tree", "tree_figures"]


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

    @property
    def bars_ordinary_cut(self) -> bool:
        """Whether it may start early or split in an ordinary back cut."""
        return self.is_forward_leaner or not self.splitting.p90 < limits.SPLITTING_MOST.value


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
        caps.append(Cap(LEAVE, because("flare")))
    temperature = tree.day.temperature_degc
    if temperature is not None and not temperature >= limits.FROST_DEGC.value:
        caps.append(Cap(TIGHT, because("frost")))
    if has_dead_overhead(tree):
        caps.append(Cap(TIGHT, because("overhead")))
    if is_unsound(tree):
        caps.append(Cap(TIGHT, because("unsound")))
    shapes = [d for d in tree.defects if d in SHAPE]
    if shapes:
        caps.append(Cap(TIGHT, because("shape", shapes=listed(say_defect(d) for d in shapes))))
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
        caps.append(Cap(LEAVE, because("side_use", use=side.p50), line_helps=True))
    elif not (side.p50 < limits.SIDE_USE_EASY.value and side.p90 < limits.SIDE_USE_MOST.value):
        sentence = say("reason.side_use_some", use=side.p50, to=side.p90)
        caps.append(Cap(TIGHT, Reason("side_use", sentence)))
    tension = figures.hinge_tension_pa.p90
    if not tension <= limits.HINGE_TENSION_MPA.value * 1e6:
        caps.append(
            Cap(
                LEAVE,
                because("hinge_tension", tension=tension),
                line_helps=True,
            )
        )
    caps.extend(_splitting_caps(figures, method))
    return caps


def is_hinge_first(figures: TreeFigures, method: str | None) -> bool:
    """Whether the hinge is bored first: as the feller names it, else where an ordinary cut bars.

    Parameters
    ----------
    figures : TreeFigures
        Quantiles of the tree.
    method : str or None
        Method the feller names.

    Returns
    -------
    bool
        True where it may start early or split in an ordinary cut, unless another cut is named.
    """
    if method is not None:
        return method == "hinge first"
    return figures.bars_ordinary_cut


def _splitting_caps(figures: TreeFigures, method: str | None) -> list[Cap]:
    caps = []
    hinge_first = is_hinge_first(figures, method)
    if figures.is_forward_leaner:
        uncut, ratio = figures.early_go_m.p90, figures.early_go_ratio.p90
        if hinge_first or method is None:
            caps.append(Cap(TIGHT, because("early_go", uncut=uncut, ratio=ratio)))
        else:
            named = say(f"cut.{method.replace(' ', '_')}")
            sentence = say("reason.early_go_method", uncut=uncut, ratio=ratio, method=named)
            caps.append(Cap(LEAVE, Reason("early_go", sentence)))
    elif hinge_first and method is None:
        sentence = say("reason.splitting_if_ordinary", index=figures.splitting.p90)
        caps.append(Cap(TIGHT, Reason("early_go", sentence)))
    index = figures.splitting_hinge_first if hinge_first else figures.splitting
    if not index.p90 < limits.SPLITTING_MOST.value:
        cut = say("reason.splitting_hinge_first" if hinge_first else "reason.splitting_ordinary")
        caps.append(Cap(LEAVE, because("splitting", cut=cut, index=index.p90)))
    elif not index.p90 < limits.SPLITTING_EASY.value:
        sentence = say("reason.splitting_some", index=index.p90)
        caps.append(Cap(TIGHT, Reason("splitting", sentence)))
    return caps
