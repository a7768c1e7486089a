"""Splitting up the stem during the back cut: energy released by a crack against fracture energy."""

import math

from fellwright.kernel import kernel
from fellwright.physics.notch import chord_m

__all__ = ["energy_release_j_per_m2", "segment_second_moment_m4"]


@kernel
def segment_second_moment_m4(diameter_m: float, depth_m: float) -> float:
    """Second moment of the front segment of a disc about its own centroid.

    Parameters
    ----------
    diameter_m : float
        Diameter [m].
    depth_m : float
        Depth of the segment from the front [m], above 0 up to the diameter.

    Returns
    -------
    float
        Second moment for bending along the lay [m4]. OWN: circular segment.
    """
    radius = 0.5 * diameter_m
    cosine = min(1.0, max(-1.0, 1.0 - depth_m / radius))
    angle = math.acos(cosine)
    sine = math.sin(angle)
    wedge = angle - sine * cosine
    if wedge <= 0.0:
        return 0.0
    area = radius * radius * wedge
    centroid = 2.0 / 3.0 * radius * sine * sine * sine / wedge
    about_centre = radius**4 / 4.0 * (wedge + 2.0 * sine * sine * sine * cosine)
    return about_centre - area * centroid * centroid


@kernel
def energy_release_j_per_m2(
    moment_n_m: float, modulus_pa: float, diameter_m: float, front_depth_m: float
) -> float:
    """Energy that a crack up the grain from the end of the back cut sets free, per area.

    Parameters
    ----------
    moment_n_m : float
        Forward bending moment [N.m]; 0 or less frees nothing.
    modulus_pa : float
        Modulus of elasticity [Pa].
    diameter_m : float
        Diameter inside bark [m].
    front_depth_m : float
        Depth of the wood in front of the end of the cut: notch and what is uncut [m].

    Returns
    -------
    float
        ``M^2/(2 E b) (1/I_front - 1/I_full)`` [J/m2]. The bending term of the notched-beam
        criterion, [Gustafsson-1988]; MEMORY for the criterion, OWN for the segment.
    """
    if moment_n_m <= 0.0:
        return 0.0
    width = chord_m(diameter_m, front_depth_m)
    front = segment_second_moment_m4(diameter_m, front_depth_m)
    if width <= 0.0 or front <= 0.0:
        return 0.0
    full = math.pi * diameter_m**4 / 64.0
    return moment_n_m * moment_n_m / (2.0 * modulus_pa * width) * (1.0 / front - 1.0 / full)
