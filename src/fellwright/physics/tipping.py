"""Tipping: the largest push on the way, and the rotation after which the tree goes by itself.

Solved, not marched: the moment is smooth between the yield, the break and the residual of the
hinge, so each of its roots is bracketed by those rotations and found in a few steps.
"""

import math
from typing import NamedTuple

from fellwright.kernel import kernel
from fellwright.physics.balance import balance_rotation_rad
from fellwright.physics.hinge import HingeLaw, hinge_moment_n_m, hinge_work_j

__all__ = ["Tipping", "resisting_moment_n_m", "solve_tipping", "tipping_work_j"]

ROOT_STEPS = 5


class Tipping(NamedTuple):
    """What one tree asks for: moment [N.m] and rotations [rad]."""

    push_moment_n_m: float
    push_rad: float
    balance_rad: float
    let_go_rad: float


@kernel
def resisting_moment_n_m(
    rotation_rad: float,
    weight_n: float,
    set_back_m: float,
    height_m: float,
    forward_n_m: float,
    law: HingeLaw,
) -> float:
    """Moment that a wedge must supply at a rotation.

    Parameters
    ----------
    rotation_rad : float
        Rotation [rad], 0 or more.
    weight_n : float
        Weight of the tree above the hinge [N].
    set_back_m, height_m : float
        Distance of the balance point behind and above the hinge axis [m].
    forward_n_m : float
        Moment of wind and line [N.m], positive forward; a head gust is negative.
    law : HingeLaw
        Law of the hinge.

    Returns
    -------
    float
        ``W (x cos - h sin) + M_hinge - M_forward`` [N.m]; negative where the tree goes by itself.
        OWN: statics.
    """
    return (
        weight_n * (set_back_m * math.cos(rotation_rad) - height_m * math.sin(rotation_rad))
        + hinge_moment_n_m(rotation_rad, law)
        - forward_n_m
    )


@kernel
def _peak_rotation_rad(weight_n: float, set_back_m: float, height_m: float, law: HingeLaw) -> float:
    """Rotation of the largest resisting moment, between yield and break; 0 if it only falls."""
    root_yield = math.sqrt(law.yield_rad)
    rotation = law.yield_rad
    for _ in range(4):
        slope = weight_n * (set_back_m * math.sin(rotation) + height_m * math.cos(rotation))
        if slope <= 0.0:
            return law.break_rad
        rotation = (law.scale_n_m * root_yield / (6.0 * slope)) ** (2.0 / 3.0)
        if rotation >= law.break_rad:
            return law.break_rad
    if rotation <= law.yield_rad:
        return 0.0
    return rotation


@kernel
def solve_tipping(
    weight_n: float,
    set_back_m: float,
    height_m: float,
    forward_n_m: float,
    law: HingeLaw,
    closing_rad: float,
) -> Tipping:
    """Find the largest push moment and the let-go rotation.

    Parameters
    ----------
    weight_n : float
        Weight above the hinge [N].
    set_back_m, height_m : float
        Distance of the balance point behind and above the hinge axis [m].
    forward_n_m : float
        Moment of wind and line [N.m], positive forward.
    law : HingeLaw
        Law of the hinge.
    closing_rad : float
        Rotation at which the notch closes and the hinge is gone [rad].

    Returns
    -------
    Tipping
        Push moment 0 or more; let-go 0 where nothing holds the tree. OWN: derivation in
        docs/derivations/tipping.md.
    """
    balance = balance_rotation_rad(set_back_m, height_m)
    swing = weight_n * math.sqrt(set_back_m * set_back_m + height_m * height_m)
    start = weight_n * set_back_m - forward_n_m
    peak_rad = _peak_rotation_rad(weight_n, set_back_m, height_m, law)
    peak = resisting_moment_n_m(peak_rad, weight_n, set_back_m, height_m, forward_n_m, law)
    push, push_rad = (start, 0.0) if start > peak else (peak, peak_rad)
    if push <= 0.0:
        return Tipping(0.0, 0.0, balance, 0.0)

    # Every piece ends where the hinge changes its law. Look for the last positive end.
    floor_rad = min(law.break_rad / math.sqrt(law.residual_ratio), max(closing_rad, law.break_rad))
    at_floor = swing * math.sin(balance - floor_rad) + law.residual_ratio * law.peak_n_m
    if at_floor > forward_n_m:
        sine = (law.residual_ratio * law.peak_n_m - forward_n_m) / swing
        let_go = closing_rad if sine >= 1.0 else balance + math.asin(max(-1.0, sine))
    else:
        at_break = swing * math.sin(balance - law.break_rad) + law.peak_n_m - forward_n_m
        if at_break > 0.0:
            # Falling and convex from the break on: Newton from the left never oversteps.
            let_go = law.break_rad
            for _ in range(ROOT_STEPS + 2):
                share = law.break_rad / let_go
                held = law.peak_n_m * share * share
                value = swing * math.sin(balance - let_go) + held - forward_n_m
                slope = -swing * math.cos(balance - let_go) - 2.0 * held / let_go
                let_go -= value / slope
        else:
            let_go = _root_before_break(weight_n, set_back_m, height_m, forward_n_m, law, push_rad)
    return Tipping(push, push_rad, balance, min(let_go, max(closing_rad, balance)))


@kernel
def _root_before_break(
    weight_n: float,
    set_back_m: float,
    height_m: float,
    forward_n_m: float,
    law: HingeLaw,
    push_rad: float,
) -> float:
    """Last zero of the resisting moment before the back fibres break, by false position."""
    low, high = push_rad, law.break_rad
    at_yield = resisting_moment_n_m(law.yield_rad, weight_n, set_back_m, height_m, forward_n_m, law)
    if push_rad < law.yield_rad:
        if at_yield > 0.0:
            low = law.yield_rad
        else:
            high = law.yield_rad
    f_low = resisting_moment_n_m(low, weight_n, set_back_m, height_m, forward_n_m, law)
    f_high = resisting_moment_n_m(high, weight_n, set_back_m, height_m, forward_n_m, law)
    root = high
    for _ in range(30):
        if f_high == f_low:
            return high
        root = high - f_high * (high - low) / (f_high - f_low)
        value = resisting_moment_n_m(root, weight_n, set_back_m, height_m, forward_n_m, law)
        if abs(value) < 1e-9 * (abs(weight_n * height_m) + 1.0) or high - low < 1e-10:
            return root
        # Illinois: halve the kept end's value, so that neither end gets stuck.
        if value > 0.0:
            low, f_low = root, value
            f_high *= 0.5
        else:
            high, f_high = root, value
            f_low *= 0.5
    return root


@kernel
def tipping_work_j(
    rotation_rad: float,
    weight_n: float,
    set_back_m: float,
    height_m: float,
    forward_n_m: float,
    law: HingeLaw,
) -> float:
    """Net work of the wedge from the start to a rotation.

    Parameters
    ----------
    rotation_rad : float
        Rotation [rad].
    weight_n : float
        Weight [N].
    set_back_m, height_m : float
        Distance of the balance point behind and above the hinge axis [m].
    forward_n_m : float
        Moment of wind and line [N.m], positive forward.
    law : HingeLaw
        Law of the hinge.

    Returns
    -------
    float
        Rise of the balance point times weight, plus hinge work, less the work of wind and line [J].
        OWN: integral of :func:`resisting_moment_n_m`.
    """
    rise = set_back_m * math.sin(rotation_rad) - height_m * (1.0 - math.cos(rotation_rad))
    return weight_n * rise + hinge_work_j(rotation_rad, law) - forward_n_m * rotation_rad
