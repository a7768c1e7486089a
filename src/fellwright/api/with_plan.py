"""A plan and what was read besides it, with the faults of both at once."""

from collections.abc import Callable, Mapping
from typing import TypeVar

from fellwright.api.door import plan_from
from fellwright.errors import BadInput, Fault
from fellwright.planning.plan import Plan

__all__ = ["plan_and"]

Record = TypeVar("Record")


def plan_and(request: Mapping[str, object], read: Callable[[], Record]) -> tuple[Plan, Record]:
    """Plan a request and read something else of it.

    Parameters
    ----------
    request : mapping
        As for :func:`fellwright.api.answer`.
    read : callable
        Reads the rest.

    Returns
    -------
    tuple
        The bare plan, without marks and advice, and what was read.

    Raises
    ------
    BadInput
        With every fault of tree, kit, options and the rest.
    """
    faults: list[Fault] = []
    record: Record | None = None
    plan: Plan | None = None
    try:
        record = read()
    except BadInput as bad:
        faults += bad.faults
    try:
        plan = plan_from({**request, "bare": True})
    except BadInput as bad:
        faults += bad.faults
    if plan is None or record is None:
        raise BadInput(faults)
    return plan, record
