"""The compiled twin against pure Python on one core, equal to 1e-12."""

from collections.abc import Sequence
from itertools import cycle, islice

import numpy as np

from bench.example_trees import example_tree, example_trees, van_of_five
from bench.timing import Timing, best_of_both, best_seconds
from fellwright.bulk.draws import (
    CompiledDrawing,
    Rows,
    as_floats,
    draw_devices_compiled,
    draw_needs_compiled,
    points_array,
)
from fellwright.bulk.plans import plan_many
from fellwright.planning.chance import draw_points
from fellwright.planning.device_draw import draw_device
from fellwright.planning.need import draw_need
from fellwright.planning.plan import Options, Plan
from fellwright.planning.tip import plan_tip

SAME = 1e-12
PURE = "pure Python"


def assert_same(compiled: Rows, pure: Sequence[Sequence[float]]) -> None:
    """Every figure alike to 1e-12 of itself."""
    expected = np.array(pure, dtype=np.float64)
    difference = np.abs(as_floats(compiled) - expected) - SAME * np.abs(expected)
    assert (difference <= 0.0).all(), f"twin and pure differ by {difference.max():.3g}"


def assert_same_verdicts(compiled: Sequence[Plan], pure: Sequence[Plan]) -> None:
    """The same words for every tree."""
    for one, other in zip(compiled, pure, strict=True):
        assert (one.verdict, one.reasons) == (other.verdict, other.reasons)


def draws(count: int, repeats: int) -> list[Timing]:
    """The draws alone: what the twin compiles."""
    points = draw_points(count)
    array = points_array(points)
    plan = plan_tip(example_tree(), van_of_five(), Options(draws=64, bare=True))
    assert plan.situation is not None
    assert plan.outcome is not None
    situation = plan.situation
    figures = [each.driven.figures for each in plan.outcome.devices if each.driven is not None]
    needs = [draw_need(u, situation, 0.0) for u in points]
    columns = draw_needs_compiled(array, situation, 0.0)
    assert_same(columns, needs)
    for device in figures:
        pure = [draw_device(u, n, device) for u, n in zip(points, needs, strict=True)]
        assert_same(draw_devices_compiled(array, columns, device), pure)
    tree = best_of_both(
        lambda: draw_needs_compiled(array, situation, 0.0),
        lambda: [draw_need(u, situation, 0.0) for u in points],
        repeats,
    )
    devices = best_of_both(
        lambda: [draw_devices_compiled(array, columns, each) for each in figures],
        lambda: [
            [draw_device(u, n, each) for u, n in zip(points, needs, strict=True)]
            for each in figures
        ],
        repeats,
    )
    return [
        against_pure(f"{count:,} draws of a tree", tree),
        against_pure(f"{count:,} draws of {len(figures)} devices", devices),
    ]


def against_pure(name: str, seconds: tuple[float, float], share: float = 1.0) -> Timing:
    """One line of the table; a share of what was timed."""
    return Timing(f"{name}, compiled", seconds[0] * share, PURE, seconds[1] * share)


def one_verdict(count: int, repeats: int) -> Timing:
    """One tree drawn and summed up: draws, quantiles and shares of five devices."""
    kit = van_of_five()
    tree = example_tree()
    pure = Options(draws=count, bare=True)
    twin = Options(draws=count, bare=True, drawing=CompiledDrawing())
    assert_same_verdicts([plan_tip(tree, kit, twin)], [plan_tip(tree, kit, pure)])
    seconds = best_of_both(
        lambda: plan_tip(tree, kit, twin), lambda: plan_tip(tree, kit, pure), repeats
    )
    return against_pure(f"bare verdict of one tree, {count:,} draws", seconds)


def verdicts(count: int, repeats: int, many: int) -> list[Timing]:
    """Bare verdicts of the example trees and of a long list of them, five devices."""
    kit = van_of_five()
    options = Options(draws=count, bare=True)
    trees = example_trees()
    compiled = list(plan_many(trees, kit, options))
    assert_same_verdicts(compiled, [plan_tip(tree, kit, options) for tree in trees])
    seconds = best_of_both(
        lambda: list(plan_many(trees, kit, options)),
        lambda: [plan_tip(tree, kit, options) for tree in trees],
        repeats,
    )
    each = against_pure(f"bare verdict in a list, {count:,} draws", seconds, share=1.0 / len(trees))

    def plan_all() -> None:
        for plan in plan_many(islice(cycle(trees), many), kit, options):
            assert plan.verdict

    whole = Timing(
        f"{many:,} bare verdicts, {count:,} draws, compiled",
        best_seconds(plan_all, 1),
        f"pure Python, from {len(trees)}",
        each.against_seconds * many,
    )
    return [each, whole]


def run(small: bool) -> list[Timing]:
    """Compare, then time."""
    repeats = 1 if small else 15
    count = 64 if small else 1024
    return [
        *draws(count, repeats),
        one_verdict(count, repeats),
        *verdicts(64 if small else 256, repeats, 20 if small else 10_000),
    ]
