"""Tipping marched in dense steps: an independent coding of statics and hinge, vectorised."""

import math
from typing import NamedTuple

import numpy as np
import numpy.typing as npt
from scipy.integrate import quad
from scipy.optimize import brentq

STEPS = 400_000
Array = npt.NDArray[np.float64]


class Tree(NamedTuple):
    """Weight [N], balance point behind and above the hinge [m], forward moment [N.m], hinge."""

    weight_n: float
    back_m: float
    height_m: float
    forward_n_m: float
    peak_n_m: float
    yield_rad: float
    ratio: float
    residual: float
    closing_rad: float


def moment_n_m(rotation: Array, tree: Tree) -> Array:
    """Moment that has to be supplied: weight, hinge and wind, each from its own statics."""
    distance = math.hypot(tree.back_m, tree.height_m)
    start = math.atan2(tree.back_m, tree.height_m)
    weight = tree.weight_n * distance * np.sin(start - rotation)
    return weight + _hinge_n_m(rotation, tree) - tree.forward_n_m


def _hinge_n_m(rotation: Array, tree: Tree) -> Array:
    r = tree.ratio
    at_break = tree.yield_rad * (1.0 + r) ** 2 / 4.0
    # Compression strength times width times depth squared, from the peak (3r-1)/(6(r+1)) of it.
    plastic = tree.peak_n_m * 6.0 * (r + 1.0) / (3.0 * r - 1.0)
    with np.errstate(divide="ignore"):
        elastic = plastic / 6.0 * rotation / tree.yield_rad
        crushed = plastic * (0.5 - np.sqrt(tree.yield_rad / rotation) / 3.0)
        torn = tree.peak_n_m * np.maximum((at_break / rotation) ** 2, tree.residual)
    torn = np.where(rotation > tree.closing_rad, 0.0, torn)
    return np.where(
        rotation <= tree.yield_rad, elastic, np.where(rotation <= at_break, crushed, torn)
    )


def march(tree: Tree) -> tuple[float, float]:
    """Largest moment [N.m], and the last rotation [rad] at which any has to be supplied."""
    reach = max(tree.closing_rad, math.atan2(tree.back_m, tree.height_m)) + 0.05
    rotations = np.linspace(0.0, reach, STEPS)
    moments = moment_n_m(rotations, tree)
    push = float(moments.max())
    if push <= 0.0:
        return 0.0, 0.0
    last = int(np.flatnonzero(moments > 0.0)[-1])
    if last + 1 >= len(rotations):
        return push, reach
    a, b = float(rotations[last]), float(rotations[last + 1])
    root = brentq(lambda x: float(moment_n_m(np.array([x]), tree)[0]), a, b)
    return push, float(root)


def work_j(rotation: float, tree: Tree) -> float:
    """Work up to a rotation by quadrature."""
    at_break = tree.yield_rad * (1.0 + tree.ratio) ** 2 / 4.0
    corners = (tree.yield_rad, at_break, at_break / math.sqrt(tree.residual))
    inside = [x for x in corners if 0.0 < x < rotation]
    return float(
        quad(
            lambda x: float(moment_n_m(np.array([x]), tree)[0]),
            0.0,
            rotation,
            points=inside or None,
            limit=300,
        )[0]
    )


def random_tree(rng: np.random.Generator) -> Tree:
    """Any tree of 10 to 100 cm: leaning back or forward, head or tail wind, any hinge."""
    diameter = rng.uniform(0.12, 1.0)
    height = rng.uniform(3.0, 16.0)
    weight = 9.81 * rng.uniform(0.5, 1.2) * 400.0 * diameter**2 * 2.5 * height
    thickness = diameter * rng.uniform(0.03, 0.18)
    back = rng.uniform(-0.15, 0.25) * height * rng.choice([0.1, 0.4, 1.0])
    peak = rng.uniform(25e6, 70e6) * 0.85 * diameter * thickness**2 / 6.0
    fibre = rng.uniform(0.02, 0.05) + rng.uniform(1.0, 3.0) * thickness
    at_yield = 2.0 * rng.uniform(14e6, 30e6) * fibre / (rng.uniform(6e9, 11e9) * thickness)
    wind = rng.choice([0.0, 1.0]) * rng.uniform(-1.0, 1.0) * weight * 0.08 * height
    return Tree(
        weight,
        back,
        height,
        wind,
        peak,
        at_yield,
        rng.uniform(1.0, 4.0),
        rng.uniform(0.3, 1.0),
        math.radians(rng.uniform(40.0, 80.0)),
    )
