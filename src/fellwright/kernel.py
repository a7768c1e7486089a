"""Marks the functions that the compiled twin compiles: the same source, run twice.

Under CPython and in the browser the mark changes nothing. The compiled twin (``fellwright.bulk``)
follows it through a function's globals and compiles every marked function it meets.
"""

from collections.abc import Callable
from typing import ParamSpec, TypeVar

P = ParamSpec("P")
R = TypeVar("R")

MARK = "__fellwright_kernel__"


def kernel(function: Callable[P, R]) -> Callable[P, R]:
    """Mark a pure scalar function as one that the compiled twin may compile.

    Parameters
    ----------
    function : callable
        Takes and returns floats, ints, or NamedTuples of them; uses ``math`` only.

    Returns
    -------
    callable
        The same function.
    """
    setattr(function, MARK, True)
    return function
