"""What one benchmark reports, and how a call is timed."""

from __future__ import annotations

import time
from collections.abc import Callable
from typing import NamedTuple

_fine = time.get_clock_info("process_time").resolution <= 1e-6
clock = time.process_time if _fine else time.perf_counter
"""Processor time, one thread: what other processes take does not count. Some systems count it in
steps too coarse, then the wall clock."""


class Timing(NamedTuple):
    """One measured call, next to what it is held against."""

    name: str
    seconds: float
    against: str = ""  # name of the other way of doing it
    against_seconds: float = 0.0

    @property
    def ratio(self) -> float:
        """How many times faster than the other way; 0 where there is none."""
        return self.against_seconds / self.seconds if self.against_seconds else 0.0


class Size(NamedTuple):
    """One thing that has to be fetched."""

    name: str
    bytes_count: int


Measured = Timing | Size


def best_seconds(call: Callable[[], object], repeats: int) -> float:
    """Shortest of several runs: other processes only ever add time."""
    best = float("inf")
    for _ in range(repeats):
        begin = clock()
        call()
        best = min(best, clock() - begin)
    return best


def best_of_both(
    call: Callable[[], object], against: Callable[[], object], repeats: int
) -> tuple[float, float]:
    """Shortest of several runs of two ways, taken in turn: a busy spell meets both."""
    best = best_against = float("inf")
    for _ in range(repeats):
        best = min(best, best_seconds(call, 1))
        best_against = min(best_against, best_seconds(against, 1))
    return best, best_against
