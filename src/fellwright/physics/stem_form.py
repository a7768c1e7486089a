"""Stem form: diameter along the stem, volume, and the height of the stem's centroid."""

import math
from collections.abc import Sequence
from typing import NamedTuple

__all__ = [
    "KozakCoefficients",
    "WestfallScottCoefficients",
    "cone_frustum_volume_m3",
    "huber_volume_m3",
    "kozak_1988_diameter_cm",
    "neiloid_frustum_volume_m3",
    "newton_volume_m3",
    "ormerod_1973_centroid_m",
    "ormerod_1973_diameter_cm",
    "ormerod_1973_volume_m3",
    "ormerod_exponent",
    "sections_centroid_m",
    "sections_volume_m3",
    "smalian_volume_m3",
    "westfall_scott_2010_diameter_cm",
]

BREAST_HEIGHT_M = 1.3
US_BREAST_HEIGHT_M = 1.37


class KozakCoefficients(NamedTuple):
    """Coefficients b1 to b8 of the Kozak 1988 form, in the order printed."""

    b1: float
    b2: float
    b3: float
    b4: float
    b5: float
    b6: float
    b7: float
    b8: float


class WestfallScottCoefficients(NamedTuple):
    """Coefficients of Westfall and Scott 2010, in the order printed."""

    t1: float
    t2: float
    a1: float
    a2: float
    g1: float
    g2: float
    phi: float
    lam: float
    bt1: float
    bt2: float


def kozak_1988_diameter_cm(
    z_m: float, dbh_cm: float, height_m: float, b: KozakCoefficients
) -> float:
    """Stem diameter over bark at a height above the ground, Kozak 1988 form.

    Parameters
    ----------
    z_m : float
        Height above the ground [m], 0 < z <= height.
    dbh_cm : float
        Diameter at breast height over bark [cm].
    height_m : float
        Tree height [m].
    b : KozakCoefficients
        Fitted coefficients, centimetres.

    Returns
    -------
    float
        Diameter over bark [cm]; 0 at the tip.

    Notes
    -----
    ``d = b1 D^b2 b3^D X^(b4 Z^2 + b5 ln(Z + .001) + b6 sqrt Z + b7 e^Z + b8 D/H)`` with
    ``X = (1 - sqrt Z)/(1 - sqrt .2)``, ``Z = z/H``. Fitted on Nordic trees: do not use outside the
    sizes of the fit. Source: [Hansen-2023], version 0.2.0 of its published code. SEEN.
    """
    z = z_m / height_m
    root = math.sqrt(z)
    base = (1.0 - root) / (1.0 - math.sqrt(0.2))
    if base <= 0.0:
        return 0.0
    exponent = (
        b.b4 * z * z
        + b.b5 * math.log(z + 0.001)
        + b.b6 * root
        + b.b7 * math.exp(z)
        + b.b8 * dbh_cm / height_m
    )
    diameter: float = b.b1 * dbh_cm**b.b2 * b.b3**dbh_cm * base**exponent
    return diameter


def westfall_scott_2010_diameter_cm(
    z_m: float, dbh_cm: float, height_m: float, c: WestfallScottCoefficients
) -> float:
    """Stem diameter over bark at a height above the ground, Westfall and Scott 2010.

    Parameters
    ----------
    z_m : float
        Height above the ground [m], 0 < z <= height.
    dbh_cm : float
        Diameter at breast height over bark [cm].
    height_m : float
        Tree height [m].
    c : WestfallScottCoefficients
        Fitted coefficients.

    Returns
    -------
    float
        Diameter over bark [cm]; 0 at the tip.

    Notes
    -----
    ``d^2 = D^2 (1.37/H/g1)^phi ((1-Z)/(1-g1))^(a1+S1) ((1-Z)/(1-g2))^(a2 S2)`` with
    ``S1 = t1/(1+(Z/t2)^lam)``, ``S2 = q/(1+q)``, ``q = (Z/bt1)^(bt2 D/H)``.
    Source: [Westfall-Scott-2010], coefficients from published code. SEEN.
    """
    z = z_m / height_m
    if z >= 1.0:
        return 0.0
    s1 = c.t1 / (1.0 + (z / c.t2) ** c.lam)
    q = (z / c.bt1) ** (c.bt2 * dbh_cm / height_m)
    s2 = q / (1.0 + q)
    square: float = (
        dbh_cm**2
        * (US_BREAST_HEIGHT_M / height_m / c.g1) ** c.phi
        * ((1.0 - z) / (1.0 - c.g1)) ** (c.a1 + s1)
        * ((1.0 - z) / (1.0 - c.g2)) ** (c.a2 * s2)
    )
    return math.sqrt(square)


def ormerod_1973_diameter_cm(z_m: float, dbh_cm: float, height_m: float, p: float) -> float:
    """Stem diameter from one form exponent, Ormerod 1973.

    Parameters
    ----------
    z_m : float
        Height above the ground [m].
    dbh_cm : float
        Diameter at breast height [cm].
    height_m : float
        Tree height [m], more than 1.3.
    p : float
        Form exponent; 0.5 paraboloid, 1 cone, 1.5 neiloid.

    Returns
    -------
    float
        Diameter [cm].

    Notes
    -----
    ``d = D ((H - z)/(H - 1.3))^p``. Source: [Ormerod-1973]. SEEN in published code.
    """
    share = max(0.0, (height_m - z_m) / (height_m - BREAST_HEIGHT_M))
    diameter: float = dbh_cm * share**p
    return diameter


def ormerod_1973_volume_m3(dbh_cm: float, height_m: float, p: float, cut_m: float = 0.0) -> float:
    """Stem volume above a cut from one form exponent.

    Parameters
    ----------
    dbh_cm : float
        Diameter at breast height [cm].
    height_m : float
        Tree height [m].
    p : float
        Form exponent.
    cut_m : float
        Height of the cut above the ground [m].

    Returns
    -------
    float
        Volume between cut and tip [m3].

    Notes
    -----
    Integral of [Ormerod-1973]: ``V = pi/4 D^2 (H-s)^(2p+1)/((2p+1)(H-1.3)^(2p))``. OWN.
    """
    volume: float = (
        math.pi
        / 4.0
        * (dbh_cm / 100.0) ** 2
        * (height_m - cut_m) ** (2.0 * p + 1.0)
        / ((2.0 * p + 1.0) * (height_m - BREAST_HEIGHT_M) ** (2.0 * p))
    )
    return volume


def ormerod_1973_centroid_m(height_m: float, p: float, cut_m: float = 0.0) -> float:
    """Height above the ground of the centroid of the stem above a cut.

    Parameters
    ----------
    height_m : float
        Tree height [m].
    p : float
        Form exponent.
    cut_m : float
        Height of the cut above the ground [m].

    Returns
    -------
    float
        Height of the centroid above the ground [m].

    Notes
    -----
    ``s + (H - s)/(2p + 2)``: the centroid of [Ormerod-1973]. OWN.
    """
    return cut_m + (height_m - cut_m) / (2.0 * p + 2.0)


def ormerod_exponent(form_factor: float, height_m: float) -> float:
    """Form exponent that gives a stem its form factor.

    Parameters
    ----------
    form_factor : float
        Stem volume over ``pi/4 D^2 H``, 0.25 to 0.75.
    height_m : float
        Tree height [m], more than 1.3.

    Returns
    -------
    float
        Exponent p of [Ormerod-1973], 0.1 to 2, with the same total volume, by bisection. A short
        tree cannot be as slim as a small form factor says; it is then held at the slimmest stem it
        can have, which is on the heavy side. OWN.

    Raises
    ------
    ValueError
        If the form factor is above that of the fullest stem.
    """
    ratio = height_m / (height_m - BREAST_HEIGHT_M)

    def excess(p: float) -> float:
        form: float = ratio ** (2.0 * p) / (2.0 * p + 1.0)
        return form - form_factor

    # The form factor falls with p until 2p + 1 = 1/ln(ratio), then rises again.
    low, high = 0.1, min(2.0, max(0.1, 0.5 / math.log(ratio) - 0.5))
    if excess(low) < 0.0:
        raise ValueError(f"form_factor must be reachable at {height_m} m, got {form_factor}")
    if excess(high) > 0.0:
        return high
    for _ in range(60):
        middle = 0.5 * (low + high)
        if excess(middle) > 0.0:
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)


def sections_volume_m3(diameters_m: Sequence[float], spacing_m: float) -> float:
    """Volume of a stem from diameters at equal spacing (Simpson's rule on areas).

    Parameters
    ----------
    diameters_m : sequence of float, shape (odd n,)
        Diameters [m] from the lower end to the upper.
    spacing_m : float
        Distance between them [m].

    Returns
    -------
    float
        Volume [m3].

    Raises
    ------
    ValueError
        If the number of diameters is even or below three.

    Notes
    -----
    Newton's rule ([Husch-2003]) chained over pairs of sections. MEMORY for the name.
    """
    return math.pi / 4.0 * _simpson([d * d for d in diameters_m], spacing_m)


def sections_centroid_m(diameters_m: Sequence[float], spacing_m: float) -> float:
    """Distance of a stem's centroid from its lower end, from diameters at equal spacing.

    Parameters
    ----------
    diameters_m : sequence of float, shape (odd n,)
        Diameters [m] from the lower end to the upper.
    spacing_m : float
        Distance between them [m].

    Returns
    -------
    float
        Distance from the lower end [m]; first moment over volume. OWN.
    """
    squares = [d * d for d in diameters_m]
    moments = [q * i * spacing_m for i, q in enumerate(squares)]
    return _simpson(moments, spacing_m) / _simpson(squares, spacing_m)


def _simpson(values: Sequence[float], spacing: float) -> float:
    if len(values) < 3 or len(values) % 2 == 0:
        raise ValueError(f"values must be an odd number of at least 3, got {len(values)}")
    odd = sum(values[1:-1:2])
    even = sum(values[2:-1:2])
    return spacing / 3.0 * (values[0] + 4.0 * odd + 2.0 * even + values[-1])


def _area_m2(diameter_m: float) -> float:
    return math.pi / 4.0 * diameter_m * diameter_m


def smalian_volume_m3(large_m: float, small_m: float, length_m: float) -> float:
    """Log volume from the areas of both ends, Smalian.

    Parameters
    ----------
    large_m, small_m : float
        End diameters [m].
    length_m : float
        Length [m].

    Returns
    -------
    float
        Volume [m3]. Source: [Husch-2003]; worked examples SEEN.
    """
    return 0.5 * (_area_m2(large_m) + _area_m2(small_m)) * length_m


def huber_volume_m3(middle_m: float, length_m: float) -> float:
    """Log volume from the diameter at mid-length, Huber.

    Parameters
    ----------
    middle_m : float
        Diameter at mid-length [m].
    length_m : float
        Length [m].

    Returns
    -------
    float
        Volume [m3]. Source: [Husch-2003]. MEMORY for the wording.
    """
    return _area_m2(middle_m) * length_m


def newton_volume_m3(large_m: float, middle_m: float, small_m: float, length_m: float) -> float:
    """Log volume from three sections, Newton.

    Parameters
    ----------
    large_m, middle_m, small_m : float
        Diameters at the large end, mid-length and small end [m].
    length_m : float
        Length [m].

    Returns
    -------
    float
        Volume [m3]. Source: [Husch-2003]. MEMORY for the wording.
    """
    return (_area_m2(large_m) + 4.0 * _area_m2(middle_m) + _area_m2(small_m)) / 6.0 * length_m


def cone_frustum_volume_m3(large_m: float, small_m: float, length_m: float) -> float:
    """Volume of a frustum of a cone.

    Parameters
    ----------
    large_m, small_m : float
        End diameters [m].
    length_m : float
        Length [m].

    Returns
    -------
    float
        Volume [m3]. Source: [Husch-2003]; worked examples SEEN.
    """
    a, b = _area_m2(large_m), _area_m2(small_m)
    return length_m / 3.0 * (a + math.sqrt(a * b) + b)


def neiloid_frustum_volume_m3(large_m: float, small_m: float, length_m: float) -> float:
    """Volume of a frustum of a neiloid.

    Parameters
    ----------
    large_m, small_m : float
        End diameters [m].
    length_m : float
        Length [m].

    Returns
    -------
    float
        Volume [m3]. Source: [Husch-2003]; worked examples SEEN.
    """
    a, b = _area_m2(large_m), _area_m2(small_m)
    volume: float = (
        length_m / 4.0 * (a + (a * a * b) ** (1.0 / 3.0) + (a * b * b) ** (1.0 / 3.0) + b)
    )
    return volume
