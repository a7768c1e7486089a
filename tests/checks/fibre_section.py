"""A hinge as 40,000 fibres: elastic, crushed at the compression strength, gone beyond tension.

Knows one thing only, the stress of a fibre at a strain; the neutral axis follows from the forces.
"""

from functools import cache

import numpy as np
import numpy.typing as npt
from scipy.optimize import brentq, minimize_scalar

FIBRES = 40_000
WIDTH_M, THICKNESS_M = 0.36, 0.04
MODULUS_PA, CRUSHING_PA, TENSION_PA = 6.3e9, 18e6, 54e6


def fibre_moment_n_m(
    curvature_per_m: float,
    *,
    width_m: float = WIDTH_M,
    thickness_m: float = THICKNESS_M,
    modulus_pa: float = MODULUS_PA,
    crushing_pa: float = CRUSHING_PA,
    tension_pa: float = TENSION_PA,
) -> float:
    """Moment of the section at a curvature, with no net force across it."""
    depth = (np.arange(FIBRES) + 0.5) * thickness_m / FIBRES  # from the front, the crushed side

    def stress(axis_m: float) -> npt.NDArray[np.float64]:
        elastic = modulus_pa * curvature_per_m * (depth - axis_m)
        return np.where(elastic > tension_pa, 0.0, np.maximum(elastic, -crushing_pa))

    axis = brentq(lambda a: float(stress(a).sum()), 0.0, thickness_m, xtol=1e-12)
    force = stress(axis) * width_m * thickness_m / FIBRES
    return float((force * (depth - axis)).sum())


@cache
def front_yield_curvature_per_m(**given: float) -> float:
    """Curvature at which the moment leaves the straight line of the elastic section."""
    modulus = given.get("modulus_pa", MODULUS_PA)
    width, thickness = given.get("width_m", WIDTH_M), given.get("thickness_m", THICKNESS_M)
    stiffness = modulus * width * thickness**3 / 12.0
    # The lost moment grows from zero as the square of what is beyond yield: follow it to zero.
    low, high = 1e-6, 100.0
    for _ in range(60):
        middle = 0.5 * (low + high)
        if fibre_moment_n_m(middle, **given) > stiffness * middle * (1.0 - 1e-6):
            low = middle
        else:
            high = middle
    return low


@cache
def back_break_curvature_per_m(**given: float) -> float:
    """Curvature at which the section carries most: beyond it the back fibres are gone."""
    crushing = given.get("crushing_pa", CRUSHING_PA)
    modulus = given.get("modulus_pa", MODULUS_PA)
    thickness = given.get("thickness_m", THICKNESS_M)
    grid = 2.0 * crushing / (modulus * thickness) * np.linspace(1.0, 8.0, 141)
    moments = [fibre_moment_n_m(float(k), **given) for k in grid]
    top = int(np.argmax(moments))
    around = (float(grid[max(0, top - 1)]), float(grid[min(len(grid) - 1, top + 1)]))
    found = minimize_scalar(
        lambda k: -fibre_moment_n_m(float(k), **given), bounds=around, method="bounded"
    )
    return float(found.x)


def peak_fibre_moment_n_m(**given: float) -> float:
    """Largest moment of the section."""
    return fibre_moment_n_m(back_break_curvature_per_m(**given), **given)
