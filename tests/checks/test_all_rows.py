"""Runs every row of outside evidence that the modules of this folder declare."""

import pytest
from tests.checks.rows import Row, actual_value, all_rows, assert_row

CASES = [
    pytest.param(
        row,
        id=row.label,
        marks=[pytest.mark.xfail(reason=row.disagrees, strict=True, raises=AssertionError)]
        if row.disagrees
        else [],
    )
    for row in all_rows()
]


@pytest.mark.check
@pytest.mark.parametrize("row", CASES)
def test_formula_agrees_with_the_outside_world(row: Row) -> None:
    assert_row(row, actual_value(row))
