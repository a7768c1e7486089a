"""Every public physics formula is compared with the outside world at least once."""

import inspect

import pytest
from tests.checks.rows import PRINTED_KINDS, SECOND_METHOD, Row, all_rows, resolve
from tests.meta.sources import KEY, physics_formulas, reference_entries

ROWS = all_rows()
COVERED = {row.function for row in ROWS if row.counts}


@pytest.mark.parametrize("name", physics_formulas())
def test_formula_has_an_outside_row(name: str) -> None:
    assert name in COVERED, f"no row for {name} in tests/checks (a regression row does not count)"


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.label)
def test_row_names_a_function_and_its_parameters(row: Row) -> None:
    inspect.signature(resolve(row.function)).bind(**row.inputs)


@pytest.mark.parametrize(
    "row", [row for row in ROWS if row.kind in PRINTED_KINDS], ids=lambda row: row.label
)
def test_printed_or_measured_row_cites_a_known_reference(row: Row) -> None:
    keys = set(KEY.findall(row.source))
    assert keys, f"{row.function}: source must be [Key], got {row.source!r}"
    assert keys <= reference_entries().keys(), f"not in docs/references.md: {row.source}"


@pytest.mark.parametrize(
    "row", [row for row in ROWS if row.kind == SECOND_METHOD], ids=lambda row: row.label
)
def test_second_method_is_not_this_package(row: Row) -> None:
    assert "fellwright" not in f"{row.source} {row.place}".lower()
