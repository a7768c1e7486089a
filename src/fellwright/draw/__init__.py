"""Pictures to scale of one plan, as SVG text from the standard library: they read no files."""

from fellwright.draw.need_have import draw_need_have
from fellwright.draw.push_lift import draw_push_lift
from fellwright.draw.stump import draw_stump
from fellwright.draw.tipping import draw_tipping

__all__ = ["draw_need_have", "draw_push_lift", "draw_stump", "draw_tipping"]
