"""Situations and devices anywhere in the range the engine answers for, from a seed."""

import math
import random
from typing import Any

from fellwright.planning.chance import Points, draw_points
from fellwright.planning.device_draw import (
    BLOWS,
    CONE,
    RAM,
    SCREW,
    DeviceDraw,
    DeviceFigures,
    draw_device,
)
from fellwright.planning.need import Need, Situation, draw_need


def random_situation(seed: int) -> Situation:
    """Any tree of 12 to 100 cm, sound or hollow, leaning any way, in calm or wind."""
    rng = random.Random(seed)
    dbh = rng.uniform(0.12, 1.0)
    height = min(45.0, dbh * rng.uniform(40.0, 95.0))
    stem = 350.0 * dbh**2 * height * rng.uniform(0.7, 1.4)
    crown = stem * rng.uniform(0.05, 0.6)
    stump = dbh * rng.uniform(1.02, 1.3)
    back = height * rng.choice([0.0, 0.01, 0.05]) * rng.uniform(-1.0, 1.0)
    bending = rng.uniform(30e6, 80e6)
    wind = rng.choice([0.0, 1.0]) * stem * 9.8 * 0.05 * height
    return Situation(
        stem_kg=stem,
        stem_centre_m=0.35 * height,
        crown_kg=crown,
        crown_centre_m=height * rng.uniform(0.5, 0.75),
        load_kg=rng.choice([0.0, 0.0, 0.4]) * crown,
        mass_ratio=0.1,
        dbh_ratio=0.005 / dbh,
        height_ratio=rng.choice([0.03, 0.12]),
        crown_ratio=0.25,
        balance_ratio=0.05,
        back_m=back,
        upright_back_m=rng.choice([back, max(0.0, back)]),
        side_m=height * rng.choice([0.0, 0.02]) * rng.uniform(-1.0, 1.0),
        offset_sigma_m=rng.uniform(0.05, 0.5),
        stump_m=stump,
        stump_sigma_m=0.01 * rng.choice([0.5, 1.0]),
        bark_volume_ratio=rng.uniform(0.05, 0.25),
        wall_m=rng.choice([0.0, 0.0, rng.uniform(0.15, 0.4) * stump]),
        wall_sigma_m=0.02,
        notch_share=rng.uniform(0.12, 0.35),
        notch_sigma_share=0.02,
        hinge_m=rng.uniform(0.04, 0.15) * stump,
        hinge_sigma_m=0.005,
        bending_pa=bending,
        bending_cv=rng.uniform(0.1, 0.2),
        frost_ratio=rng.choice([1.0, 1.2]),
        modulus_pa=rng.uniform(5e9, 12e9),
        crushing_pa=bending * rng.uniform(0.4, 0.55),
        crushing_cv=0.18,
        shear_pa=rng.uniform(4e6, 10e6),
        shear_cv=0.14,
        strength_ratio=rng.uniform(1.0, 4.0),
        toughness_j_per_m2=rng.uniform(200.0, 500.0),
        toughness_cv=0.3,
        split_prone_ratio=rng.choice([1.0, 1.5]),
        step_m=0.025,
        rim_m=0.03,
        closing_rad=math.radians(rng.uniform(40.0, 70.0)),
        wind_forward_n_m=wind * rng.uniform(-1.0, 1.0),
        wind_side_n_m=wind * rng.uniform(-1.0, 1.0),
        residual_low=0.3,
        residual_span=0.7,
        fibre_low=1.0,
        fibre_span=2.0,
        drag_low_log=math.log(0.7),
        drag_span_log=math.log(2.0),
    )


def random_device(seed: int) -> DeviceFigures:
    """Any device: screw by thread or by efficiency, cone, ram, driven wedge rated or not."""
    rng = random.Random(seed)
    drive = rng.choice([SCREW, SCREW, BLOWS, BLOWS, CONE, RAM])
    everything: dict[str, Any] = {
        "drive": drive,
        "rated_n": rng.choice([math.inf, rng.uniform(2e4, 3e5)]) if drive == BLOWS else 1e5,
        "lift_m": rng.uniform(0.015, 0.06),
        "lost_m": rng.uniform(0.0, 0.012),
        "width_m": rng.uniform(0.04, 0.1),
        "length_m": rng.uniform(0.06, 0.2),
        "angle_rad": math.radians(rng.uniform(3.0, 25.0)),
        "depth_m": rng.uniform(0.05, 0.2),
        "bar_m": rng.uniform(0.05, 0.12),
        "gap_m": 0.01,
        "torque_n_m": rng.uniform(300.0, 1400.0),
        "torque_limit_n_m": rng.uniform(500.0, 1400.0),
        "lift_per_turn_m": rng.uniform(0.001, 0.003),
        "thread_m": rng.choice([0.0, rng.uniform(0.015, 0.03)]),
        "lead_m": rng.uniform(0.003, 0.008),
        "collar_m": rng.choice([0.0, 0.03]),
        "efficiency_low": 0.12,
        "efficiency_span": 0.2,
        "thread_mu_low": 0.08,
        "thread_mu_span": 0.12,
        "hammer_kg": rng.uniform(1.0, 4.0),
        "wedge_kg": rng.uniform(0.2, 1.0),
        "restitution": 0.4,
        "friction_low": rng.choice([0.03, 0.15]),
        "friction_span": 0.2,
        "contact_low": 0.5,
        "contact_span": 0.5,
        "wrench_low": 0.6,
        "wrench_span": 0.4,
        "blow_low": 5.0,
        "blow_span": 5.0,
        "stiffness_low_log": math.log(2e6),
        "stiffness_span_log": math.log(10.0),
        "cone_radius_m": rng.uniform(0.02, 0.05),
        "cone_pitch_m": rng.uniform(0.004, 0.012),
        "hold_low_n": rng.uniform(1e4, 5e4),
        "hold_span_n": 3e4,
        "hold_cv": 0.15,
        "pump_n": rng.uniform(5e4, 3e5),
    }
    return DeviceFigures(**everything)


def points(seed: int, draws: int = 64) -> tuple[Points, ...]:
    """Points of a seed."""
    return draw_points(draws, seed)


def plain_needs(drawn: tuple[Points, ...], situation: Situation, gust: float) -> list[Need]:
    """The draws of a tree in plain Python."""
    return [draw_need(u, situation, gust) for u in drawn]


def plain_devices(
    drawn: tuple[Points, ...], needs: list[Need], figures: DeviceFigures
) -> list[DeviceDraw]:
    """The draws of a device in plain Python."""
    return [draw_device(u, need, figures) for u, need in zip(drawn, needs, strict=True)]
