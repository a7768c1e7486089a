"""The bare verdict in pure Python: 1,024 draws, five devices."""

from dataclasses import replace

from bench.example_trees import example_tree, example_trees, van_of_five
from bench.timing import Timing, best_of_both
from fellwright.physics.point_sets import sobol_integers
from fellwright.planning.chance import draw_points
from fellwright.planning.judge_device import DeviceOutcome
from fellwright.planning.plan import Options, Plan
from fellwright.planning.tip import plan_tip
from fellwright.records.tree import Tree

DRAWS = 1024
MULTIPLY_ADDS = 1_000_000
REFERENCE = "1,000,000 multiply-adds"


def multiply_adds(count: int) -> float:
    """A loop that any machine can be held against."""
    total = 0.0
    factor = 0.999999
    for _ in range(count):
        total = total * factor + 1.5
    return total


def driven(plan: Plan) -> list[DeviceOutcome]:
    """Devices that were drawn, not ruled out beforehand."""
    assert plan.outcome is not None
    return [device for device in plan.outcome.devices if device.driven is not None]


def run(small: bool) -> list[Timing]:
    """Time one tree in calm, in a gust, from nothing, and the slowest of the examples."""
    repeats = 1 if small else 15
    kit = van_of_five()
    options = Options(draws=DRAWS, bare=True)
    tree = example_tree()
    gusty = replace(tree, day=replace(tree.day, gust_m_s=5.0))
    assert len(driven(plan_tip(tree, kit, options))) == 5

    def timing(name: str, tree: Tree, *, anew: bool = False) -> Timing:
        def call() -> None:
            if anew:
                draw_points.cache_clear()
                sobol_integers.cache_clear()
            plan_tip(tree, kit, options)

        seconds, against = best_of_both(call, lambda: multiply_adds(MULTIPLY_ADDS), repeats)
        return Timing(name, seconds, REFERENCE, against)

    everyone = [timing("bare verdict, slowest of the examples", each) for each in example_trees()]
    return [
        timing("bare verdict, 1,024 draws, 5 devices", tree),
        timing("the same, calm and a gust", gusty),
        timing("the same, the points drawn anew", tree, anew=True),
        max(everyone, key=lambda each: each.seconds),
    ]
