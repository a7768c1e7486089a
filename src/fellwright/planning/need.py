"""What one draw of the tree asks for: the chain of physics from readings to push and lift.

A kernel: plain floats in NamedTuples, so that the compiled twin runs the same lines.
"""

import math
from typing import NamedTuple

from fellwright.kernel import kernel
from fellwright.physics.balance import lever_m, lift_m, set_back_m
from fellwright.physics.early_go import early_go_thickness_m, forward_moment_n_m
from fellwright.physics.hinge import (
    bending_compression_pa,
    fibre_length_m,
    hinge_area_m2,
    hinge_law,
    peak_moment_n_m,
    yield_rotation_rad,
)
from fellwright.physics.side_load import side_capacity_n_m, side_use_ratio, twist_capacity_n_m
from fellwright.physics.splitting import energy_release_j_per_m2
from fellwright.physics.tipping import solve_tipping, tipping_work_j
from fellwright.planning.chance import Points

__all__ = ["Need", "Situation", "draw_need"]

GRAVITY_M_PER_S2 = 9.80665
LEAST_HINGE_M = 0.003


class Situation(NamedTuple):
    """Medians and errors of one tree, cut and day, SI units; ``_ratio`` are relative sigmas."""

    stem_kg: float
    stem_centre_m: float
    crown_kg: float
    crown_centre_m: float
    mass_ratio: float
    dbh_ratio: float
    height_ratio: float
    crown_ratio: float
    balance_ratio: float
    back_m: float
    upright_back_m: float
    side_m: float
    offset_sigma_m: float
    stump_m: float
    stump_sigma_m: float
    bark_volume_ratio: float
    wall_m: float
    wall_sigma_m: float
    notch_share: float
    notch_sigma_share: float
    hinge_m: float
    hinge_sigma_m: float
    bending_pa: float
    bending_cv: float
    frost_ratio: float
    modulus_pa: float
    crushing_pa: float
    crushing_cv: float
    shear_pa: float
    shear_cv: float
    strength_ratio: float
    toughness_j_per_m2: float
    toughness_cv: float
    split_prone_ratio: float
    step_m: float
    rim_m: float
    closing_rad: float
    wind_forward_n_m: float
    wind_side_n_m: float
    residual_low: float
    residual_span: float
    fibre_low: float
    fibre_span: float
    drag_low_log: float
    drag_span_log: float


class Need(NamedTuple):
    """One draw: what the tree asks for [SI], and what the checks compare with it.

    ``checked_`` figures are those of the same tree taken as at least upright: a forward lean is
    never credited against the hinge.
    """

    mass_kg: float
    height_m: float
    back_m: float
    side_m: float
    wood_m: float
    notch_m: float
    hinge_m: float
    lever_m: float
    balance_lift_m: float
    let_go_lift_m: float
    push_n: float
    push_moment_n_m: float
    side_n_m: float
    side_use: float
    early_go_m: float
    early_go_ratio: float
    splitting: float
    splitting_hinge_first: float
    hinge_tension_pa: float
    crushing_pa: float
    work_j: float
    checked_balance_lift_m: float
    checked_let_go_lift_m: float
    checked_let_go_rad: float
    checked_push_n: float


@kernel
def draw_need(u: Points, s: Situation, gust_share: float) -> Need:
    """Work out one draw of the tree.

    Parameters
    ----------
    u : Points
        Normals and uniforms of the draw.
    s : Situation
        Medians and errors.
    gust_share : float
        1 with the gust entered, 0 in calm.

    Returns
    -------
    Need
        Figures of the draw.
    """
    # Mass and balance point.
    height_factor = max(0.3, 1.0 + s.height_ratio * u.z_height)
    girth_factor = max(0.3, 1.0 + s.dbh_ratio * u.z_dbh)
    stem = s.stem_kg * girth_factor * girth_factor * height_factor * math.exp(
        s.mass_ratio * u.z_mass
    )
    crown = s.crown_kg * math.exp(s.crown_ratio * u.z_crown)
    mass = stem + crown
    weight = mass * GRAVITY_M_PER_S2
    height = (
        (stem * s.stem_centre_m + crown * s.crown_centre_m)
        / mass
        * height_factor
        * max(0.3, 1.0 + s.balance_ratio * u.z_balance)
    )
    offset_error = s.offset_sigma_m * u.z_back
    back = s.back_m + offset_error
    # The error of the side offset is drawn away from the pith, so that a mirrored tree is mirrored.
    away = 1.0 if s.side_m >= 0.0 else -1.0
    side = s.side_m + away * s.offset_sigma_m * u.z_side

    # Stump, notch and hinge, inside bark.
    over_bark = s.stump_m + s.stump_sigma_m * u.z_stump
    wood = over_bark / math.sqrt(1.0 + s.bark_volume_ratio)
    bark = 0.5 * (over_bark - wood)
    notch = over_bark * max(0.05, s.notch_share + s.notch_sigma_share * u.z_notch) - bark
    notch = min(max(notch, 0.02 * wood), 0.6 * wood)
    hinge = min(max(LEAST_HINGE_M, s.hinge_m + s.hinge_sigma_m * u.z_hinge), 0.9 * (wood - notch))
    lever = max(0.02, lever_m(wood, notch, hinge, s.rim_m))
    cavity = 0.0
    if s.wall_m > 0.0:
        cavity = max(0.0, wood - 2.0 * max(0.0, s.wall_m + s.wall_sigma_m * u.z_wall))
    solid_area = hinge_area_m2(wood, 0.0, notch, hinge)
    area = solid_area if cavity == 0.0 else hinge_area_m2(wood, cavity, notch, hinge)
    solid_width = solid_area / hinge
    width = max(1e-3, area / hinge)

    # One wood strength for all uses. What resists the wedge is taken solid and frozen; what steers
    # is taken hollow and never strengthened by frost.
    bending = s.bending_pa * math.exp(s.bending_cv * u.z_strength)
    crushing = s.crushing_pa * math.exp(s.crushing_cv * u.z_strength)
    shear = s.shear_pa * math.exp(s.shear_cv * u.z_strength)
    fibre = fibre_length_m(s.step_m, hinge, s.fibre_low + s.fibre_span * u.u_fibre)
    compression = bending_compression_pa(bending, s.strength_ratio)
    yield_rad = yield_rotation_rad(compression, s.modulus_pa, fibre, hinge)
    peak = peak_moment_n_m(bending * s.frost_ratio, solid_width, hinge)
    law = hinge_law(
        peak, yield_rad, s.strength_ratio, s.residual_low + s.residual_span * u.u_residual
    )

    # Wind on this crown in this draw.
    gust = gust_share * math.exp(s.drag_low_log + s.drag_span_log * u.u_drag) * height_factor
    wind_forward = s.wind_forward_n_m * gust
    wind_side = s.wind_side_n_m * gust

    # Tipping as read, and as at least upright.
    behind = set_back_m(wood, notch, hinge, back)
    tipping = solve_tipping(weight, behind, height, wind_forward, law, s.closing_rad)
    balance_lift = lift_m(lever, tipping.balance_rad)
    let_go_lift = lift_m(lever, tipping.let_go_rad)
    push = tipping.push_moment_n_m / lever
    work = max(
        0.0, tipping_work_j(tipping.let_go_rad, weight, behind, height, wind_forward, law)
    )
    checked = tipping
    checked_balance_lift, checked_let_go_lift, checked_push = balance_lift, let_go_lift, push
    if s.upright_back_m > s.back_m:
        upright = set_back_m(wood, notch, hinge, s.upright_back_m + offset_error)
        checked = solve_tipping(weight, upright, height, wind_forward, law, s.closing_rad)
        checked_balance_lift = lift_m(lever, checked.balance_rad)
        checked_let_go_lift = lift_m(lever, checked.let_go_rad)
        checked_push = checked.push_moment_n_m / lever

    # Side load, early-go, splitting, tension.
    side_n_m = abs(weight * side + wind_side)
    side_use = side_use_ratio(
        checked.let_go_rad,
        side_n_m,
        side_capacity_n_m(bending, width, hinge),
        twist_capacity_n_m(bending, shear, width, hinge, fibre),
        law.break_rad,
    )
    early_go = early_go_thickness_m(weight, -back, wood, cavity, notch, wind_forward, bending)
    uncut = max(early_go, hinge)
    forward = forward_moment_n_m(uncut, weight, -back, wood, notch, wind_forward)
    toughness = s.toughness_j_per_m2 * math.exp(s.toughness_cv * u.z_toughness)
    splitting = (
        energy_release_j_per_m2(forward, s.modulus_pa, wood, notch + uncut)
        / toughness
        * s.split_prone_ratio
    )
    at_hinge = forward_moment_n_m(hinge, weight, -back, wood, notch, wind_forward)
    splitting_hinge_first = (
        energy_release_j_per_m2(min(at_hinge, peak), s.modulus_pa, wood, notch + hinge)
        / toughness
        * s.split_prone_ratio
    )
    tension = max(0.0, checked_push - weight) / max(1e-6, area)
    return Need(
        mass,
        height,
        back,
        side,
        wood,
        notch,
        hinge,
        lever,
        balance_lift,
        let_go_lift,
        push,
        tipping.push_moment_n_m,
        side_n_m,
        side_use,
        early_go,
        early_go / max(LEAST_HINGE_M, s.hinge_m),
        splitting,
        splitting_hinge_first,
        tension,
        crushing,
        work,
        checked_balance_lift,
        checked_let_go_lift,
        checked.let_go_rad,
        checked_push,
    )
