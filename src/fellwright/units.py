"""The one file that holds unit factors.

Readings are kept in the unit in which they were read; results are SI. Imperial factors are exact
by definition (international yard and pound, 1959; standard gravity, CGPM 1901).
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import NamedTuple

MM_PER_M = 1000.0
CM_PER_M = 100.0
MM_PER_CM = 10.0
N_PER_KN = 1000.0
PA_PER_MPA = 1.0e6
KG_PER_T = 1000.0
J_PER_WH = 3600.0
M_PER_IN = 0.0254
CM_PER_IN = 2.54
MM_PER_IN = 25.4
M_PER_FT = 0.3048
M_PER_S_PER_MPH = 0.44704
KG_PER_LB = 0.45359237
STANDARD_GRAVITY_M_PER_S2 = 9.80665
N_PER_KGF = STANDARD_GRAVITY_M_PER_S2
N_PER_TF = KG_PER_T * STANDARD_GRAVITY_M_PER_S2
N_PER_LBF = KG_PER_LB * STANDARD_GRAVITY_M_PER_S2
N_M_PER_FT_LBF = M_PER_FT * N_PER_LBF
RAD_PER_DEG = math.pi / 180.0
DEG_PER_TURN = 360.0
DEG_PER_HOUR = 30.0


def m_from_mm(length_mm: float) -> float:
    """Millimetres to metres."""
    return length_mm / MM_PER_M


def m_from_cm(length_cm: float) -> float:
    """Centimetres to metres."""
    return length_cm / CM_PER_M


def mm_from_m(length_m: float) -> float:
    """Metres to millimetres."""
    return length_m * MM_PER_M


def cm_from_m(length_m: float) -> float:
    """Metres to centimetres."""
    return length_m * CM_PER_M


def n_from_tf(force_t: float) -> float:
    """Tonne-force to newtons."""
    return force_t * N_PER_TF


def tf_from_n(force_n: float) -> float:
    """Newtons to tonne-force."""
    return force_n / N_PER_TF


def kn_from_n(force_n: float) -> float:
    """Newtons to kilonewtons."""
    return force_n / N_PER_KN


def n_from_kn(force_kn: float) -> float:
    """Kilonewtons to newtons."""
    return force_kn * N_PER_KN


def j_from_wh(energy_wh: float) -> float:
    """Watt-hours to joules."""
    return energy_wh * J_PER_WH


def wh_from_j(energy_j: float) -> float:
    """Joules to watt-hours."""
    return energy_j / J_PER_WH


def rad_from_deg(angle_deg: float) -> float:
    """Degrees to radians."""
    return angle_deg * RAD_PER_DEG


def deg_from_rad(angle_rad: float) -> float:
    """Radians to degrees."""
    return angle_rad / RAD_PER_DEG


def deg_from_clock(hour: float, lay_deg: float) -> float:
    """Hour of a clock with the lay at twelve, clockwise seen from above, to an azimuth."""
    return (lay_deg + DEG_PER_HOUR * hour) % DEG_PER_TURN


def degc_from_degf(temperature_degf: float) -> float:
    """Degrees Fahrenheit to degrees Celsius."""
    return (temperature_degf - 32.0) / 1.8


def degf_from_degc(temperature_degc: float) -> float:
    """Degrees Celsius to degrees Fahrenheit."""
    return temperature_degc * 1.8 + 32.0


class Imperial(NamedTuple):
    """The imperial counterpart of a metric key ending."""

    suffix: str
    symbol: str
    to_metric: Callable[[float], float]
    from_metric: Callable[[float], float]


def _scaled(suffix: str, symbol: str, metric_per_unit: float) -> Imperial:
    return Imperial(
        suffix,
        symbol,
        lambda value: value * metric_per_unit,
        lambda value: value / metric_per_unit,
    )


IMPERIAL_BY_METRIC_SUFFIX: dict[str, Imperial] = {
    "mm": _scaled("in", "in", MM_PER_IN),
    "cm": _scaled("in", "in", CM_PER_IN),
    "m": _scaled("ft", "ft", M_PER_FT),
    "m_s": _scaled("mph", "mph", M_PER_S_PER_MPH),
    "kg": _scaled("lb", "lb", KG_PER_LB),
    "n_m": _scaled("ft_lbf", "ft lbf", N_M_PER_FT_LBF),
    "degc": Imperial("degf", "degF", degc_from_degf, degf_from_degc),
}
"""Key ending of a metric reading -> the imperial ending accepted in its place."""
