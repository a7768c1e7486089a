"""A plan as plain data: rounded at this border, so that every face shows the same digits."""

import math
from collections.abc import Iterable

from fellwright.api.practice_response import practice_response
from fellwright.planning import bands
from fellwright.planning.cautions import warn
from fellwright.planning.chance import Doubt
from fellwright.planning.envelope import Envelope
from fellwright.planning.helps import Help
from fellwright.planning.judge_device import DeviceOutcome
from fellwright.planning.judge_tree import TreeFigures
from fellwright.planning.line import TONNE_N, LineNeed
from fellwright.planning.marks import Marks, Turns
from fellwright.planning.measure_next import JSON_UNITS
from fellwright.planning.plan import Plan
from fellwright.planning.practice import check_practice
from fellwright.planning.reasons import Reason
from fellwright.words import METRIC, Style, render, say

__all__ = ["SCHEMA", "mark_response", "tip_response"]

SCHEMA = "fellwright/tip/1"
MARK_SCHEMA = "fellwright/mark/1"
FIGURES = (
    "mass_kg",
    "volume_m3",
    "back_offset_m",
    "side_offset_m",
    "lift_mm",
    "push_kn",
    "side_use",
    "early_go_mm",
    "early_go_ratio",
    "splitting_index",
    "hinge_tension_mpa",
)
P10_SIGMAS = 1.2815515655446004


def tip_response(plan: Plan, style: Style = METRIC) -> dict[str, object]:
    """Write a plan as the answer to ``tip``.

    Parameters
    ----------
    plan : Plan
        The plan.
    style : Style
        Language and units of its sentences; figures are metric whatever the style.

    Returns
    -------
    dict
        See ``schemas/tip.json``; a figure that cannot or must not be had is None.
    """
    figures = None if plan.outcome is None else plan.outcome.figures
    outcome = plan.outcome
    return {
        "schema": SCHEMA,
        "tree": plan.tree.name,
        "lay_deg": plan.tree.cut.lay_deg,
        "verdict": plan.verdict,
        "reasons": _reasons(plan.reasons, style),
        "if_clear": plan.if_clear,
        "conditions": [render(text, style) for text in plan.conditions],
        "draws": plan.options.draws,
        "seed": plan.options.seed,
        **_figures(plan, figures),
        "hinge": _hinge(plan),
        "notch": _notch(plan),
        "marks": [] if plan.marks is None else _mark_list(plan.marks, style),
        "cut": None if plan.marks is None else _cut(plan.marks, style),
        "turns": None if plan.marks is None else _turns(plan.marks.turns),
        "devices": [] if outcome is None else [_device(d, style) for d in outcome.devices],
        "choice": None if outcome is None else _choice(plan),
        "line": [] if outcome is None else [_line(need, style) for need in outcome.lines],
        "measure_next": _measure_next(plan, style),
        "helps": [_help(help_, style) for help_ in plan.helps],
        "envelope": _envelope(plan.envelope, style),
        "cautions": _reasons(plan.cautions or (warn("local_law"),), style),
        "profile": None if plan.options.profile is None else plan.options.profile.name,
        "practice": _practice(plan, style),
        "assumed": [
            {
                "name": render(a.name, style),
                "value": render(a.value, style),
                "mark": a.mark,
                "reason": render(a.reason, style),
                "not_read": a.is_missing_reading,
            }
            for a in plan.assumed
        ],
    }


def mark_response(plan: Plan, style: Style = METRIC) -> dict[str, object]:
    """Write the cutting part of a plan as the answer to ``mark``.

    Parameters
    ----------
    plan : Plan
        The plan.
    style : Style
        Language and units of its sentences; figures are metric whatever the style.

    Returns
    -------
    dict
        Verdict, reasons, hinge, notch, marks, sequence and turns; no figures where the verdict
        shows none.
    """
    whole = tip_response(plan, style)
    keys = (
        "tree",
        "lay_deg",
        "verdict",
        "reasons",
        "if_clear",
        "conditions",
        "hinge",
        "notch",
        "marks",
        "cut",
        "turns",
        "choice",
        "line",
        "measure_next",
        "cautions",
        "profile",
        "practice",
    )
    return {"schema": MARK_SCHEMA, **{key: whole[key] for key in keys}}


def _practice(plan: Plan, style: Style) -> list[dict[str, object]]:
    """Rules of the practice profile held against the plan."""
    profile = plan.options.profile
    if profile is None or plan.cut is None:
        return []
    return practice_response(check_practice(plan, profile), style)


def _round(value: float | None, digits: int) -> float | None:
    """Round for JSON; no NaN or infinity crosses the border, and no minus zero."""
    if value is None or not math.isfinite(value):
        return None
    return round(value, digits) + 0.0


def _band(doubt: Doubt | None, scale: float, digits: int) -> dict[str, float | None] | None:
    if doubt is None:
        return None
    return {
        "p10": _round(scale * doubt.p10, digits),
        "p50": _round(scale * doubt.p50, digits),
        "p90": _round(scale * doubt.p90, digits),
    }


def _reasons(reasons: Iterable[Reason], style: Style) -> list[dict[str, str]]:
    return [{"code": reason.code, "text": render(reason.text, style)} for reason in reasons]


def _figures(plan: Plan, f: TreeFigures | None) -> dict[str, object]:
    if f is None:
        return dict.fromkeys(FIGURES)
    return {
        "mass_kg": _band(f.mass_kg, 1.0, 0),
        "volume_m3": _volume(plan),
        "back_offset_m": _band(f.back_m, 1.0, 2),
        "side_offset_m": _band(f.side_m, 1.0, 2),
        "lift_mm": {
            "balance": _band(f.balance_lift_m, 1000.0, 1),
            "let_go": _band(f.let_go_lift_m, 1000.0, 1),
        },
        "push_kn": _band(f.push_n, 1e-3, 1),
        "side_use": _band(f.side_use, 1.0, 3),
        "early_go_mm": _band(f.early_go_m, 1000.0, 0),
        "early_go_ratio": _band(f.early_go_ratio, 1.0, 2),
        "splitting_index": _splitting(plan, f),
        "hinge_tension_mpa": _band(f.hinge_tension_pa, 1e-6, 1),
    }


def _splitting(plan: Plan, f: TreeFigures) -> dict[str, float | None] | None:
    """Splitting index of the method that is planned."""
    hinge_first = plan.outcome is not None and plan.outcome.hinge_first
    return _band(f.splitting_hinge_first if hinge_first else f.splitting, 1.0, 3)


def _volume(plan: Plan) -> dict[str, float | None] | None:
    """Stem volume above the cut over bark, lognormal from the errors of form, dbh and height."""
    if plan.model is None or plan.situation is None:
        return None
    s = plan.situation
    sigma = math.sqrt(bands.FORM_RATIO**2 + (2.0 * s.dbh_ratio) ** 2 + s.height_ratio**2)
    middle = plan.model.stem_volume_m3
    spread = math.exp(P10_SIGMAS * sigma)
    return _band(Doubt(middle / spread, middle, middle * spread), 1.0, 2)


def _hinge(plan: Plan) -> dict[str, object] | None:
    if plan.marks is None or plan.cut is None:
        return None
    return {
        "thickness_mm": _round(1000.0 * plan.cut.hinge_m, 0),
        "width_mm": _round(plan.marks.hinge_width_mm, 0),
        "proposed": plan.cut.hinge_is_proposed,
    }


def _notch(plan: Plan) -> dict[str, object] | None:
    if plan.marks is None or plan.cut is None:
        return None
    return {
        "share": _round(plan.cut.notch_share, 3),
        "depth_mm": _round(plan.marks.notch_depth_mm, 0),
        "opening_deg": _round(math.degrees(plan.cut.opening_rad), 0),
        "height_mm": _round(plan.marks.notch_height_mm, 0),
        "proposed": plan.cut.notch_is_proposed,
    }


def _mark_list(marks: Marks, style: Style) -> list[dict[str, object]]:
    return [
        {
            "name": render(say(f"mark.{mark.key}"), style),
            "from_front_mm": _round(mark.from_front_mm, 0),
        }
        for mark in marks.marks
    ]


def _cut(marks: Marks, style: Style) -> dict[str, object]:
    return {
        "method": marks.method,
        "step_mm": _round(marks.step_mm, 0),
        "release_step_mm": _round(marks.release_step_mm, 0),
        "bar_room_mm": _round(marks.bar_room_mm, 0),
        "preload_kn": _round(marks.preload_kn, 0),
        "sequence": [render(step, style) for step in marks.sequence],
    }


def _turns(turns: Turns | None) -> dict[str, object] | None:
    if turns is None:
        return None

    def three(values: tuple[float, float, float]) -> dict[str, float | None]:
        return {k: _round(v, 1) for k, v in zip(("p10", "p50", "p90"), values, strict=True)}

    return {
        "bed_in": _round(turns.bed_in, 1),
        "balance": three(turns.balance),
        "let_go": three(turns.let_go),
        "stop": _round(turns.stop, 1),
        "leave_stump_by": _round(turns.leave_by, 1),
        "seconds": [_round(value, 0) for value in turns.seconds],
        "energy_wh": [_round(value, 1) for value in turns.energy_wh],
    }


def _device(d: DeviceOutcome, style: Style) -> dict[str, object]:
    usable, available = d.usable_lift_m, d.available_n
    return {
        "name": d.name,
        "kind": d.kind,
        "usable_lift_mm": _round(None if usable is None else 1000.0 * usable.p50, 1),
        "usable_lift_band_mm": _band(usable, 1000.0, 1),
        "available_push_kn": _round(None if available is None else available.p50 / 1000.0, 1),
        "available_push_band_kn": _band(available, 1e-3, 1),
        "limits": {name: _round(value / 1000.0, 1) for name, value in d.limits_n.items()},
        "limit": d.limit,
        "verdict": d.verdict,
        "reason": render(d.reasons[0].text, style),
        "share_of_draws": _round(d.joint_share, 3),
    }


def _choice(plan: Plan) -> dict[str, object] | None:
    """Choose nothing to drive where nothing may be cut, or the tree goes by itself, hinge first."""
    assert plan.outcome is not None
    choice = plan.outcome.choice if plan.may_cut else None
    if choice is None or choice.driven is None or not plan.drives_device:
        return None
    drive = choice.driven.drive
    return {
        "name": choice.name,
        "kind": choice.kind,
        "wrench": None if drive.wrench is None else drive.wrench.name,
        "socket_hex_mm": drive.socket_hex_mm,
        "hammer_kg": drive.hammer_kg,
        "charge_wh": _round(drive.charge_wh, 0) if drive.wrench else None,
        "grease": choice.driven.grease if drive.wrench else None,
    }


def _line(need: LineNeed, style: Style) -> dict[str, object]:
    return {
        "purpose": need.purpose,
        "where": render(need.where, style),
        "tension_t": _round(need.tension_n / TONNE_N, 2),
        "fastening_m": _round(need.fastening_m, 1),
        "anchor_m": _round(need.run_m, 0),
        "rope_m": _round(need.rope_m, 0),
        "strength_t": _round(need.strength_n / TONNE_N, 2),
        "redirect_block_t": _round(
            None if need.redirect_block_n is None else need.redirect_block_n / TONNE_N, 2
        ),
        "text": render(need.text, style),
    }


def _help(h: Help, style: Style) -> dict[str, object]:
    return {
        "code": h.code,
        "verdict": h.verdict,
        "let_go_lift_mm": _round(1000.0 * h.lift_m, 1),
        "let_go_lift_change_mm": _round(1000.0 * h.lift_change_m, 1),
        "push_kn": _round(h.push_n / 1000.0, 1),
        "push_change_kn": _round(h.push_change_n / 1000.0, 1),
        "side_use": _round(h.side_use, 3),
        "mass_kg": _round(h.mass_kg, 1),
        "minutes": _round(h.minutes, 0),
        "text": render(h.text, style),
    }


def _envelope(e: Envelope | None, style: Style) -> dict[str, object] | None:
    if e is None:
        return None

    def mm(value: float | None) -> float | None:
        return _round(None if value is None else 1000.0 * value, 0)

    return {
        "back_offset_least_m": _round(e.back_offset_least_m, 2),
        "back_offset_most_m": _round(e.back_offset_most_m, 2),
        "side_offset_m": _round(e.side_offset_m, 2),
        "head_gust_m_s": _round(e.head_gust_m_per_s, 1),
        "hinge_least_mm": mm(e.hinge_least_m),
        "hinge_most_mm": mm(e.hinge_most_m),
        "text": None if e.text is None else render(e.text, style),
    }


def _measure_next(plan: Plan, style: Style) -> dict[str, object] | None:
    m = plan.measure_next
    if m is None:
        return None
    unit, scale = JSON_UNITS.get(m.figure or "", ("", 1.0))
    return {
        "reading": render(say(f"measure.{m.reading}"), style),
        "how": render(m.how, style),
        "figure": m.figure,
        "unit": unit or None,
        "band_now": _round(None if m.width_now is None else scale * m.width_now, 3),
        "band_then": _round(None if m.width_then is None else scale * m.width_then, 3),
        "text": render(m.text, style),
    }
