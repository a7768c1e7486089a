"""Pictures to scale of one plan, as SVG text from the standard library: they read no files."""

from collections.abc import Callable

from fellwright.draw.bars import lay_bars
from fellwright.draw.need_have import draw_need_have
from fellwright.draw.page import draw_shape
from fellwright.draw.push_lift import draw_push_lift
from fellwright.draw.stump import draw_stump
from fellwright.draw.tipping import draw_tipping
from fellwright.planning.plan import Plan
from fellwright.words import Style

__all__ = [
    "PICTURES",
    "draw_need_have",
    "draw_push_lift",
    "draw_shape",
    "draw_stump",
    "draw_tipping",
    "lay_bars",
]

PICTURES: dict[str, Callable[[Plan, Style], str]] = {
    "tipping": draw_tipping,
    "need-have": draw_need_have,
    "stump": draw_stump,
    "push-lift": draw_push_lift,
}
"""Every picture of a plan by its name."""
