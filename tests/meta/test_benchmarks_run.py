"""Benchmarks run small in every test run, so that they cannot rot."""

import os

import pytest
from bench.__main__ import bench_modules, line, missing, run_module
from bench.timing import Size


@pytest.mark.slow
@pytest.mark.parametrize("name", bench_modules())
def test_benchmark_runs_and_reports(name: str) -> None:
    reason = missing(name)
    if reason and os.environ.get("FELLWRIGHT_WEB") == "skip":
        pytest.skip(f"{reason} (FELLWRIGHT_WEB=skip)")
    assert not reason, f"{reason}; FELLWRIGHT_WEB=skip leaves the app out"
    measured = run_module(name, small=True)
    assert measured
    for one in measured:
        assert (one.bytes_count if isinstance(one, Size) else one.seconds) > 0, line(one)
