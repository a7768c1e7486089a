"""What helps, the envelope and why: every stated figure is confirmed by running it again."""

import math
import tomllib
from dataclasses import replace
from pathlib import Path

import pytest

from fellwright.planning.missing import stand_ins
from fellwright.planning.plan import Options, Plan
from fellwright.planning.reasons import boldness
from fellwright.planning.tip import plan_tip
from fellwright.planning.why import FIGURES, explain
from fellwright.records.kit import Kit
from fellwright.records.loader import read_kit, read_tree
from fellwright.records.tree import LeanReading, Tree

ROOT = Path(__file__).parents[2]
DRAWS = 256
NAMES = ["harrowlees-11", "harrowlees-26", "tarnshaw-9", "pikeless-moss-33", "quernholt-17"]


def load_tree(name: str) -> Tree:
    return read_tree(tomllib.loads((ROOT / "examples" / f"{name}.toml").read_text("utf-8")), name)


@pytest.fixture(scope="module")
def kit() -> Kit:
    return read_kit(tomllib.loads((ROOT / "examples" / "van-2.toml").read_text("utf-8")), "kit")


@pytest.fixture(scope="module")
def plans(kit: Kit) -> dict[str, Plan]:
    return {name: plan_tip(load_tree(name), kit, Options(draws=DRAWS)) for name in NAMES}


def test_thinner_hinge_gives_what_the_help_says(plans: dict[str, Plan], kit: Kit) -> None:
    plan = plans["harrowlees-11"]
    help_ = next(h for h in plan.helps if h.code == "hinge")
    thinner = dict(help_.what.values)["then"]
    assert isinstance(thinner, float)
    tree = plan.tree
    changed = replace(tree, cut=replace(tree.cut, hinge_mm=1000.0 * thinner))
    again = plan_tip(changed, kit, Options(draws=DRAWS, bare=True))
    assert again.outcome is not None
    assert again.outcome.figures.let_go_lift_m.p50 == pytest.approx(help_.lift_m, abs=1e-12)
    assert again.outcome.figures.push_n.p50 == pytest.approx(help_.push_n, abs=1e-6)
    assert again.verdict == help_.verdict


@pytest.mark.parametrize("name", NAMES)
def test_no_help_makes_the_verdict_less_bold(name: str, plans: dict[str, Plan]) -> None:
    plan = plans[name]
    for help_ in plan.helps:
        assert boldness(help_.verdict) >= boldness(plan.verdict)
        assert help_.minutes >= 0.0


def test_deeper_notch_saves_lift_and_costs_push(plans: dict[str, Plan]) -> None:
    help_ = next(h for h in plans["harrowlees-11"].helps if h.code == "deeper_notch")
    assert help_.lift_change_m < 0.0 < help_.push_change_n


def test_dry_kit_is_told_to_grease(kit: Kit) -> None:
    dipper = next(d for d in kit.devices if d.name == "Dipper")
    dry = replace(kit, devices=(replace(dipper, grease="dry"),), ropes=())
    tree = load_tree("harrowlees-26")
    strong = replace(tree, day=replace(tree.day, gust_m_s=2.0))
    plan = plan_tip(strong, dry, Options(draws=DRAWS))
    greased = [h for h in plan.helps if h.code == "grease"]
    assert greased
    assert boldness(greased[0].verdict) > boldness(plan.verdict)


@pytest.mark.parametrize("name", ["harrowlees-11", "harrowlees-26", "pikeless-moss-33"])
def test_envelope_stands_at_its_bounds_and_falls_beyond(
    name: str, plans: dict[str, Plan], kit: Kit
) -> None:
    plan = plans[name]
    envelope, tree = plan.envelope, plan.tree
    assert envelope is not None
    assert envelope.hinge_most_m is not None
    assert envelope.head_gust_m_per_s is not None

    def verdict(changed: Tree) -> int:
        return boldness(plan_tip(changed, kit, Options(draws=DRAWS, bare=True)).verdict)

    def hinged(hinge_m: float) -> Tree:
        return replace(tree, cut=replace(tree.cut, hinge_mm=1000.0 * hinge_m))

    def gusty(gust: float) -> Tree:
        return replace(tree, day=replace(tree.day, gust_m_s=gust, wind_from_deg=None))

    def leaning(back_m: float) -> Tree:
        lean = stand_ins(tree).lean
        assert lean is not None
        assert tree.cut.lay_deg is not None
        toward = tree.cut.lay_deg + (180.0 if back_m > 0.0 else 0.0)
        reading = LeanReading(abs(back_m), toward % 360.0, "balance", "eye", error_m=lean.sigma_m)
        return replace(tree, lean=(reading,))

    least, most = envelope.back_offset_least_m, envelope.back_offset_most_m
    assert least is not None
    assert most is not None
    assert verdict(leaning(least)) >= boldness(plan.verdict)
    assert verdict(leaning(least - 0.05)) < boldness(plan.verdict)
    assert verdict(leaning(most)) >= boldness(plan.verdict)
    assert verdict(leaning(most + 0.05)) < boldness(plan.verdict)
    assert verdict(hinged(envelope.hinge_most_m)) >= boldness(plan.verdict)
    assert verdict(hinged(envelope.hinge_most_m + 0.001)) < boldness(plan.verdict)
    assert verdict(gusty(envelope.head_gust_m_per_s)) >= boldness(plan.verdict)
    assert verdict(gusty(envelope.head_gust_m_per_s + 0.5)) < boldness(plan.verdict)


def test_envelope_holds_the_plan_itself(plans: dict[str, Plan]) -> None:
    for name in ("harrowlees-11", "harrowlees-26", "pikeless-moss-33"):
        plan = plans[name]
        assert plan.envelope is not None
        assert plan.situation is not None
        assert plan.cut is not None
        assert plan.envelope.back_offset_least_m is not None
        assert plan.envelope.back_offset_most_m is not None
        assert plan.envelope.hinge_least_m is not None
        assert plan.envelope.hinge_most_m is not None
        back = plan.situation.back_m
        least, most = plan.envelope.back_offset_least_m, plan.envelope.back_offset_most_m
        assert least <= back + 1e-9
        assert most >= back - 1e-9
        assert plan.envelope.hinge_least_m <= plan.cut.hinge_m <= plan.envelope.hinge_most_m


@pytest.mark.parametrize("figure", sorted(FIGURES))
def test_every_figure_of_an_answer_has_its_derivation(figure: str, plans: dict[str, Plan]) -> None:
    why = explain(plans["harrowlees-11"], figure)
    assert why is not None
    assert why.formula
    assert why.functions
    assert why.sources
    assert why.value.p10 <= why.value.p50 <= why.value.p90
    assert all(math.isfinite(s.low) and math.isfinite(s.high) for s in why.sensitivity)


def test_derivation_names_physics_that_exists() -> None:
    import importlib

    for figure in FIGURES.values():
        for name in figure.functions:
            module, _, function = name.partition(".")
            found = importlib.import_module(f"fellwright.physics.{module}")
            assert not function or hasattr(found, function), name


def test_why_and_answer_show_the_same_figure(plans: dict[str, Plan]) -> None:
    plan = plans["harrowlees-11"]
    assert plan.outcome is not None
    why = explain(plan, "push")
    assert why is not None
    assert why.value == plan.outcome.figures.push_n


def test_back_offset_moves_push_most_on_the_control_tree(plans: dict[str, Plan]) -> None:
    why = explain(plans["harrowlees-11"], "push")
    assert why is not None
    assert why.sensitivity[0].name.key == "why.z_back"
    assert why.sensitivity[0].low < why.middle < why.sensitivity[0].high


def test_refused_tree_has_no_derivation(kit: Kit) -> None:
    plan = plan_tip(replace(load_tree("harrowlees-11"), defects=("lodged",)), kit)
    assert explain(plan, "push") is None
