"""The hinge: its section, and the moment with which it resists as the tree turns.

Elastic until the front fibres yield in compression, then elastic-plastic until the back fibres
break, then falling with the square of the rotation, never below a residual share of the peak until
the notch closes.
"""

import math
from typing import NamedTuple

from fellwright.kernel import kernel

__all__ = [
    "HingeLaw",
    "HingeSection",
    "bending_compression_pa",
    "break_rotation_rad",
    "fibre_length_m",
    "hinge_area_m2",
    "hinge_law",
    "hinge_moment_n_m",
    "hinge_section",
    "hinge_work_j",
    "peak_moment_n_m",
    "strength_ratio",
    "tapered_hinge_section",
    "yield_rotation_rad",
]

LARGEST_STRENGTH_RATIO = 4.0


class HingeSection(NamedTuple):
    """A hinge seen from above, x along the lay from the stump's centre, y to the left of it.

    Area [m2], centroid [m], second moments about the centroid [m4]: weak for felling, strong for
    side lean, mixed; turn of the weak axis [rad], anticlockwise seen from above.
    """

    area_m2: float
    centroid_x_m: float
    centroid_y_m: float
    weak_m4: float
    strong_m4: float
    mixed_m4: float
    turn_rad: float


class HingeLaw(NamedTuple):
    """Moment against rotation: plastic scale ``f c t^2`` [N.m], rotations [rad], residual share."""

    scale_n_m: float
    yield_rad: float
    break_rad: float
    peak_n_m: float
    residual_ratio: float


@kernel
def _half_area(radius: float, x: float) -> float:
    """Area under ``sqrt(R^2 - x^2)`` from 0 to x, x held within the disc."""
    if radius <= 0.0:
        return 0.0
    held = min(max(x, -radius), radius)
    root = math.sqrt(max(0.0, radius * radius - held * held))
    return 0.5 * (held * root + radius * radius * math.asin(held / radius))


@kernel
def hinge_area_m2(diameter_m: float, cavity_m: float, notch_m: float, thickness_m: float) -> float:
    """Area of a straight hinge on a round or concentrically hollow stump.

    Parameters
    ----------
    diameter_m : float
        Diameter inside bark [m].
    cavity_m : float
        Diameter of the cavity [m], 0 for a sound stem.
    notch_m : float
        Notch depth inside bark [m].
    thickness_m : float
        Hinge thickness [m].

    Returns
    -------
    float
        Area [m2], closed form. OWN: integral of the chord.
    """
    front = 0.5 * diameter_m - notch_m
    back = front - thickness_m
    radius = 0.5 * diameter_m
    hole = 0.5 * cavity_m
    return 2.0 * (
        _half_area(radius, front)
        - _half_area(radius, back)
        - _half_area(hole, front)
        + _half_area(hole, back)
    )


def _strip_integrals(radius: float, back: float, front: float) -> tuple[float, float, float, float]:
    """Area, first and second moments along x, and second moment across, of a strip of a disc."""
    low = min(max(back, -radius), radius)
    high = min(max(front, -radius), radius)

    def at(x: float) -> tuple[float, float, float, float]:
        root = math.sqrt(max(0.0, radius * radius - x * x))
        half = _half_area(radius, x)
        first = -(root**3) / 3.0
        second = -x * root**3 / 4.0 + radius * radius / 4.0 * half
        across = x * root**3 / 4.0 + 0.75 * radius * radius * half
        return 2.0 * half, 2.0 * first, 2.0 * second, 2.0 / 3.0 * across

    upper, lower = at(high), at(low)
    return (
        upper[0] - lower[0],
        upper[1] - lower[1],
        upper[2] - lower[2],
        upper[3] - lower[3],
    )


def hinge_section(
    diameter_m: float, cavity_m: float, notch_m: float, thickness_m: float
) -> HingeSection:
    """Section properties of a straight hinge, closed form.

    Parameters
    ----------
    diameter_m, cavity_m : float
        Diameter inside bark and diameter of a concentric cavity [m].
    notch_m, thickness_m : float
        Notch depth and hinge thickness [m].

    Returns
    -------
    HingeSection
        Mixed moment and turn are 0 by symmetry. OWN: integrals over the disc.
    """
    front = 0.5 * diameter_m - notch_m
    back = front - thickness_m
    outer = _strip_integrals(0.5 * diameter_m, back, front)
    inner = (0.0, 0.0, 0.0, 0.0)
    if cavity_m > 0.0:
        inner = _strip_integrals(0.5 * cavity_m, back, front)
    area, first, second, across = (a - b for a, b in zip(outer, inner, strict=True))
    x = first / area
    return HingeSection(area, x, 0.0, second - area * x * x, across, 0.0, 0.0)


def tapered_hinge_section(
    diameter_m: float,
    cavity_m: float,
    notch_m: float,
    left_m: float,
    right_m: float,
    strips: int = 2000,
) -> HingeSection:
    """Section properties of a hinge that is thicker on one side.

    Parameters
    ----------
    diameter_m, cavity_m : float
        Diameter inside bark and diameter of a concentric cavity [m].
    notch_m : float
        Notch depth [m].
    left_m, right_m : float
        Thickness at the left and right end of the notch chord [m].
    strips : int
        Strips across the hinge.

    Returns
    -------
    HingeSection
        By strips across the lay. A positive turn points the weak axis so that the tree is led
        towards its left. OWN.

    Notes
    -----
    The weak axis turns by about half the angle of the taper, towards the thick side.
    """
    radius, hole = 0.5 * diameter_m, 0.5 * cavity_m
    front = radius - notch_m
    half_chord = math.sqrt(max(0.0, radius * radius - front * front))
    area = first_x = first_y = second_x = second_y = mixed = 0.0
    width = 2.0 * radius / strips
    for index in range(strips):
        y = -radius + (index + 0.5) * width
        rim = math.sqrt(radius * radius - y * y)
        thickness = 0.5 * (left_m + right_m) + 0.5 * (left_m - right_m) * y / half_chord
        low, high = max(front - thickness, -rim), min(front, rim)
        gap = math.sqrt(hole * hole - y * y) if abs(y) < hole else 0.0
        for a, b in ((low, min(high, -gap)), (max(low, gap), high)):
            if b <= a:
                continue
            area += width * (b - a)
            first_x += width * (b * b - a * a) / 2.0
            first_y += width * (b - a) * y
            second_x += width * (b**3 - a**3) / 3.0
            second_y += width * (b - a) * (y * y + width * width / 12.0)
            mixed += width * (b * b - a * a) / 2.0 * y
    x, y = first_x / area, first_y / area
    weak = second_x - area * x * x
    strong = second_y - area * y * y
    product = mixed - area * x * y
    turn = -0.5 * math.atan2(2.0 * product, strong - weak)
    return HingeSection(area, x, y, weak, strong, product, turn)


@kernel
def strength_ratio(bending_pa: float, crushing_pa: float) -> float:
    """Tension strength over compression strength, inverted from bending and crushing strength.

    Parameters
    ----------
    bending_pa : float
        Modulus of rupture, green [Pa].
    crushing_pa : float
        Crushing strength along the grain, green [Pa].

    Returns
    -------
    float
        ``r = (1 + q)/(3 - q)`` with ``q = MOR/f_c``, held between 1 and 4: the inversion explodes
        near q = 3, and green tables give 2.5 to 4.5. OWN.
    """
    q = bending_pa / crushing_pa
    if q >= 2.2:
        return LARGEST_STRENGTH_RATIO
    return min(LARGEST_STRENGTH_RATIO, max(1.0, (1.0 + q) / (3.0 - q)))


@kernel
def bending_compression_pa(bending_pa: float, ratio: float) -> float:
    """Compression strength that agrees with the modulus of rupture at a strength ratio.

    Parameters
    ----------
    bending_pa : float
        Modulus of rupture [Pa].
    ratio : float
        Tension over compression strength.

    Returns
    -------
    float
        ``MOR (r + 1)/(3r - 1)`` [Pa]. OWN: fully plastic compression, brittle tension.
    """
    return bending_pa * (ratio + 1.0) / (3.0 * ratio - 1.0)


@kernel
def peak_moment_n_m(bending_pa: float, width_m: float, thickness_m: float) -> float:
    """Largest moment with which a hinge resists turning.

    Parameters
    ----------
    bending_pa : float
        Modulus of rupture [Pa].
    width_m : float
        Mean width: area over thickness [m].
    thickness_m : float
        Thickness [m].

    Returns
    -------
    float
        ``MOR c t^2/6`` [N.m]. Definition of the modulus of rupture: [FPL-GTR-282] ch. 5.
    """
    return bending_pa * width_m * thickness_m * thickness_m / 6.0


@kernel
def fibre_length_m(step_m: float, thickness_m: float, k: float) -> float:
    """Free length over which the hinge fibres bend.

    Parameters
    ----------
    step_m : float
        Height of the back cut over the notch floor [m].
    thickness_m : float
        Hinge thickness [m].
    k : float
        1 to 3, drawn: never fitted to a test.

    Returns
    -------
    float
        ``step + k t`` [m]. OWN.
    """
    return step_m + k * thickness_m


@kernel
def yield_rotation_rad(
    compression_pa: float, modulus_pa: float, fibre_m: float, thickness_m: float
) -> float:
    """Rotation at which the front of the hinge yields in compression.

    Parameters
    ----------
    compression_pa : float
        Compression strength in bending [Pa].
    modulus_pa : float
        Modulus of elasticity [Pa].
    fibre_m : float
        Free fibre length [m].
    thickness_m : float
        Hinge thickness [m].

    Returns
    -------
    float
        ``2 f L/(E t)`` [rad]. OWN: elastic bending.
    """
    return 2.0 * compression_pa * fibre_m / (modulus_pa * thickness_m)


@kernel
def break_rotation_rad(yield_rad: float, ratio: float) -> float:
    """Rotation at which the back fibres break.

    Parameters
    ----------
    yield_rad : float
        Rotation at first yield [rad].
    ratio : float
        Tension over compression strength.

    Returns
    -------
    float
        ``yield (1 + r)^2/4`` [rad]. OWN: derivation in docs/derivations/hinge.md.
    """
    return yield_rad * (1.0 + ratio) * (1.0 + ratio) / 4.0


@kernel
def hinge_law(peak_n_m: float, yield_rad: float, ratio: float, residual_ratio: float) -> HingeLaw:
    """Moment-rotation law of one hinge.

    Parameters
    ----------
    peak_n_m : float
        Peak moment [N.m].
    yield_rad : float
        Rotation at first yield [rad].
    ratio : float
        Tension over compression strength.
    residual_ratio : float
        Share of the peak that broken fibres keep until the notch closes, above 0 up to 1.

    Returns
    -------
    HingeLaw
        OWN: derivation in docs/derivations/hinge.md.
    """
    scale = peak_n_m * 6.0 * (ratio + 1.0) / (3.0 * ratio - 1.0)
    return HingeLaw(
        scale, yield_rad, break_rotation_rad(yield_rad, ratio), peak_n_m, residual_ratio
    )


@kernel
def hinge_moment_n_m(rotation_rad: float, law: HingeLaw) -> float:
    """Moment of the hinge against further turning.

    Parameters
    ----------
    rotation_rad : float
        Rotation since the hinge began to bend [rad], 0 or more.
    law : HingeLaw
        Its law.

    Returns
    -------
    float
        Moment [N.m]: ``S x/(6 y)``, then ``S (1/2 - sqrt(y/x)/3)``, then ``peak (b/x)^2`` not below
        ``residual x peak``. OWN: derivation in docs/derivations/hinge.md.
    """
    if rotation_rad <= law.yield_rad:
        return law.scale_n_m * rotation_rad / (6.0 * law.yield_rad)
    if rotation_rad <= law.break_rad:
        return law.scale_n_m * (0.5 - math.sqrt(law.yield_rad / rotation_rad) / 3.0)
    share = law.break_rad / rotation_rad
    return law.peak_n_m * max(share * share, law.residual_ratio)


@kernel
def hinge_work_j(rotation_rad: float, law: HingeLaw) -> float:
    """Work that the hinge has taken up to a rotation.

    Parameters
    ----------
    rotation_rad : float
        Rotation [rad], 0 or more.
    law : HingeLaw
        Its law.

    Returns
    -------
    float
        Integral of the moment [J], closed form piece by piece. OWN.
    """
    y, b = law.yield_rad, law.break_rad
    if rotation_rad <= y:
        return law.scale_n_m * rotation_rad * rotation_rad / (12.0 * y)
    work = law.scale_n_m * y / 12.0
    top = min(rotation_rad, b)
    work += law.scale_n_m * (
        0.5 * (top - y) - 2.0 / 3.0 * math.sqrt(y) * (math.sqrt(top) - math.sqrt(y))
    )
    if rotation_rad <= b:
        return work
    floor_rad = b / math.sqrt(law.residual_ratio)
    top = min(rotation_rad, floor_rad)
    work += law.peak_n_m * b * b * (1.0 / b - 1.0 / top)
    if rotation_rad > floor_rad:
        work += law.peak_n_m * law.residual_ratio * (rotation_rad - floor_rad)
    return work
