"""The scenarios that the trade would recognise: each gives its verdict and its limiting reason.

The scenarios were first worked out with a simpler model: mean hinge strength and a hinge that keeps
its peak for good, remembered drag, form factor 0.45, no bark, no bearing in a draw. Nothing
here is tuned to it. Where the figures differ, this is why:

* A residual hinge. After its peak the hinge keeps a share of 0.3 to 1.0, drawn, where the simpler
  model kept all of it. Let-go comes a little earlier at the median and the band is wider.
* The lever is taken inside bark and from 30 mm behind the rim, not 40 mm behind the bark.
* Mass: taper curves by species, crown from its size, moisture on the heavy side. Spruce comes out
  the same (1.37 t for the 40 cm tree), beech 58 half as heavy again (6.3 t against 4.3 t): its push
  rises with it, and its hinge, bent by a heavier tree, asks for no more lift.
* The balance point stands at 0.37 of the height on spruce, not 0.42, so that the same offset takes
  more rotation: balance lift 20 mm against 18 mm.
* Side use counts twist, and the hinge after its break with no residual: 1.1 against 0.7.
* Drag is published and up to 2.5 times the remembered 0.35: gusts bite earlier.
"""

import math
from dataclasses import replace

import pytest
from tests.plans.cases import example, only, van, with_day, with_lean

from fellwright.planning.judge_device import DeviceOutcome
from fellwright.planning.plan import Options, Plan
from fellwright.planning.reasons import ADDS_UP, LEAVE, LINE, TIGHT, boldness
from fellwright.planning.tip import plan_tip
from fellwright.records.kit import Kit
from fellwright.records.tree import Tree

KN = 1e3
MM = 1e-3


def plan(tree: Tree, kit: Kit | None = None) -> Plan:
    return plan_tip(tree, van() if kit is None else kit)


def codes(plan: Plan) -> list[str]:
    return [reason.code for reason in plan.reasons]


def device(plan: Plan, name: str) -> DeviceOutcome:
    assert plan.outcome is not None
    return next(d for d in plan.outcome.devices if d.name == name)


def beech_58() -> Tree:
    """The beech of scenario S12: 58 cm, 28 m, 0.4 m back."""
    base = example("harrowlees-11")
    tree = replace(
        base,
        name="beech 58",
        species="beech",
        dbh_cm=58.0,
        height_m=28.0,
        crown_base_m=None,
        crown_radius_m=None,
        stump_diameter_cm=67.0,
        cut=replace(base.cut, hinge_mm=60.0),
    )
    return with_lean(tree, 0.4, 220.0)


def test_c0a_half_a_metre_back_adds_up_with_the_high_lift_wedge_and_lift_decides() -> None:
    """Simpler model: balance 18, let-go 29 mm, push 3.5 t. Ours: 20, 30 mm and 31 kN (3.2 t)."""
    answer = plan(example("harrowlees-11"))
    assert (answer.verdict, codes(answer)[0]) == (ADDS_UP, "lift")
    assert answer.outcome is not None
    assert answer.outcome.choice is not None
    assert answer.outcome.choice.name == "Dipper"
    assert (device(answer, "Plover").verdict, device(answer, "Plover").limit) == (LEAVE, "lift")
    assert device(answer, "Bittern").verdict == ADDS_UP
    # Simpler model: TIGHT with 36 mm. Ours: its blunt faces crush the rim, 31 mm are left, and that
    # the cut is narrower still at balance takes the last tenth of the draws.
    hand = device(answer, "Hand pair")
    assert hand.verdict != ADDS_UP
    assert hand.reasons[0].code == "lift"
    assert 0.4 < hand.joint_share < 0.6


def test_k1_lift_runs_out_before_push_on_a_spruce_that_stands_back() -> None:
    answer = plan(example("harrowlees-11"))
    assert answer.outcome is not None
    figures = answer.outcome.figures
    assert 20 * MM <= figures.let_go_lift_m.p50 <= 32 * MM
    assert 25 * KN <= figures.push_n.p50 <= 45 * KN
    plover = device(answer, "Plover")
    assert plover.available_n is not None
    assert plover.available_n.p50 > 1.3 * figures.push_n.p90  # strong enough, and of no use
    assert plover.verdict == LEAVE


def test_c0b_the_same_tree_straight_needs_little_and_the_low_wedge_serves() -> None:
    """Simpler model: let-go 14 mm, push 1.2 t. Ours: 15 mm and 9 kN (0.9 t), both not zero."""
    answer = plan(example("harrowlees-11-straight"))
    assert (answer.verdict, codes(answer)[0]) == (ADDS_UP, "lift")
    assert device(answer, "Plover").verdict in (ADDS_UP, TIGHT)
    assert device(answer, "Hand pair").verdict == ADDS_UP
    assert answer.outcome is not None
    assert answer.outcome.figures.let_go_lift_m.p50 > 10 * MM


def test_s02_side_lean_takes_a_guy_though_the_wedge_is_fine() -> None:
    """Simpler model: side use 0.66. Ours 1.1, for twist and the broken hinge count in full."""
    answer = plan(example("tarnshaw-9"))
    assert (answer.verdict, codes(answer)[0]) == (LINE, "side_use")
    assert boldness(device(answer, "Dipper").verdict) >= boldness(TIGHT)
    assert answer.outcome is not None
    assert [line.purpose for line in answer.outcome.lines] == ["side guy"]
    assert answer.outcome.figures.side_use.p50 >= 0.45


def test_s02_without_a_rope_is_left() -> None:
    answer = plan(example("tarnshaw-9"), replace(van(), ropes=()))
    assert (answer.verdict, codes(answer)[0]) == (LEAVE, "side_use")
    assert "line" in codes(answer)


def test_s04_forward_ash_needs_no_lift_and_is_tight_at_best() -> None:
    """Simpler model: it starts with 1.75 hinges uncut. Ours 1.9 (to 2.3)."""
    answer = plan(example("quernholt-17"))
    assert answer.verdict in (TIGHT, LEAVE)
    assert "early_go" in codes(answer)
    assert answer.outcome is not None
    assert answer.outcome.figures.let_go_lift_m.p90 == 0.0
    assert answer.outcome.figures.early_go_ratio.p50 > 1.5
    assert device(answer, "Hand pair").limit == "hammering"  # dead limbs overhead
    assert not answer.drives_device


def test_s04_half_a_metre_forward_may_be_cut_in_the_ordinary_way_and_is_no_forward_leaner() -> None:
    tree = with_lean(example("quernholt-17"), 0.5, 150.0)
    answer = plan(replace(tree, cut=replace(tree.cut, method=None)))
    assert answer.outcome is not None
    assert answer.outcome.figures.early_go_ratio.p50 < 1.0


def test_s05_no_room_for_steel_and_the_hand_wedge_serves() -> None:
    """Simpler model: let-go 14 mm, push 0.9 t. Ours: 15 mm and 9 kN."""
    answer = plan(example("pikeless-moss-33"))
    assert answer.verdict == ADDS_UP
    assert answer.outcome is not None
    assert answer.outcome.choice is not None
    assert answer.outcome.choice.name == "Hand pair"
    for name in ("Dipper", "Plover", "Bittern"):
        assert (device(answer, name).verdict, device(answer, name).limit) == (LEAVE, "room")
    assert "room" in [caution.code for caution in answer.cautions]


def test_s05_a_strong_device_that_does_not_fit_is_not_chosen_for_its_tonnes() -> None:
    answer = plan(example("pikeless-moss-33"), replace(only(van(), "Dipper"), ropes=()))
    assert (answer.verdict, codes(answer)[0]) == (LEAVE, "room")


def test_s07_gusts_turn_adds_up_into_leave_and_never_back() -> None:
    """Simpler model: TIGHT at 6 m/s, LEAVE at 8. Ours: TIGHT at 4, LEAVE at 6: more drag."""
    tree = example("harrowlees-26")
    verdicts = {
        gust: plan(with_day(tree, gust, 40.0)).verdict for gust in (0.0, 4.0, 6.0, 8.0, 11.0)
    }
    assert verdicts[0.0] == ADDS_UP
    assert verdicts[11.0] in (LEAVE, LINE)
    steps = [boldness(verdict) for verdict in verdicts.values()]
    assert steps == sorted(steps, reverse=True)
    assert len(set(steps)) > 2, "there is a gust between the two"


def test_s07_calm_is_limited_by_lift_and_says_to_which_gust_it_stands() -> None:
    answer = plan(example("harrowlees-26"))
    assert (answer.verdict, codes(answer)[0]) == (ADDS_UP, "lift")
    assert answer.envelope is not None
    stands_to = answer.envelope.head_gust_m_per_s
    assert stands_to is not None
    assert 0.0 < stands_to < 6.0
    quick = Options(draws=256, bare=True)  # the draws with which the gust was looked for
    tree = example("harrowlees-26")
    assert plan_tip(with_day(tree, stands_to, 40.0), van(), quick).verdict == ADDS_UP
    assert plan_tip(with_day(tree, stands_to + 0.5, 40.0), van(), quick).verdict != ADDS_UP


def test_s12_beech_needs_the_large_wedge_and_its_socket() -> None:
    """Simpler model: Bittern TIGHT by 2 mm, Dipper TIGHT by 6 mm. Ours: the tree is half as heavy
    again, so that it asks for 31 mm (was 37) and 79 kN (was 72). Bittern ADDS UP.
    """
    answer = plan(beech_58())
    assert answer.verdict == ADDS_UP
    assert answer.outcome is not None
    assert answer.outcome.choice is not None
    assert answer.outcome.choice.name == "Bittern"
    dipper = device(answer, "Dipper")
    assert (dipper.verdict, dipper.reasons[0].code) == (LEAVE, "push")


def test_s12_without_the_27_mm_socket_the_plan_fails_before_leaving_and_names_it() -> None:
    kit = van()
    bare = replace(kit, sockets=tuple(s for s in kit.sockets if s.hex_mm != 27.0), ropes=())
    answer = plan(beech_58(), bare)
    assert answer.verdict == LEAVE
    assert device(answer, "Bittern").limit == "socket"
    assert "27 mm" in str(device(answer, "Bittern").reasons[0].text)


def test_s12_the_strong_wrench_is_refused_on_the_small_device() -> None:
    kit = van()
    strong = replace(kit, wrenches=tuple(w for w in kit.wrenches if w.name == "W13"))
    answer = plan(example("harrowlees-11"), strong)
    assert device(answer, "Dipper").limit == "torque_limit"
    assert device(answer, "Bittern").verdict == ADDS_UP


def test_turning_the_lay_towards_a_side_lean_lowers_side_use_and_raises_early_go() -> None:
    """S02: 60 and 75 degrees to the right eases the hinge, and it then leans forward."""
    tree = example("tarnshaw-9")
    outcomes = []
    for turn in (0.0, 60.0, 75.0):
        turned = replace(tree, cut=replace(tree.cut, lay_deg=90.0 + turn))
        answer = plan_tip(turned, van(), Options(draws=256, bare=True))
        assert answer.outcome is not None
        outcomes.append(answer.outcome.figures)
    side = [figures.side_use.p50 for figures in outcomes]
    early = [figures.early_go_ratio.p50 for figures in outcomes]
    assert side == sorted(side, reverse=True)
    assert early == sorted(early)
    assert early[-1] > 1.0


@pytest.mark.parametrize(
    ("name", "mass_t", "tolerance"),
    [("harrowlees-11", 1.37, 0.1), ("pikeless-moss-33", 0.23, 0.15), ("harrowlees-26", 2.18, 0.1)],
)
def test_mass_agrees_with_the_simpler_model_where_the_wood_is_the_same(
    name: str, mass_t: float, tolerance: float
) -> None:
    answer = plan_tip(example(name), van(), Options(draws=256, bare=True))
    assert answer.outcome is not None
    assert math.isclose(answer.outcome.figures.mass_kg.p50, 1000 * mass_t, rel_tol=tolerance)
