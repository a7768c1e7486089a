"""Runs every `bench/bench_*.py`; each defines `run(small: bool) -> list[Timing]`."""

from __future__ import annotations

import argparse
import importlib
import pkgutil
import platform
from pathlib import Path

from bench.timing import Timing


def bench_modules() -> list[str]:
    """Names of the benchmark modules in this folder."""
    found = pkgutil.iter_modules([str(Path(__file__).parent)])
    return sorted(f"bench.{info.name}" for info in found if info.name.startswith("bench_"))


def run_module(name: str, small: bool) -> list[Timing]:
    """Run one benchmark module."""
    timings: list[Timing] = importlib.import_module(name).run(small)
    return timings


def line(timing: Timing) -> str:
    """One timing as a line of text."""
    text = f"{timing.name:<52} {timing.seconds * 1000.0:9.3f} ms"
    return f"{text} {timing.ratio:7.3g} x as fast as {timing.against}" if timing.against else text


def main() -> None:
    """Print the timings of every module."""
    parser = argparse.ArgumentParser(prog="python -m bench", description=__doc__)
    parser.add_argument("--small", action="store_true", help="few repeats, to see that it runs")
    small = parser.parse_args().small
    print(f"CPython {platform.python_version()}, {platform.machine()}")
    for name in bench_modules():
        for timing in run_module(name, small):
            print(line(timing))


if __name__ == "__main__":
    main()
