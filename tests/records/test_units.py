import math
from collections.abc import Callable
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fellwright import units

READINGS = st.floats(-1e6, 1e6)


@pytest.mark.parametrize(
    ("suffix", "imperial", "metric"),
    [
        # Exact by definition: the international yard and pound of 1959, standard gravity of 1901.
        ("mm", 1.0, 25.4),
        ("cm", 1.0, 2.54),
        ("m", 1.0, 0.3048),
        ("kg", 1.0, 0.45359237),
        ("m_s", 1.0, 1609.344 / 3600.0),
        ("n_m", 1.0, float(Fraction("0.3048") * Fraction("0.45359237") * Fraction("9.80665"))),
        ("degc", 32.0, 0.0),
        ("degc", 212.0, 100.0),
        ("degc", -40.0, -40.0),
    ],
)
def test_imperial_factors_are_exact(suffix: str, imperial: float, metric: float) -> None:
    unit = units.IMPERIAL_BY_METRIC_SUFFIX[suffix]
    assert unit.to_metric(imperial) == pytest.approx(metric, rel=1e-15, abs=1e-13)


@given(READINGS)
def test_imperial_units_come_back_unchanged(reading: float) -> None:
    for unit in units.IMPERIAL_BY_METRIC_SUFFIX.values():
        assert unit.from_metric(unit.to_metric(reading)) == pytest.approx(
            reading, rel=1e-12, abs=1e-9
        )


@pytest.mark.parametrize(
    ("forward", "back", "one"),
    [
        (units.m_from_mm, units.mm_from_m, 0.001),
        (units.m_from_cm, units.cm_from_m, 0.01),
        (units.n_from_tf, units.tf_from_n, 9806.65),
        (units.n_from_kn, units.kn_from_n, 1000.0),
        (units.j_from_wh, units.wh_from_j, 3600.0),
        (units.rad_from_deg, units.deg_from_rad, math.pi / 180.0),
    ],
)
def test_metric_conversions_have_their_factor_and_come_back(
    forward: Callable[[float], float], back: Callable[[float], float], one: float
) -> None:
    assert forward(1.0) == pytest.approx(one, rel=1e-15)
    assert back(forward(7.25)) == pytest.approx(7.25, rel=1e-14)
