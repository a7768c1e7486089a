"""The hydraulic ram: force from pressure, bearing of base and head, side slip, stroke."""

import math

from fellwright.kernel import kernel

__all__ = [
    "edge_loss_m",
    "gauge_pressure_pa",
    "ram_bearing_n",
    "ram_force_n",
    "ram_lift_m",
    "side_slip_n",
    "slips_sideways",
]


@kernel
def ram_force_n(pressure_pa: float, piston_m: float) -> float:
    """Force of a ram from the pressure of its pump.

    Parameters
    ----------
    pressure_pa : float
        Pressure [Pa].
    piston_m : float
        Diameter of the piston [m].

    Returns
    -------
    float
        ``p pi d^2/4`` [N]. OWN: pressure on an area; seals rub off a few hundredths, not counted.
    """
    return pressure_pa * math.pi * piston_m * piston_m / 4.0


@kernel
def gauge_pressure_pa(force_n: float, piston_m: float) -> float:
    """Pressure that the gauge shows at a force.

    Parameters
    ----------
    force_n : float
        Push [N].
    piston_m : float
        Diameter of the piston [m].

    Returns
    -------
    float
        Pressure [Pa]: the gauge reads the push. OWN: inverse of :func:`ram_force_n`.
    """
    return 4.0 * force_n / (math.pi * piston_m * piston_m)


@kernel
def ram_bearing_n(
    crushing_pa: float, base_m2: float, head_m2: float, contact_share: float
) -> float:
    """Force at which the wood under the base plate or over the head gives.

    Parameters
    ----------
    crushing_pa : float
        Crushing strength along the grain, green [Pa].
    base_m2, head_m2 : float
        Areas of base plate and head [m2].
    contact_share : float
        Share of the plate in contact, 0 to 1.

    Returns
    -------
    float
        Force of the smaller one [N]. Plates stand on sound wood inside the bark, [WAC-296-54]
        section 53940. OWN: clear-wood strength by area.
    """
    return crushing_pa * min(base_m2, head_m2) * contact_share


@kernel
def side_slip_n(force_n: float, opening_rad: float, mu: float) -> float:
    """Force along the opened face that friction does not hold.

    Parameters
    ----------
    force_n : float
        Push [N].
    opening_rad : float
        Opening of the cut [rad].
    mu : float
        Friction of head on wood.

    Returns
    -------
    float
        ``F (sin a - mu cos a)`` [N], 0 where friction holds. OWN: a straight ram stands square to
        the floor, the roof has turned by the opening.
    """
    return max(0.0, force_n * (math.sin(opening_rad) - mu * math.cos(opening_rad)))


@kernel
def slips_sideways(opening_rad: float, mu: float) -> bool:
    """Whether the head of a ram slides off the face that has turned.

    Parameters
    ----------
    opening_rad : float
        Opening of the cut [rad].
    mu : float
        Friction of head on wood.

    Returns
    -------
    bool
        True if the tangent of the opening passes the friction. A straight push knows no flying
        out by wedge angle, only this. OWN: free body.
    """
    return math.tan(opening_rad) > mu


@kernel
def edge_loss_m(plate_m: float, opening_rad: float) -> float:
    """Stroke lost where a stiff head bears on its edge and crushes itself flat.

    Parameters
    ----------
    plate_m : float
        Length of the head that has to come into contact [m].
    opening_rad : float
        Opening of the cut [rad].

    Returns
    -------
    float
        ``l tan(opening)`` [m]; a head that tilts loses nothing. OWN: geometry.
    """
    return plate_m * math.tan(opening_rad)


@kernel
def ram_lift_m(stroke_m: float, bedding_m: float, edge_m: float, sat_back_m: float) -> float:
    """Lift that is left of a ram's stroke.

    Parameters
    ----------
    stroke_m : float
        Stroke [m].
    bedding_m : float
        Bedding-in [m].
    edge_m : float
        Lost at the edge of the head [m], see :func:`edge_loss_m`.
    sat_back_m : float
        Kerf closed by a tree that sat back before the ram carried [m]; 0 where it was loaded first.

    Returns
    -------
    float
        Lift [m], 0 or more. OWN.
    """
    return max(0.0, stroke_m - bedding_m - edge_m - sat_back_m)
