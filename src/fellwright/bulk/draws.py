"""Draws of trees and devices, compiled: the kernels of ``planning`` in a loop over the points.

Points, needs and devices are structured arrays with the fields of their records. A kernel reads its
arguments by name only, so an array's row serves it as well as a NamedTuple, and eight times faster
than building one.
"""

from collections.abc import Sequence
from dataclasses import fields
from functools import cached_property
from typing import Any

import numpy as np
import numpy.typing as npt

from fellwright.bulk.twin import compiled
from fellwright.kernel import kernel
from fellwright.physics.reliability import quantile
from fellwright.planning.chance import Doubt, Points
from fellwright.planning.device_draw import DeviceDraw, DeviceFigures, draw_device, draw_pair
from fellwright.planning.drawn import Drawn, PlainlyDrawn, draw_plainly
from fellwright.planning.judge_device import DeviceTally, NeedSummary
from fellwright.planning.judge_tree import TreeFigures
from fellwright.planning.limits import TIGHT_PUSH_SHARE
from fellwright.planning.need import Need, Situation, draw_need

__all__ = [
    "CompiledDrawing",
    "draw_devices_compiled",
    "draw_needs_compiled",
    "draw_pairs_compiled",
    "points_array",
]

Rows = npt.NDArray[np.void]
Floats = npt.NDArray[np.float64]


def row_type(names: Sequence[str]) -> np.dtype[np.void]:
    """Type of a row with a float under each name."""
    return np.dtype([(name, np.float64) for name in names])


POINT_ROW = row_type(Points._fields)
SITUATION_ROW = row_type(Situation._fields)
NEED_ROW = row_type(Need._fields)
FIGURES_ROW = row_type(DeviceFigures._fields)
DEVICE_ROW = row_type(DeviceDraw._fields)


def needs_loop(points: Any, situation: Any, gust_share: float, out: Floats) -> None:
    """Fill ``out``, shape (draws, fields of Need); the situation is the one row of an array."""
    s = situation[0]
    for i in range(points.shape[0]):
        k = 0
        for figure in draw_need(points[i], s, gust_share):
            out[i, k] = figure
            k += 1  # noqa: SIM113 - numba has no enumerate over a tuple


@kernel
def write_draw(draw: DeviceDraw, row: Any) -> None:
    """Write one draw of a device into its row."""
    row.usable_lift_m = draw.usable_lift_m
    row.available_n = draw.available_n
    row.drive_n = draw.drive_n
    row.bearing_n = draw.bearing_n
    row.room_m = draw.room_m
    row.seat_ratio = draw.seat_ratio
    row.holds = draw.holds
    row.adds_up = draw.adds_up
    row.balances = draw.balances


def devices_loop(points: Any, needs: Any, figures: Any, out: Any) -> None:
    """Fill ``out``, one row a draw; the device is the one row of an array."""
    d = figures[0]
    for i in range(points.shape[0]):
        write_draw(draw_device(points[i], needs[i], d), out[i])


def pairs_loop(points: Any, needs: Any, figures: Any, share: float, out: Any) -> None:
    """Fill ``out``, one row a draw; the devices are the two rows of an array."""
    first, second = figures[0], figures[1]
    for i in range(points.shape[0]):
        write_draw(draw_pair(points[i], needs[i], first, second, share), out[i])


def unwritten_draws(count: int) -> Rows:
    """Rows of NaN: a field that a loop forgets to write is then seen by every comparison."""
    rows = np.zeros(count, dtype=DEVICE_ROW)
    as_floats(rows)[:] = np.nan
    return rows


def points_array(points: Sequence[Points]) -> Rows:
    """Points as rows of an array."""
    return np.array(list(points), dtype=POINT_ROW)


def draw_needs_compiled(points: Rows, situation: Situation, gust_share: float) -> Rows:
    """Draw a tree at every point, compiled.

    Parameters
    ----------
    points : structured ndarray, shape (draws,)
        From :func:`points_array`.
    situation : Situation
        The tree.
    gust_share : float
        1 with the gust entered, 0 in calm.

    Returns
    -------
    structured ndarray, shape (draws,)
        Fields of Need, SI units. Where plain Python would raise on a bad number, NaN or infinity.
    """
    out = np.empty(len(points), dtype=NEED_ROW)
    row = np.array([situation], dtype=SITUATION_ROW)
    compiled(needs_loop)(points, row, float(gust_share), as_floats(out))
    return out


def draw_devices_compiled(points: Rows, needs: Rows, figures: DeviceFigures) -> Rows:
    """Draw a device on every draw of a tree, compiled.

    Parameters
    ----------
    points : structured ndarray, shape (draws,)
        From :func:`points_array`.
    needs : structured ndarray, shape (draws,)
        The tree in the same draws, from :func:`draw_needs_compiled`.
    figures : DeviceFigures
        The device and its drive.

    Returns
    -------
    structured ndarray, shape (draws,)
        Fields of DeviceDraw, SI units; 1 or 0 for what holds or adds up.
    """
    out = unwritten_draws(len(points))
    compiled(devices_loop)(points, needs, np.array([figures], dtype=FIGURES_ROW), out)
    return out


def draw_pairs_compiled(
    points: Rows, needs: Rows, first: DeviceFigures, second: DeviceFigures, share: float
) -> Rows:
    """Draw two devices side by side on every draw of a tree, compiled.

    Parameters
    ----------
    points : structured ndarray, shape (draws,)
        From :func:`points_array`.
    needs : structured ndarray, shape (draws,)
        The tree in the same draws, from :func:`draw_needs_compiled`.
    first, second : DeviceFigures
        The devices and their drives.
    share : float
        Share of the sum of both pushes that is counted.

    Returns
    -------
    structured ndarray, shape (draws,)
        Fields of DeviceDraw, SI units; 1 or 0 for what holds or adds up.
    """
    out = unwritten_draws(len(points))
    both = np.array([first, second], dtype=FIGURES_ROW)
    compiled(pairs_loop)(points, needs, both, float(share), out)
    return out


def as_floats(rows: Rows) -> Floats:
    """The same memory as a table of floats, shape (rows, fields)."""
    return rows.view(np.float64).reshape(len(rows), -1)


def _doubts(rows: Rows) -> dict[str, Doubt]:
    """P10, P50 and P90 of every field."""
    # A row of this table is one order statistic of every field: one quantile serves them all.
    ordered: Any = np.sort(as_floats(rows), axis=0)
    at: Any = [quantile(ordered, share) for share in (0.1, 0.5, 0.9)]
    names = rows.dtype.names or ()
    return dict(zip(names, map(Doubt._make, np.transpose(at).tolist()), strict=True))


class CompiledDrawn:
    """Draws of one tree as rows; the engine's quantile on them, and shares by counting."""

    def __init__(self, points: Sequence[Points], point_rows: Rows, rows: Rows) -> None:
        self._points = points
        self._point_rows = point_rows
        self._rows = rows

    @cached_property
    def needs(self) -> Sequence[Need]:
        """The draws themselves."""
        return list(map(Need._make, self._rows.tolist()))

    @cached_property
    def _need_doubts(self) -> dict[str, Doubt]:
        return _doubts(self._rows)

    def tree(self) -> TreeFigures:
        """Quantiles of the tree's own figures."""
        return TreeFigures(**{f.name: self._need_doubts[f.name] for f in fields(TreeFigures)})

    def need(self) -> NeedSummary:
        """Quantiles of what devices are held against."""
        push: Any = np.sort(self._rows["checked_push_n"])
        return NeedSummary(
            self._need_doubts["checked_balance_lift_m"],
            self._need_doubts["checked_let_go_lift_m"],
            self._need_doubts["checked_push_n"],
            float(quantile(push, TIGHT_PUSH_SHARE.value)),
        )

    def device(self, figures: DeviceFigures) -> DeviceTally:
        """Quantiles and shares of one device on this tree."""
        draws = draw_devices_compiled(self._point_rows, self._rows, figures)
        if not np.isfinite(as_floats(draws)).all():
            return PlainlyDrawn(self._points, self.needs).device(figures)
        return self._tally(draws)

    def pair(self, first: DeviceFigures, second: DeviceFigures, share: float) -> DeviceTally:
        """Quantiles and shares of two devices side by side, a share of their sum counted."""
        draws = draw_pairs_compiled(self._point_rows, self._rows, first, second, share)
        if not np.isfinite(as_floats(draws)).all():
            return PlainlyDrawn(self._points, self.needs).pair(first, second, share)
        return self._tally(draws)

    def _tally(self, draws: Rows) -> DeviceTally:
        doubts = _doubts(draws)
        asked, usable, available = self._rows, draws["usable_lift_m"], draws["available_n"]
        return DeviceTally(
            doubts["usable_lift_m"],
            doubts["available_n"],
            doubts["drive_n"],
            doubts["bearing_n"],
            doubts["room_m"],
            _share(draws["adds_up"]),
            {
                "room": _share(draws["room_m"] >= 0.0),
                "expulsion": _share(draws["holds"]),
                "seat": _share(draws["seat_ratio"] <= 1.0),
                "let_go": _share(usable >= asked["checked_let_go_lift_m"]),
                "balance": _share(draws["balances"]),
                "push": _share(available >= asked["checked_push_n"]),
            },
        )


def _share(holds: npt.NDArray[Any]) -> float:
    return int(np.count_nonzero(holds)) / len(holds)


class CompiledDrawing:
    """The way to draw that is compiled: hand it to ``Options(drawing=...)``.

    A draw that comes out as NaN or infinity is worked out again in plain Python, which raises where
    Python raises: both ways answer alike, bad numbers included.
    """

    def __init__(self) -> None:
        self._last: tuple[Sequence[Points], Rows] | None = None

    def __call__(
        self, points: Sequence[Points], situation: Situation, gust_share: float, /
    ) -> Drawn:
        """Draw a tree at every point, with the gust entered (1) or in calm (0)."""
        point_rows = self._rows_of(points)
        rows = draw_needs_compiled(point_rows, situation, gust_share)
        if not np.isfinite(as_floats(rows)).all():
            return draw_plainly(points, situation, gust_share)
        return CompiledDrawn(points, point_rows, rows)

    def _rows_of(self, points: Sequence[Points]) -> Rows:
        """Points as rows, kept from tree to tree: they are the same for all."""
        last = self._last
        if last is None or last[0] is not points:
            last = self._last = (points, points_array(points))
        return last[1]
