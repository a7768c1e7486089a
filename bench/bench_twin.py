"""The compiled twin against pure Python on one core, equal to 1e-12."""

from collections.abc import Sequence

import numpy as np
from bench.example_trees import example_tree, example_trees, van_of_five
from bench.timing import Timing, best_seconds

from fellwright.bulk.draws import CompiledDrawing, draw_devices_compiled, draw_needs_compiled
from fellwright.bulk.plans import plan_many
from fellwright.planning.chance import draw_points
from fellwright.planning.device_draw import draw_device
from fellwright.planning.need import draw_need
from fellwright.planning.tip import Options, Plan, plan_tip

SAME = 1e-12
PURE = "pure Python"


def assert_same(compiled: np.ndarray, pure: Sequence[Sequence[float]]) -> None:
    """Every figure alike to 1e-12 of itself."""
    expected = np.array(pure, dtype=np.float64).T
    difference = np.abs(compiled - expected) - SAME * np.abs(expected)
    assert (difference <= 0.0).all(), f"twin and pure differ by {difference.max():.3g}"


def assert_same_verdicts(compiled: Sequence[Plan], pure: Sequence[Plan]) -> None:
    """The same words for every tree."""
    for one, other in zip(compiled, pure, strict=True):
        assert (one.verdict, one.reasons) == (other.verdict, other.reasons)


def draws(count: int, repeats: int) -> list[Timing]:
    """The draws alone: what the twin compiles."""
    points = draw_points(count)
    array = np.array(points)
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
    return [
        Timing(
            f"{count} draws of a tree, compiled",
            best_seconds(lambda: draw_needs_compiled(array, situation, 0.0), repeats),
            PURE,
            best_seconds(lambda: [draw_need(u, situation, 0.0) for u in points], repeats),
        ),
        Timing(
            f"{count} draws of {len(figures)} devices, compiled",
            best_seconds(
                lambda: [draw_devices_compiled(array, columns, each) for each in figures], repeats
            ),
            PURE,
            best_seconds(
                lambda: [
                    [draw_device(u, n, each) for u, n in zip(points, needs, strict=True)]
                    for each in figures
                ],
                repeats,
            ),
        ),
    ]


def verdicts(count: int, repeats: int, times: int) -> Timing:
    """Bare verdicts of a list of trees, five devices, everything around the draws included."""
    kit = van_of_five()
    options = Options(draws=count, bare=True)
    trees = example_trees() * times
    compiled = list(plan_many(trees, kit, options))
    assert_same_verdicts(compiled, [plan_tip(tree, kit, options) for tree in trees])
    seconds = best_seconds(lambda: list(plan_many(trees, kit, options)), repeats)
    pure = best_seconds(lambda: [plan_tip(tree, kit, options) for tree in trees], repeats)
    name = f"bare verdict in a list, {count} draws, compiled"
    return Timing(name, seconds / len(trees), PURE, pure / len(trees))


def summary(count: int, repeats: int) -> Timing:
    """One tree drawn and summed up: draws, quantiles and shares of five devices."""
    kit = van_of_five()
    tree = example_tree()
    pure = Options(draws=count, bare=True)
    twin = Options(draws=count, bare=True, drawing=CompiledDrawing())
    assert_same_verdicts([plan_tip(tree, kit, twin)], [plan_tip(tree, kit, pure)])
    return Timing(
        f"bare verdict of one tree, {count} draws, compiled",
        best_seconds(lambda: plan_tip(tree, kit, twin), repeats),
        PURE,
        best_seconds(lambda: plan_tip(tree, kit, pure), repeats),
    )


def run(small: bool) -> list[Timing]:
    """Compare, then time."""
    repeats = 1 if small else 15
    count = 64 if small else 1024
    few = 64 if small else 256
    times = 1 if small else 20
    return [
        *draws(count, repeats),
        summary(count, repeats),
        verdicts(few, 1 if small else 3, times),
    ]
