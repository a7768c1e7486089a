"""One comparison: pairs of what a model says and what others found, boiled down to a verdict.

The verdict is computed from the pairs alone. Nobody can word a miss away.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import NamedTuple

__all__ = [
    "Comparison",
    "Model",
    "Pair",
    "compare",
    "percent",
    "row_cells",
    "spread_within_percent",
]

ONE_SIGMA_SHARE = 0.683
ROUNDING_RATIO = 1e-9


class Pair(NamedTuple):
    """What the model says and what others found, in the same unit, with the name of the case."""

    label: str
    model: float
    outside: float

    @property
    def log_ratio(self) -> float:
        """Natural logarithm of model over outside."""
        return math.log(self.model / self.outside)


class Model(NamedTuple):
    """A model of the engine, what it is compared with, and the error that the engine states.

    ``stated_ratio`` is one sigma as a share, 0 where the engine states none; with ``is_band`` it is
    half the width of a band from which the engine draws evenly. ``same_source`` is true where the
    model was made from these very data: agreement then proves little. ``is_part`` marks one part
    of a whole that has a row of its own.
    """

    name: str
    data: str
    stated_ratio: float = 0.0
    same_source: bool = False
    is_part: bool = False
    is_band: bool = False


@dataclass(frozen=True, slots=True)
class Comparison:
    """A row of the summary."""

    model: Model
    count: int
    bias_percent: float
    spread_percent: float
    typical_percent: float
    inside_share: float
    worst: str
    note: str

    @property
    def misses(self) -> bool:
        """Whether the engine states less than is found.

        A sigma is too small where the typical error is larger; a band is too narrow, or lies
        wrong, where less than one sigma of the rows fall into it.
        """
        stated = 100.0 * self.model.stated_ratio
        if not self.count or not stated:
            return False
        if self.model.is_band:
            return self.inside_share < ONE_SIGMA_SHARE
        return self.typical_percent > stated * (1.0 + ROUNDING_RATIO)

    @property
    def verdict(self) -> str:
        """The finding in plain words, the same size of letters for good and bad."""
        return " ".join(part for part in (self._finding(), self._origin(), self.note) if part)

    def _finding(self) -> str:
        if not self.count:
            return "Not compared."
        stated = 100.0 * self.model.stated_ratio
        inside = f"{100.0 * self.inside_share:.0f} % of rows inside"
        typical = f"typical error {self.typical_percent:.1f} %"
        if not stated:
            return f"The engine states no error here; {typical}."
        claim = f"its {'band of' if self.model.is_band else 'stated'} {stated:.3g} %"
        if not self.misses:
            return f"Holds {claim}: {typical}, {inside}."
        words = f"MISSES {claim}: {typical}, {inside}."
        if abs(self.bias_percent) > stated:
            words += f" The mean itself is too {'high' if self.bias_percent > 0.0 else 'low'}."
        return words

    def _origin(self) -> str:
        if not self.count or not self.model.same_source:
            return ""
        return "Made from the same data: a small bias proves nothing."


def percent(log_ratio: float) -> float:
    """Percentage by which a ratio exceeds 1, from its logarithm."""
    return 100.0 * (math.exp(log_ratio) - 1.0)


def compare(model: Model, pairs: Sequence[Pair], note: str = "") -> Comparison:
    """Boil pairs down to bias, spread, worst case and the share inside the stated error.

    Bias is the geometric mean of model over outside. Spread is the standard deviation of its
    logarithm. The typical error is the root mean square of the logarithm, as a percentage.
    """
    if not pairs:
        return Comparison(model, 0, 0.0, 0.0, 0.0, 0.0, "", note)
    logs = [pair.log_ratio for pair in pairs]
    mean = math.fsum(logs) / len(logs)
    square = math.fsum(value * value for value in logs) / len(logs)
    spread = 0.0
    if len(logs) > 1:
        spread = math.sqrt(math.fsum((v - mean) ** 2 for v in logs) / (len(logs) - 1))
    inside = sum(_is_inside(model, pair) for pair in pairs)
    worst = max(pairs, key=lambda pair: (abs(pair.log_ratio), pair.label))
    return Comparison(
        model=model,
        count=len(pairs),
        bias_percent=percent(mean),
        spread_percent=100.0 * spread,
        typical_percent=100.0 * math.sqrt(square),
        inside_share=inside / len(pairs),
        worst=f"{worst.label}: {_signed(percent(worst.log_ratio))}",
        note=note,
    )


def _is_inside(model: Model, pair: Pair) -> bool:
    """Within so many percent; a band is as wide above its middle as below by ratio."""
    if model.is_band:
        return abs(pair.log_ratio) <= math.log1p(model.stated_ratio) + ROUNDING_RATIO
    return abs(pair.model / pair.outside - 1.0) <= model.stated_ratio + ROUNDING_RATIO


def spread_within_percent(groups: Iterable[Sequence[Pair]]) -> float:
    """Spread of single pairs about the mean of their own group, pooled over the groups."""
    squares, freedom = 0.0, 0
    for pairs in groups:
        logs = [pair.log_ratio for pair in pairs]
        mean = math.fsum(logs) / len(logs)
        squares += math.fsum((value - mean) ** 2 for value in logs)
        freedom += len(logs) - 1
    return 100.0 * math.sqrt(squares / freedom) if freedom else 0.0


def _signed(value: float) -> str:
    return f"{value:+.1f} %".replace("-0.0 ", "+0.0 ")


def row_cells(comparison: Comparison) -> tuple[str, ...]:
    """Cells of a comparison in the order of the summary's columns."""
    model = comparison.model
    if not comparison.count:
        return (model.name, model.data, "0", "-", "-", "-", comparison.verdict)
    return (
        model.name,
        model.data,
        f"{comparison.count:,}",
        _signed(comparison.bias_percent),
        f"{comparison.spread_percent:.1f} %",
        comparison.worst,
        comparison.verdict,
    )
