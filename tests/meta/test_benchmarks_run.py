"""Benchmarks run small in every test run, so that they cannot rot."""

import pytest
from bench.__main__ import bench_modules, run_module


@pytest.mark.slow
@pytest.mark.parametrize("name", bench_modules())
def test_benchmark_runs_and_reports(name: str) -> None:
    timings = run_module(name, small=True)
    assert timings
    assert all(timing.seconds > 0.0 for timing in timings)
