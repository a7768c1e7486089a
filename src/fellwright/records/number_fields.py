"""Fields that hold numbers, each with its unit at the end of its key, in metric or imperial.

Limits are the sizes no tree or tool has, not the limits of what the arithmetic knows: a real tree
outside those gets a verdict, not a fault.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from fellwright.records.fault_log import FaultLog, Said, shown
from fellwright.units import IMPERIAL_BY_METRIC_SUFFIX, Imperial
from fellwright.words import Text, say

UNIT_SYMBOLS: dict[str, Said] = {
    "m_s": "m/s",
    "n_m": "N m",
    "deg": say("fault.degrees"),
    "degc": say("unit.degC"),
    "per_turn": say("fault.per_turn"),
    "wh": "Wh",
    "kv": "kV",
}


def finite_number(log: FaultLog, where: str, raw: object, remedy: Said) -> float | None:
    """Read a real, finite number; note a fault for anything else."""
    if isinstance(raw, bool) or not isinstance(raw, (int, float)):
        log.add(where, shown(raw), say("rule.number"), remedy, "not-a-number")
        return None
    try:
        value = float(raw)
    except OverflowError:
        value = math.inf
    if not math.isfinite(value):
        log.add(where, shown(raw), say("rule.finite"), remedy, "not-a-number")
        return None
    return value


@dataclass(frozen=True, slots=True)
class Number:
    """A number with its unit at the end of its key, in metric or imperial."""

    key: str
    unit: str
    low: float
    high: float
    remedy: Said
    required: bool = False
    whole: bool = False

    @property
    def imperial(self) -> Imperial | None:
        """The imperial counterpart of the unit, if it has one."""
        return IMPERIAL_BY_METRIC_SUFFIX.get(self.unit)

    @property
    def imperial_key(self) -> str | None:
        """The key under which the imperial reading is accepted."""
        imperial = self.imperial
        if imperial is None:
            return None
        return f"{self.key.removesuffix(self.unit)}{imperial.suffix}"

    @property
    def accepted_keys(self) -> tuple[str, ...]:
        """Metric key, and imperial key if there is one."""
        return (self.key,) if self.imperial_key is None else (self.key, self.imperial_key)

    def read(self, log: FaultLog, path: str, table: Mapping[str, object]) -> dict[str, Any]:
        """Read the number under either of its keys."""
        key = one_key_of(log, path, table, self.accepted_keys)
        if key is None:
            return {}
        value = self.value(log, f"{path}.{key}", table[key], imperial=key != self.key)
        if value is None:
            return {}
        if key != self.key and self.imperial is not None:
            log.as_read[f"{path}.{self.key}"] = (_as_float(table[key]), self.imperial.symbol)
        return {self.key: int(value) if self.whole else value}

    def value(self, log: FaultLog, where: str, raw: object, *, imperial: bool) -> float | None:
        """Check one number and return it in the metric unit."""
        number = finite_number(log, where, raw, self.remedy)
        if number is None:
            return None
        unit = self.imperial if imperial else None
        metric = number if unit is None else unit.to_metric(number)
        if not self.low <= metric <= self.high or not math.isfinite(metric):
            log.add(where, shown(raw), self.rule(imperial=imperial), self.remedy, "out-of-range")
            return None
        if self.whole and not metric.is_integer():
            log.add(where, shown(raw), say("rule.whole"), self.remedy, "not-whole")
            return None
        return metric

    def rule(self, *, imperial: bool = False) -> Text:
        """Say the rule in words, in the unit that was used."""
        unit = self.imperial if imperial else None
        low, high, symbol = self.low, self.high, UNIT_SYMBOLS.get(self.unit, self.unit)
        if unit is not None:
            low, high, symbol = _rounded(unit, low), _rounded(unit, high), unit.symbol
        if not symbol:
            return say("rule.between", low=low, high=high)
        return say("rule.between_unit", low=low, high=high, unit=symbol)


def _rounded(unit: Imperial, metric: float) -> float:
    """Bring a limit to three figures of the unit; the limit that counts is the metric one."""
    return float(f"{unit.from_metric(metric):.3g}")


def _as_float(raw: object) -> float:
    if not isinstance(raw, (int, float)):
        raise TypeError(f"already checked to be a number: {type(raw).__name__}")
    return float(raw)


def one_key_of(
    log: FaultLog, path: str, table: Mapping[str, object], keys: tuple[str, ...]
) -> str | None:
    """Return the one key that is given; note a fault where a quantity is given twice."""
    given = [key for key in keys if table.get(key) is not None]
    if len(given) > 1:
        log.add(
            f"{path}.{given[0]}",
            say(
                "fault.twice",
                value=shown(table[given[0]]),
                key=given[1],
                other=shown(table[given[1]]),
            ),
            say("rule.once"),
            say("remedy.keep_one"),
            "given-twice",
        )
        return None
    return given[0] if given else None


@dataclass(frozen=True, slots=True)
class NumberList:
    """One number or a list of numbers of the same kind, such as the hexes a device offers."""

    number: Number
    longest: int
    required: bool = False

    @property
    def key(self) -> str:
        """The metric key."""
        return self.number.key

    @property
    def remedy(self) -> Said:
        """What to measure or write."""
        return self.number.remedy

    @property
    def accepted_keys(self) -> tuple[str, ...]:
        """Metric key, and imperial key if there is one."""
        return self.number.accepted_keys

    def read(self, log: FaultLog, path: str, table: Mapping[str, object]) -> dict[str, Any]:
        """Read the list; any fault in it drops the whole list."""
        key = one_key_of(log, path, table, self.accepted_keys)
        if key is None:
            return {}
        raw = table[key]
        items = list(raw) if isinstance(raw, (list, tuple)) else [raw]
        if not 1 <= len(items) <= self.longest:
            rule = say("rule.numbers", most=self.longest)
            log.add(f"{path}.{key}", shown(raw), rule, self.number.remedy, "not-a-list")
            return {}
        names = [f"{self.key}[{count}]" for count in range(1, len(items) + 1)]
        values = _numbers(log, path, key, items, names, self.number)
        return {} if values is None else {self.key: tuple(values)}


@dataclass(frozen=True, slots=True)
class NumberPair:
    """Two numbers in one key, such as the width and length of a plate."""

    number: Number
    first: str
    second: str
    required: bool = False

    @property
    def key(self) -> str:
        """The metric key."""
        return self.number.key

    @property
    def remedy(self) -> Said:
        """What to measure or write."""
        return self.number.remedy

    @property
    def accepted_keys(self) -> tuple[str, ...]:
        """Metric key, and imperial key if there is one."""
        return self.number.accepted_keys

    def read(self, log: FaultLog, path: str, table: Mapping[str, object]) -> dict[str, Any]:
        """Read the pair into its two record fields."""
        key = one_key_of(log, path, table, self.accepted_keys)
        if key is None:
            return {}
        raw = table[key]
        if not isinstance(raw, (list, tuple)) or len(raw) != 2:
            rule = say("rule.two_numbers")
            log.add(f"{path}.{key}", shown(raw), rule, self.number.remedy, "not-a-list")
            return {}
        values = _numbers(log, path, key, list(raw), [self.first, self.second], self.number)
        return {} if values is None else dict(zip((self.first, self.second), values, strict=True))


def _numbers(
    log: FaultLog, path: str, key: str, items: list[object], names: list[str], number: Number
) -> list[float] | None:
    imperial = number.imperial if key != number.key else None
    values: list[float] = []
    for count, (item, name) in enumerate(zip(items, names, strict=True), start=1):
        where = f"{path}.{key}[{count}]"
        value = number.value(log, where, item, imperial=imperial is not None)
        if value is None:
            continue
        values.append(value)
        if imperial is not None:
            log.as_read[f"{path}.{name}"] = (_as_float(item), imperial.symbol)
    return values if len(values) == len(items) else None
