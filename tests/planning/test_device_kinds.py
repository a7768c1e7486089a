"""Every kind of device in a plan: what it is fitted with, what limits it, K3 and K4."""

import tomllib
from dataclasses import replace
from typing import Any, get_args

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.plans.cases import CLEAR, EXAMPLES, QUICK, example, only, with_lean

from fellwright.planning.device_kinds import (
    GREASED_KINDS,
    KINDS,
    STEEL_KINDS,
    fit_device,
    range_cap,
)
from fellwright.planning.drive_train import Driven, Setting
from fellwright.planning.judge_device import DeviceOutcome
from fellwright.planning.plan import Options, Plan
from fellwright.planning.reasons import ADDS_UP, LEAVE, TIGHT, Reason, boldness
from fellwright.planning.tip import plan_tip
from fellwright.records.kit import Device, DeviceKind, Kit
from fellwright.records.loader import read_kit
from fellwright.records.tree import Tree
from fellwright.tables import find_species

FULL = Options(draws=256)


def van_3() -> Kit:
    """Read the van that holds a cone and a ram."""
    return read_kit(tomllib.loads((EXAMPLES / "van-3.toml").read_text(encoding="utf-8")), "van-3")


def tree(species: str = "Norway spruce", back_m: float = 0.0) -> Tree:
    return replace(with_lean(example("harrowlees-11"), back_m, 220.0), species=species)


def named(kit: Kit, name: str) -> Device:
    return next(d for d in kit.devices if d.name == name)


def changed(kit: Kit, name: str, **fields: Any) -> Kit:
    devices = tuple(replace(d, **fields) if d.name == name else d for d in kit.devices)
    return replace(kit, devices=devices)


def fitted(
    kit: Kit,
    name: str,
    *,
    species: str = "Norway spruce",
    iced: bool = False,
    hammering: bool = True,
) -> Driven | Reason:
    found = find_species(species)
    assert found is not None
    setting = Setting(kit, found, iced=iced, preloaded=True, hammering=hammering)
    return fit_device(named(kit, name), setting)


def driven(kit: Kit, name: str, *, iced: bool = False, hammering: bool = True) -> Driven:
    result = fitted(kit, name, iced=iced, hammering=hammering)
    assert isinstance(result, Driven), str(result)
    return result


def lacking(kit: Kit, name: str) -> Reason:
    result = fitted(kit, name)
    assert isinstance(result, Reason)
    return result


def outcome(plan: Plan, name: str) -> DeviceOutcome:
    assert plan.outcome is not None
    return next(d for d in plan.outcome.devices if d.name == name)


def push_kn(plan: Plan, name: str) -> tuple[float, float, float]:
    available = outcome(plan, name).available_n
    assert available is not None
    return available.p10 / 1000.0, available.p50 / 1000.0, available.p90 / 1000.0


def test_every_kind_of_the_kit_book_is_registered() -> None:
    assert set(KINDS) == set(get_args(DeviceKind))
    assert set(GREASED_KINDS) < set(STEEL_KINDS) < set(KINDS)
    assert len({id(kind) for kind in KINDS.values()}) == 4, "two kinds share one way of driving"


# --- K3: a cone's push is the wood's ------------------------------------------------------------


def test_push_of_a_cone_is_more_in_beech_than_in_spruce_and_a_range() -> None:
    # A wrench and a rating that never limit it, so that the wood is seen.
    strong = replace(van_3().wrenches[0], torque_n_m=3000.0)
    kit = replace(van_3(), wrenches=(strong,))
    kit = changed(kit, "Siskin", torque_limit_n_m=3000.0, rated_t=None)
    soft = push_kn(plan_tip(tree(), kit, QUICK), "Siskin")
    hard = push_kn(plan_tip(tree("beech"), kit, QUICK), "Siskin")
    assert all(h > s for h, s in zip(hard, soft, strict=True))
    assert soft[2] > 1.4 * soft[0]
    # Green spruce crushes across the grain at 1.9 MPa, beech at about 4.5: the tool is the same.
    assert 1.7 < hard[1] / soft[1] < 3.5


def test_cone_is_stopped_by_the_wood_under_its_thread_in_spruce() -> None:
    found = outcome(plan_tip(tree(), van_3(), QUICK), "Siskin")
    assert min(found.limits_n, key=lambda name: found.limits_n[name]) == "thread"
    assert found.limits_n["thread"] < found.limits_n["torque"]


def test_rated_range_of_the_example_cone_is_met_in_spruce() -> None:
    """Three to six tonnes in soft wood are known of it."""
    low, middle, high = push_kn(plan_tip(tree(), van_3(), QUICK), "Siskin")
    assert low < 59.0
    assert 29.0 < middle < 59.0
    assert high > 29.0


def test_hole_used_before_gives_nothing() -> None:
    """No turn is left that cuts fresh wood."""
    assert push_kn(plan_tip(tree(), van_3(), QUICK), "Siskin")[0] > 10.0
    plan = plan_tip(tree(), changed(van_3(), "Siskin", engaged_turns=1e-9), QUICK)
    assert outcome(plan, "Siskin").verdict == LEAVE
    assert push_kn(plan, "Siskin")[2] < 0.001


def test_cone_is_never_the_only_means_where_the_need_passes_its_low_end() -> None:
    """A cone that lifts enough: the verdict turns on the low end of its push alone."""
    high = changed(van_3(), "Siskin", lift_mm=60.0, engaged_turns=18.0, torque_limit_n_m=850.0)
    kit = only(high, "Siskin")
    seen = set()
    for turns in (10, 14, 18, 24, 30, 40, 60):
        plan = plan_tip(tree(back_m=0.2), changed(kit, "Siskin", engaged_turns=float(turns)), QUICK)
        assert plan.outcome is not None
        asked = plan.outcome.figures.push_n.p90 / 1000.0
        found = outcome(plan, "Siskin")
        if push_kn(plan, "Siskin")[0] < asked:
            assert boldness(found.verdict) <= boldness(TIGHT)
        seen.add(found.verdict)
    assert ADDS_UP in seen
    assert TIGHT in seen


def test_range_rule_says_so_and_holds_for_cones_only() -> None:
    cone, ram = driven(van_3(), "Siskin"), driven(van_3(), "Dunlin")
    reason = range_cap(cone, 20e3, 25e3)
    assert reason is not None
    assert reason.code == "push"
    assert "never the only means" in str(reason.text)
    assert range_cap(cone, 25e3, 20e3) is None
    assert range_cap(ram, 20e3, 25e3) is None


def test_cone_says_that_its_hole_serves_once() -> None:
    kit = only(changed(van_3(), "Siskin", lift_mm=60.0), "Siskin")
    plan = plan_tip(tree("beech"), kit, FULL)
    assert plan.outcome is not None
    assert plan.outcome.choice is not None
    codes = {caution.code for caution in plan.cautions}
    assert {"fresh_hole", "thread_strips", "R9"} <= codes
    assert "grease" not in codes


def test_cone_takes_many_times_the_charge_of_a_greased_screw() -> None:
    cone, screw = driven(van_3(), "Siskin"), driven(van_3(), "Dipper")
    assert cone.efficiency.high < screw.efficiency.low
    assert 0.01 < cone.efficiency.low < cone.efficiency.high < 0.05


@pytest.mark.parametrize(
    "key", ["pitch_mm", "thread_depth_mm", "root_diameter_mm", "outer_angle_deg"]
)
def test_cone_without_its_thread_in_the_kit_book_stays_in_the_van(key: str) -> None:
    assert lacking(changed(van_3(), "Siskin", **{key: None}), "Siskin").code == "kit_book"


def test_turns_in_the_wood_that_are_not_given_are_said() -> None:
    given_turns = driven(van_3(), "Siskin")
    guessed = driven(changed(van_3(), "Siskin", engaged_turns=None), "Siskin")
    assert guessed.figures.hold_low_n < given_turns.figures.hold_low_n
    assert any("turns in the wood not given" in str(text) for text in guessed.said)


def test_ice_is_never_credited_to_a_cone() -> None:
    assert driven(van_3(), "Siskin", iced=True).figures == driven(van_3(), "Siskin").figures


# --- K4: every device has its own limits --------------------------------------------------------


@pytest.mark.parametrize("name", ["Dipper", "Plover", "Siskin"])
def test_wrench_above_a_devices_limit_is_refused_with_the_reason(name: str) -> None:
    kit = van_3()
    strong = replace(kit.wrenches[0], name="W13", torque_n_m=1300.0)
    reason = lacking(replace(kit, wrenches=(strong,)), name)
    assert reason.code == "torque_limit"
    assert "R7" in str(reason.text)


@pytest.mark.parametrize("name", ["Dipper", "Plover", "Siskin"])
@pytest.mark.parametrize("key", ["torque_limit_n_m", "depth_full_mm"])
def test_limit_that_the_kit_book_lacks_is_not_assumed(name: str, key: str) -> None:
    assert lacking(changed(van_3(), name, **{key: None}), name).code == "kit_book"


def test_cone_needs_its_socket_wrench_and_charge() -> None:
    kit = van_3()
    no_socket = replace(kit, sockets=tuple(s for s in kit.sockets if s.hex_mm != 27.0))
    assert lacking(no_socket, "Siskin").code == "socket"
    assert lacking(replace(kit, wrenches=()), "Siskin").code == "wrench"
    assert lacking(replace(kit, packs=()), "Siskin").code == "charge"


# --- the ram ------------------------------------------------------------------------------------


def test_ram_needs_no_wrench_no_charge_and_no_hammer() -> None:
    kit = replace(van_3(), wrenches=(), sockets=(), packs=(), hammers=())
    assert driven(kit, "Dunlin", hammering=False).drive.wrench is None


def test_ram_without_a_wedge_to_follow_it_stays_in_the_van() -> None:
    kit = only(van_3(), "Dunlin", "Siskin")
    reason = lacking(kit, "Dunlin")
    assert reason.code == "follow_up"
    out = changed(only(van_3(), "Dunlin", "Hand pair"), "Hand pair", state="OUT")
    assert lacking(out, "Dunlin").code == "follow_up"
    assert isinstance(fitted(only(van_3(), "Dunlin", "Hand pair"), "Dunlin"), Driven)


@pytest.mark.parametrize("key", ["plate_width_mm", "depth_full_mm", "rated_t"])
def test_ram_without_plate_depth_or_rating_is_not_worked_out(key: str) -> None:
    assert lacking(changed(van_3(), "Dunlin", **{key: None}), "Dunlin").code == "kit_book"


def test_pump_limits_a_ram_where_it_gives_less_than_the_rating() -> None:
    weak = changed(van_3(), "Dunlin", pressure_bar=100.0)
    found = outcome(plan_tip(tree(), weak, QUICK), "Dunlin")
    assert found.limits_n["pressure"] == pytest.approx(1e7 * 3.14159265 * 0.06**2 / 4.0)
    assert min(found.limits_n, key=lambda name: found.limits_n[name]) == "pressure"


def test_ram_at_its_rating_is_said_where_the_pressure_is_not_given() -> None:
    bare = driven(changed(van_3(), "Dunlin", pressure_bar=None), "Dunlin")
    assert bare.figures.pump_n == bare.figures.rated_n
    assert any("taken at its rating" in str(text) for text in bare.said)


def test_dead_wood_overhead_bars_the_hammer_and_not_the_ram() -> None:
    kit = only(van_3(), "Dunlin", "Hand pair")
    dead = replace(tree(), look=replace(CLEAR, clear_overhead=False))
    plan = plan_tip(dead, kit, FULL)
    assert outcome(plan, "Hand pair").limit == "hammering"
    assert plan.verdict == TIGHT
    assert plan.outcome is not None
    assert plan.outcome.choice is not None
    assert plan.outcome.choice.name == "Dunlin"
    codes = {caution.code for caution in plan.cautions}
    assert {"gauge_and_valve", "sound_plates", "wedge_follows"} <= codes


def test_ram_is_cut_a_pocket_and_has_no_turns() -> None:
    dead = replace(tree(), look=replace(CLEAR, clear_overhead=False))
    plan = plan_tip(dead, only(van_3(), "Dunlin", "Hand pair"), FULL)
    assert plan.marks is not None
    assert plan.marks.turns is None
    assert plan.marks.release_step_mm is not None
    steps = " ".join(str(step) for step in plan.marks.sequence)
    assert "pocket" in steps
    assert "Widen the slot" not in steps


def test_iced_ram_slips_and_is_held_back_for_it() -> None:
    """On ice of 0.03 to 0.10 a head slips as soon as the cut has opened by 2 to 6 degrees."""
    back = tree(back_m=0.4)
    cold = replace(back, day=replace(back.day, temperature_degc=-5.0))
    kit = only(van_3(), "Dunlin", "Hand pair")
    warm = outcome(plan_tip(back, kit, QUICK), "Dunlin")
    frozen = outcome(plan_tip(cold, kit, QUICK), "Dunlin")
    assert boldness(frozen.verdict) < boldness(warm.verdict)
    assert "expulsion" in [reason.code for reason in frozen.reasons]


# --- nothing gets bolder by a worse kit ---------------------------------------------------------

WORSE = {
    "Siskin": {
        "lift_mm": 0.5,
        "engaged_turns": 0.5,
        "thread_depth_mm": 0.6,
        "rated_t": 0.3,
    },
    "Dunlin": {
        "lift_mm": 0.6,
        "rated_t": 0.3,
        "plate_width_mm": 0.4,
        "plate_length_mm": 0.4,
        "pressure_bar": 0.2,
        "piston_diameter_mm": 0.5,
    },
}


@pytest.mark.slow
@settings(max_examples=25)
@pytest.mark.parametrize("name", list(WORSE))
@given(
    species=st.sampled_from(["Norway spruce", "beech"]),
    back=st.floats(0.0, 0.5),
    key_at=st.floats(0.0, 0.999),
)
def test_worse_cone_or_ram_is_never_bolder(
    name: str, species: str, back: float, key_at: float
) -> None:
    kit = only(changed(van_3(), "Siskin", lift_mm=45.0), name, "Plover")
    keys = list(WORSE[name])
    key = keys[int(key_at * len(keys))]
    now = getattr(named(kit, name), key)
    worse = changed(kit, name, **{key: now * WORSE[name][key]})
    options = Options(draws=64, bare=True)
    before = outcome(plan_tip(tree(species, back), kit, options), name)
    after = outcome(plan_tip(tree(species, back), worse, options), name)
    assert boldness(after.verdict) <= boldness(before.verdict)
