"""What temperature, frost, decay and grain angle do to the strength of wood."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from types import MappingProxyType

from fellwright.tables.read import Row, load_table

__all__ = ["Effect", "TemperatureLaw", "all_effects", "effect"]


@dataclass(frozen=True, slots=True)
class TemperatureLaw:
    """Change ``c0 + c1 T + c2 T^2`` [%], T in degrees Fahrenheit as printed, and its range."""

    c0: float
    c1: float
    c2: float
    from_degf: float
    to_degf: float

    def percent_at(self, temperature_degc: float) -> float:
        """Change at a temperature, never beyond the printed range.

        Parameters
        ----------
        temperature_degc
            Temperature of the wood [deg C].

        Returns
        -------
        float
            Change against 70 deg F [%]; positive is stronger or stiffer.

        Raises
        ------
        ValueError
            Outside the range. A law is not carried on beyond what was printed.
        """
        fahrenheit = temperature_degc * 9.0 / 5.0 + 32.0
        if not self.from_degf <= fahrenheit <= self.to_degf:
            raise ValueError(
                f"temperature must be {self.from_degf:g} to {self.to_degf:g} degF, "
                f"got {fahrenheit:g} degF. The source prints nothing beyond."
            )
        return self.c0 + self.c1 * fahrenheit + self.c2 * fahrenheit * fahrenheit


@dataclass(frozen=True, slots=True)
class Effect:
    """One published effect on one property.

    Parameters
    ----------
    key
        Stable name.
    effect
        temperature, freezing and thawing, decay, or grain angle.
    prop
        What changes.
    condition
        In which wood, against what.
    unit
        percent change, losses negative, or exponent.
    low, high
        Printed span; None where the source prints a bound on one side only, or no figure.
    law
        Law over temperature, where one is printed instead of a figure.
    mark, source, note
        How the figure is known.
    """

    key: str
    effect: str
    prop: str
    condition: str
    unit: str
    low: float | None
    high: float | None
    law: TemperatureLaw | None
    mark: str
    source: str
    note: str


def all_effects() -> tuple[Effect, ...]:
    """Every effect in the order of the table."""
    return tuple(_by_key().values())


def effect(key: str) -> Effect:
    """One effect by its key; KeyError where there is none."""
    return _by_key()[key]


@lru_cache(maxsize=1)
def _by_key() -> Mapping[str, Effect]:
    found = {row.text("key"): _effect(row) for row in load_table("effects").rows}
    return MappingProxyType(found)


def _effect(row: Row) -> Effect:
    return Effect(
        key=row.text("key"),
        effect=row.text("effect"),
        prop=row.text("property"),
        condition=row.text("condition"),
        unit=row.text("unit"),
        low=row.number_or_none("low"),
        high=row.number_or_none("high"),
        law=_law(row),
        mark=row.mark("mark"),
        source=row.text("source"),
        note=row.text("note"),
    )


def _law(row: Row) -> TemperatureLaw | None:
    if not row.text("c0"):
        return None
    names = ("c0", "c1", "c2", "from_degf", "to_degf")
    return TemperatureLaw(*(row.number(name) for name in names))
