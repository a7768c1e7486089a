"""Wedge and screw as free bodies: the force balance solved as linear equations, no formula."""

import math

import numpy as np


def wedge_thrust_n(
    load_n: float, angle_1: float, angle_2: float, mu_1: float, mu_2: float, *, out: bool = False
) -> float:
    """Force along a wedge that slides in (or out) under a load across it.

    Unknowns: normal force on either face and the force along the wedge. Each face carries the load
    across the wedge; along the wedge everything adds up. Friction points against the sliding.
    """
    way = -1.0 if out else 1.0
    matrix = np.array(
        [
            [math.cos(angle_1) - way * mu_1 * math.sin(angle_1), 0.0, 0.0],
            [0.0, math.cos(angle_2) - way * mu_2 * math.sin(angle_2), 0.0],
            [
                -(math.sin(angle_1) + way * mu_1 * math.cos(angle_1)),
                -(math.sin(angle_2) + way * mu_2 * math.cos(angle_2)),
                1.0,
            ],
        ]
    )
    along = float(np.linalg.solve(matrix, np.array([load_n, load_n, 0.0]))[2])
    return -along if out else along


def thread_torque_n_m(
    axial_n: float,
    diameter_m: float,
    lead_m: float,
    mu: float,
    flank_rad: float,
    *,
    lowering: bool = False,
) -> float:
    """Torque on a thread: one turn unwound to a slope, normal force tilted by the flank.

    Unknowns: normal force and the force round the thread. The normal force stands square to the
    slope and to the flank, so its part in the plane of the slope is its cosine of the flank.
    """
    slope = math.atan2(lead_m, math.pi * diameter_m)
    way = -1.0 if lowering else 1.0
    pressing = math.cos(flank_rad)
    matrix = np.array(
        [
            [pressing * math.cos(slope) - way * mu * math.sin(slope), 0.0],
            [-(pressing * math.sin(slope) + way * mu * math.cos(slope)), 1.0],
        ]
    )
    around = float(np.linalg.solve(matrix, np.array([axial_n, 0.0]))[1])
    torque = around * diameter_m / 2.0
    return -torque if lowering else torque
