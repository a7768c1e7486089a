"""Friction coefficients by pair of materials and state."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from fellwright.tables.read import Row, load_table

__all__ = ["Friction", "all_friction", "friction"]


@dataclass(frozen=True, slots=True)
class Friction:
    """One row: span of the coefficient for a pair in a state.

    Parameters
    ----------
    pair
        Materials, as in "steel / wood".
    state
        Wet, dry, greased, iced and the like.
    kind
        static, kinetic, design value or test range.
    mu_low, mu_high
        Span of the coefficient.
    mu_typical
        Middle named by the source; None where a range is meant to be drawn from.
    mark, source, note
        How the figures are known.
    """

    pair: str
    state: str
    kind: str
    mu_low: float
    mu_high: float
    mu_typical: float | None
    mark: str
    source: str
    note: str


@lru_cache(maxsize=1)
def all_friction() -> tuple[Friction, ...]:
    """Every row, in table order."""
    return tuple(_friction(row) for row in load_table("friction").rows)


def friction(pair: str, state: str, kind: str = "static") -> Friction:
    """Row of one pair, state and kind.

    Parameters
    ----------
    pair, state, kind
        As printed in the table.

    Returns
    -------
    Friction
        The row.

    Raises
    ------
    KeyError
        If the table has no such row.
    """
    for row in all_friction():
        if (row.pair, row.state, row.kind) == (pair, state, kind):
            return row
    raise KeyError((pair, state, kind))


def _friction(row: Row) -> Friction:
    return Friction(
        pair=row.text("pair"),
        state=row.text("state"),
        kind=row.text("kind"),
        mu_low=row.number("mu_low"),
        mu_high=row.number("mu_high"),
        mu_typical=row.number_or_none("mu_typical"),
        mark=row.mark("mark"),
        source=row.text("source"),
        note=row.text("note"),
    )
