"""Early-go: the thickness still uncut at which a tree starts by itself."""

import math

from fellwright.kernel import kernel
from fellwright.physics.notch import chord_m

__all__ = ["early_go_thickness_m", "forward_moment_n_m"]

STEPS = 12


@kernel
def forward_moment_n_m(
    thickness_m: float,
    weight_n: float,
    forward_offset_m: float,
    diameter_m: float,
    notch_m: float,
    wind_n_m: float,
) -> float:
    """Moment with which weight and wind turn the tree forward about the wood still uncut.

    Parameters
    ----------
    thickness_m : float
        Wood still uncut behind the notch [m].
    weight_n : float
        Weight above the cut [N].
    forward_offset_m : float
        Offset of the balance point from the pith [m], positive towards the lay.
    diameter_m, notch_m : float
        Diameter inside bark and notch depth inside bark [m].
    wind_n_m : float
        Forward moment of the wind [N.m].

    Returns
    -------
    float
        Moment [N.m]; negative when the tree leans back on its stump. OWN: statics.
    """
    arm = forward_offset_m - (0.5 * diameter_m - notch_m - 0.5 * thickness_m)
    return weight_n * arm + wind_n_m


@kernel
def early_go_thickness_m(  # noqa: PLR0913 - plain scalars: the twin compiles it
    weight_n: float,
    forward_offset_m: float,
    diameter_m: float,
    cavity_m: float,
    notch_m: float,
    wind_n_m: float,
    bending_pa: float,
) -> float:
    """Thickness still uncut at which the tree goes by itself.

    Parameters
    ----------
    weight_n : float
        Weight above the cut [N].
    forward_offset_m : float
        Offset of the balance point from the pith [m], positive towards the lay.
    diameter_m, cavity_m : float
        Diameter inside bark and of a concentric cavity [m].
    notch_m : float
        Notch depth inside bark [m].
    wind_n_m : float
        Forward moment of the wind [N.m].
    bending_pa : float
        Modulus of rupture [Pa].

    Returns
    -------
    float
        Thickness [m] where ``MOR c t^2/6`` equals the forward moment; 0 where the tree rests on its
        stump, at most the wood behind the notch. OWN.
    """
    largest = diameter_m - notch_m
    thickness = 0.5 * largest
    for _ in range(STEPS):
        moment = forward_moment_n_m(
            thickness, weight_n, forward_offset_m, diameter_m, notch_m, wind_n_m
        )
        if moment <= 0.0:
            return 0.0
        middle = min(notch_m + 0.5 * thickness, 0.98 * diameter_m)
        width = chord_m(diameter_m, middle)
        if cavity_m > 0.0:
            width -= chord_m(cavity_m, middle - 0.5 * (diameter_m - cavity_m))
        new = math.sqrt(6.0 * moment / (bending_pa * max(width, 1e-3)))
        if new >= largest:
            return largest
        if abs(new - thickness) < 1e-6:
            return new
        thickness = new
    return thickness
