"""Draws of trees and devices, compiled: the kernels of ``planning`` in a loop over the points."""

from collections.abc import Sequence
from dataclasses import fields
from functools import cached_property
from typing import Any, TypeVar, cast

import numpy as np
import numpy.typing as npt
from numba.np.unsafe import ndarray as numba_arrays

from fellwright.bulk.twin import compiled
from fellwright.physics.reliability import quantile
from fellwright.planning.chance import Doubt, Points
from fellwright.planning.device_draw import DeviceDraw, DeviceFigures, draw_device
from fellwright.planning.drawn import Drawn, PlainlyDrawn, draw_plainly
from fellwright.planning.judge_device import DeviceTally, NeedSummary
from fellwright.planning.judge_tree import TreeFigures
from fellwright.planning.limits import TIGHT_PUSH_SHARE
from fellwright.planning.need import Need, Situation, draw_need

__all__ = ["CompiledDrawing", "draw_devices_compiled", "draw_needs_compiled"]

Floats = npt.NDArray[np.float64]
Record = TypeVar("Record", Situation, DeviceFigures)

to_fixed_tuple: Any = numba_arrays.to_fixed_tuple
POINT_WIDTH = len(Points._fields)
NEED_WIDTH = len(Need._fields)
DEVICE_WIDTH = len(DeviceDraw._fields)


def needs_loop(points: Floats, situation: Situation, gust_share: float, out: Floats) -> None:
    """Fill ``out``, shape (fields of Need, draws), from points of shape (draws, fields)."""
    for i in range(points.shape[0]):
        u = Points(*to_fixed_tuple(points[i], POINT_WIDTH))
        k = 0
        for figure in draw_need(u, situation, gust_share):
            out[k, i] = figure
            k += 1  # noqa: SIM113 - numba has no enumerate over a tuple


def devices_loop(points: Floats, needs: Floats, figures: DeviceFigures, out: Floats) -> None:
    """Fill ``out``, shape (fields of DeviceDraw, draws), on needs laid out the same way."""
    for i in range(points.shape[0]):
        u = Points(*to_fixed_tuple(points[i], POINT_WIDTH))
        need = Need(*to_fixed_tuple(needs[:, i], NEED_WIDTH))
        draw = draw_device(u, need, figures)
        out[0, i] = draw.usable_lift_m
        out[1, i] = draw.available_n
        out[2, i] = draw.drive_n
        out[3, i] = draw.bearing_n
        out[4, i] = draw.room_m
        out[5, i] = draw.seat_ratio
        out[6, i] = draw.holds
        out[7, i] = draw.adds_up


def draw_needs_compiled(points: Floats, situation: Situation, gust_share: float) -> Floats:
    """Draw a tree at every point, compiled.

    Parameters
    ----------
    points : ndarray, shape (draws, fields of Points)
        Draws.
    situation : Situation
        The tree.
    gust_share : float
        1 with the gust entered, 0 in calm.

    Returns
    -------
    ndarray, shape (fields of Need, draws)
        One row a field, SI units. Where plain Python would raise on a bad number, NaN or infinity.
    """
    out = np.empty((NEED_WIDTH, len(points)))
    compiled(needs_loop)(points, _all_floats(situation), float(gust_share), out)
    return out


def draw_devices_compiled(points: Floats, needs: Floats, figures: DeviceFigures) -> Floats:
    """Draw a device on every draw of a tree, compiled.

    Parameters
    ----------
    points : ndarray, shape (draws, fields of Points)
        Draws.
    needs : ndarray, shape (fields of Need, draws)
        The tree in the same draws.
    figures : DeviceFigures
        The device and its drive.

    Returns
    -------
    ndarray, shape (fields of DeviceDraw, draws)
        One row a field, SI units; 0 or 1 for what holds or adds up.
    """
    out = np.empty((DEVICE_WIDTH, len(points)))
    compiled(devices_loop)(points, needs, _all_floats(figures), out)
    return out


def _all_floats(record: Record) -> Record:
    """Whole numbers given as int would be another type to numba, compiled once more."""
    return type(record)(*map(float, record))


def _doubts(ordered: Floats, names: Sequence[str]) -> dict[str, Doubt]:
    """P10, P50 and P90 of every row, the rows in rising order."""
    # Transposed, the order statistics are whole rows: one quantile serves all figures.
    across: Any = ordered.T
    columns = [quantile(across, share).tolist() for share in (0.1, 0.5, 0.9)]
    return dict(zip(names, map(Doubt, *columns), strict=True))


class CompiledDrawn:
    """Draws of one tree as columns; the engine's quantile on them, and shares by counting."""

    def __init__(self, points: Sequence[Points], array: Floats, columns: Floats) -> None:
        self._points = points
        self._array = array
        self._columns = columns

    @cached_property
    def needs(self) -> Sequence[Need]:
        """The draws themselves."""
        return list(map(Need._make, self._columns.T.tolist()))

    @cached_property
    def _ordered(self) -> Floats:
        return np.sort(self._columns, axis=1)

    @cached_property
    def _need_doubts(self) -> dict[str, Doubt]:
        return _doubts(self._ordered, Need._fields)

    def tree(self) -> TreeFigures:
        """Quantiles of the tree's own figures."""
        return TreeFigures(**{f.name: self._need_doubts[f.name] for f in fields(TreeFigures)})

    def need(self) -> NeedSummary:
        """Quantiles of what devices are held against."""
        push = cast("Sequence[float]", self._ordered[Need._fields.index("checked_push_n")])
        return NeedSummary(
            self._need_doubts["checked_balance_lift_m"],
            self._need_doubts["checked_let_go_lift_m"],
            self._need_doubts["checked_push_n"],
            float(quantile(push, TIGHT_PUSH_SHARE.value)),
        )

    def device(self, figures: DeviceFigures) -> DeviceTally:
        """Quantiles and shares of one device on this tree."""
        draws = draw_devices_compiled(self._array, self._columns, figures)
        if not np.isfinite(draws).all():
            return PlainlyDrawn(self._points, self.needs).device(figures)
        found = DeviceDraw(*draws)
        asked = Need(*self._columns)
        doubts = _doubts(np.sort(draws, axis=1), DeviceDraw._fields)
        return DeviceTally(
            doubts["usable_lift_m"],
            doubts["available_n"],
            doubts["drive_n"],
            doubts["bearing_n"],
            doubts["room_m"],
            _share(found.adds_up),
            {
                "room": _share(found.room_m >= 0.0),
                "expulsion": _share(found.holds),
                "seat": _share(found.seat_ratio <= 1.0),
                "let_go": _share(found.usable_lift_m >= asked.checked_let_go_lift_m),
                "balance": _share(found.usable_lift_m >= asked.checked_balance_lift_m),
                "push": _share(found.available_n >= asked.checked_push_n),
            },
        )


def _share(holds: Any) -> float:
    return int(np.count_nonzero(holds)) / len(holds)


class CompiledDrawing:
    """The way to draw that is compiled: hand it to ``Options(drawing=...)``.

    A draw that comes out as NaN or infinity is worked out again in plain Python, which raises where
    Python raises: both ways answer alike, bad numbers included.
    """

    def __init__(self) -> None:
        self._last: tuple[Sequence[Points], Floats] | None = None

    def __call__(
        self, points: Sequence[Points], situation: Situation, gust_share: float, /
    ) -> Drawn:
        """Draw a tree at every point, with the gust entered (1) or in calm (0)."""
        array = self._array(points)
        columns = draw_needs_compiled(array, situation, gust_share)
        if not np.isfinite(columns).all():
            return draw_plainly(points, situation, gust_share)
        return CompiledDrawn(points, array, columns)

    def _array(self, points: Sequence[Points]) -> Floats:
        """Points as an array, kept from tree to tree: they are the same for all."""
        last = self._last
        if last is None or last[0] is not points:
            last = self._last = (points, np.array(points, dtype=np.float64))
        return last[1]
