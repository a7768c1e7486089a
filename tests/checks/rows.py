"""Rows of outside evidence: what a formula must give, who says so, and how close is close enough.

A module in this folder defines ``ROWS: list[Row]``. ``test_all_rows.py`` calls every row's function
with its inputs, and ``tests/meta/test_outside_checks.py`` fails where a public physics function
has no row that counts.
"""

from __future__ import annotations

import importlib
import math
import pkgutil
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from operator import attrgetter
from pathlib import Path
from typing import Any

WORKED_EXAMPLE = "worked-example"  # an example with numbers, printed with its answer
TABLE_ROW = "table-row"  # a row of a printed table
SECOND_METHOD = "second-method"  # another program or an independent way of computing
MEASURED = "measured"  # trees, wood or devices measured by somebody
HAND = "hand"  # worked by hand from the definition, the working in `why`
REGRESSION = "regression"  # our own earlier output: guards against change, proves nothing

KINDS = (WORKED_EXAMPLE, TABLE_ROW, SECOND_METHOD, MEASURED, HAND, REGRESSION)
PRINTED_KINDS = (WORKED_EXAMPLE, TABLE_ROW, MEASURED)
MARKS = ("SEEN", "MEMORY", "PRACTICE", "OWN", "DERIVED")

Expected = float | Sequence[float] | Mapping[str, float]

_FOLDER = Path(__file__).parent
_NOT_ROWS = {"conftest", "rows", "test_all_rows"}


@dataclass(frozen=True, kw_only=True)
class Row:
    """One comparison with the outside world.

    Parameters
    ----------
    function
        Dotted name below `fellwright.physics`, as in "hinge.peak_moment_n_m"; a function of another
        layer is named in full below `fellwright`, as in "planning.chance.quantile".
    inputs
        Arguments by name, in the units of the function.
    expected
        The outside value in the unit of the result. For a result with fields: a mapping from
        field name (dotted for nested ones) to value, or a sequence in their order.
    kind
        One of `KINDS`.
    source
        Who says so: "[Key]" of docs/references.md for everything printed or measured, the
        library or method for a second method, "hand" for hand work.
    place
        Where in it: table, row, example number, page; for a second method the function called.
    mark
        SEEN, MEMORY, PRACTICE, OWN or DERIVED: how the expected value came to us.
    tolerance
        Allowed relative difference, as a share of the expected value.
    why
        Why this tolerance: rounding of the print, known scatter, method.
    absolute
        Allowed absolute difference in the unit of the result, where the expected value is zero or
        printed to a fixed decimal. The larger of the two allowances rules.
    disagrees
        Reason of a known disagreement. Such a row must fail (strict xfail) and does not count.
    """

    function: str
    inputs: Mapping[str, Any]
    expected: Expected
    kind: str
    source: str
    place: str
    mark: str
    tolerance: float
    why: str
    absolute: float = 0.0
    disagrees: str = ""

    def __post_init__(self) -> None:
        if self.kind not in KINDS:
            raise ValueError(f"{self.function}: kind must be one of {KINDS}, got {self.kind!r}")
        if self.mark not in MARKS:
            raise ValueError(f"{self.function}: mark must be one of {MARKS}, got {self.mark!r}")
        for name in ("function", "source", "place", "why"):
            if not getattr(self, name).strip():
                raise ValueError(f"{self.function or 'row'}: {name} must not be empty")
        for name in ("tolerance", "absolute"):
            if not 0.0 <= getattr(self, name) < math.inf:
                raise ValueError(f"{self.function}: {name} must be finite and not negative")
        if not _flat(self.expected):
            raise ValueError(f"{self.function}: expected must hold at least one value")

    @property
    def counts(self) -> bool:
        """Whether the row is outside evidence: not our own output, and not a disagreement."""
        return self.kind != REGRESSION and not self.disagrees

    @property
    def label(self) -> str:
        """Name of the test case."""
        return f"{self.function}-{self.source}-{self.place}".replace(" ", "_")


def _flat(expected: Expected) -> dict[str, float]:
    if isinstance(expected, Mapping):
        return {name: float(value) for name, value in expected.items()}
    if isinstance(expected, Sequence):
        return {f"[{at}]": float(value) for at, value in enumerate(expected)}
    return {"": float(expected)}


def _part(actual: Any, name: str) -> float:
    if not name:
        return float(actual)
    if name.startswith("["):
        return float(actual[int(name[1:-1])])
    return float(attrgetter(name)(actual))


def resolve(dotted: str) -> Callable[..., Any]:
    """Find the function that a row names."""
    module_name, _, name = dotted.rpartition(".")
    layers = ("api", "bulk", "exchange", "planning", "records", "tables", "units")
    root = "fellwright" if module_name.split(".")[0] in layers else "fellwright.physics"
    found: Callable[..., Any] = getattr(importlib.import_module(f"{root}.{module_name}"), name)
    return found


def actual_value(row: Row) -> Any:
    """Call the row's function with the row's inputs."""
    return resolve(row.function)(**row.inputs)


def assert_row(row: Row, actual: Any) -> None:
    """Assert that a result agrees with a row within its allowance, naming every part that does not.

    Parameters
    ----------
    row : Row
        The outside evidence.
    actual : float or tuple
        What this package gives.
    """
    if isinstance(row.expected, Sequence):
        assert len(actual) == len(row.expected), f"{row.function}: as many results as expected"
    misses = []
    for name, wanted in _flat(row.expected).items():
        got = _part(actual, name)
        allowed = max(row.tolerance * abs(wanted), row.absolute)
        # Written so that a result which is not a number misses.
        if not abs(got - wanted) <= allowed:
            misses.append(
                f"{name or 'result'}: got {got!r}, {row.source} {row.place} has {wanted!r}"
            )
    assert not misses, f"{row.function} ({row.why}): " + "; ".join(misses)


def row_modules() -> list[str]:
    """Names of the modules in this folder that may declare rows."""
    names = sorted(info.name for info in pkgutil.iter_modules([str(_FOLDER)]))
    return [f"tests.checks.{name}" for name in names if name not in _NOT_ROWS]


def all_rows() -> list[Row]:
    """Every row of every module in this folder."""
    rows: list[Row] = []
    for name in row_modules():
        rows.extend(getattr(importlib.import_module(name), "ROWS", []))
    return rows
