"""The heart of the tool: a worse tree, day or kit never gets a bolder verdict.

Every worsening of :mod:`tests.plans.worsening` is tried on trees and vans that Hypothesis draws,
with the same draws before and after, so that nothing here is a matter of sampling.
"""

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.plans.cases import (
    CLEAR,
    PLUMB,
    Case,
    altered,
    cases,
    example,
    only,
    trees,
    van,
    with_day,
    with_lean,
)
from tests.plans.worsening import ALL, DAY_WORSENINGS, KIT_WORSENINGS, TREE_WORSENINGS

from fellwright.planning.case import may_preload
from fellwright.planning.limits import SIDE_USE_EASY, SIDE_USE_MOST
from fellwright.planning.plan import Options, Plan
from fellwright.planning.reasons import ADDS_UP, LEAVE, TIGHT, boldness
from fellwright.planning.tip import plan_tip
from fellwright.records.tree import Cut, Day, LeanReading, Tree

AMOUNTS = st.floats(0.0, 1.0)
# Left out of the plain property, each with a property of its own below.
READ_WORSE = ("lean read worse", "lean read by eye", "height read worse", "dbh read worse")
LEAN = ("further from upright", *READ_WORSE)
PLAIN = [name for name in ALL if name not in LEAN]


def codes(plan: Plan) -> list[str]:
    return [reason.code for reason in plan.reasons]


def never_bolder(worse: Plan, than: Plan, why: str) -> None:
    assert boldness(worse.verdict) <= boldness(than.verdict), (
        f"{why}: {than.verdict} {codes(than)} became {worse.verdict} {codes(worse)}"
    )


def leaning(tree: Tree, offset_m: float, toward_deg: float, error_m: float = 0.2) -> Tree:
    """Return the tree with a lean whose error does not grow with it."""
    reading = LeanReading(offset_m, toward_deg % 360.0, "balance", error_m=error_m)
    return replace(tree, lean=(reading,))


# --- the plain property -------------------------------------------------------------------------


@pytest.mark.parametrize("name", [n for n in PLAIN if n in (*TREE_WORSENINGS, *DAY_WORSENINGS)])
@settings(max_examples=25)
@given(case=cases(), amount=AMOUNTS)
def test_a_worse_tree_or_day_never_makes_a_bolder_plan(
    name: str, case: Case, amount: float
) -> None:
    worse = ALL[name](case, amount)
    if worse is not None:
        never_bolder(worse.plan(), case.plan(), name)


@pytest.mark.parametrize("name", [n for n in PLAIN if n in KIT_WORSENINGS])
@settings(max_examples=25)
@given(case=cases(), amount=AMOUNTS)
def test_a_worse_kit_never_makes_a_bolder_plan(name: str, case: Case, amount: float) -> None:
    worse = ALL[name](case, amount)
    if worse is not None:
        never_bolder(worse.plan(), case.plan(), name)


@pytest.mark.slow
@settings(max_examples=60)
@given(case=cases(), names=st.lists(st.sampled_from(PLAIN), min_size=2, max_size=5), amount=AMOUNTS)
def test_several_worsenings_at_once_never_make_a_bolder_plan(
    case: Case, names: list[str], amount: float
) -> None:
    worse = case
    for name in names:
        worse = ALL[name](worse, amount) or worse
    never_bolder(worse.plan(), case.plan(), ", ".join(names))


# --- lean: with an error that stays, so that only the lean gets worse ---------------------------


@settings(max_examples=60)
@given(
    case=cases(),
    offset_m=st.floats(0.0, 1.5),
    more_m=st.floats(0.0, 1.5),
    around_deg=st.sampled_from([180, 180, 150, 120, 90, 60, 30, 0, 210, 270, 330]),
    error_m=st.sampled_from([0.12, 0.2, 0.35]),
)
def test_leaning_further_from_upright_never_makes_a_bolder_plan(
    case: Case, offset_m: float, more_m: float, around_deg: int, error_m: float
) -> None:
    lay = case.tree.cut.lay_deg
    assert lay is not None
    little, much = (
        Case(leaning(case.tree, offset, lay + around_deg, error_m), case.kit).plan()
        for offset in (offset_m, offset_m + more_m)
    )
    never_bolder(much, little, f"{offset_m:.2f} + {more_m:.2f} m, {around_deg} off the lay")


def test_a_deeper_notch_that_is_proposed_does_not_lift_the_cap_that_called_for_it() -> None:
    steps = [
        plan_tip(with_lean(sized("ash", 26.0), offset, 100.0), van(), Options(draws=256, bare=True))
        for offset in (0.3, 0.4)
    ]
    never_bolder(steps[1], steps[0], "0.4 m instead of 0.3 m, 60 deg off the lay")


def test_leaning_back_from_upright_is_not_credited_against_what_forward_lean_does() -> None:
    """Read by eye, an upright beech may lean forward; a little back is no better known."""

    def beech(offset_m: float) -> Plan:
        tree = with_lean(sized("beech", 30.0), offset_m, 220.0)
        return plan_tip(replace(tree, lean=(replace(tree.lean[0], how="eye"),)), van())

    never_bolder(beech(0.2), beech(0.0), "0.2 m back")


def sized(species: str, dbh_cm: float) -> Tree:
    """Return a tree of common proportions, lay 40, upright, nothing of the cut given."""
    base = example("harrowlees-11")
    return with_lean(
        replace(
            base,
            species=species,
            dbh_cm=dbh_cm,
            height_m=4.0 + 0.65 * dbh_cm,
            crown_base_m=None,
            crown_radius_m=None,
            stump_diameter_cm=1.15 * dbh_cm,
            cut=replace(base.cut, hinge_mm=None, notch_share=None, method=None),
        ),
        0.0,
        220.0,
    )


@pytest.mark.parametrize("species", ["beech", "ash", "Norway spruce"])
@pytest.mark.parametrize("dbh_cm", [26.0, 36.0, 45.0, 60.0])
@pytest.mark.parametrize("around_deg", [0.0, 30.0, 60.0])
def test_each_step_further_forward_is_no_bolder_across_the_switch_to_hinge_first(
    species: str, dbh_cm: float, around_deg: float
) -> None:
    """An ordinary cut may split before the early-go ratio asks for a hinge-first one."""
    tree = sized(species, dbh_cm)
    steps = [
        plan_tip(with_lean(tree, 0.1 * i, 40.0 + around_deg), van(), Options(draws=256, bare=True))
        for i in range(16)
    ]
    for before, after in pairwise(steps):
        never_bolder(after, before, f"{species} {dbh_cm:g} cm")


# --- how well lean, height and dbh were read ----------------------------------------------------

NEAR = 0.12
"""A median that is this near to its threshold may drift over it as the doubt of a skewed figure
grows: the median of a product is not the product of the medians."""


def near(value: float, threshold: float) -> bool:
    return abs(value - threshold) <= NEAR * abs(threshold)


def sits_on_a_median(plan: Plan) -> bool:
    """Whether the verdict turns on a median near its threshold, pinned below."""
    outcome = plan.outcome
    if outcome is None:
        return False
    figures = outcome.figures
    if near(figures.side_use.p50, SIDE_USE_MOST.value):
        return True
    if near(figures.side_use.p50, SIDE_USE_EASY.value):
        return True
    return any(
        device.usable_lift_m is not None
        and device.available_n is not None
        and (
            near(device.usable_lift_m.p50, figures.let_go_lift_m.p50)
            or near(device.available_n.p50, figures.push_n.p50)
            or near(device.available_n.p50, 1.3 * figures.push_n.p50)
        )
        for device in outcome.devices
    )


@pytest.mark.parametrize("name", READ_WORSE)
@settings(max_examples=60)
@given(case=cases(), amount=AMOUNTS)
def test_a_reading_known_worse_never_makes_a_bolder_plan(
    name: str, case: Case, amount: float
) -> None:
    before = case.plan()
    worse = ALL[name](case, amount)
    assert worse is not None
    after = worse.plan()
    if sits_on_a_median(before) or sits_on_a_median(after):
        return
    never_bolder(after, before, name)


# --- a thicker hinge than meant -----------------------------------------------------------------


@settings(max_examples=60)
@given(case=cases(), more_mm=st.floats(1.0, 25.0))
def test_a_thicker_hinge_about_the_same_centre_line_makes_no_device_bolder(
    case: Case, more_mm: float
) -> None:
    """Lift and push only: a thicker hinge steers better, which is another matter."""
    tree = with_day(case.tree, 0.0, None)  # one state of the day: devices are shown of the worse
    assert tree.stump_diameter_cm is not None
    hinge = tree.cut.hinge_mm or 0.1 * 10.0 * tree.stump_diameter_cm
    notch = tree.cut.notch_share or 0.25
    share = notch - 0.5 * more_mm / (10.0 * tree.stump_diameter_cm)
    if share < 0.14:
        return
    # Wide is the notch of the thin hinge: both notches stay off the least one in every draw.
    thin = replace(tree, cut=replace(tree.cut, hinge_mm=hinge, notch_share=notch))
    thick = replace(tree, cut=replace(tree.cut, hinge_mm=hinge + more_mm, notch_share=share))
    before, after = Case(thin, case.kit).plan(), Case(thick, case.kit).plan()
    if before.outcome is None or after.outcome is None:
        return
    for one, two in zip(before.outcome.devices, after.outcome.devices, strict=False):
        if one.name != two.name or one.driven is None or two.driven is None:
            continue
        assert two.joint_share <= one.joint_share, one.name
        assert one.room_m is not None
        assert two.room_m is not None
        assert two.room_m <= one.room_m


def test_a_thicker_hinge_does_not_bring_balance_within_reach() -> None:
    tree = Tree(
        species="aspen",
        dbh_cm=46.0,
        height_m=32.7,
        crown_radius_m=2.0,
        stump_diameter_cm=51.0,
        cut_height_cm=30.0,
        flare="trimmed",
        lean=(LeanReading(1.0, 20.0, "balance", PLUMB),),
        look=CLEAR,
        cut=Cut(lay_deg=0.0, preload=False),
        day=Day(gust_m_s=0.0, temperature_degc=12.0),
    )
    verdicts = []
    for more_mm in (0.0, 4.0):
        cut = replace(tree.cut, hinge_mm=51.0 + more_mm, notch_share=0.25 - 0.5 * more_mm / 510.0)
        plan = Case(replace(tree, cut=cut), only(van(), "Plover")).plan()
        assert plan.outcome is not None
        verdicts.append(boldness(plan.outcome.devices[0].verdict))
    assert verdicts[1] <= verdicts[0]


# --- the look -----------------------------------------------------------------------------------

ANSWERS = ("sound", "clear_overhead", "no_conductor_in_reach", "ring_clear", "ways_out")


@pytest.mark.parametrize("name", ANSWERS)
@settings(max_examples=15)
@given(case=cases())
def test_an_answer_of_the_look_that_is_missing_is_measure(name: str, case: Case) -> None:
    look = altered(case.tree.look, **{name: None})
    plan = Case(replace(case.tree, look=look), case.kit).plan()
    assert boldness(plan.verdict) == 0
    if plan.outcome is not None:
        assert codes(plan)[0] == "look"


@pytest.mark.parametrize("name", ANSWERS)
@settings(max_examples=15)
@given(case=cases())
def test_an_answer_no_never_makes_a_bolder_plan(name: str, case: Case) -> None:
    answer = 1 if name == "ways_out" else False
    look = altered(case.tree.look, **{name: answer})
    worse = Case(replace(case.tree, look=look), case.kit).plan()
    never_bolder(worse, case.plan(), name)
    assert boldness(worse.verdict) <= boldness(TIGHT)
    if name != "clear_overhead":
        assert boldness(worse.verdict) == 0


@settings(max_examples=15)
@given(case=cases())
def test_what_it_were_if_clear_is_what_it_is_when_clear(case: Case) -> None:
    unanswered = replace(case.tree, look=replace(CLEAR, ring_clear=None))
    assert Case(unanswered, case.kit).plan().if_clear == case.plan().verdict


# --- gusts --------------------------------------------------------------------------------------


@settings(max_examples=40)
@given(
    case=cases(), first=st.floats(0.0, 8.0), more=st.floats(0.0, 6.0), from_deg=st.integers(0, 359)
)
def test_more_gust_from_anywhere_never_makes_a_bolder_plan(
    case: Case, first: float, more: float, from_deg: int
) -> None:
    little = Case(with_day(case.tree, first, float(from_deg)), case.kit).plan()
    much = Case(with_day(case.tree, first + more, float(from_deg)), case.kit).plan()
    never_bolder(much, little, f"{first:.1f} + {more:.1f} m/s from {from_deg}")


@settings(max_examples=40)
@given(case=cases(), gust=st.floats(0.0, 10.0), from_deg=st.integers(0, 359))
def test_a_gust_never_makes_a_plan_bolder_than_calm(case: Case, gust: float, from_deg: int) -> None:
    calm = Case(with_day(case.tree, 0.0, None), case.kit).plan()
    gusty = Case(with_day(case.tree, gust, float(from_deg)), case.kit).plan()
    never_bolder(gusty, calm, f"{gust:.1f} m/s from {from_deg}")


@pytest.mark.parametrize("gust", [0.0, 3.0, 4.0, 5.0])
def test_a_head_gust_does_not_turn_a_forward_leaner_into_an_ordinary_cut(gust: float) -> None:
    """The gust lulls, and the tree leans as it did."""
    base = example("harrowlees-11")
    tree = replace(with_lean(base, 0.5, 40.0), cut=replace(base.cut, method=None))
    plan = plan_tip(with_day(tree, gust, 40.0), van())
    assert boldness(plan.verdict) <= boldness(TIGHT)
    if plan.marks is not None:
        assert plan.marks.method == "hinge first"
        assert plan.marks.preload_kn is None


# --- unsound stems ------------------------------------------------------------------------------


@settings(max_examples=25)
@given(case=cases())
def test_a_stem_that_is_not_sound_is_measured_before_any_verdict(case: Case) -> None:
    look = replace(case.tree.look, sound=False)
    plan = Case(replace(case.tree, look=look), case.kit).plan()
    assert boldness(plan.verdict) == 0
    assert "cavity_wall_cm" in codes(plan) or plan.outcome is None


@settings(max_examples=25)
@given(tree=trees(), amount=AMOUNTS)
def test_a_hollow_stem_is_never_loaded_hard(tree: Tree, amount: float) -> None:
    hollow = ALL["hollow"](Case(tree, van()), amount)
    assert hollow is not None
    assert not may_preload(hollow.tree)
    plan = hollow.plan(Options(draws=64))
    assert boldness(plan.verdict) <= boldness(TIGHT)
    if plan.marks is not None:
        assert plan.marks.preload_kn is None


def test_a_thin_wall_is_left() -> None:
    plan = plan_tip(replace(example("harrowlees-11"), cavity_wall_cm=6.0), van())
    assert (plan.verdict, codes(plan)[0]) == (LEAVE, "hollow")


def test_the_reading_that_these_pins_start_from_is_the_best_one() -> None:
    lean = example("harrowlees-11").lean
    assert [reading.how for reading in lean] == [PLUMB]
    assert plan_tip(example("harrowlees-11"), only(van(), "Dipper")).verdict == ADDS_UP
