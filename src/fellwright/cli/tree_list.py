"""A list of trees: one line each as it is done, with progress, and Ctrl-C keeps what is done."""

from __future__ import annotations

import importlib.util
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from textwrap import shorten
from typing import TYPE_CHECKING, Any

import click

from fellwright.api import SHAPES
from fellwright.cli.paragraph import WIDTH
from fellwright.planning.reasons import LINE, say_verdict
from fellwright.words import Style, quantity, render, say, unit_name

if TYPE_CHECKING:
    from fellwright.api import Options

STOPPED = 130
COMPILED_FROM = 100
"""Trees from which the compiled twin repays its start."""
MOST_NAME = 22


def each(
    count: int, answer: Callable[[int], dict[str, Any]], label: str
) -> Iterator[dict[str, Any]]:
    """Answer tree after tree; Ctrl-C ends the list and says how far it came."""
    with _bar(count, label) as advance:
        for index in range(count):
            try:
                response = answer(index)
            except KeyboardInterrupt:
                click.echo(f"stopped: {index} of {count} trees done", err=True)
                raise
            yield response
            advance()


@contextmanager
def _bar(count: int, label: str) -> Iterator[Callable[[], None]]:
    """Show a progress bar on a terminal, nothing elsewhere."""
    if not sys.stderr.isatty() or count < 2:
        yield lambda: None
        return
    from rich.console import Console
    from rich.progress import Progress

    with Progress(console=Console(stderr=True), transient=True) as progress:
        task = progress.add_task(label, total=count)
        yield lambda: progress.advance(task)


def with_twin(options: Options, count: int) -> Options:
    """Take the compiled twin for a long list, where it is installed."""
    if count < COMPILED_FROM or importlib.util.find_spec("numba") is None:
        return options
    from fellwright.bulk.draws import CompiledDrawing

    return replace(options, drawing=CompiledDrawing())


def list_heading(style: Style) -> str:
    """Heading of the list."""
    lift = render(say("show.lift_column", unit=unit_name("lift", style)), style)
    push = render(say("show.push_column", unit=unit_name("force", style)), style)
    verdict = render(say("show.verdict_column"), style)
    return f"{'':{MOST_NAME + 1}}{verdict:<{5 + _verdict_width(style)}}{lift:>9}{push:>11}  "


def list_line(r: dict[str, Any], style: Style) -> str:
    """One tree in one line of at most 80 columns: verdict, lift and push at P90, reason."""
    name = (r["tree"] or "-")[:MOST_NAME]
    lift = push = "-"
    if r["lift_mm"] is not None and r["lift_mm"]["let_go"]["p90"] is not None:
        lift = quantity(r["lift_mm"]["let_go"]["p90"] / 1000.0, "bare lift", style)
        push = quantity(r["push_kn"]["p90"] * 1000.0, "bare force", style)
    word = render(say_verdict(r["verdict"]), style)
    verdict = f"{SHAPES[r['verdict']]} {word:<{_verdict_width(style)}}"
    head = f"{name:<{MOST_NAME + 1}}{verdict}{lift:>9}{push:>11}  "
    drives = r["choice"] and r["verdict"] != LINE
    told = r["choice"]["name"] if drives else r["reasons"][0]["text"]
    return f"{head}{shorten(told, WIDTH - len(head), placeholder='...')}"


def _verdict_width(style: Style) -> int:
    """Columns that the longest word of a verdict takes in the language."""
    return max(len(render(say_verdict(word), style)) for word in SHAPES)
