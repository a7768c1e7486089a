"""A direction in degrees from true north, or as an hour of a clock with the lay at twelve."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from fellwright.records.fault_log import FaultLog, Said, shown
from fellwright.records.number_fields import Number, finite_number, one_key_of
from fellwright.units import deg_from_clock
from fellwright.words import say

FIRST_HOUR = 0.25
LAST_HOUR = 12.0
STEPS_PER_HOUR = 4.0
"""No one reads a direction over the shoulder closer than seven and a half degrees."""

O_CLOCK = "o'clock"
"""Unit under which `as_read` keeps an hour."""


@dataclass(frozen=True, slots=True)
class Bearing:
    """An azimuth under `key`, or an hour under `clock_key`, clockwise seen from above.

    An hour is turned into the azimuth when it is read, against the lay of the same file: the tree
    does not turn when another lay is asked for.
    """

    key: str
    clock_key: str
    remedy: Said
    required: bool = False

    @property
    def accepted_keys(self) -> tuple[str, ...]:
        """The key in degrees and the one in hours."""
        return (self.key, self.clock_key)

    def read(self, log: FaultLog, path: str, table: Mapping[str, object]) -> dict[str, Any]:
        """Read the direction under either of its keys into degrees."""
        key = one_key_of(log, path, table, self.accepted_keys)
        if key is None:
            return {}
        if key == self.key:
            return Number(self.key, "", 0, 360, self.remedy).read(log, path, table)
        hour = _hour(log, f"{path}.{key}", table[key])
        if hour is None or log.lay_has_fault:
            return {}
        if log.lay_deg is None:
            remedy = say("remedy.lay_or_degrees", key=self.key)
            log.add(f"{path}.{key}", shown(table[key]), say("rule.with_lay"), remedy, "no-lay")
            return {}
        log.as_read[f"{path}.{self.key}"] = (hour, O_CLOCK)
        return {self.key: deg_from_clock(hour, log.lay_deg)}


def _hour(log: FaultLog, where: str, raw: object) -> float | None:
    remedy = say("remedy.clock")
    hour = finite_number(log, where, raw, remedy)
    if hour is None:
        return None
    if FIRST_HOUR <= hour <= LAST_HOUR and (hour * STEPS_PER_HOUR).is_integer():
        return hour
    rule = say("rule.clock", low=FIRST_HOUR, high=LAST_HOUR)
    log.add(where, shown(raw), rule, remedy, "out-of-range")
    return None
