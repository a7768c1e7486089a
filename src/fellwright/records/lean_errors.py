"""How well a lean was read: one sigma by the way it was taken, unless the reading states it."""

from __future__ import annotations

from fellwright.records.tree import LeanReading

PLUMB_TWO_SIDES = "plumb line, two sides"
PLUMB_ONE_SIDE = "plumb line, one side"
WAYS_OF_READING = (PLUMB_TWO_SIDES, PLUMB_ONE_SIDE, "eye", "inclinometer", "clinometer", "phone")
"""Ways whose error is known; any other way must come with its own `error_m`."""

ERROR_FLOOR_M = 0.12
ERROR_SHARE = 0.12
"""PRACTICE: a plumb line from two sides errs by 0.12 m and 12 %; other ways by twice that."""

TOP_TO_BALANCE_SHARE = 0.4
"""PRACTICE: the balance point of a stem stands at about 0.4 of its height."""

CONTRADICTION_SIGMAS = 4.0


def reading_sigma_m(reading: LeanReading) -> float:
    """Return one sigma of a lean reading at the point where it was sighted.

    Parameters
    ----------
    reading
        The reading; its own `error_m` stands before anything else.

    Returns
    -------
    float
        One sigma [m].

    Notes
    -----
    `0.12 m + 12 %` of the offset for a plumb line from two sides, twice that for one side or by
    eye, and where the way is not stated. Source: PRACTICE (trade custom, no published source).
    """
    if reading.error_m is not None:
        return reading.error_m
    times = 1.0 if reading.how == PLUMB_TWO_SIDES else 2.0
    return times * (ERROR_FLOOR_M + ERROR_SHARE * reading.offset_m)
