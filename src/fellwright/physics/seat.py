"""The seat of a device in the stem: bearing, crushing that eats lift, and room behind the hinge."""

import math

from fellwright.kernel import kernel

__all__ = ["bearing_force_n", "contact_length_m", "crush_loss_m", "room_m"]


@kernel
def bearing_force_n(
    crushing_pa: float, width_m: float, length_m: float, contact_share: float
) -> float:
    """Force at which the wood under a plate gives.

    Parameters
    ----------
    crushing_pa : float
        Crushing strength along the grain, green [Pa].
    width_m, length_m : float
        Plate width and length [m].
    contact_share : float
        Share of the plate in contact, 0 to 1.

    Returns
    -------
    float
        Force [N]. OWN: clear-wood strength by area, no further factor.
    """
    return crushing_pa * width_m * length_m * contact_share


@kernel
def contact_length_m(
    force_n: float, crushing_pa: float, width_m: float, contact_share: float
) -> float:
    """Length of contact that a force needs before the wood carries it.

    Parameters
    ----------
    force_n : float
        Force across the plate [N].
    crushing_pa : float
        Crushing strength along the grain [Pa].
    width_m : float
        Plate width [m].
    contact_share : float
        Share of the plate in contact.

    Returns
    -------
    float
        Length [m], also the least inserted length. OWN.
    """
    return force_n / (crushing_pa * width_m * contact_share)


@kernel
def crush_loss_m(length_m: float, wedge_rad: float, opening_rad: float) -> float:
    """Lift lost where a wedge blunter than the open cut bears on the rim and crushes it.

    Parameters
    ----------
    length_m : float
        Length that has to be crushed into contact [m].
    wedge_rad : float
        Angle between the wood-facing faces [rad].
    opening_rad : float
        Opening of the cut [rad].

    Returns
    -------
    float
        ``l tan(wedge - opening)`` [m], 0 where the cut is wider than the wedge. OWN.
    """
    if wedge_rad <= opening_rad:
        return 0.0
    return length_m * math.tan(wedge_rad - opening_rad)


@kernel
def room_m(
    diameter_m: float,
    notch_m: float,
    hinge_m: float,
    gap_m: float,
    device_m: float,
    bar_m: float,
) -> float:
    """Room left behind the hinge with the device at full travel and the bar beside its tip.

    Parameters
    ----------
    diameter_m, notch_m, hinge_m : float
        Diameter, notch depth and hinge thickness inside bark [m].
    gap_m : float
        Gap kept between bar and device [m].
    device_m : float
        Inserted length of the device at full travel [m].
    bar_m : float
        Depth of the guide bar [m].

    Returns
    -------
    float
        Room [m]; negative where it does not fit. OWN: geometry.
    """
    return diameter_m - notch_m - hinge_m - gap_m - device_m - bar_m
