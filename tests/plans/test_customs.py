"""What the trade holds to be true (K1 to K16), as whole plans. K1 stands with the scenarios."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.plans.cases import Case, altered, cases, example, only, trees, van, with_lean

from fellwright.planning.judge_device import DeviceOutcome
from fellwright.planning.limits import PUSH_MARGIN
from fellwright.planning.plan import Options, Plan
from fellwright.planning.reasons import ADDS_UP, LEAVE, LINE, TIGHT, boldness
from fellwright.planning.tip import plan_tip
from fellwright.records.tree import Tree
from fellwright.words import Text

FEW = Options(draws=256, bare=True)
SMALL = Options(draws=64)
SIZES_CM = tuple(range(30, 95, 5))
GREASES = ("greased", "half", "dry")


def sized(species: str, dbh_cm: float) -> Tree:
    """Return a tree of common proportions that stands half a metre back."""
    base = example("harrowlees-11")
    tree = replace(
        base,
        species=species,
        dbh_cm=float(dbh_cm),
        height_m=min(44.0, 10.0 + 0.45 * dbh_cm),
        crown_base_m=None,
        crown_radius_m=None,
        stump_diameter_cm=1.15 * dbh_cm,
        cut=replace(base.cut, hinge_mm=None),
    )
    return with_lean(tree, 0.5, 220.0)


def device(plan: Plan, name: str) -> DeviceOutcome:
    assert plan.outcome is not None
    return next(d for d in plan.outcome.devices if d.name == name)


def keys(plan: Plan) -> list[str]:
    """Keys of the sentences of the sequence of cuts, in order."""
    assert plan.marks is not None
    return [step.key.removeprefix("cut.") for step in plan.marks.sequence]


def margins(plan: Plan, name: str) -> tuple[float, float]:
    """Lift and push available over what is asked for, at the median; 1 is just enough."""
    outcome = device(plan, name)
    assert plan.outcome is not None
    assert outcome.usable_lift_m is not None
    assert outcome.available_n is not None
    figures = plan.outcome.figures
    return (
        outcome.usable_lift_m.p50 / figures.let_go_lift_m.p50,
        outcome.available_n.p50 / (PUSH_MARGIN.value * figures.push_n.p50),
    )


# --- K2: lift and push --------------------------------------------------------------------------


@pytest.mark.parametrize("species", ["Norway spruce", "beech"])
def test_k2_a_25_mm_device_is_limited_by_lift_throughout(species: str) -> None:
    for dbh in SIZES_CM:
        plover = device(plan_tip(sized(species, dbh), van(), FEW), "Plover")
        assert plover.limit == "lift", f"{dbh} cm"


def test_k2_a_46_mm_device_is_limited_by_lift_on_small_spruce_and_by_its_push_on_large() -> None:
    kit = van()
    short_of_push = []
    for dbh in SIZES_CM:
        lift, push = margins(plan_tip(sized("Norway spruce", dbh), kit, FEW), "Dipper")
        short_of_push.append(push < lift)
    assert not any(short_of_push[:4]), "lift governs on small stems"
    assert all(short_of_push[-4:]), "wood or drive governs on large ones"
    assert short_of_push == sorted(short_of_push), "and it turns once"


def test_k2_on_beech_the_46_mm_device_turns_to_push_at_smaller_sizes_than_on_spruce() -> None:
    """Beech is half as heavy again; from 30 cm on its push governs. A 25 cm one has no room."""

    def first_short_of_push(species: str) -> int:
        for dbh in SIZES_CM:
            lift, push = margins(plan_tip(sized(species, dbh), van(), FEW), "Dipper")
            if push < lift:
                return dbh
        raise AssertionError(f"never short of push on {species}")

    assert first_short_of_push("beech") < first_short_of_push("Norway spruce")


@pytest.mark.parametrize("species", ["Norway spruce", "beech"])
def test_k2_large_plates_serve_larger_trees_than_small_ones(species: str) -> None:
    largest = {"Dipper": 0, "Bittern": 0}
    for dbh in SIZES_CM:
        plan = plan_tip(sized(species, dbh), van(), FEW)
        for name in largest:
            if boldness(device(plan, name).verdict) >= boldness(TIGHT):
                largest[name] = dbh
    assert largest["Bittern"] > largest["Dipper"] > 0


# --- K5: flare ----------------------------------------------------------------------------------


@given(cases(), st.sampled_from(["untrimmed", None]))
def test_k5_a_seat_on_untrimmed_flare_never_adds_up(case: Case, flare: None) -> None:
    plan = Case(replace(case.tree, flare=flare), case.kit).plan()
    assert boldness(plan.verdict) == 0
    if plan.outcome is None:
        return  # refused before anything is asked of the flare
    assert "flare" in [reason.code for reason in plan.reasons]


def test_k5_trimming_is_listed_before_the_notch() -> None:
    steps = keys(plan_tip(example("harrowlees-11"), van()))
    assert steps.index("trim") < steps.index("notch")


def test_k5_the_stump_measured_after_trimming_recomputes_everything() -> None:
    tree = example("harrowlees-11")
    before = plan_tip(tree, van())
    after = plan_tip(replace(tree, stump_diameter_cm=42.0), van())
    assert before.outcome is not None
    assert after.outcome is not None
    assert after.outcome.figures.push_n.p50 > before.outcome.figures.push_n.p50
    assert after.outcome.figures.let_go_lift_m.p50 < before.outcome.figures.let_go_lift_m.p50
    assert before.marks is not None
    assert after.marks is not None
    assert after.marks.marks[0].from_front_mm < before.marks.marks[0].from_front_mm
    assert after.marks.marks[-1].from_front_mm == pytest.approx(420.0)


# --- K6: seat -----------------------------------------------------------------------------------


@given(trees(), st.floats(0.1, 1.0))
def test_k6_a_plate_that_the_push_crushes_never_adds_up(tree: Tree, share: float) -> None:
    kit = only(van(), "Bittern")
    long = kit.devices[0].plate_length_mm
    assert long is not None
    case = Case(
        tree, replace(kit, devices=(replace(kit.devices[0], plate_length_mm=share * long),))
    )
    plan = case.plan()
    if plan.outcome is None or plan.verdict != ADDS_UP:
        return
    bittern = plan.outcome.devices[0]
    assert bittern.limits_n["bearing"] >= PUSH_MARGIN.value * plan.outcome.figures.push_n.p50


def test_k6_a_seat_of_30_mm_warns_that_it_may_fly_out() -> None:
    kit = only(van(), "Bittern")
    short = replace(kit.devices[0], plate_length_mm=45.0)
    plan = plan_tip(example("harrowlees-11-straight"), replace(kit, devices=(short,)))
    assert plan.outcome is not None
    assert plan.outcome.choice is not None
    assert "seat" in [caution.code for caution in plan.cautions]


def test_k6_the_tip_is_marked_50_mm_deep_before_the_push_comes() -> None:
    marks = plan_tip(example("harrowlees-11"), van()).marks
    assert marks is not None
    seated = next(m.from_front_mm for m in marks.marks if m.key == "tip_seated")
    back = next(m.from_front_mm for m in marks.marks if m.key == "back")
    assert back - seated == pytest.approx(50.0)


def test_k6_no_more_of_a_plate_bears_than_is_inserted() -> None:
    kit = only(van(), "Bittern")
    whole = plan_tip(example("harrowlees-11"), kit, FEW)
    shallow = replace(kit, devices=(replace(kit.devices[0], depth_full_mm=30.0),))
    short = plan_tip(example("harrowlees-11"), shallow, FEW)
    bears = device(whole, "Bittern").limits_n["bearing"]
    assert device(short, "Bittern").limits_n["bearing"] == pytest.approx(bears * 30.0 / 150.0)


# --- K7 to K10: slot, steel and chain, preload --------------------------------------------------


def test_k7_the_slot_is_asked_for_before_the_device_is_seated() -> None:
    steps = keys(plan_tip(example("harrowlees-11"), van()))
    assert steps.index("slot") < steps.index("seat")


def test_k7_the_slot_is_flatter_than_three_degrees_and_than_the_device() -> None:
    plan = plan_tip(example("harrowlees-11"), van())
    assert plan.marks is not None
    slot = next(step for step in plan.marks.sequence if step.key == "cut.slot")
    ramp = dict(slot.values)["ramp"]
    assert isinstance(ramp, float)
    assert plan.outcome is not None
    assert plan.outcome.choice is not None
    assert plan.outcome.choice.driven is not None
    assert ramp <= 0.0524
    assert ramp < plan.outcome.choice.driven.figures.angle_rad


@pytest.mark.parametrize("collar_mm", [None, 40.0, 80.0])
def test_k8_release_cut_keeps_off_the_steel(collar_mm: float | None) -> None:
    kit = only(van(), "Dipper")
    body = replace(
        kit.devices[0],
        collar_diameter_mm=collar_mm,
        thread_mean_diameter_mm=None if collar_mm is None else 18.0,
        thread_lead_mm=None if collar_mm is None else 4.0,
    )
    marks = plan_tip(example("harrowlees-11"), replace(kit, devices=(body,))).marks
    assert marks is not None
    assert marks.release_step_mm is not None
    assert marks.release_step_mm >= 20.0
    assert marks.release_step_mm >= 0.5 * (collar_mm or 0.0) + 10.0


def test_k9_the_device_carries_before_the_release_cut() -> None:
    plan = plan_tip(example("harrowlees-11"), van())
    steps = keys(plan)
    assert steps.index("half_first") < steps.index("seat") < steps.index("release")
    assert plan.marks is not None
    assert plan.marks.preload_kn is not None
    assert plan.marks.preload_kn > 0.0


def test_k9_no_sequence_frees_the_tree_before_a_preloaded_device_carries() -> None:
    tree = example("harrowlees-11")
    tree = replace(tree, cut=replace(tree.cut, method="normal back cut"))
    plan = plan_tip(tree, only(van(), "Dipper"))
    assert plan.marks is not None
    assert plan.marks.preload_kn is None or "seat" in keys(plan)


def test_k10_without_preload_one_kerf_of_lift_is_lost_and_a_pinch_is_told() -> None:
    tree = example("harrowlees-11")
    without = replace(tree, cut=replace(tree.cut, preload=False))
    loaded, loose = plan_tip(tree, van()), plan_tip(without, van())
    for name in ("Dipper", "Plover", "Bittern"):
        had, has = device(loaded, name).usable_lift_m, device(loose, name).usable_lift_m
        assert had is not None
        assert has is not None
        assert had.p50 - has.p50 == pytest.approx(0.008, abs=2e-4)
    assert "pinch" not in [caution.code for caution in loaded.cautions]
    assert "pinch" in [caution.code for caution in loose.cautions]


def test_k10_a_hand_wedge_pays_the_kerf_once_whatever_is_said_of_preload() -> None:
    tree = example("harrowlees-11")
    without = replace(tree, cut=replace(tree.cut, preload=False))
    had = device(plan_tip(tree, van(), FEW), "Hand pair").usable_lift_m
    has = device(plan_tip(without, van(), FEW), "Hand pair").usable_lift_m
    assert had == has


# --- K12: something simple stands by ------------------------------------------------------------


@pytest.mark.slow
@given(cases())
def test_k12_every_plan_names_what_stands_by_or_that_nothing_does(case: Case) -> None:
    plan = case.plan(SMALL)
    if plan.marks is None:
        return
    ready = next(step for step in plan.marks.sequence if step.key == "cut.lay_ready")
    means = dict(ready.values)["means"]
    assert isinstance(means, Text)
    missing = means.key == "caution.back_up_missing"
    assert missing == ("back_up" in [caution.code for caution in plan.cautions])
    if plan.verdict == TIGHT:
        assert "R12" in [caution.code for caution in plan.cautions]


def test_k12_no_hammer_stands_by_under_dead_wood() -> None:
    plan = plan_tip(example("quernholt-17"), van())
    assert plan.marks is not None
    ready = next(step for step in plan.marks.sequence if step.key == "cut.lay_ready")
    means = dict(ready.values)["means"]
    assert isinstance(means, Text)
    assert means.key == "caution.means"
    assert dict(means.values)["name"] == "Rope set"


# --- K16: friction ------------------------------------------------------------------------------


@pytest.mark.parametrize("threaded", [False, True])
def test_k16_less_grease_gives_less_push_and_takes_more_energy(threaded: bool) -> None:
    kit = only(van(), "Dipper")
    thread = (18.0, 4.0, 30.0) if threaded else (None, None, None)
    push, energy = [], []
    for grease in GREASES:
        dipper = altered(
            kit.devices[0],
            grease=grease,
            thread_mean_diameter_mm=thread[0],
            thread_lead_mm=thread[1],
            collar_diameter_mm=thread[2],
        )
        plan = plan_tip(example("harrowlees-11-straight"), replace(kit, devices=(dipper,)))
        push.append(device(plan, "Dipper").limits_n["torque"])
        assert plan.marks is not None
        assert plan.marks.turns is not None
        energy.append(plan.marks.turns.energy_wh)
    assert push[0] > push[1] > push[2]
    assert energy[0][0] < energy[1][0] < energy[2][0]
    assert energy[0][1] < energy[1][1] < energy[2][1]


# --- Other rules of the trade -------------------------------------------------------------------


@given(trees(), st.sampled_from(["half and half", "normal back cut", "felling lever"]))
def test_a_forward_leaner_is_never_cut_in_the_ordinary_way(tree: Tree, method: str) -> None:
    lay = tree.cut.lay_deg
    assert lay is not None
    forward = replace(
        with_lean(tree, 1.5, lay), cut=altered(tree.cut, method=method, hinge_mm=None)
    )
    plan = Case(forward, van()).plan()
    if plan.outcome is None or not plan.outcome.figures.is_forward_leaner:
        return
    assert plan.verdict == LEAVE
    assert "early_go" in [reason.code for reason in plan.reasons]


@pytest.mark.slow
@given(trees(method=False))
def test_a_forward_leaner_is_tight_at_best_and_hinge_first(tree: Tree) -> None:
    lay = tree.cut.lay_deg
    assert lay is not None
    plan = Case(with_lean(tree, 1.2, lay), van()).plan(SMALL)
    if plan.outcome is None or not plan.outcome.figures.is_forward_leaner:
        return
    assert boldness(plan.verdict) <= boldness(TIGHT)
    if plan.verdict == TIGHT:
        assert plan.marks is not None
        assert plan.marks.method == "hinge first"
        assert {"plunge", "to_strap", "strap"} <= set(keys(plan))


@given(cases())
def test_a_line_is_offered_only_where_its_parts_are_in_the_van(case: Case) -> None:
    plan = case.plan()
    if plan.verdict != LINE:
        return
    assert plan.outcome is not None
    assert plan.outcome.lines
    assert len(plan.outcome.lines) <= len(case.kit.ropes)
    for line in plan.outcome.lines:
        assert any(
            9806.65 * rope.puller_t >= line.tension_n and (rope.length_m or 0.0) >= line.rope_m
            for rope in case.kit.ropes
        )


@pytest.mark.slow
@given(cases())
def test_marks_stand_in_order_inside_the_stump_with_room_for_the_bar(case: Case) -> None:
    plan = case.plan(SMALL)
    if plan.marks is None:
        return
    assert plan.model is not None
    places = [mark.from_front_mm for mark in plan.marks.marks]
    assert places == sorted(places)
    assert places[0] > 0.0
    assert places[-1] == pytest.approx(1000.0 * plan.model.stump_m)
    if plan.marks.turns is not None:
        assert plan.marks.bar_room_mm is not None
        assert plan.marks.bar_room_mm >= (case.kit.saw.bar_depth_mm or 90.0 if case.kit.saw else 90)
