"""Whole plans come out alike, worked out plainly or compiled."""

import dataclasses
import math

import pytest

pytest.importorskip("numba", reason="the compiled twin needs the extra 'bulk'")

from hypothesis import given
from tests.plans.cases import EXAMPLES, QUICK, Case, cases, example, van

from fellwright.bulk.plans import plan_many
from fellwright.planning.plan import Options, Plan
from fellwright.planning.tip import plan_tip

NAMES = sorted(path.stem for path in EXAMPLES.glob("*.toml") if not path.stem.startswith("van"))


def differences(left: object, right: object, path: str = "plan") -> list[str]:
    """Where two answers differ by more than 1e-12."""
    if isinstance(left, float) and isinstance(right, float):
        both_nan = math.isnan(left) and math.isnan(right)
        same = both_nan or math.isclose(left, right, rel_tol=1e-12, abs_tol=0.0)
        return [] if same else [f"{path}: {left!r} {right!r}"]
    if type(left) is not type(right):
        return [f"{path}: {type(left)} {type(right)}"]
    if dataclasses.is_dataclass(left):
        names = [field.name for field in dataclasses.fields(left) if field.compare]
        pairs = [(name, getattr(left, name), getattr(right, name)) for name in names]
    elif isinstance(left, tuple | list) and isinstance(right, tuple | list):
        if len(left) != len(right):
            return [f"{path}: {len(left)} and {len(right)} long"]
        pairs = [(str(i), a, b) for i, (a, b) in enumerate(zip(left, right, strict=True))]
    elif isinstance(left, dict) and isinstance(right, dict):
        if left.keys() != right.keys():
            return [f"{path}: {left.keys()} {right.keys()}"]
        pairs = [(str(key), left[key], right[key]) for key in left]
    else:
        return [] if left == right else [f"{path}: {left!r} {right!r}"]
    return [line for name, a, b in pairs for line in differences(a, b, f"{path}.{name}")]


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("bare", [True, False], ids=["bare", "whole"])
def test_examples_are_planned_alike(name: str, bare: bool) -> None:
    options = Options(draws=256, bare=bare)
    compiled: Plan = next(plan_many([example(name)], van(), options))
    plain = plan_tip(example(name), van(), options)
    assert plain.outcome is None or plain.outcome.figures.mass_kg.p50 > 0.0
    assert differences(compiled, plain) == []


@given(case=cases())
def test_any_tree_and_van_are_planned_alike(case: Case) -> None:
    compiled = next(plan_many([case.tree], case.kit, QUICK))
    assert differences(compiled, case.plan(QUICK)) == []


def test_the_comparison_sees_a_small_difference() -> None:
    plan = plan_tip(example(NAMES[0]), van(), QUICK)
    assert plan.model is not None
    height = plan.model.height_m
    moved = dataclasses.replace(plan.model, height_m=height * (1.0 + 1e-11))
    assert differences(plan, dataclasses.replace(plan, model=moved)) == [
        f"plan.model.height_m: {height!r} {moved.height_m!r}"
    ]


def test_plans_come_one_by_one_in_order_and_say_how_many_are_done() -> None:
    done: list[int] = []
    trees = [example(name) for name in NAMES]
    plans = plan_many(trees, van(), QUICK, done.append)
    assert next(plans).tree.name == trees[0].name
    assert done == []
    assert [plan.tree.name for plan in plans] == [tree.name for tree in trees[1:]]
    assert done == list(range(1, len(trees) + 1))
