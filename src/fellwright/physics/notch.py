"""The notch: chords of the round stump and the opening at which the notch closes."""

import math

from fellwright.kernel import kernel

__all__ = ["chord_m", "notch_height_m", "notch_share_from_chord"]


@kernel
def chord_m(diameter_m: float, depth_m: float) -> float:
    """Width of a round section at a depth from its front.

    Parameters
    ----------
    diameter_m : float
        Diameter [m].
    depth_m : float
        Distance from the front along the lay [m].

    Returns
    -------
    float
        ``2 sqrt(d (D - d))`` [m]; 0 outside the section. OWN: circle.
    """
    square = depth_m * (diameter_m - depth_m)
    if square <= 0.0:
        return 0.0
    return 2.0 * math.sqrt(square)


def notch_height_m(depth_m: float, opening_rad: float) -> float:
    """Height of the notch at the bark for a level floor.

    Parameters
    ----------
    depth_m : float
        Notch depth [m].
    opening_rad : float
        Notch opening [rad].

    Returns
    -------
    float
        Height [m]: ``n tan(opening)``. OWN: triangle.
    """
    return depth_m * math.tan(opening_rad)


def notch_share_from_chord(chord_share: float) -> float:
    """Depth of the notch at which its chord reaches a share of the diameter.

    Parameters
    ----------
    chord_share : float
        Chord over diameter, 0 to 1.

    Returns
    -------
    float
        Depth over diameter, 0 to 0.5: 0.8 gives 0.20. OWN: circle; the 80 % test itself is
        [OSHA-eTool].
    """
    return 0.5 * (1.0 - math.sqrt(1.0 - chord_share * chord_share))
