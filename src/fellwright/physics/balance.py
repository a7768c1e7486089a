"""Balance about the hinge: where the axis is, how far the balance point stands behind it."""

import math

from fellwright.kernel import kernel

__all__ = ["balance_rotation_rad", "lever_m", "lift_m", "rotation_of_lift_rad", "set_back_m"]


@kernel
def set_back_m(
    diameter_m: float, notch_m: float, thickness_m: float, back_offset_m: float
) -> float:
    """Distance of the balance point behind the hinge axis along the lay.

    Parameters
    ----------
    diameter_m : float
        Diameter inside bark [m].
    notch_m : float
        Notch depth inside bark [m].
    thickness_m : float
        Hinge thickness [m].
    back_offset_m : float
        Back offset of the balance point from the pith [m], positive behind.

    Returns
    -------
    float
        ``D/2 - n - t/2 + back`` [m]. The axis lies on the centre line of the hinge: a straight tree
        too starts with its balance point behind it. OWN.
    """
    return 0.5 * diameter_m - notch_m - 0.5 * thickness_m + back_offset_m


@kernel
def lever_m(diameter_m: float, notch_m: float, thickness_m: float, rim_m: float) -> float:
    """Lever arm of a wedge about the hinge axis.

    Parameters
    ----------
    diameter_m : float
        Diameter inside bark [m].
    notch_m, thickness_m : float
        Notch depth inside bark and hinge thickness [m].
    rim_m : float
        Distance of the middle of the contact from the back rim [m].

    Returns
    -------
    float
        ``D - n - t/2 - rim`` [m]. OWN.
    """
    return diameter_m - notch_m - 0.5 * thickness_m - rim_m


@kernel
def balance_rotation_rad(set_back: float, height_m: float) -> float:
    """Rotation at which the balance point passes over the hinge axis.

    Parameters
    ----------
    set_back : float
        Distance behind the axis [m]; negative when it already stands in front.
    height_m : float
        Height of the balance point above the hinge [m].

    Returns
    -------
    float
        ``atan(x/h)`` [rad], negative in front. OWN: geometry.
    """
    return math.atan2(set_back, height_m)


@kernel
def lift_m(lever: float, rotation_rad: float) -> float:
    """Opening of the kerf at the wedge for a rotation.

    Parameters
    ----------
    lever : float
        Lever arm of the wedge [m].
    rotation_rad : float
        Rotation [rad]; 0 or less opens nothing.

    Returns
    -------
    float
        Chord ``2 a sin(rotation/2)`` [m]. OWN: geometry.
    """
    if rotation_rad <= 0.0:
        return 0.0
    return 2.0 * lever * math.sin(0.5 * rotation_rad)


def rotation_of_lift_rad(lever: float, lift: float) -> float:
    """Rotation that a lift at the wedge gives.

    Parameters
    ----------
    lever : float
        Lever arm [m].
    lift : float
        Lift [m], 0 to twice the lever.

    Returns
    -------
    float
        Rotation [rad]. OWN: inverse of :func:`lift_m`.
    """
    return 2.0 * math.asin(lift / (2.0 * lever))
