"""The stump card against its plan: bands of the same draws, percentiles, flags."""

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.plans.cases import example, van

from fellwright.planning.chance import draw_points
from fellwright.planning.need import draw_need
from fellwright.planning.plan import Options
from fellwright.planning.stump_record import StumpReport, StumpRow, compare_stump
from fellwright.planning.tip import plan_tip
from fellwright.records.stump_fields import WENT, StumpRecord
from fellwright.records.tree import Tree

OPTIONS = Options(draws=256, bare=True)
BASE = example("harrowlees-11")
PLAN = plan_tip(BASE, van(), OPTIONS)


def row(report: StumpReport, key: str) -> StumpRow:
    (found,) = [one for one in report.rows if one.key == key]
    return found


def codes(record: StumpRecord) -> list[str]:
    return [flag.code for flag in compare_stump(PLAN, record).flags]


def test_an_empty_card_predicts_and_compares_nothing() -> None:
    report = compare_stump(PLAN, StumpRecord())
    assert [one.key for one in report.rows] == ["lift", "hinge", "notch", "step", "push"]
    for one in report.rows:
        assert (one.real, one.percentile, one.place, one.counts) == (None, None, None, False)
    assert row(report, "lift").predicted is not None
    assert report.flags == ()
    assert report.lay is None


def test_predicted_lift_is_that_of_the_plan_and_what_the_device_loses() -> None:
    assert PLAN.outcome is not None
    choice = PLAN.outcome.choice
    assert choice is not None
    assert choice.driven is not None
    lost = choice.driven.figures.lost_m
    band = row(compare_stump(PLAN, StumpRecord()), "lift").predicted
    assert band is not None
    for got, planned in zip(band, PLAN.outcome.figures.let_go_lift_m, strict=True):
        assert got == pytest.approx(planned + lost)
    push = row(compare_stump(PLAN, StumpRecord()), "push").predicted
    assert push == PLAN.outcome.figures.push_n


def test_the_percentile_is_counted_in_the_draws_themselves() -> None:
    assert PLAN.situation is not None
    needs = [draw_need(u, PLAN.situation, 0.0) for u in draw_points(256, 1)]
    real = 30.0
    below = sum(n.let_go_lift_m + 0.004 < 0.030 for n in needs) / len(needs)
    record = StumpRecord(lift_used_mm=real, device="Dipper")
    assert row(compare_stump(PLAN, record), "lift").percentile == pytest.approx(100.0 * below)


@given(st.floats(0.0, 90.0), st.floats(0.0, 90.0))
@settings(max_examples=40, deadline=None)
def test_more_lift_never_stands_lower_in_the_draws(a: float, b: float) -> None:
    found = [
        row(compare_stump(PLAN, StumpRecord(lift_used_mm=real)), "lift") for real in sorted((a, b))
    ]
    shares = [one.percentile for one in found]
    assert None not in shares
    assert shares == sorted(shares, key=float)  # type: ignore[arg-type]  # none is None
    for one in found:
        assert one.predicted is not None
        assert one.real is not None
        inside = one.predicted.p10 <= one.real <= one.predicted.p90
        assert (one.place == "in") == inside
        if not inside:
            assert one.place == ("below" if one.real < one.predicted.p10 else "above")


def test_turns_are_lift_through_the_thread_of_the_device_that_was_used() -> None:
    for name, per_turn_m in (("dipper", 0.0022), ("Bittern", 0.0012)):
        report = compare_stump(PLAN, StumpRecord(turns_used=14.0, device=name))
        assert report.device == name.capitalize()
        assert row(report, "lift").real == pytest.approx(14.0 * per_turn_m)
    assert PLAN.outcome is not None
    assert PLAN.outcome.choice is not None
    assert compare_stump(PLAN, StumpRecord(turns_used=14.0)).device == PLAN.outcome.choice.name


@pytest.mark.parametrize("device", ["Hand pair", "Heron"])
def test_turns_of_what_has_no_thread_are_told_and_not_guessed(device: str) -> None:
    report = compare_stump(PLAN, StumpRecord(turns_used=14.0, device=device))
    assert row(report, "lift").real is None
    assert "stump.turns_tell_nothing" in {note.key for note in report.notes}


def test_a_device_that_the_kit_does_not_hold_is_told() -> None:
    report = compare_stump(PLAN, StumpRecord(lift_used_mm=31.0, device="Heron"))
    assert "stump.device_unknown" in {note.key for note in report.notes}
    assert report.device == "Heron"
    assert row(report, "lift").place == "in"


def test_the_hinge_is_the_mean_of_what_was_measured() -> None:
    def real(**sides: float) -> float | None:
        return row(compare_stump(PLAN, StumpRecord(**sides)), "hinge").real  # type: ignore[arg-type]

    assert real(hinge_left_mm=52.0, hinge_mid_mm=47.0, hinge_right_mm=43.0) == pytest.approx(
        0.142 / 3.0
    )
    assert real(hinge_left_mm=52.0, hinge_right_mm=40.0) == pytest.approx(0.046)
    assert real(hinge_mid_mm=46.0) == pytest.approx(0.046)


@pytest.mark.parametrize(
    ("left", "right", "code", "sentence"),
    [
        (46.0, 46.0, None, None),
        (46.0, 41.0, None, None),
        (41.0, 46.5, "uneven", "stump.thick_right"),
        (56.0, 46.0, "uneven", "stump.thick_left"),
        (56.1, 46.0, "taper", "stump.thick_left"),
        (0.0, 46.0, "taper", "stump.thick_right"),
    ],
)
def test_unequal_sides_are_flagged_with_the_thick_one(
    left: float, right: float, code: str | None, sentence: str | None
) -> None:
    flags = compare_stump(PLAN, StumpRecord(hinge_left_mm=left, hinge_right_mm=right)).flags
    found = {flag.code: flag.text.key for flag in flags if flag.code in ("uneven", "taper")}
    assert found == ({} if code is None else {code: sentence})


@pytest.mark.parametrize(("mismatch", "flagged"), [(0.0, False), (10.0, False), (10.5, True)])
def test_a_notch_mismatch_over_ten_millimetres_is_flagged(mismatch: float, flagged: bool) -> None:
    assert ("mismatch" in codes(StumpRecord(notch_mismatch_mm=mismatch))) == flagged


def test_the_lay_is_told_in_degrees_and_metres_at_the_top_whichever_was_read() -> None:
    by_angle = compare_stump(PLAN, StumpRecord(lay_error_deg=3.0, lay_side="left")).lay
    beside = 20.0 * math.tan(math.radians(3.0))
    by_metres = compare_stump(
        PLAN, StumpRecord(lay_beside_m=beside, lay_distance_m=20.0, lay_side="left")
    ).lay
    assert by_angle is not None
    assert by_metres is not None
    assert by_angle.error_rad == pytest.approx(by_metres.error_rad)
    assert by_angle.beside_m == pytest.approx(25.0 * math.sin(math.radians(3.0)))
    assert by_angle.text.key == "stump.lay_left_beside"
    assert "lay_off" in codes(StumpRecord(lay_error_deg=3.0, lay_side="left"))
    assert "lay_off" not in codes(StumpRecord(lay_error_deg=2.0, lay_side="left"))
    straight = compare_stump(PLAN, StumpRecord(lay_error_deg=0.0)).lay
    assert straight is not None
    assert straight.text.key == "stump.lay_true"


@pytest.mark.parametrize("word", [word for word in WENT if word != "no fault seen"])
def test_whatever_went_wrong_is_flagged(word: str) -> None:
    assert codes(StumpRecord(went=(word,))) == [word.replace(" ", "_")]


def test_nothing_is_flagged_where_no_fault_was_seen() -> None:
    assert codes(StumpRecord(went=("no fault seen",), hinge_mid_mm=46.0, lift_used_mm=31.0)) == []


@pytest.mark.parametrize("word", ["early go", "sat back", "split", "device came out"])
def test_a_lift_that_is_not_the_lift_at_let_go_is_not_learned_from(word: str) -> None:
    found = row(compare_stump(PLAN, StumpRecord(lift_used_mm=5.0, went=(word,))), "lift")
    assert not found.counts
    assert f"lift_{found.place}" not in codes(StumpRecord(lift_used_mm=5.0, went=(word,)))
    assert row(compare_stump(PLAN, StumpRecord(lift_used_mm=5.0)), "lift").counts


def test_outside_the_band_is_flagged() -> None:
    assert codes(StumpRecord(lift_used_mm=90.0)) == ["lift_above"]
    assert codes(StumpRecord(lift_used_mm=5.0)) == ["lift_below"]
    assert codes(StumpRecord(hinge_mid_mm=20.0)) == ["hinge_below"]
    assert codes(StumpRecord(notch_depth_cm=15.0)) == ["notch_above"]


UNPREDICTED = {
    "no readings": Tree(name="bare"),
    "lodged": replace(BASE, defects=("lodged",)),
}


@pytest.mark.parametrize("name", UNPREDICTED)
def test_a_tree_without_figures_has_a_card_all_the_same(name: str) -> None:
    plan = plan_tip(UNPREDICTED[name], van(), OPTIONS)
    record = StumpRecord(
        hinge_left_mm=50.0,
        hinge_right_mm=30.0,
        lift_used_mm=31.0,
        lay_error_deg=5.0,
        lay_side="right",
        went=("hung",),
    )
    report = compare_stump(plan, record)
    assert "stump.no_prediction" in {note.key for note in report.notes}
    assert row(report, "lift").predicted is None
    assert row(report, "lift").real == pytest.approx(0.031)
    assert {flag.code for flag in report.flags} == {"hung", "taper", "lay_off"}


def test_a_tree_that_went_by_itself_predicts_no_lift() -> None:
    plan = plan_tip(example("quernholt-17"), van(), OPTIONS)
    assert plan.outcome is not None
    assert plan.outcome.goes_by_itself
    report = compare_stump(plan, StumpRecord())
    assert report.device is None
    assert row(report, "lift").predicted is None
