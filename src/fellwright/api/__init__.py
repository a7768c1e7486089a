"""The JSON door: one question, one request, one response, the same on every face."""

from fellwright.api.door import (
    FIGURE_NAMES,
    answer,
    answer_plan,
    answer_read,
    answer_why,
    options_from,
    style_from,
    with_lay,
)
from fellwright.planning.plan import Options
from fellwright.planning.tip import plan_tip

__all__ = [
    "FIGURE_NAMES",
    "Options",
    "answer",
    "answer_plan",
    "answer_read",
    "answer_why",
    "options_from",
    "plan_tip",
    "style_from",
    "with_lay",
]
