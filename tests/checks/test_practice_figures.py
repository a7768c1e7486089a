"""Figures of law and guidance as read, typed a second time beside their clause.

Lengths in metres, angles in degrees, the rest as shares, tree lengths, counts.
"""

import math

import pytest

from fellwright.physics.notch import chord_m
from fellwright.tables.practice_subjects import CONFLICT
from fellwright.tables.profiles import load_profile, profile_names

pytestmark = pytest.mark.check

INCH_M, FOOT_M = 0.0254, 0.3048
N = None
# profile, subject, clause, low, high, about
FIGURES = [
    ("us-federal", "notch_share", "eTool, kinds of notches, depth", 1 / 4, 1 / 3, N),
    ("us-federal", "notch_opening", "eTool, kinds of notches, total angle", N, N, 45),
    ("us-federal", "notch_opening", "eTool, kinds of notches, total angle", 70, N, N),
    ("us-federal", "hinge_share", "eTool, felling hinge, bullet 2", N, N, 0.10),
    ("us-federal", "hinge_length_share", "eTool, felling hinge, bullet 1", N, N, 0.80),
    ("us-federal", "step", "eTool, kinds of notches, back cut", INCH_M, N, N),
    ("us-federal", "ring", "1910.266(h)(1)", 2, N, N),
    ("us-federal", "ring", "Forest Service slide 9", 2.5, N, N),
    ("us-federal", "danger_tree_ring", "1910.266(h)(1)", 2, N, N),
    ("us-federal", "way_out_angle", "Logging Advisor, retreat path", N, N, 45),
    ("us-federal", "way_out_length", "Logging Advisor, retreat path", 20 * FOOT_M, N, N),
    ("oregon", "wedges_ready", "OAR 437-007-0815(2)", 2, N, N),
    ("oregon", "way_out_length", "OAR 437-007-0810(9),(10)", 25 * FOOT_M, N, N),
    ("washington", "notch_share", "WAC 296-54-53910(10), example", N, N, 0.25),
    ("washington", "notch_needed_over", "WAC 296-54-53910(10)", N, 6 * INCH_M, N),
    ("washington", "machines_ring", "WAC 296-54-53910(5)", 2, N, N),
    ("washington", "ring", "WAC 296-54-539(1)-(3)", 2, N, N),
    ("washington", "jack_people", "WAC 296-54-53940(5)", 2, N, N),
    ("washington", "slope_quartered", "WAC 296-54-53940(9)", N, 0.50, N),
    ("alberta", "ring", "s.518(2)", 2, N, N),
    ("alberta", "notch_share", "s.518(4)(b)", 1 / 4, 1 / 3, N),
    ("alberta", "wedges_ready", "s.518(4)(f)", 1, N, N),
    ("alberta", "road_signs", "s.522", 30, 90, N),
    ("british-columbia", "ring", "s.26.1", 2, N, N),
    ("british-columbia", "notch_share", "competency sheet p.3", 0.25, 0.40, N),
    ("british-columbia", "step_share", "competency sheet p.3", 0.05, 0.10, N),
    ("british-columbia", "step_share", "competency sheet p.3", 0, 0.05, N),
    ("quebec", "ring", "s.1", 1, N, N),
    ("quebec", "ring_metres", "s.1", 22.5, N, N),
    ("quebec", "feller_separation", "s.29", 45, N, N),
    ("quebec", "ways_out", "s.30(1)(g)", 1, N, N),
    ("quebec", "way_out_angle", "s.30(1)(g)", N, N, 45),
    ("quebec", "way_out_from_stem", "s.30(1)(g)", 2, N, N),
    ("quebec", "snags_by_hand", "s.30(2)", N, 50, N),
    ("quebec", "fork_method", "s.30(4)", N, 1.3, N),
    ("quebec", "notch_needed_over", "s.31(1)", N, 0.15, N),
    ("quebec", "notch_share", "s.31(1)(b)", N, N, 1 / 3),
    ("quebec", "notch_opening", "s.31(1)(b)", 45, N, N),
    ("quebec", "step", "s.31(1)(c)", 0.025, N, N),
    ("new-brunswick", "notch_share", "leaflet, notching", N, N, 0.25),
    ("new-brunswick", "notch_opening", "leaflet, notching", 70, N, N),
    ("new-brunswick", "ring", "leaflet, before you begin", 2, N, N),
    ("new-brunswick", "ring_metres", "leaflet, before you begin", 40, N, N),
    ("michigan", "ring", "R 408.15336(2)", 2, N, N),
    ("michigan", "notch_share", "R 408.15336(3)", N, N, 1 / 3),
    ("michigan", "step", "R 408.15336(4)", N, N, 2 * INCH_M),
    ("germany", "notch_opening", "SVLFG, Faellhilfe, step 1", 45, 60, N),
    ("germany", "hinge_share", "GBG 1, p.21", 0.10, N, N),
    ("germany", "step_share", "GBG 1, p.21", N, N, 0.10),
    ("germany", "lever_most", "SVLFG, Faellhilfe", N, 0.20, N),
    ("germany", "lever_most", "SVLFG, winch note", N, 0.25, N),
    ("germany", "ring", "DGUV 114-018, Fallbereich", 2, N, N),
    ("germany", "line_strength", "forest owners' school, winch equipment", 2, N, N),
    ("germany", "rope_lengths", "DGUV 114-018, 3.2.6.6", 2, N, N),
    ("switzerland", "ring", "EKAS 2134, 5.1.5", 2, N, N),
    ("united-kingdom", "ring", "estate worker, list", 2, N, N),
    ("united-kingdom", "line_reach", "estate worker, list", 2, N, N),
    ("sweden", "ring", "AFS 2012:1, point 4", 1, N, N),
]
# Least clearance [m] up to a voltage [kV]; None: voltage not known.
CLEARANCES = [(1, 1), (110, 3), (220, 4), (380, 5), (None, 5)]


@pytest.mark.parametrize(("name", "subject", "clause", "low", "high", "about"), FIGURES)
def test_figure_stands_in_its_profile_as_read(
    name: str,
    subject: str,
    clause: str,
    low: float | None,
    high: float | None,
    about: float | None,
) -> None:
    rules = [r for r in load_profile(name).rules if (r.subject, r.clause) == (subject, clause)]
    assert all(rule.mark == "SEEN" for rule in rules)
    factor = math.pi / 180.0 if rules[0].dimension == "angle" else 1.0
    wanted = tuple(None if value is None else value * factor for value in (low, high, about))
    found = [(rule.low, rule.high, rule.about) for rule in rules]
    assert any(bounds == pytest.approx(wanted, nan_ok=False) for bounds in found), found


def test_every_seen_figure_is_typed_twice() -> None:
    twice = {(name, subject, clause) for name, subject, clause, *_ in FIGURES}
    for name in profile_names():
        for rule in load_profile(name).rules:
            has_figure = not (rule.low is None and rule.high is None and rule.about is None)
            if rule.mark == "SEEN" and has_figure and rule.force != CONFLICT:
                if rule.subject == "line_clearance":
                    continue
                assert (name, rule.subject, rule.clause) in twice


@pytest.mark.parametrize(("upto_kv", "clearance_m"), CLEARANCES)
def test_german_clearances_rise_with_the_voltage(upto_kv: float | None, clearance_m: float) -> None:
    """DIN VDE 0105-100, table 103: 1, 3, 4, 5 m up to 1, 110, 220, 380 kV, unknown 5 m."""
    rules = [r for r in load_profile("germany").rules if r.subject == "line_clearance"]
    found = [r.low for r in rules if r.when.upto_kv == upto_kv]
    assert found == [clearance_m]
    assert len(rules) == len(CLEARANCES)


def test_two_wedges_are_asked_over_15_inch_and_used_where_the_lean_is_not_predictable() -> None:
    """OAR 437-007-0815(2),(3)."""
    ready, used = (
        next(r for r in load_profile("oregon").rules if r.subject == subject)
        for subject in ("wedges_ready", "wedge_used")
    )
    for rule in (ready, used):
        assert rule.when.over_m == pytest.approx(15 * INCH_M)
        assert rule.when.diameter_of == "dbh"
        assert rule.bars
    assert used.when.cases == ("lean not predictable",)


def test_washington_asks_wedges_plate_gauge_and_no_uphill_of_a_jack() -> None:
    """WAC 296-54-53940(4),(6),(7),(8),(10)."""
    rules = {r.subject: r for r in load_profile("washington").rules}
    clauses = {"jack_plate": "(4)", "jack_follow_up": "(6)", "jack_gauge": "(7)"}
    clauses["jack_uphill"] = "(8),(10)"
    for subject, clause in clauses.items():
        assert rules[subject].clause == f"WAC 296-54-53940{clause}"
        assert rules[subject].when.cases == ("hydraulic ram",)
        assert rules[subject].bars


def test_washington_example_opens_by_39_degrees() -> None:
    """Opening of 0.20 D over a depth of 0.25 D."""
    rule = next(r for r in load_profile("washington").rules if r.subject == "notch_opening")
    assert rule.low == pytest.approx(math.atan(0.20 / 0.25), abs=2e-4)
    assert rule.mark == "DERIVED"


def test_federal_manual_opens_least_by_its_own_figures() -> None:
    """2.5 in a foot of diameter over a third of it: 32 degrees, not the 45 it names."""
    rule = next(r for r in load_profile("general").rules if r.subject == "conflict_notch_opening")
    assert rule.low == pytest.approx(math.atan(2.5 / 12.0 * 3.0), abs=0.005)


def test_hinge_of_four_fifths_of_dbh_fits_behind_a_notch_of_a_quarter() -> None:
    hinge = next(r for r in load_profile("us-federal").rules if r.subject == "hinge_length_share")
    assert hinge.about is not None
    assert hinge.about < chord_m(1.0, 0.25)
    assert hinge.about == pytest.approx(chord_m(1.0, 0.20))


def test_general_bounds_are_the_extremes_of_the_profiles() -> None:
    general = {r.subject: r for r in load_profile("general").rules}
    others = [load_profile(name).rules for name in profile_names() if name != "general"]
    rings = [r.low for rules in others for r in rules if r.subject == "ring" and r.low is not None]
    ring = general["conflict_ring"]
    assert (ring.low, ring.high) == (min(rings), max(rings))
    lever = general["conflict_lever"]
    levers = {r.high for rules in others for r in rules if r.subject == "lever_most"}
    assert levers == {lever.low, lever.high}
