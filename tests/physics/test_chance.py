"""Properties of point sets, quantiles and safety indices."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fellwright.physics import point_sets, reliability

values = st.lists(st.floats(-1e6, 1e6), min_size=1, max_size=60).map(sorted)
shares = st.floats(0.0, 1.0)


@given(st.integers(0, point_sets.DIMENSIONS - 1), st.integers(1, 10))
def test_every_dimension_is_a_permutation(dimension: int, bits: int) -> None:
    assert sorted(point_sets.sobol_integers(dimension, bits)) == list(range(2**bits))


@given(st.integers(0, point_sets.DIMENSIONS - 1), st.integers(0, 1023))
def test_shifted_points_stay_spread_over_every_half_of_every_power_of_two(
    dimension: int, shift: int
) -> None:
    """First 2^k points of a shifted dimension: one in each of 2^k equal slices."""
    points = [value ^ shift for value in point_sets.sobol_integers(dimension, 10)]
    for k in range(1, 11):
        slices = sorted(value >> (10 - k) for value in points[: 2**k])
        assert slices == list(range(2**k))


@pytest.mark.parametrize("dimension", [-1, point_sets.DIMENSIONS])
def test_dimension_without_direction_numbers_is_refused(dimension: int) -> None:
    with pytest.raises(ValueError, match="dimension must be 0 to"):
        point_sets.sobol_integers(dimension, 4)


@given(values, shares, shares)
def test_quantile_rises_with_its_share_and_stays_within_the_values(
    ordered: list[float], share: float, other: float
) -> None:
    low, high = sorted((share, other))
    first, second = (reliability.quantile(ordered, q) for q in (low, high))
    slack = 1e-9 * (1.0 + abs(first))
    assert first <= second + slack
    assert ordered[0] - slack <= first <= ordered[-1] + slack


@given(values, shares, st.floats(0.1, 10.0), st.floats(-100.0, 100.0))
def test_quantile_follows_a_change_of_unit(
    ordered: list[float], share: float, scale: float, offset: float
) -> None:
    moved = [scale * value + offset for value in ordered]
    assert reliability.quantile(moved, share) == pytest.approx(
        scale * reliability.quantile(ordered, share) + offset, rel=1e-9, abs=1e-6
    )


@given(shares, st.integers(16, 10_000))
def test_standard_error_is_never_nil_and_falls_with_the_draws(share: float, draws: int) -> None:
    error = reliability.share_standard_error(share, draws)
    assert 0.0 < error <= 0.5
    assert reliability.share_standard_error(share, 4 * draws) < error
    assert reliability.share_standard_error(1.0 - share, draws) == pytest.approx(error)


@given(st.floats(0.1, 100.0), st.floats(0.1, 100.0), st.floats(0.05, 1.0), st.floats(0.05, 1.0))
def test_index_changes_sign_when_have_and_need_change_places(
    have: float, need: float, cv_have: float, cv_need: float
) -> None:
    index = reliability.lognormal_reliability_index(have, need, cv_have, cv_need)
    assert reliability.lognormal_reliability_index(need, have, cv_need, cv_have) == pytest.approx(
        -index
    )
    assert reliability.lognormal_reliability_index(have, have, cv_have, cv_need) == 0.0
    assert reliability.lognormal_reliability_index(1.1 * have, need, cv_have, cv_need) > index
