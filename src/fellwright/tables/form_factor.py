"""Stem form factor by dbh, for species without taper coefficients of their own."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from types import MappingProxyType

from fellwright.tables.read import Row, load_table

__all__ = ["FormFactorCurve", "form_factor", "form_factor_curve", "form_factor_keys"]


@dataclass(frozen=True, slots=True)
class FormFactorCurve:
    """Form factor and height of the stem centroid by dbh [cm].

    Parameters
    ----------
    key
        As in `Species.form.key`.
    dbh_cm
        Grid, rising [cm].
    form_factor
        ``V/(pi/4 dbh^2 H)`` over bark at the grid.
    centroid_ratio
        Height of the stem centroid over H at the grid.
    mark, source, note
        How the figures are known.
    """

    key: str
    dbh_cm: tuple[float, ...]
    form_factor: tuple[float, ...]
    centroid_ratio: tuple[float, ...]
    mark: str
    source: str
    note: str

    @property
    def dbh_low_cm(self) -> float:
        """Smallest dbh of the grid [cm]; held below it."""
        return self.dbh_cm[0]

    @property
    def dbh_high_cm(self) -> float:
        """Largest dbh of the grid [cm]; held above it."""
        return self.dbh_cm[-1]

    def covers(self, dbh_cm: float) -> bool:
        """Whether the dbh lies inside the grid; outside it the end value is held."""
        return self.dbh_low_cm <= dbh_cm <= self.dbh_high_cm


def form_factor(form_key: str, dbh_cm: float) -> float:
    """Form factor at a dbh, linear between grid points, held at the ends.

    Parameters
    ----------
    form_key
        As in `Species.form.key`.
    dbh_cm
        Diameter at breast height over bark [cm].

    Returns
    -------
    float
        Stem volume over ``pi/4 dbh^2 H``. `form_factor_curve(form_key).covers(dbh_cm)` says
        whether it was held. Source: [Kublin-2003], DERIVED.

    Raises
    ------
    KeyError
        If the key has no curve.
    """
    curve = form_factor_curve(form_key)
    return _interpolated(dbh_cm, curve.dbh_cm, curve.form_factor)


def form_factor_curve(form_key: str) -> FormFactorCurve:
    """Curve of one key with its range and source; KeyError where there is none."""
    return _curves()[form_key]


def form_factor_keys() -> tuple[str, ...]:
    """Keys that have a curve."""
    return tuple(_curves())


def _interpolated(x: float, xs: tuple[float, ...], ys: tuple[float, ...]) -> float:
    if x <= xs[0]:
        return ys[0]
    for i in range(1, len(xs)):
        if x <= xs[i]:
            share = (x - xs[i - 1]) / (xs[i] - xs[i - 1])
            return ys[i - 1] + share * (ys[i] - ys[i - 1])
    return ys[-1]


@lru_cache(maxsize=1)
def _curves() -> Mapping[str, FormFactorCurve]:
    grouped: dict[str, list[Row]] = {}
    for row in load_table("form_factor").rows:
        grouped.setdefault(row.text("form_key"), []).append(row)
    return MappingProxyType({key: _curve(key, rows) for key, rows in grouped.items()})


def _curve(key: str, rows: list[Row]) -> FormFactorCurve:
    return FormFactorCurve(
        key=key,
        dbh_cm=tuple(row.number("dbh_cm") for row in rows),
        form_factor=tuple(row.number("form_factor") for row in rows),
        centroid_ratio=tuple(row.number("centroid_ratio") for row in rows),
        mark=rows[0].mark("mark"),
        source=rows[0].text("source"),
        note=rows[0].text("note"),
    )
