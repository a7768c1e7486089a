"""Lift in two stages: lift, follow with a wedge that holds, set the device anew, lift again."""

from fellwright.kernel import kernel
from fellwright.physics.wedge_face import holds_at_rest

__all__ = ["first_stage_m", "follow_up_holds", "two_stage_lift_m"]


@kernel
def two_stage_lift_m(first_m: float, second_m: float, bedding_m: float, unfilled_m: float) -> float:
    """Lift of two stages.

    Parameters
    ----------
    first_m : float
        Lift held by the wedge when the device is taken out [m].
    second_m : float
        Lift of the device that is set next, from closed [m].
    bedding_m : float
        Bedding-in of the second setting [m].
    unfilled_m : float
        Part of the open cut that neither packing nor the closed device fills [m]: the second
        setting lifts nothing until it is closed.

    Returns
    -------
    float
        ``s1 + max(0, s2 - bedding - unfilled)`` [m]. OWN: geometry.
    """
    return first_m + max(0.0, second_m - bedding_m - unfilled_m)


@kernel
def first_stage_m(
    first_m: float, wedge_m: float, kerf_m: float, balance_m: float, share: float
) -> float:
    """Lift at which the first stage has to stop.

    Parameters
    ----------
    first_m : float
        Usable lift of the device [m].
    wedge_m : float
        Thickness of the wedge that follows [m].
    kerf_m : float
        Kerf that it fills as well [m].
    balance_m : float
        Least lift at which the tree may balance [m].
    share : float
        Share of it up to which anybody may be at the stump, 0 to 1.

    Returns
    -------
    float
        The least of what the device lifts, what the wedge can fill and that share of the balance
        lift [m], 0 or more. OWN: nobody changes a device under a tree that may go.
    """
    return max(0.0, min(first_m, wedge_m - kerf_m, share * balance_m))


@kernel
def follow_up_holds(push_n: float, hold_n: float, angle_rad: float, mu: float) -> bool:
    """Whether the wedge that follows carries the tree alone while the device is set anew.

    Parameters
    ----------
    push_n : float
        Push that the tree asks for [N].
    hold_n : float
        Least of the wedge's rating and the bearing of the wood under it [N].
    angle_rad : float
        Angle between its faces [rad].
    mu : float
        Friction on its faces.

    Returns
    -------
    bool
        True if it is strong enough and friction holds it. OWN: free body.
    """
    return push_n <= hold_n and holds_at_rest(angle_rad, mu)
