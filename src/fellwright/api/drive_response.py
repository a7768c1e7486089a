"""The driving table as plain data, its figures written as they are shown."""

import math
from collections.abc import Callable

from fellwright.planning.drive_table import (
    BED_IN,
    GOES,
    STOP,
    TURNS,
    DriveRow,
    DriveStage,
    DriveTable,
    drive_table,
    no_drive_reason,
)
from fellwright.planning.plan import Plan
from fellwright.words import METRIC, Style, Text, quantity, render, say

__all__ = ["drive_rows"]

TENTHS = 10.0
MM_PER_M = 1000.0


def drive_rows(plan: Plan, style: Style = METRIC) -> dict[str, object]:
    """Write the driving of the chosen device, from closed to its stop.

    Parameters
    ----------
    plan : Plan
        The plan.
    style : Style
        Language and units.

    Returns
    -------
    dict
        ``device``; ``unit`` turns or mm; ``rows`` with turns (None in millimetres), opening, stage,
        whether it is driven from outside, and sentence; ``stages`` with ``at``, ``band`` and
        ``note``; ``leave_by`` (None with a hammer) and ``stop`` in turns or millimetres, rounded
        down. Without a table ``rows`` is empty, the figures are None and ``text`` says why.
    """
    table = drive_table(plan)
    if table is None:
        why = no_drive_reason(plan)
        assert why is not None
        return {
            "device": None,
            "unit": None,
            "rows": [],
            "stages": [],
            "leave_by": None,
            "leave_by_text": None,
            "stop": None,
            "text": render(why, style),
        }
    leave_by = table.leave_by
    return {
        "device": table.name,
        "unit": table.unit,
        "rows": [_row(row, table, style) for row in table.rows],
        "stages": [_stage(stage, table, style) for stage in table.stages],
        "leave_by": None if leave_by is None else _figure(table, leave_by, math.floor),
        "leave_by_text": render(_leave_by(table), style),
        "stop": _stop(table),
        "text": render(say("drive.heading", name=table.name), style),
    }


def _figure(table: DriveTable, count: float, whole: Callable[[float], int]) -> float:
    """Whole turns or millimetres, up or down."""
    scale = 1.0 if table.unit == TURNS else MM_PER_M
    # A count that is whole but for the last bit of a float is that whole count.
    return float(whole(round(scale * count, 9)))


def _stop(table: DriveTable) -> float:
    """Turns to a tenth, or millimetres; down: nobody drives past a stop that was rounded up."""
    if table.unit == TURNS:
        return math.floor(round(TENTHS * table.stop, 9)) / TENTHS
    return _figure(table, table.stop, math.floor)


def _leave_by(table: DriveTable) -> Text:
    if table.leave_by is None:
        return say("drive.by_hand")
    return say("drive.leave_by", at=_at(table, _figure(table, table.leave_by, math.floor)))


def _at(table: DriveTable, figure: float) -> Text:
    """A count in words: turns, or an opening from millimetres."""
    if table.unit == TURNS:
        return say("drive.turn", count=figure)
    return say("drive.opening", opening=figure / MM_PER_M)


def _band(table: DriveTable, low: float, high: float) -> Text:
    if table.unit == TURNS:
        return say("drive.turns", low=low, high=high)
    return say("drive.openings", low=low / MM_PER_M, high=high / MM_PER_M)


def _row(row: DriveRow, table: DriveTable, style: Style) -> dict[str, object]:
    turns = row.turns
    if turns is not None:
        turns = _stop(table) if row.stage == STOP else float(turns)
    return {
        "turns": turns,
        "opening": quantity(row.opening_m, "lift", style),
        "stage": row.stage,
        "remote": row.is_remote,
        "text": render(say(f"drive.{_row_key(row, table)}"), style),
    }


def _row_key(row: DriveRow, table: DriveTable) -> str:
    """Sentence of a row: what is driven with a hammer is driven from the stump."""
    if row.stage == BED_IN and not row.is_remote:
        return "row_bed_in"
    if row.stage == STOP:
        return "row_stop"
    if table.leave_by is None:
        return "row_goes_by_hand" if row.stage == GOES else "row_balance"
    if row.stage == GOES:
        return "row_goes"
    return "row_balance_remote" if row.is_remote else "row_balance"


def _stage(stage: DriveStage, table: DriveTable, style: Style) -> dict[str, object]:
    """A stage with its median and its P10 to P90; the band is widened to whole counts."""
    if stage.key == STOP:
        at = band = _at(table, _stop(table))
    elif stage.key == BED_IN:
        at = band = _at(table, _figure(table, stage.at.p50, math.ceil))
    else:
        at = _at(table, _figure(table, stage.at.p50, round))
        low = _figure(table, stage.at.p10, math.floor)
        band = _band(table, low, _figure(table, stage.at.p90, math.ceil))
    return {
        "key": stage.key,
        "name": render(say(f"drive.stage_{stage.key.replace(' ', '_')}"), style),
        "at": render(at, style),
        "band": render(band, style),
        "note": render(say("drive.past_stop"), style) if stage.past_stop else None,
    }
