"""Side load on the hinge: bending across it and twist about the stem, together."""

import math

from fellwright.kernel import kernel

__all__ = ["side_capacity_n_m", "side_use_ratio", "torsion_coefficient", "twist_capacity_n_m"]


@kernel
def torsion_coefficient(thickness_m: float, width_m: float) -> float:
    """Torsion coefficient of a rectangular strip.

    Parameters
    ----------
    thickness_m, width_m : float
        Short and long side [m].

    Returns
    -------
    float
        ``1/(3 + 1.8 t/c)`` of ``T = alpha tau c t^2``. Source: [Young-2012] Table 10.7
        approximation. MEMORY; held against the series of [Timoshenko-1970] in the tests.
    """
    return 1.0 / (3.0 + 1.8 * thickness_m / width_m)


@kernel
def side_capacity_n_m(bending_pa: float, width_m: float, thickness_m: float) -> float:
    """Moment across the hinge at which its edge fibres fail.

    Parameters
    ----------
    bending_pa : float
        Modulus of rupture [Pa].
    width_m, thickness_m : float
        Mean width and thickness of the hinge [m].

    Returns
    -------
    float
        ``MOR t c^2/6`` [N.m]. OWN: the strip bent about its strong axis.
    """
    return bending_pa * thickness_m * width_m * width_m / 6.0


@kernel
def twist_capacity_n_m(
    bending_pa: float, shear_pa: float, width_m: float, thickness_m: float, fibre_m: float
) -> float:
    """Moment about the stem that the hinge carries in twist.

    Parameters
    ----------
    bending_pa, shear_pa : float
        Modulus of rupture and shear strength along the grain [Pa].
    width_m, thickness_m : float
        Mean width and thickness of the hinge [m].
    fibre_m : float
        Free fibre length [m].

    Returns
    -------
    float
        St Venant twist plus warping of strips held at both ends,
        ``alpha tau c t^2 + MOR t^2 c^2/(18 L)`` [N.m], elastic up to the edge strips as
        in :func:`side_capacity_n_m`; all strips at their strength would give 12. OWN.
    """
    square = thickness_m * thickness_m
    alpha = torsion_coefficient(thickness_m, width_m)
    return alpha * shear_pa * width_m * square + bending_pa * square * width_m * width_m / (
        18.0 * fibre_m
    )


@kernel
def side_use_ratio(
    rotation_rad: float,
    side_n_m: float,
    side_capacity: float,
    twist_capacity: float,
    break_rad: float,
) -> float:
    """Share of the hinge's sideways strength in use at a rotation.

    Parameters
    ----------
    rotation_rad : float
        Rotation [rad], 0 or more.
    side_n_m : float
        Side moment of weight and wind on the upright tree [N.m], any sign.
    side_capacity, twist_capacity : float
        Capacities of the whole hinge [N.m].
    break_rad : float
        Rotation at which the back fibres break [rad]; from there on only the depth still whole
        counts, with no residual.

    Returns
    -------
    float
        Sum of the two shares, 0 or more; above 1 the hinge tears. It rises with rotation up to 45
        degrees wherever twist is the weaker of the two, so that let-go governs. OWN.
    """
    moment = abs(side_n_m)
    whole = 1.0 if rotation_rad <= break_rad else break_rad / rotation_rad
    return (
        moment
        * (math.cos(rotation_rad) / side_capacity + math.sin(rotation_rad) / twist_capacity)
        / whole
    )
