"""An error that is stated with height or dbh reaches the draws, and only ever widens them."""

import math
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.plans.cases import Case, example, van

from fellwright.planning import bands
from fellwright.planning.need import Situation
from fellwright.planning.plan import Options, Plan
from fellwright.planning.tip import plan_tip
from fellwright.records.tree import Conductor, Tree

TREE = example("harrowlees-11")
BARE = Options(draws=64, bare=True)


def plan(**changes: Any) -> Plan:
    tree: Tree = replace(TREE, **changes)
    return plan_tip(tree, van(), BARE)


def situation(**changes: Any) -> Situation:
    found = plan(**changes).situation
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("key", "usual", "wide", "field", "ratio"),
    [
        ("height_error_m", 1.0, 2.5, "height_ratio", 2.5 / 25.0),
        ("dbh_error_cm", 0.6, 3.0, "dbh_ratio", 3.0 / 40.0),
    ],
)
def test_a_larger_error_is_drawn_and_a_smaller_one_changes_nothing(
    key: str, usual: float, wide: float, field: str, ratio: float
) -> None:
    assert situation(**{key: usual}) == situation()
    assert situation(**{key: 0.1 * usual}) == situation()
    assert getattr(situation(**{key: wide}), field) == pytest.approx(ratio)


@given(st.floats(0.01, 60.0), st.floats(1.0, 3.0), st.booleans(), st.booleans())
def test_a_larger_error_never_narrows_any_doubt(
    error: float, factor: float, has_height: bool, has_stump: bool
) -> None:
    changes: dict[str, Any] = {} if has_height else {"height_m": None, "crown_base_m": None}
    if not has_stump:
        changes["stump_diameter_cm"] = None
    for key in ("height_error_m", "dbh_error_cm"):
        before = situation(**changes, **{key: error})
        after = situation(**changes, **{key: factor * error})
        for name in Situation._fields:
            if name.endswith(("_ratio", "_sigma_m")):
                assert getattr(after, name) >= getattr(before, name), (key, name)


def test_sizes_that_are_taken_from_an_ill_known_dbh_are_less_well_known() -> None:
    known = situation(stump_diameter_cm=None, height_m=None, crown_base_m=None)
    vague = situation(stump_diameter_cm=None, height_m=None, crown_base_m=None, dbh_error_cm=6.0)
    assert vague.stump_sigma_m > 1.5 * known.stump_sigma_m
    assert vague.height_ratio > known.height_ratio
    assert situation(dbh_error_cm=6.0).stump_sigma_m == situation().stump_sigma_m


def test_a_taller_doubt_reaches_further_to_a_line() -> None:
    """Twice the height is the ring; only a height that is hardly known reaches beyond it."""
    tree = replace(TREE, conductors=(Conductor(54.0, 8.0, 20.0),))
    known, vague = (
        Case(replace(tree, height_error_m=error), van()).plan() for error in (None, 30.0)
    )
    assert known.verdict != "LEAVE"
    assert (vague.verdict, vague.reasons[0].code) == ("LEAVE", "conductor")
    # The same where no dbh was read.
    bare = replace(tree, dbh_cm=None, height_error_m=30.0)
    assert Case(bare, van()).plan().verdict == "LEAVE"


def test_an_error_that_is_stated_is_not_listed_as_assumed() -> None:
    def assumed(**changes: Any) -> set[str]:
        found = plan_tip(replace(TREE, **changes), van(), Options(draws=64))
        return {str(item.name) for item in found.assumed}

    names = {"error of reading, height", "error of reading, dbh"}
    assert names <= assumed()
    assert names & assumed(height_error_m=3.0) == {"error of reading, dbh"}
    assert names & assumed(dbh_error_cm=3.0) == {"error of reading, height"}
    assert names <= assumed(dbh_error_cm=0.1, height_error_m=0.1)


@pytest.mark.parametrize("key", ["height_error_m", "dbh_error_cm"])
def test_an_error_that_is_no_number_is_not_taken_for_the_usual_one(key: str) -> None:
    ratio = {"height_error_m": "height_ratio", "dbh_error_cm": "dbh_ratio"}[key]
    found = situation(**{key: math.nan})
    assert math.isnan(getattr(found, ratio))
    assert bands.HEIGHT.usual == situation().height_ratio
