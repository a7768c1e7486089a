"""What one draw of the tree asks for: the chain of physics from readings to push and lift.

A kernel: plain floats in NamedTuples, so that the compiled twin runs the same lines.
"""

import math
from typing import NamedTuple

from fellwright.kernel import kernel
from fellwright.physics.balance import lever_m, lift_m, set_back_m
from fellwright.physics.early_go import early_go_thickness_m, forward_moment_n_m
from fellwright.physics.hinge import (
    HingeLaw,
    bending_compression_pa,
    fibre_length_m,
    hinge_area_m2,
    hinge_law,
    peak_moment_n_m,
    yield_rotation_rad,
)
from fellwright.physics.side_load import side_capacity_n_m, side_use_ratio, twist_capacity_n_m
from fellwright.physics.splitting import energy_release_j_per_m2
from fellwright.physics.stump import inside_bark_diameter_m
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
    load_kg: float
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
    never credited against the hinge. Early-go and splitting are those of the tree taken as at
    most upright: a back lean is never credited against them.
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
    checked_balance_rad: float


class Body(NamedTuple):
    """One draw of the body above the cut."""

    mass_kg: float
    weight_n: float
    bare_weight_n: float
    height_m: float
    height_factor: float
    offset_error_m: float
    back_m: float
    side_m: float


class Hinge(NamedTuple):
    """One draw of stump and hinge: widths of the solid section resist, of the hollow one steer."""

    wood_m: float
    cavity_m: float
    notch_m: float
    thickness_m: float
    lever_m: float
    solid_width_m: float
    width_m: float


class Wood(NamedTuple):
    """One draw of the wood, one strength for all uses, and what follows for the hinge."""

    bending_pa: float
    crushing_pa: float
    shear_pa: float
    fibre_m: float
    law: HingeLaw


class Checked(NamedTuple):
    """One draw of the tipping: lifts [m], balance and let-go [rad], moment [N.m]."""

    balance_lift_m: float
    let_go_lift_m: float
    balance_rad: float
    let_go_rad: float
    moment_n_m: float


@kernel
def draw_body(u: Points, s: Situation) -> Body:
    """Draw mass, height of the balance point and its offset."""
    height_factor = max(0.3, 1.0 + s.height_ratio * u.z_height)
    girth_factor = max(0.3, 1.0 + s.dbh_ratio * u.z_dbh)
    stem = (
        s.stem_kg * girth_factor * girth_factor * height_factor * math.exp(s.mass_ratio * u.z_mass)
    )
    crown = s.crown_kg * math.exp(s.crown_ratio * u.z_crown)
    # Snow, ice and ivy weigh on the tree, and are not credited with holding it over the hinge.
    bare = stem + crown
    mass = bare + s.load_kg
    height = (
        (stem * s.stem_centre_m + crown * s.crown_centre_m)
        / bare
        * height_factor
        * max(0.3, 1.0 + s.balance_ratio * u.z_balance)
    )
    offset_error = s.offset_sigma_m * u.z_back
    # The error of the side offset is drawn away from the pith, downwind where it stands over it, so
    # that a mirrored tree is mirrored.
    leaning = s.side_m if s.side_m != 0.0 else s.wind_side_n_m
    away = 1.0 if leaning >= 0.0 else -1.0
    return Body(
        mass,
        mass * GRAVITY_M_PER_S2,
        bare * GRAVITY_M_PER_S2,
        height,
        height_factor,
        offset_error,
        s.back_m + offset_error,
        s.side_m + away * s.offset_sigma_m * u.z_side,
    )


@kernel
def draw_hinge(u: Points, s: Situation) -> Hinge:
    """Draw stump, notch and hinge inside bark."""
    over_bark = max(0.3 * s.stump_m, s.stump_m + s.stump_sigma_m * u.z_stump)
    wood = inside_bark_diameter_m(over_bark, s.bark_volume_ratio)
    bark = 0.5 * (over_bark - wood)
    notch = over_bark * max(0.05, s.notch_share + s.notch_sigma_share * u.z_notch) - bark
    notch = min(max(notch, 0.02 * wood), 0.6 * wood)
    hinge = min(max(LEAST_HINGE_M, s.hinge_m + s.hinge_sigma_m * u.z_hinge), 0.9 * (wood - notch))
    cavity = 0.0
    if s.wall_m > 0.0:
        cavity = max(0.0, wood - 2.0 * max(0.0, s.wall_m + s.wall_sigma_m * u.z_wall))
    solid_area = hinge_area_m2(wood, 0.0, notch, hinge)
    area = solid_area if cavity == 0.0 else hinge_area_m2(wood, cavity, notch, hinge)
    return Hinge(
        wood,
        cavity,
        notch,
        hinge,
        max(0.02, lever_m(wood, notch, hinge, s.rim_m)),
        solid_area / hinge,
        max(1e-3, area / hinge),
    )


@kernel
def draw_wood(u: Points, s: Situation, hinge: Hinge) -> Wood:
    """Draw the wood. What resists the wedge is taken solid and frozen, never what steers."""
    thickness = hinge.thickness_m
    bending = s.bending_pa * math.exp(s.bending_cv * u.z_strength)
    fibre = fibre_length_m(s.step_m, thickness, s.fibre_low + s.fibre_span * u.u_fibre)
    compression = bending_compression_pa(bending, s.strength_ratio)
    law = hinge_law(
        peak_moment_n_m(bending * s.frost_ratio, hinge.solid_width_m, thickness),
        yield_rotation_rad(compression, s.modulus_pa, fibre, thickness),
        s.strength_ratio,
        s.residual_low + s.residual_span * u.u_residual,
    )
    return Wood(
        bending,
        s.crushing_pa * math.exp(s.crushing_cv * u.z_strength),
        s.shear_pa * math.exp(s.shear_cv * u.z_strength),
        fibre,
        law,
    )


@kernel
def draw_tipping(
    s: Situation, body: Body, hinge: Hinge, law: HingeLaw, back_m: float, wind_n_m: float
) -> Checked:
    """Solve the tipping at one back offset."""
    behind = set_back_m(hinge.wood_m, hinge.notch_m, hinge.thickness_m, back_m)
    tipping = solve_tipping(body.weight_n, behind, body.height_m, wind_n_m, law, s.closing_rad)
    let_go = tipping.let_go_rad
    if s.load_kg > 0.0:
        bare = solve_tipping(
            body.bare_weight_n, behind, body.height_m, wind_n_m, law, s.closing_rad
        )
        let_go = max(let_go, bare.let_go_rad)
    return Checked(
        lift_m(hinge.lever_m, tipping.balance_rad),
        lift_m(hinge.lever_m, let_go),
        max(0.0, tipping.balance_rad),
        let_go,
        tipping.push_moment_n_m,
    )


@kernel
def draw_early_go(
    weight_n: float, forward_m: float, hinge: Hinge, wind_n_m: float, bending_pa: float
) -> float:
    """Thickness uncut at which the tree starts by itself [m]."""
    return early_go_thickness_m(
        weight_n,
        forward_m,
        hinge.wood_m,
        hinge.cavity_m,
        hinge.notch_m,
        wind_n_m,
        bending_pa,
    )


@kernel
def forward_at(
    uncut_m: float, weight_n: float, forward_m: float, hinge: Hinge, wind_n_m: float
) -> float:
    """Forward moment about the wood still uncut [N.m]."""
    return forward_moment_n_m(uncut_m, weight_n, forward_m, hinge.wood_m, hinge.notch_m, wind_n_m)


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
    body = draw_body(u, s)
    hinge = draw_hinge(u, s)
    wood = draw_wood(u, s, hinge)
    law = wood.law
    gust = gust_share * math.exp(s.drag_low_log + s.drag_span_log * u.u_drag) * body.height_factor
    wind = s.wind_forward_n_m * gust

    read = draw_tipping(s, body, hinge, law, body.back_m, wind)
    checked = read
    if s.upright_back_m > s.back_m:
        checked = draw_tipping(s, body, hinge, law, s.upright_back_m + body.offset_error_m, wind)

    side_n_m = abs(body.weight_n * body.side_m + s.wind_side_n_m * gust)
    side_use = side_use_ratio(
        checked.let_go_rad,
        side_n_m,
        side_capacity_n_m(wood.bending_pa, hinge.width_m, hinge.thickness_m),
        twist_capacity_n_m(
            wood.bending_pa, wood.shear_pa, hinge.width_m, hinge.thickness_m, wood.fibre_m
        ),
        law.break_rad,
    )
    # A back lean is not credited against starting early or splitting: it may be less than read.
    forward = -body.offset_error_m if s.back_m > 0.0 else -body.back_m
    early_go = draw_early_go(body.weight_n, forward, hinge, wind, wood.bending_pa)
    toughness = (
        s.toughness_j_per_m2 * math.exp(s.toughness_cv * u.z_toughness) / s.split_prone_ratio
    )
    uncut = max(early_go, hinge.thickness_m)
    at_uncut = forward_at(uncut, body.weight_n, forward, hinge, wind)
    at_hinge = forward_at(hinge.thickness_m, body.weight_n, forward, hinge, wind)
    push = checked.moment_n_m / hinge.lever_m
    return Need(
        body.mass_kg,
        body.height_m,
        body.back_m,
        body.side_m,
        hinge.wood_m,
        hinge.notch_m,
        hinge.thickness_m,
        hinge.lever_m,
        read.balance_lift_m,
        read.let_go_lift_m,
        read.moment_n_m / hinge.lever_m,
        read.moment_n_m,
        side_n_m,
        side_use,
        early_go,
        early_go / max(LEAST_HINGE_M, s.hinge_m),
        energy_release_j_per_m2(at_uncut, s.modulus_pa, hinge.wood_m, hinge.notch_m + uncut)
        / toughness,
        energy_release_j_per_m2(
            min(at_hinge, law.peak_n_m),
            s.modulus_pa,
            hinge.wood_m,
            hinge.notch_m + hinge.thickness_m,
        )
        / toughness,
        max(0.0, push - body.weight_n) / (hinge.width_m * hinge.thickness_m),
        wood.crushing_pa,
        max(
            0.0,
            tipping_work_j(
                checked.let_go_rad,
                body.weight_n,
                set_back_m(
                    hinge.wood_m,
                    hinge.notch_m,
                    hinge.thickness_m,
                    max(s.back_m, s.upright_back_m) + body.offset_error_m,
                ),
                body.height_m,
                wind,
                law,
            ),
        ),
        checked.balance_lift_m,
        checked.let_go_lift_m,
        checked.let_go_rad,
        push,
        checked.balance_rad,
    )
