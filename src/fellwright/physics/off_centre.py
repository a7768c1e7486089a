"""Devices off the centre line, two side by side, hand wedges on top of each other."""

import math

from fellwright.kernel import kernel
from fellwright.physics.wedge_face import holds_at_rest, thrust_n

__all__ = [
    "chord_room_m",
    "eased_side_use_ratio",
    "off_centre_lever_m",
    "side_by_side_lift_m",
    "side_by_side_push_n",
    "side_moment_n_m",
    "stack_holds",
    "stack_lift_m",
    "stack_thrust_n",
]


@kernel
def side_moment_n_m(push_n: float, offset_m: float) -> float:
    """Side moment of a device that stands off the centre line.

    Parameters
    ----------
    push_n : float
        Push [N].
    offset_m : float
        Offset to the right of the lay [m].

    Returns
    -------
    float
        Moment that tips the tree to the left [N.m]; negative for a device on the left. OWN:
        statics.
    """
    return push_n * offset_m


@kernel
def eased_side_use_ratio(side_use: float, side_n_m: float, push_n: float, offset_m: float) -> float:
    """Side use while a device off the centre line carries.

    Parameters
    ----------
    side_use : float
        Side use without it.
    side_n_m : float
        Side moment of weight and wind [N.m], above 0 towards the side that the tree leans to.
    push_n : float
        Push of the device [N].
    offset_m : float
        Offset towards the side that the tree leans to [m]; negative on the other side.

    Returns
    -------
    float
        ``use |M - F y|/M``: it eases the hinge only while it carries, at let-go it carries nothing.
        Without side moment nothing is eased, and 0 side use stays 0. OWN: the use is linear in the
        moment.
    """
    if side_n_m <= 0.0:
        return side_use
    return side_use * abs(side_n_m - side_moment_n_m(push_n, offset_m)) / side_n_m


@kernel
def off_centre_lever_m(lever_m: float, wood_m: float, offset_m: float) -> float:
    """Lever of a device off the centre line, as far from the rim as on it.

    Parameters
    ----------
    lever_m : float
        Lever on the centre line [m].
    wood_m : float
        Diameter inside bark [m].
    offset_m : float
        Offset to either side [m], at most the radius.

    Returns
    -------
    float
        Lever less the sagitta of the rim [m]. OWN: geometry.
    """
    radius = 0.5 * wood_m
    aside = min(abs(offset_m), radius)
    return lever_m - (radius - math.sqrt(radius * radius - aside * aside))


@kernel
def side_by_side_push_n(first_n: float, second_n: float, share: float = 0.7) -> float:
    """Push of two devices side by side.

    Parameters
    ----------
    first_n, second_n : float
        Push that each gives alone [N].
    share : float
        Share of the sum that is counted: one always carries more than the other. OWN.

    Returns
    -------
    float
        Push [N]. OWN.
    """
    return share * (first_n + second_n)


@kernel
def side_by_side_lift_m(first_m: float, second_m: float) -> float:
    """Lift of two devices side by side.

    Parameters
    ----------
    first_m, second_m : float
        Usable lift of each [m].

    Returns
    -------
    float
        The lesser [m]: the tree stands on both. OWN.
    """
    return min(first_m, second_m)


@kernel
def chord_room_m(
    wood_m: float, seat_m: float, first_m: float, second_m: float, gap_m: float
) -> float:
    """Room across the stump for two devices side by side.

    Parameters
    ----------
    wood_m : float
        Diameter inside bark [m].
    seat_m : float
        Distance in from the rim at which both must stand on wood [m].
    first_m, second_m : float
        Widths [m].
    gap_m : float
        Gap between them [m].

    Returns
    -------
    float
        Chord there less what they take [m]; negative where they do not fit. OWN: geometry.
    """
    seat = min(seat_m, 0.5 * wood_m)
    return 2.0 * math.sqrt(seat * (wood_m - seat)) - first_m - second_m - gap_m


@kernel
def stack_lift_m(first_m: float, second_m: float, kerf_m: float) -> float:
    """Lift of two hand wedges on top of each other, driven home.

    Parameters
    ----------
    first_m, second_m : float
        Thickness of each [m].
    kerf_m : float
        Kerf that they fill before they lift [m].

    Returns
    -------
    float
        Sum of both less the kerf [m], 0 or more. OWN: geometry.
    """
    return max(0.0, first_m + second_m - kerf_m)


@kernel
def stack_thrust_n(lift_n: float, angle_rad: float, mu_wood: float, mu_inner: float) -> float:
    """Force along the upper wedge of a stack that drives it in between wood and lower wedge.

    Parameters
    ----------
    lift_n : float
        Load across the stack [N].
    angle_rad : float
        Angle of the wedge that is driven [rad]; its lower face lies on the other wedge.
    mu_wood : float
        Friction of wedge on wood.
    mu_inner : float
        Friction of wedge on wedge.

    Returns
    -------
    float
        Force [N]: one face slides on wood, one on the other wedge. OWN: free body.
    """
    half = 0.5 * angle_rad
    return thrust_n(lift_n, half, half, mu_wood, mu_inner)


@kernel
def stack_holds(first_rad: float, second_rad: float, mu_wood: float, mu_inner: float) -> bool:
    """Whether friction holds a stack of two wedges that is left alone.

    Parameters
    ----------
    first_rad, second_rad : float
        Angles of the two wedges, both pointing the same way [rad].
    mu_wood : float
        Friction of wedge on wood.
    mu_inner : float
        Friction of wedge on wedge.

    Returns
    -------
    bool
        True if the stack as a whole does not fly out of the cut and neither wedge flies out of the
        stack. OWN: free body.
    """
    inner = math.atan(mu_wood) + math.atan(mu_inner)
    return (
        holds_at_rest(first_rad + second_rad, mu_wood)
        and first_rad <= inner
        and second_rad <= inner
    )
