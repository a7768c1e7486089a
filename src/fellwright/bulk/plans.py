"""A list of trees planned with one van, compiled."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace

from fellwright.bulk.draws import CompiledDrawing
from fellwright.planning.plan import Options, Plan
from fellwright.planning.tip import plan_tip
from fellwright.records.kit import Kit
from fellwright.records.tree import Tree

__all__ = ["plan_many"]

BARE = Options(bare=True)


def plan_many(
    trees: Iterable[Tree],
    kit: Kit,
    options: Options = BARE,
    progress: Callable[[int], object] | None = None,
) -> Iterator[Plan]:
    """Plan trees one after another with the compiled draws.

    Parameters
    ----------
    trees : iterable of Tree
        The trees as read.
    kit : Kit
        What is in the van, the same for all.
    options : Options
        Draws, seed, and whether to stop at the bare verdict, which is the default here.
    progress : callable, optional
        Told the number of trees done, after each.

    Yields
    ------
    Plan
        One a tree, in their order, each as soon as it is done: stopping early keeps the rest.
    """
    options = replace(options, drawing=CompiledDrawing())
    for done, tree in enumerate(trees, start=1):
        yield plan_tip(tree, kit, options)
        if progress is not None:
            progress(done)
