"""Preload: what the wood still standing behind the hinge carries before the release cut."""

import math

__all__ = ["preload_force_n", "sit_back_rotation_rad", "uncut_moment_n_m"]


def uncut_moment_n_m(
    bending_pa: float, diameter_m: float, notch_m: float, uncut_share: float
) -> float:
    """Moment that the uncut half carries before its back fibres fail.

    Parameters
    ----------
    bending_pa : float
        Modulus of rupture [Pa].
    diameter_m, notch_m : float
        Diameter inside bark and notch depth inside bark [m].
    uncut_share : float
        Share of the width not yet cut behind the hinge, 0 to 1.

    Returns
    -------
    float
        Moment [N.m] of a rectangle as deep as the wood behind the notch and as wide as the uncut
        share of its mean chord. OWN, a lower estimate: the hinge on the cut side is left out.
    """
    depth = diameter_m - notch_m
    radius = 0.5 * diameter_m
    front = radius - notch_m
    half = 0.5 * (front * math.sqrt(radius**2 - front**2) + radius**2 * math.asin(front / radius))
    area = 2.0 * (half + math.pi * radius**2 / 4.0)
    width = uncut_share * area / depth
    return bending_pa * width * depth**2 / 6.0


def preload_force_n(push_n: float, uncut_n_m: float, lever_m: float, share: float = 0.65) -> float:
    """Force to set on the device while wood still stands behind the hinge.

    Parameters
    ----------
    push_n : float
        Median push that the tree asks for [N].
    uncut_n_m : float
        Moment that the uncut wood carries [N.m].
    lever_m : float
        Lever of the device [m].
    share : float
        Share of the push, 0.5 to 0.8. PRACTICE.

    Returns
    -------
    float
        The lesser of that share of the push and half of what the uncut wood carries [N]. OWN.
    """
    return min(share * push_n, 0.5 * uncut_n_m / lever_m)


def sit_back_rotation_rad(kerf_m: float, lever_m: float) -> float:
    """Backward rotation of a tree that closes an open kerf.

    Parameters
    ----------
    kerf_m : float
        Kerf [m].
    lever_m : float
        Distance from the hinge axis to the back of the kerf [m].

    Returns
    -------
    float
        Rotation [rad]; the kerf has to be lifted back first. OWN: 8 mm over 30 cm is 1.5 degrees.
    """
    return 2.0 * math.asin(min(1.0, kerf_m / (2.0 * lever_m)))
