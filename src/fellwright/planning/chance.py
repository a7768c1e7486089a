"""Sampling: seeded low-discrepancy draws of everything that is in doubt, and their quantiles."""

import math
import random
from collections.abc import Sequence
from functools import lru_cache
from statistics import NormalDist
from typing import NamedTuple

from fellwright.physics.point_sets import sobol_integers
from fellwright.physics.reliability import quantile

__all__ = ["DRAWS_DEFAULT", "SEED_DEFAULT", "Doubt", "Points", "doubt", "draw_points"]

DRAWS_DEFAULT = 1024
SEED_DEFAULT = 1
LEAST_BITS = 6
MOST_BITS = 16


class Points(NamedTuple):
    """One draw: standard normals (``z_``) and uniforms (``u_``), the most telling ones first."""

    z_back: float
    z_hinge: float
    u_residual: float
    z_strength: float
    z_balance: float
    z_mass: float
    z_side: float
    z_notch: float
    u_contact: float
    u_drive: float
    u_wrench: float
    z_height: float
    z_stump: float
    z_crown: float
    u_fibre: float
    u_friction: float
    u_drag: float
    z_toughness: float
    z_dbh: float
    u_blow: float
    u_stiffness: float
    z_wall: float


class Doubt(NamedTuple):
    """A figure as its P10, P50 and P90."""

    p10: float
    p50: float
    p90: float


@lru_cache(maxsize=16)
def draw_points(draws: int = DRAWS_DEFAULT, seed: int = SEED_DEFAULT) -> tuple[Points, ...]:
    """Draw the points of a plan.

    Parameters
    ----------
    draws : int
        Power of two from 64 to 65,536.
    seed : int
        Seed of the digital shift; the same seed gives the same points everywhere.

    Returns
    -------
    tuple of Points
        Each coordinate hits every one of the ``draws`` equal slices of its range once, at the
        middle of the slice.

    Raises
    ------
    ValueError
        If draws is no such power of two.
    """
    bits = draws.bit_length() - 1
    if draws != 1 << bits or not LEAST_BITS <= bits <= MOST_BITS:
        raise ValueError(f"draws must be a power of two from 64 to 65536, got {draws}")
    shifts = random.Random(seed)
    uniform = [(i + 0.5) / draws for i in range(draws)]
    inverse = NormalDist().inv_cdf
    normal = [inverse(u) for u in uniform]
    columns = []
    for dimension, name in enumerate(Points._fields):
        table = normal if name.startswith("z_") else uniform
        shift = shifts.getrandbits(bits)
        columns.append([table[i ^ shift] for i in sobol_integers(dimension, bits)])
    return tuple(map(Points._make, zip(*columns, strict=True)))


def doubt(values: Sequence[float]) -> Doubt:
    """P10, P50 and P90 of drawn values.

    Parameters
    ----------
    values : sequence of float
        One value a draw, in any order.

    Returns
    -------
    Doubt
        The three quantiles; all NaN if any value is, so that nothing sorts past a comparison.
    """
    if any(map(math.isnan, values)):
        return Doubt(math.nan, math.nan, math.nan)
    ordered = sorted(values)
    return Doubt(quantile(ordered, 0.1), quantile(ordered, 0.5), quantile(ordered, 0.9))
