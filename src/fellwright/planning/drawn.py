"""A tree drawn many times: the one place where the draws are worked out, and may be compiled.

The verdict asks for quantiles and shares only. Plain Python works them out below; another way of
doing the same arithmetic (``fellwright.bulk``) is handed in as a :class:`Drawing`.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

from fellwright.planning.chance import Points
from fellwright.planning.device_draw import DeviceFigures, draw_device, draw_pair
from fellwright.planning.judge_device import DeviceTally, NeedSummary, summarise_need, tally_draws
from fellwright.planning.judge_tree import TreeFigures, tree_figures
from fellwright.planning.need import Need, Situation, draw_need

__all__ = ["Drawing", "Drawn", "draw_plainly"]


class Drawn(Protocol):
    """One tree in every draw, ready to be asked."""

    @property
    def needs(self) -> Sequence[Need]:
        """The draws themselves."""

    def tree(self) -> TreeFigures:
        """Quantiles of the tree's own figures."""

    def need(self) -> NeedSummary:
        """Quantiles of what devices are held against."""

    def device(self, figures: DeviceFigures) -> DeviceTally:
        """Quantiles and shares of one device on this tree."""

    def pair(self, first: DeviceFigures, second: DeviceFigures, share: float) -> DeviceTally:
        """Quantiles and shares of two devices side by side, a share of their sum counted."""


class Drawing(Protocol):
    """A way to work the draws out."""

    def __call__(
        self, points: Sequence[Points], situation: Situation, gust_share: float, /
    ) -> Drawn:
        """Draw a tree at every point, with the gust entered (1) or in calm (0)."""


@dataclass(frozen=True, slots=True)
class PlainlyDrawn:
    """Draws worked out one by one in plain Python."""

    points: Sequence[Points]
    needs: Sequence[Need]

    def tree(self) -> TreeFigures:
        """Quantiles of the tree's own figures."""
        return tree_figures(self.needs)

    def need(self) -> NeedSummary:
        """Quantiles of what devices are held against."""
        return summarise_need(self.needs)

    def device(self, figures: DeviceFigures) -> DeviceTally:
        """Quantiles and shares of one device on this tree."""
        draws = [draw_device(u, n, figures) for u, n in zip(self.points, self.needs, strict=True)]
        return tally_draws(draws, self.needs)

    def pair(self, first: DeviceFigures, second: DeviceFigures, share: float) -> DeviceTally:
        """Quantiles and shares of two devices side by side, a share of their sum counted."""
        pairs = zip(self.points, self.needs, strict=True)
        draws = [draw_pair(u, n, first, second, share) for u, n in pairs]
        return tally_draws(draws, self.needs)


def draw_plainly(points: Sequence[Points], situation: Situation, gust_share: float, /) -> Drawn:
    """Draw a tree at every point in plain Python: the way every answer is worked out by default.

    Parameters
    ----------
    points : sequence of Points
        Draws.
    situation : Situation
        The tree.
    gust_share : float
        1 with the gust entered, 0 in calm.

    Returns
    -------
    Drawn
        The draws, ready to be asked.
    """
    return PlainlyDrawn(points, [draw_need(u, situation, gust_share) for u in points])
