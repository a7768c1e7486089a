"""What a device or a line does to hinge and bar: pull on the hinge, grip on a pinched bar."""

from fellwright.kernel import kernel

__all__ = [
    "bar_grip_n",
    "bar_pull_n",
    "freeing_push_n",
    "hinge_tension_pa",
    "net_hinge_pull_n",
    "push_limit_n",
]


@kernel
def net_hinge_pull_n(push_n: float, weight_n: float, line_down_n: float = 0.0) -> float:
    """Pull along the stem on the hinge.

    Parameters
    ----------
    push_n : float
        Push of the devices, upwards behind the hinge [N].
    weight_n : float
        Weight above the cut [N].
    line_down_n : float
        Downward part of a taut line [N], see ``pull_line.line_moments_n_m``.

    Returns
    -------
    float
        ``F - W - T_v`` [N]; negative where the hinge is pressed. OWN: balance of forces. The push
        passes the weight as soon as the balance point stands further behind the hinge than the
        device does.
    """
    return push_n - weight_n - line_down_n


@kernel
def hinge_tension_pa(net_pull_n: float, area_m2: float) -> float:
    """Mean tension of the hinge from a net pull.

    Parameters
    ----------
    net_pull_n : float
        Net pull [N].
    area_m2 : float
        Section of the hinge [m2].

    Returns
    -------
    float
        Tension [Pa], 0 where the hinge is pressed. To be kept to a quarter of the strength,
        12.5 MPa, [Gullberg-hinge].
    """
    return max(0.0, net_pull_n) / area_m2


@kernel
def push_limit_n(
    weight_n: float, area_m2: float, tension_pa: float, line_down_n: float = 0.0
) -> float:
    """Push at which the hinge reaches its limit of tension.

    Parameters
    ----------
    weight_n : float
        Weight above the cut [N].
    area_m2 : float
        Section of the hinge [m2].
    tension_pa : float
        Tension that is allowed [Pa].
    line_down_n : float
        Downward part of a taut line [N].

    Returns
    -------
    float
        ``W + T_v + sigma A`` [N]. OWN: inverse of :func:`hinge_tension_pa`.
    """
    return weight_n + line_down_n + tension_pa * area_m2


@kernel
def bar_grip_n(back_n_m: float, bar_lever_m: float) -> float:
    """Force with which a tree that has sat back grips the bar.

    Parameters
    ----------
    back_n_m : float
        Backward moment about the hinge [N.m], weight and wind.
    bar_lever_m : float
        Distance from the hinge axis to the middle of the bar [m].

    Returns
    -------
    float
        Force on either face of the bar [N], 0 where nothing leans back. OWN: an upper bound, the
        bent hinge carries a part of the moment.
    """
    return max(0.0, back_n_m) / bar_lever_m


@kernel
def bar_pull_n(grip_n: float, mu: float) -> float:
    """Pull that would draw a gripped bar out.

    Parameters
    ----------
    grip_n : float
        Grip [N].
    mu : float
        Friction of bar on wood.

    Returns
    -------
    float
        ``2 mu N`` [N], both faces. OWN. Two tonnes of grip ask for more than a person pulls: open
        the cut, never pull on the saw.
    """
    return 2.0 * mu * grip_n


@kernel
def freeing_push_n(back_n_m: float, lever_m: float) -> float:
    """Push at which a device opens the cut and frees the bar.

    Parameters
    ----------
    back_n_m : float
        Backward moment about the hinge [N.m], weight and wind.
    lever_m : float
        Lever of the device [m].

    Returns
    -------
    float
        Push at which the grip on the bar is gone [N]. An upper bound as long as the tree rests on a
        whole hinge, whose bent fibres help; a torn hinge helps with nothing and steers nothing.
        OWN: balance of moments.
    """
    return max(0.0, back_n_m) / lever_m
