"""Frost: green wood gets stronger as it cools, so a frozen hinge resists more."""

__all__ = ["bending_strength_ratio"]

REFERENCE_DEGF = 46.0
LOWEST_DEGF = -20.0


def bending_strength_ratio(temperature_degc: float) -> float:
    """Bending strength of cold green wood over its strength at room temperature.

    Parameters
    ----------
    temperature_degc : float
        Temperature of the wood [deg C].

    Returns
    -------
    float
        1 above 7.8 deg C, else ``1 + (34.13 - 0.937 T + 0.0043 T^2)/100`` with T in deg F, held
        below -20 deg F. Source: [FPL-GTR-282] Table 5-16, select structural. SEEN. It raises what
        the tree asks for; the strength that steers is never credited with it.
    """
    fahrenheit = temperature_degc * 9.0 / 5.0 + 32.0
    if fahrenheit >= REFERENCE_DEGF:
        return 1.0
    held = max(fahrenheit, LOWEST_DEGF)
    return max(1.0, 1.0 + (34.13 - 0.937 * held + 0.0043 * held * held) / 100.0)
