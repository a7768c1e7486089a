"""Runs every `bench/bench_*.py`; each defines `run(small: bool)` with what it measured."""

from __future__ import annotations

import argparse
import importlib
import pkgutil
import platform
from collections.abc import Sequence
from pathlib import Path

from bench.timing import Measured, Size


def bench_modules() -> list[str]:
    """Names of the benchmark modules in this folder."""
    found = pkgutil.iter_modules([str(Path(__file__).parent)])
    return sorted(f"bench.{info.name}" for info in found if info.name.startswith("bench_"))


def run_module(name: str, small: bool) -> Sequence[Measured]:
    """Run one benchmark module."""
    measured: Sequence[Measured] = importlib.import_module(name).run(small)
    return measured


def missing(name: str) -> str:
    """What a module needs and does not find; empty where it can run."""
    look = getattr(importlib.import_module(name), "missing", None)
    return str(look()) if look else ""


def line(one: Measured) -> str:
    """One measurement as a line of text."""
    if isinstance(one, Size):
        return f"{one.name:<52} {one.bytes_count / 1e6:9.3f} MB"
    text = f"{one.name:<52} {one.seconds * 1000.0:9.3f} ms"
    return f"{text} {one.ratio:7.3g} x as fast as {one.against}" if one.against else text


def main() -> None:
    """Print the timings of every module."""
    parser = argparse.ArgumentParser(prog="python -m bench", description=__doc__)
    parser.add_argument("--small", action="store_true", help="few repeats, to see that it runs")
    small = parser.parse_args().small
    print(f"CPython {platform.python_version()}, {platform.machine()}")
    for name in bench_modules():
        for one in run_module(name, small):
            print(line(one))


if __name__ == "__main__":
    main()
