"""Round scales for paper and round ticks for axes, in the units of a style."""

import math
from typing import NamedTuple

from fellwright import units
from fellwright.words import Style

__all__ = [
    "Axis",
    "Unit",
    "axis_to",
    "force_unit",
    "lift_unit",
    "round_scale",
    "scale_text",
    "tick_text",
]

SCALES = (1.0, 1.25, 1.5, 2.0, 2.5, 3.0, 3.5, 4.0, 5.0, 6.0, 7.0, 8.0)
TICKS = (1.0, 2.0, 5.0, 10.0)


class Unit(NamedTuple):
    """A unit of an axis: its sign and how many of it go to one SI unit."""

    sign: str
    per_si: float


class Axis(NamedTuple):
    """Where an axis ends and where its ticks stand, in its own unit."""

    unit: Unit
    top: float
    step: float

    @property
    def ticks(self) -> tuple[float, ...]:
        """Values of the ticks from 0 on."""
        return tuple(i * self.step for i in range(int(self.top / self.step + 1e-9) + 1))

    def share(self, value_si: float) -> float:
        """How far along the axis a value stands, 0 to 1."""
        return value_si * self.unit.per_si / self.top


def lift_unit(style: Style) -> Unit:
    """Unit in which a style shows lift."""
    return Unit("in", 1.0 / units.M_PER_IN) if style.imperial else Unit("mm", units.MM_PER_M)


def force_unit(style: Style) -> Unit:
    """Unit in which a style shows push."""
    if style.imperial:
        return Unit("lbf", 1.0 / units.N_PER_LBF)
    return Unit("t", 1.0 / units.N_PER_TF) if style.force == "t" else Unit("kN", 1e-3)


def round_scale(size_m: float, room_mm: float) -> float:
    """Denominator of the largest round scale at which a size fits into a room.

    Parameters
    ----------
    size_m : float
        Size in nature [m], above 0.
    room_mm : float
        Room on paper [mm].

    Returns
    -------
    float
        For example 200 for 1:200.
    """
    least = size_m * units.MM_PER_M / room_mm
    decade = 10.0 ** math.floor(math.log10(least))
    return next(s * decade for s in (*SCALES, 10.0) if s * decade >= least * (1.0 - 1e-9))


def axis_to(most_si: float, unit: Unit, ticks: int) -> Axis:
    """Choose an axis from 0 that takes in a value.

    Parameters
    ----------
    most_si : float
        Largest value shown [SI], above 0.
    unit : Unit
        Unit of the axis.
    ticks : int
        About how many ticks there may be.

    Returns
    -------
    Axis
        It ends at the value; ticks are round.
    """
    top = most_si * unit.per_si
    least = top / ticks
    decade = 10.0 ** math.floor(math.log10(least))
    step = next(t * decade for t in TICKS if t * decade >= least * (1.0 - 1e-9))
    return Axis(unit, top, step)


def scale_text(scale: float, style: Style) -> str:
    """Write a scale, ``1:200``."""
    return f"1:{tick_text(scale, style)}"


def tick_text(value: float, style: Style) -> str:
    """Write the value of a tick as the style does."""
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return text.replace(".", ",") if style.language == "de" else text
