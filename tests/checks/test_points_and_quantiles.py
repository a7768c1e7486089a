"""Point sets, quantiles and safety indices against scipy, numpy and Monte Carlo."""

import math

import numpy as np
import pytest
from scipy.stats import binomtest, norm, qmc
from tests.checks.rows import HAND, SECOND_METHOD, Row

from fellwright.physics import point_sets, reliability

pytestmark = pytest.mark.check

BITS = 10
SCIPY_SOBOL = np.rint(
    qmc.Sobol(d=point_sets.DIMENSIONS, scramble=False).random_base2(BITS) * 2**BITS
).astype(int)
SAMPLE = np.sort(np.random.default_rng(20).lognormal(3.0, 0.4, 1024))


def _half_width(share: float, draws: int) -> float:
    """Half a Wilson interval at two sigmas, per sigma."""
    interval = binomtest(round(share * draws), draws).proportion_ci(
        2.0 * norm.cdf(2.0) - 1.0, method="wilson"
    )
    return float(interval.high - interval.low) / 4.0


def _index_by_counting(median: float, cv_have: float, cv_need: float) -> float:
    """Index from the share of failures among 4 million lognormal pairs."""
    rng = np.random.default_rng(7)
    have = median * np.exp(math.sqrt(math.log(1.0 + cv_have**2)) * rng.standard_normal(4_000_000))
    need = np.exp(math.sqrt(math.log(1.0 + cv_need**2)) * rng.standard_normal(4_000_000))
    return float(norm.isf(np.mean(have < need)))


ROWS = [
    *(
        Row(
            function="point_sets.sobol_integers",
            inputs={"dimension": dimension, "bits": BITS},
            expected=SCIPY_SOBOL[:, dimension].tolist(),
            kind=SECOND_METHOD,
            source="scipy",
            place=f"scipy.stats.qmc.Sobol(scramble=False), dimension {dimension}",
            mark="DERIVED",
            tolerance=0.0,
            why="whole numbers",
        )
        for dimension in range(point_sets.DIMENSIONS)
    ),
    *(
        Row(
            function="reliability.quantile",
            inputs={"ordered": SAMPLE.tolist(), "share": share},
            expected=float(np.quantile(SAMPLE, share)),
            kind=SECOND_METHOD,
            source="numpy",
            place=f"numpy.quantile, linear, share {share}",
            mark="DERIVED",
            tolerance=1e-12,
            why="same definition",
        )
        for share in (0.0, 0.1, 0.25, 0.5, 0.9, 0.99, 1.0)
    ),
    *(
        Row(
            function="reliability.share_standard_error",
            inputs={"share": share, "draws": draws},
            expected=_half_width(share, draws),
            kind=SECOND_METHOD,
            source="scipy",
            place=f"scipy.stats.binomtest, half a Wilson interval, {share} of {draws}",
            mark="DERIVED",
            tolerance=tolerance,
            why="the adjusted interval has Wilson's middle and is wider, most so near 0 and 1",
        )
        for share, draws, tolerance in ((0.5, 1024, 1e-4), (0.875, 1024, 0.005), (0.25, 128, 0.01))
    ),
    *(
        Row(
            function="reliability.lognormal_reliability_index",
            inputs={"median_have": factor, "median_need": 1.0, "cv_have": 0.15, "cv_need": 0.30},
            expected=beta,
            kind=HAND,
            source="hand",
            place=f"factor {factor} at variations 0.15 and 0.30",
            mark="DERIVED",
            tolerance=0.0,
            absolute=0.5 * 0.01 / factor / 0.329 + 1e-3,
            why=f"exp({beta} sqrt(ln 1.0225 + ln 1.09)) = exp({beta} x 0.3292), to two decimals",
        )
        for beta, factor in ((1.3, 1.53), (2.3, 2.13), (3.1, 2.78))
    ),
    Row(
        function="reliability.lognormal_reliability_index",
        inputs={"median_have": 1.53, "median_need": 1.0, "cv_have": 0.15, "cv_need": 0.30},
        expected=_index_by_counting(1.53, 0.15, 0.30),
        kind=SECOND_METHOD,
        source="numpy Monte Carlo",
        place="4 million pairs, share of failures turned into an index by scipy.stats.norm",
        mark="DERIVED",
        tolerance=0.0,
        absolute=0.004,
        why="four standard errors of the count: sqrt(.097 x .903/4e6)/phi(1.3) = 0.0009",
    ),
]


@pytest.mark.parametrize("share", [0.0, 0.003, 0.1, 0.5, 1.0])
def test_standard_error_is_never_nil_nor_below_wilson(share: float) -> None:
    found = reliability.share_standard_error(share, 1000)
    assert found > 0.0
    assert found >= _half_width(share, 1000) * (1.0 - 1e-9)
