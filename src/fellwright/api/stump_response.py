"""The stump card as plain data: predicted against real, where it fell, what to look at."""

import math
from collections.abc import Mapping

from fellwright.api.door import style_from
from fellwright.api.with_plan import plan_and
from fellwright.planning.plan import Plan
from fellwright.planning.stump_record import LayError, StumpReport, StumpRow, compare_stump
from fellwright.records.stump_fields import read_stump
from fellwright.words import METRIC, Style, quantity, render, say, unit_name

__all__ = ["STUMP_SCHEMA", "stump_answer", "stump_response"]

STUMP_SCHEMA = "fellwright/stump/1"
JSON_UNITS = {"lift": ("mm", 1000.0, 1), "mark": ("cm", 100.0, 1), "force": ("kN", 1e-3, 1)}


def stump_answer(request: Mapping[str, object]) -> dict[str, object]:
    """Compare what was read on the stump with what was predicted.

    Parameters
    ----------
    request : mapping
        As for ``tip``, of the plan that was cut to; and ``stump``: the nine entries, each of them
        optional, and the ``device`` that was used if it was not the one chosen.

    Returns
    -------
    dict
        See :func:`stump_response`.

    Raises
    ------
    BadInput
        With every fault of the request.
    """
    style = style_from(request)
    plan, record = plan_and(
        request, lambda: read_stump(request.get("stump", {}), say("fault.request"))
    )
    return stump_response(plan, compare_stump(plan, record), style)


def stump_response(plan: Plan, report: StumpReport, style: Style = METRIC) -> dict[str, object]:
    """Write a comparison as the answer to ``stump``.

    Parameters
    ----------
    plan : Plan
        The plan.
    report : StumpReport
        The comparison.
    style : Style
        Language and units of its sentences and shown figures; the others are metric.

    Returns
    -------
    dict
        ``rows`` with predicted band, real value, percentile and place (in, below, above); ``lay``;
        ``flags``; ``notes``. None where a figure was not read or cannot be had.
    """
    return {
        "schema": STUMP_SCHEMA,
        "tree": plan.tree.name,
        "lay_deg": plan.tree.cut.lay_deg,
        "verdict": plan.verdict,
        "device": report.device,
        "draws": plan.options.draws,
        "rows": [_row(row, style) for row in report.rows],
        "lay": _lay(report.lay, style),
        "flags": [{"code": f.code, "text": render(f.text, style)} for f in report.flags],
        "notes": [render(text, style) for text in report.notes],
    }


def _row(row: StumpRow, style: Style) -> dict[str, object]:
    unit, scale, digits = JSON_UNITS[row.kind]

    def figure(value: float | None) -> float | None:
        return None if value is None else round(scale * value, digits)

    def written(value: float | None) -> str | None:
        return None if value is None else quantity(value, f"bare {row.kind}", style)

    band = row.predicted
    return {
        "key": row.key,
        "name": render(say(f"stump.name_{row.key}"), style),
        "unit": unit,
        "predicted": None
        if band is None
        else {"p10": figure(band.p10), "p50": figure(band.p50), "p90": figure(band.p90)},
        "planned": figure(row.planned),
        "real": figure(row.real),
        "shown": {
            "unit": unit_name(row.kind, style),
            "p10": written(None if band is None else band.p10),
            "p50": written(None if band is None else band.p50),
            "p90": written(None if band is None else band.p90),
            "planned": written(row.planned),
            "real": written(row.real),
        },
        "percentile": None if row.percentile is None else round(row.percentile, 1),
        "place": row.place,
        "counts": row.counts,
        "text": render(row.text, style),
    }


def _lay(lay: LayError | None, style: Style) -> dict[str, object] | None:
    if lay is None:
        return None
    return {
        "error_deg": round(math.degrees(lay.error_rad), 1),
        "side": lay.side,
        "beside_m": None if lay.beside_m is None else round(lay.beside_m, 2),
        "reach_m": None if lay.reach_m is None else round(lay.reach_m, 1),
        "text": render(lay.text, style),
    }
