"""A profile bars by law, cautions by guidance, and says what a plan cannot tell."""

from dataclasses import replace
from functools import cache

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.plans.cases import Case, cases, example, van

from fellwright.api.practice_response import practice_response
from fellwright.planning.plan import Options, Plan
from fellwright.planning.practice import (
    BROKEN,
    CANNOT_TELL,
    KEPT,
    RECALLED,
    TITLES,
    PracticeFinding,
    apply_profile,
    breaks_law,
    check_practice,
)
from fellwright.planning.practice_checks import FIGURES, is_outside
from fellwright.planning.practice_facts import CutFacts, PlanFacts, applies
from fellwright.planning.proposal import (
    OPEN_FACE_RAD,
    Stem,
    notch_fits,
    proposal_for,
    share_within,
)
from fellwright.planning.reasons import ADDS_UP, LEAVE, LINE, boldness
from fellwright.planning.tip import plan_tip
from fellwright.records.kit import Device, Kit
from fellwright.records.tree import Conductor, Look, Tree
from fellwright.tables.practice_subjects import LAW, SUBJECTS, THRESHOLDS
from fellwright.tables.profiles import Profile, Rule, load_profile, parse_profile, profile_names
from fellwright.words import Style, catalogue, render

GERMAN = Style("de")
QUICK = Options(draws=64, bare=True)
FULL = Options(draws=64)


@cache
def harrowlees(notch_share: float | None = 0.20, method: str | None = "half and half") -> Plan:
    """The 40 cm spruce half a metre back, with another notch and method."""
    tree = example("harrowlees-11")
    cut = replace(tree.cut, notch_share=notch_share, method=method)  # type: ignore[arg-type]  # one of the methods
    return plan_tip(replace(tree, cut=cut), van(), FULL)


def plan_of(tree: Tree, kit: Kit | None = None) -> Plan:
    return plan_tip(tree, van() if kit is None else kit, QUICK)


def found(plan: Plan, name: str, rule_id: str) -> PracticeFinding:
    return next(f for f in check_practice(plan, load_profile(name)) if f.rule.id == rule_id)


def ids(plan: Plan, name: str) -> set[str]:
    return {finding.rule.id for finding in check_practice(plan, load_profile(name))}


def with_devices(*devices: Device) -> Kit:
    return replace(van(), devices=devices)


def device(name: str) -> Device:
    return next(d for d in van().devices if d.name == name)


# --- law, clause by clause --------------------------------------------------------------------


@pytest.mark.parametrize(
    ("notch_share", "keeps"),
    [(0.20, False), (0.249, False), (0.25, True), (0.30, True), (1 / 3, True), (0.34, False)],
)
def test_alberta_asks_a_quarter_to_a_third(notch_share: float, keeps: bool) -> None:
    """s.518(4)(b)."""
    plan = harrowlees(notch_share)
    after = apply_profile(plan, load_profile("alberta"))
    assert found(plan, "alberta", "notch-depth").status == (KEPT if keeps else BROKEN)
    assert (after.verdict == LEAVE and after.reasons[0].code == "law") != keeps
    assert (after.verdict == plan.verdict) == keeps


def test_reason_names_clause_and_what_to_change_in_both_languages() -> None:
    after = apply_profile(harrowlees(), load_profile("alberta"))
    text = after.reasons[0].text
    assert str(text) == "notch 20 % of the stump; Alberta s.518(4)(b) asks 25 to 33 %"
    assert render(text, GERMAN) == (
        "Fallkerb 20 % des Stocks; Alberta s.518(4)(b) verlangt 25 bis 33 %"
    )


def test_figure_is_written_finer_where_whole_percents_would_hide_the_breach() -> None:
    text = str(found(harrowlees(0.249), "alberta", "notch-depth").text)
    assert text.startswith("notch 24.9 % of the stump")


@pytest.mark.parametrize(("notch_share", "keeps"), [(0.25, False), (0.30, True), (1 / 3, True)])
def test_quebec_and_michigan_ask_about_a_third(notch_share: float, keeps: bool) -> None:
    """s.31(1)(b) and R 408.15336(3)."""
    plan = harrowlees(notch_share)
    for name in ("quebec", "michigan"):
        assert found(plan, name, "notch-depth").bars != keeps


@pytest.mark.parametrize(
    ("step_m", "opening_deg", "broken"),
    [(0.025, 45.0, set()), (0.024, 45.0, {"step"}), (0.03, 44.0, {"notch-opening"})],
)
def test_quebec_refuses_a_step_under_25_mm_and_an_opening_under_45_degrees(
    step_m: float, opening_deg: float, broken: set[str]
) -> None:
    """s.31(1)(b),(c)."""
    plan = harrowlees(1 / 3, "normal back cut")
    assert plan.cut is not None
    cut = replace(plan.cut, step_m=step_m, opening_rad=opening_deg / 45.0 * OPENING_45_RAD)
    findings = check_practice(replace(plan, cut=cut), load_profile("quebec"))
    assert {f.rule.id for f in findings if f.bars} == broken


OPENING_45_RAD = OPEN_FACE_RAD * 45.0 / 70.0


def test_federal_open_face_takes_no_step_and_a_flat_notch_takes_an_inch() -> None:
    plan = harrowlees(0.30, "normal back cut")
    assert plan.cut is not None
    flat = replace(plan, cut=replace(plan.cut, step_m=0.0))
    opened = replace(plan, cut=replace(plan.cut, step_m=0.0, opening_rad=OPEN_FACE_RAD))
    assert found(flat, "us-federal", "step").status == BROKEN
    assert found(flat, "us-federal", "back-cut-above").bars
    assert "step" not in ids(opened, "us-federal")
    assert not breaks_law(opened, load_profile("us-federal"))


def test_step_cannot_be_told_where_two_cuts_stand_at_two_heights() -> None:
    """A release cut above or below the steel leaves no one step."""
    assert found(harrowlees(), "quebec", "step").status == CANNOT_TELL
    assert found(harrowlees(0.2, "normal back cut"), "quebec", "step").status == KEPT


@pytest.mark.parametrize(
    ("dbh_cm", "hand_wedges", "others", "status"),
    [
        (40.0, 2, 0, KEPT),
        (40.0, 1, 0, BROKEN),
        (40.0, 0, 1, BROKEN),
        (40.0, 1, 1, CANNOT_TELL),
        (38.1, 1, 0, None),
        (38.2, 1, 0, BROKEN),
    ],
)
def test_oregon_asks_two_wedges_over_15_inch(
    dbh_cm: float, hand_wedges: int, others: int, status: str | None
) -> None:
    """OAR 437-007-0815(2); whether a turned device is a wedge is left to the feller."""
    tree = replace(example("harrowlees-11"), dbh_cm=dbh_cm)
    hand = [replace(device("Hand pair"), stacked=hand_wedges)] if hand_wedges else []
    plan = plan_of(tree, with_devices(*hand, *[device("Dipper")][:others]))
    findings = check_practice(plan, load_profile("oregon"))
    statuses = [f.status for f in findings if f.rule.id == "wedges-ready"]
    assert statuses == ([] if status is None else [status])


def test_oregon_bars_a_thick_tree_of_unknown_lean_without_a_wedge() -> None:
    """OAR 437-007-0815(3)."""
    tree = example("harrowlees-11-straight")
    bare = replace(van(), devices=())
    assert found(plan_of(tree, bare), "oregon", "wedge-used").bars
    assert found(plan_of(tree), "oregon", "wedge-used").status == KEPT
    assert "wedge-used" not in ids(plan_of(example("quernholt-17")), "oregon")


def test_struck_wedge_on_a_damaged_tree_breaks_oregon_washington_and_bavaria() -> None:
    """OAR 437-007-0810(7)(c), WAC 296-54-53930(3), forest owners' school."""
    plan = plan_of(example("harrowlees-11"), with_devices(device("Hand pair")))
    assert plan.outcome is not None
    assert plan.outcome.choice is not None
    damaged = replace(plan, tree=replace(plan.tree, defects=("dead top",)))
    for name in ("oregon", "washington"):
        assert found(damaged, name, "dead-tree").bars
        assert "dead-tree" not in ids(plan, name)
    germany = found(damaged, "germany", "struck-wedge")
    assert (germany.status, germany.bars) == (BROKEN, False)


def test_jack_rules_speak_of_a_jack_only_and_are_for_the_feller_to_check() -> None:
    """WAC 296-54-53940(4) to (10)."""
    jack = {"jack-plate", "jack-people", "jack-wedges", "jack-gauge", "jack-uphill"}
    plan = harrowlees()
    assert not jack & ids(plan, "washington")
    assert plan.outcome is not None
    assert plan.outcome.choice is not None
    ram = replace(plan.outcome, choice=replace(plan.outcome.choice, kind="hydraulic ram"))
    findings = check_practice(replace(plan, outcome=ram), load_profile("washington"))
    assert {f.rule.id for f in findings if f.status == CANNOT_TELL} >= jack


def test_ring_that_was_looked_at_is_two_tree_lengths() -> None:
    plan = harrowlees()
    assert found(plan, "alberta", "ring").status == KEPT
    assert found(plan, "us-federal", "ring-second-sawyer").status == CANNOT_TELL
    assert found(plan, "quebec", "ring-metres").status == KEPT
    low = plan_of(replace(example("harrowlees-11"), height_m=11.0, dbh_cm=18.0))
    assert found(low, "quebec", "ring-metres").status == CANNOT_TELL
    full = plan_of(replace(plan.tree, look=replace(plan.tree.look, ring_clear=False)))
    assert found(full, "alberta", "ring").bars


@pytest.mark.parametrize(
    ("voltage_kv", "room_m", "status"),
    [
        (0.4, 1.0, KEPT),
        (0.4, 0.9, BROKEN),
        (20.0, 3.0, KEPT),
        (20.0, 2.9, BROKEN),
        (220.0, 4.0, KEPT),
        (220.0, 3.9, BROKEN),
        (380.0, 4.9, BROKEN),
        (None, 5.0, KEPT),
        (None, 4.9, BROKEN),
    ],
)
def test_german_clearance_by_voltage_comes_on_top_of_the_tree(
    voltage_kv: float | None, room_m: float, status: str
) -> None:
    """DIN VDE 0105-100, table 103: 1, 3, 4, 5 m, unknown 5 m."""
    tree = example("harrowlees-11")
    assert tree.height_m is not None
    line = Conductor(tree.height_m + room_m, None, voltage_kv)
    plan = plan_of(replace(tree, conductors=(line,)))
    findings = check_practice(plan, load_profile("germany"))
    assert [f.status for f in findings if f.rule.subject == "line_clearance"] == [status]
    switched = replace(plan, tree=replace(tree, conductors=(replace(line, switched_off=True),)))
    assert not any("clearance" in rule_id for rule_id in ids(switched, "germany"))


def test_line_of_a_plan_is_held_against_twice_the_pull_and_two_tree_lengths() -> None:
    """Forest owners' school and DGUV 114-018, 3.2.6.6."""
    tree = example("harrowlees-11")
    well_read = replace(tree.lean[0], offset_m=0.8, how=None, error_m=0.08)
    plan = plan_of(replace(tree, lean=(well_read,)), with_devices(device("Plover")))
    assert plan.verdict == LINE
    assert plan.outcome is not None
    assert found(plan, "germany", "rope-strength").status == KEPT
    assert found(plan, "germany", "rope-length").status == KEPT
    weak = tuple(replace(n, strength_n=1.9 * n.tension_n, rope_m=45.0) for n in plan.outcome.lines)
    plan = replace(plan, outcome=replace(plan.outcome, lines=weak))
    assert found(plan, "germany", "rope-strength").status == BROKEN
    assert found(plan, "germany", "rope-length").status == BROKEN
    assert "rope-length" not in ids(harrowlees(), "germany")


def test_felling_lever_serves_20_cm_of_dbh_in_germany() -> None:
    tree = example("pikeless-moss-33")
    lever = replace(tree, cut=replace(tree.cut, method="felling lever"))
    assert found(plan_of(lever), "germany", "lever").status == KEPT
    thick = replace(lever, dbh_cm=21.0, stump_diameter_cm=26.0)
    assert found(plan_of(thick), "germany", "lever").status == BROKEN
    assert found(plan_of(thick), "germany", "lever-stem").status == BROKEN
    assert "lever" not in ids(plan_of(tree), "germany")


def test_no_way_out_bars_hand_felling_in_quebec() -> None:
    """s.30(1)(g), s.30(3)."""
    tree = example("harrowlees-11")
    plan = plan_of(replace(tree, look=replace(tree.look, ways_out=0)))
    bars = {f.rule.id for f in check_practice(plan, load_profile("quebec")) if f.bars}
    assert bars >= {"way-out", "no-hand-felling"}


# --- guidance, memory, disagreement -----------------------------------------------------------


def test_broken_guidance_is_a_caution_and_no_bar() -> None:
    plan = harrowlees()
    after = apply_profile(plan, load_profile("us-federal"))
    assert (after.verdict, after.reasons) == (plan.verdict, plan.reasons)
    first = after.cautions[len(plan.cautions)]
    assert first.code == "guidance"
    assert "of dbh; US federal eTool" in str(first.text)


def test_what_a_plan_cannot_tell_is_a_caution_to_check() -> None:
    after = apply_profile(harrowlees(), load_profile("oregon"))
    texts = {str(c.text) for c in after.cautions if c.code == "check_yourself"}
    wanted = "check yourself: a way out of at least 7.62 m from the stump"
    assert any(text.startswith(wanted) for text in texts)


def test_memory_is_shown_as_such_and_bars_nothing() -> None:
    plan = harrowlees(1 / 3)
    finding = found(plan, "united-kingdom", "notch-depth")
    assert (finding.status, finding.bars) == (RECALLED, False)
    assert str(finding.text).startswith("from memory, not looked up")
    after = apply_profile(plan, load_profile("united-kingdom"))
    assert after.verdict == plan.verdict
    assert "memory" in {caution.code for caution in after.cautions}


def test_law_of_ones_own_that_was_not_read_does_not_bar() -> None:
    def own(mark: str) -> Profile:
        rule = {
            "id": "notch",
            "subject": "notch_share",
            "low": 0.25,
            "unit": "share",
            "force": "law",
            "clause": "4",
            "source": "site rules",
            "mark": mark,
        }
        return parse_profile({"name": "ours", "title": "Harrowlees", "rule": [rule]}, "ours.toml")

    assert apply_profile(harrowlees(), own("SEEN")).verdict == LEAVE
    after = apply_profile(harrowlees(), own("PRACTICE"))
    assert after.verdict == harrowlees().verdict
    assert (
        str(after.cautions[-1].text) == "notch 20 % of the stump; Harrowlees 4 asks at least 25 %"
    )


def test_general_lists_disagreements_as_cautions_and_bars_nothing() -> None:
    plan = harrowlees()
    after = apply_profile(plan, load_profile("general"))
    added = after.cautions[len(plan.cautions) :]
    assert after.verdict == plan.verdict
    assert {caution.code for caution in added} == {"conflict"}
    damaged = replace(plan, tree=replace(plan.tree, defects=("dead limbs", "hung")))
    assert ids(damaged, "general") - ids(plan, "general") == {
        "dead-wedging",
        "hung-freeing",
        "hung-pieces",
    }


def test_unanswered_look_stays_to_be_measured_and_names_the_law_too() -> None:
    tree = replace(example("harrowlees-11"), look=Look())
    plan = plan_of(tree)
    after = apply_profile(plan, load_profile("alberta"))
    assert after.verdict == plan.verdict
    assert after.reasons[: len(plan.reasons)] == plan.reasons
    assert after.reasons[-1].code == "law"
    assert after.if_clear == LEAVE


# --- proposals --------------------------------------------------------------------------------

STUMPS = st.floats(0.12, 1.5)
SWELLS = st.floats(1.0, 1.4)


def test_without_a_profile_the_proposal_is_the_tools_own() -> None:
    own = proposal_for(None, 0.46, 0.40)
    assert own == proposal_for(load_profile("general"), 0.46, 0.40)
    assert (own.notch_share, own.hinge_m, own.step_m) == (0.20, 0.046, 0.035)


@pytest.mark.parametrize(
    ("name", "notch_share", "step_m", "opening_deg"),
    [
        ("alberta", 1 / 4, 0.035, 45.0),
        ("quebec", 1 / 3, 0.035, 45.0),
        ("michigan", 1 / 3, 0.0508, 45.0),
        ("new-brunswick", 1 / 4, 0.035, 70.0),
        ("germany", 1 / 5, 0.046, 45.0),
        ("united-kingdom", 1 / 5, 0.035, 45.0),
    ],
)
def test_proposal_moves_as_little_as_the_profile_asks(
    name: str, notch_share: float, step_m: float, opening_deg: float
) -> None:
    own = proposal_for(load_profile(name), 0.46, 0.40)
    assert own.notch_share == pytest.approx(notch_share)
    assert own.step_m == pytest.approx(step_m)
    assert own.opening_rad == pytest.approx(opening_deg / 45.0 * OPENING_45_RAD)


def test_german_step_is_a_tenth_and_3_cm_at_least() -> None:
    """A stem of 20 cm keeps the tool's own 35 mm, which is over both."""
    steps = [proposal_for(load_profile("germany"), d, d).step_m for d in (0.20, 0.30, 0.50, 0.80)]
    assert steps == pytest.approx([0.035, 0.030, 0.050, 0.080])


def facts_of_proposal(profile: Profile, stump_m: float, dbh_m: float) -> PlanFacts:
    own = proposal_for(profile, stump_m, dbh_m)
    cut = CutFacts(
        stem=Stem(stump_m, dbh_m),
        notch_m=own.notch_share * stump_m,
        opening_rad=own.opening_rad,
        hinge_m=own.hinge_m,
        hinge_length_m=0.8 * dbh_m,
        step_m=own.step_m,
        method="normal back cut",
    )
    tree = Tree(dbh_cm=100.0 * dbh_m)
    return PlanFacts(tree, 20.0, "softwood", cut, (0.1, 0.5), False, ADDS_UP, None, (), ())


PROPOSED = ("notch_share", "notch_opening", "hinge", "hinge_share", "step", "step_share")


@pytest.mark.parametrize("name", profile_names())
@given(stump_m=STUMPS, swell=SWELLS)
def test_no_proposal_breaks_a_law(name: str, stump_m: float, swell: float) -> None:
    profile = load_profile(name)
    facts = facts_of_proposal(profile, stump_m, stump_m / swell)
    for rule in profile.rules:
        if rule.subject in PROPOSED and rule.force == LAW and applies(rule, facts):
            value = FIGURES[rule.subject](rule, facts)
            assert value is not None
            assert not is_outside(rule, value)


@given(stump_m=STUMPS, wanted=st.floats(0.1, 0.5))
def test_deeper_notch_is_held_within_the_law(stump_m: float, wanted: float) -> None:
    held = share_within(load_profile("alberta"), wanted, stump_m, None)
    assert held == min(max(wanted, 1 / 4), 1 / 3)
    assert share_within(None, wanted, stump_m, None) == wanted


def test_reverse_notch_is_never_taken_for_granted() -> None:
    assert notch_fits("reverse notch", OPENING_45_RAD) is False
    assert notch_fits("hydraulic ram", OPENING_45_RAD) is None


# --- whatever the plan ------------------------------------------------------------------------


@given(name=st.sampled_from(profile_names()), case=cases())
def test_choosing_a_profile_never_makes_a_plan_bolder(name: str, case: Case) -> None:
    plan = case.plan(QUICK)
    profile = load_profile(name)
    after = apply_profile(plan, profile)
    assert boldness(after.verdict) <= boldness(plan.verdict)
    assert boldness(after.if_clear) <= boldness(plan.if_clear)
    findings = check_practice(plan, profile)
    if any(finding.bars for finding in findings):
        assert not after.may_cut
        assert after.marks is None
    assert check_practice(after, profile) == findings
    for finding in findings:
        assert finding.status in (KEPT, BROKEN, CANNOT_TELL, RECALLED)
        assert render(finding.text)
        assert render(finding.text, GERMAN)


@pytest.mark.parametrize("name", profile_names())
def test_refused_and_empty_trees_are_held_against_a_profile_without_figures(name: str) -> None:
    for tree in (Tree(), replace(example("harrowlees-11"), defects=("lodged",))):
        plan = plan_of(tree)
        after = apply_profile(plan, load_profile(name))
        assert after.verdict == plan.verdict
        assert after.marks is None


def test_response_carries_clause_text_status_and_force() -> None:
    profile = load_profile("alberta")
    rows = practice_response(check_practice(harrowlees(), profile))
    assert rows[1] == {
        "rule": "notch-depth",
        "clause": "s.518(4)(b)",
        "text": "notch 20 % of the stump; Alberta s.518(4)(b) asks 25 to 33 %",
        "status": "broken",
        "force": "law",
        "mark": "SEEN",
        "sources": ["Alberta-OHS-Code"],
    }
    german = practice_response(check_practice(harrowlees(), profile), GERMAN)
    assert str(german[1]["text"]).startswith("Fallkerb 20 %")


# --- words ------------------------------------------------------------------------------------

DIMENSIONS = {dimension for dimension in SUBJECTS.values() if dimension}
BOUNDED = {d for s, d in SUBJECTS.items() if d and s not in THRESHOLDS}
BOUNDS = ("_about", "_between", "_least", "_most")
HIDDEN = {"share", "angle", "size"}
PART_UNITS = {"distance", "diameter"}


@pytest.mark.parametrize("language", ["en", "de"])
def test_words_hold_what_profiles_can_ask_and_nothing_else(language: str) -> None:
    frames = {"kept", "within", "check", "conflict", "recalled", "profile_own", "of_dbh"}
    frames |= {"of_stump", "broken_law", "broken_guidance", "not_kept_law", "not_kept_guidance"}
    wanted = frames | set(SUBJECTS) | {f"have_{subject}" for subject in FIGURES}
    wanted |= DIMENSIONS | {f"{dimension}{bound}" for dimension in BOUNDED for bound in BOUNDS}
    wanted |= {f"{dimension}_fine" for dimension in HIDDEN | PART_UNITS}
    titles = set(TITLES.values())
    known = {key for key in catalogue(language) if key.startswith("practice.")}
    assert known == {f"practice.{key}" for key in wanted} | titles
    assert set(TITLES) == set(profile_names())


@pytest.mark.parametrize("dimension", sorted(BOUNDED))
def test_every_bound_of_every_dimension_can_be_written(dimension: str) -> None:
    subject = next(s for s, d in SUBJECTS.items() if d == dimension and s not in THRESHOLDS)
    written = set()
    for low, high, about in (
        (0.3, None, None),
        (None, 0.3, None),
        (0.2, 0.3, None),
        (None, None, 0.3),
    ):
        rule = Rule("own", subject, "guidance", "4", ("site rules",), "SEEN", low, high, about)
        findings = check_practice(harrowlees(), Profile("ours", "Harrowlees", (), (rule,)))
        written |= {render(finding.text, GERMAN) for finding in findings}
    assert all("Harrowlees 4" in text for text in written)
    assert len(written) == 4
