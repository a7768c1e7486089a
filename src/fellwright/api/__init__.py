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
from fellwright.api.shown import (
    METHOD_KEYS,
    SHAPES,
    device_rows,
    need_rows,
    shown_choice,
    shown_cut,
    shown_verdict,
)
from fellwright.planning.plan import Options
from fellwright.planning.tip import plan_tip

__all__ = [
    "FIGURE_NAMES",
    "METHOD_KEYS",
    "SHAPES",
    "Options",
    "answer",
    "answer_plan",
    "answer_read",
    "answer_why",
    "device_rows",
    "need_rows",
    "options_from",
    "plan_tip",
    "shown_choice",
    "shown_cut",
    "shown_verdict",
    "style_from",
    "with_lay",
]
