"""What a card says: as on every other face, nothing to cut by where nothing may be cut."""

import json
import math
from pathlib import Path

import pytest
from tests.print.reading import (
    EXAMPLES,
    STYLES,
    example_plan,
    read_pages,
    strings,
    variant_plans,
)
from tests.words.test_catalogue import FORBIDDEN

from fellwright import __version__
from fellwright.planning.chance import Doubt
from fellwright.planning.plan import Plan
from fellwright.planning.reasons import say_verdict
from fellwright.print import lay_out, write_card
from fellwright.print.lean import clock_hour, lean_direction_rad
from fellwright.words import LANGUAGES, Style, quantity, render, say


def refused() -> dict[str, Plan]:
    return {name: plan for name, plan in variant_plans().items() if not plan.may_cut}


def test_variants_hold_every_verdict() -> None:
    verdicts = {plan.verdict for plan in variant_plans().values()}
    assert verdicts == {"ADDS UP", "TIGHT", "LINE", "LEAVE", "MEASURE"}


@pytest.mark.parametrize("name", EXAMPLES)
@pytest.mark.parametrize("style", STYLES, ids=str)
def test_paper_says_verdict_reason_marks_and_turns(name: str, style: Style, tmp_path: Path) -> None:
    plan = example_plan(name)
    (page,) = read_pages(write_card(plan, tmp_path / "card.pdf", style))
    assert page.text.startswith(f"{name_of(plan)} {render(say_verdict(plan.verdict), style)}")
    assert unbroken(render(plan.reasons[0].text, style)) in unbroken(page.text)
    assert plan.marks is not None
    written = [
        f"{quantity(mark.from_front_mm / 1000.0, 'mark', style)} "
        f"{render(say(f'mark.{mark.key}'), style)}"
        for mark in plan.marks.marks
    ]
    places = [page.text.find(mark) for mark in written]
    assert min(places) > 0
    assert places == sorted(places), "marks stand in their order from the front"
    assert plan.cut is not None
    assert render(say("card.hinge", hinge=plan.cut.hinge_m), style) in page.text
    if plan.marks.turns is not None:
        stop = f"{plan.marks.turns.stop:.0f} {render(say('card.turn_stop'), style)}"
        assert stop in page.text
        for count in (plan.marks.turns.balance, plan.marks.turns.let_go):
            assert f"{count[1]:.0f} {count[0]:.0f} \N{EN DASH} {count[2]:.0f}" in page.text


def unbroken(text: str) -> str:
    """Leave out spaces and hyphens, which a line break may add or drop."""
    return text.replace(" ", "").replace("-", "")


def name_of(plan: Plan) -> str:
    assert plan.tree.name is not None
    return plan.tree.name


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_card_carries_standing_caution_engine_and_lines_to_fill_in(language: str) -> None:
    style = Style(language)
    for name, plan in variant_plans().items():
        card = lay_out(plan, style)
        assert card["standing"] == render(say("caution.local_law"), style), name
        engine = str(card["engine"])
        assert __version__ in engine
        assert f" {plan.options.seed}, {plan.options.draws} " in engine
        blanks = card["blanks"]
        assert isinstance(blanks, list)
        for key in ("signer", "date", "signature", "rescue"):
            assert render(say(f"card.{key}"), style) in blanks


def test_no_hinge_marks_or_turns_where_nothing_may_be_cut() -> None:
    for name, plan in refused().items():
        card = lay_out(plan, Style())
        assert card["no_cut"] == render(say("card.no_cut"))
        assert (card["marks"], card["turns"], card["device"], card["cut"]) == (None, None, [], [])
        bars = card["bars"]
        assert isinstance(bars, list)
        assert all(bar["have"] is None for bar in bars)
        # A device or hammer may stand in a reason; a count of turns may stand nowhere.
        assert "STOP" not in json.dumps(card), name


@pytest.mark.parametrize("verdict", ["LEAVE", "MEASURE"])
@pytest.mark.parametrize("language", LANGUAGES)
def test_paper_says_in_large_type_that_nothing_is_to_be_cut(
    verdict: str, language: str, tmp_path: Path
) -> None:
    style = Style(language)
    plan = next(p for p in refused().values() if p.verdict == verdict and p.outcome is not None)
    for paper in ("a5", "a4"):
        (page,) = read_pages(write_card(plan, tmp_path / "card.pdf", style, paper))
        large = " ".join(text for size, text in page.letters.items() if size >= 18.0)
        assert render(say("card.no_cut"), style) in large
        assert render(say_verdict(verdict), style) in large
        for key in ("card.turn_stop", "card.turns", "card.marks", "mark.hinge_back_edge"):
            assert render(say(key), style) not in page.text


def test_measure_card_names_what_to_measure() -> None:
    for name, plan in refused().items():
        words = lay_out(plan, Style())["measure_next"]
        if plan.verdict == "MEASURE" and plan.measure_next is not None:
            assert words == [
                render(say("show.measure_next")).strip(),
                str(plan.measure_next.text),
            ], name
        else:
            assert words == []


@pytest.mark.parametrize("style", STYLES[1:3], ids=str)
def test_no_card_calls_anything_safe_or_grants_permission(style: Style) -> None:
    for plan in variant_plans().values():
        written = " ".join(strings({**lay_out(plan, style, "a4"), "shape": ""}))
        assert not FORBIDDEN.search(written)


def test_bars_are_the_figures_to_scale() -> None:
    plan = example_plan("harrowlees-11")
    assert plan.outcome is not None
    figures, choice = plan.outcome.figures, plan.outcome.choice
    assert choice is not None
    bars = lay_out(plan, Style())["bars"]
    assert isinstance(bars, list)
    wanted = ((figures.let_go_lift_m, choice.usable_lift_m), (figures.push_n, choice.available_n))
    for bar, (need, have) in zip(bars, wanted, strict=True):
        assert have is not None
        scale = bar["need"][1] / need.p50
        assert bar["need"] == pytest.approx([scale * value for value in need])
        assert bar["have"] == pytest.approx([scale * value for value in have])
        assert max(*bar["need"], *bar["have"]) <= 1.0


def test_bars_never_leave_their_axis() -> None:
    for plan in variant_plans().values():
        bars = lay_out(plan, Style())["bars"]
        assert isinstance(bars, list)
        for bar in bars:
            for shares in (bar["need"], bar["have"] or [0.0]):
                assert list(shares) == sorted(shares)
                assert 0.0 <= shares[0] <= shares[-1] <= 1.0
            assert all(0.0 <= share <= 1.0 for share, _ in bar["ticks"])


def test_at_most_three_cautions_and_the_rest_are_counted() -> None:
    counted = 0
    for plan in variant_plans().values():
        card = lay_out(plan, Style())
        cautions = card["cautions"]
        assert isinstance(cautions, dict)
        others = [caution for caution in plan.cautions if caution.code != "local_law"]
        assert cautions["items"] == [str(caution.text) for caution in others[:3]]
        more = len(others) - 3
        assert cautions["more"] == (str(say("card.cautions_more", count=more)) if more > 0 else "")
        counted += more > 0
    assert counted


def test_assumed_readings_are_named_and_the_rest_counted() -> None:
    for name, plan in variant_plans().items():
        assumed = lay_out(plan, Style())["assumed"]
        assert isinstance(assumed, dict)
        unread = [a for a in plan.assumed if a.is_missing_reading]
        if not plan.assumed:
            assert assumed["choices"] == []
            continue
        for choice in assumed["choices"]:
            left = len(plan.assumed) - len(choice["items"])
            assert str(left) in choice["more"] or left == 0, name
        assert len(assumed["choices"][0]["items"]) == min(3, len(unread))
        assert assumed["choices"][-1]["items"] == []


@pytest.mark.parametrize("language", LANGUAGES)
def test_back_up_battery_and_envelope_are_on_the_card(language: str) -> None:
    style = Style(language)
    plan = example_plan("harrowlees-11")
    written = " ".join(strings({**lay_out(plan, style), "shape": ""}))
    assert render(say("caution.hand_wedge", name="Hand pair"), style) in written
    assert "180 Wh" in written
    assert "W8" in written
    assert "19 mm" in written
    assert plan.envelope is not None
    assert plan.envelope.text is not None
    assert render(plan.envelope.text, style) in written


@pytest.mark.parametrize(
    ("back_m", "side_m", "hour"),
    [(0.5, 0.0, 6), (-0.5, 0.0, 12), (0.0, 0.5, 3), (0.0, -0.5, 9), (0.5, 0.5, 4), (0.87, -0.5, 7)],
)
def test_clock_has_the_lay_at_twelve(back_m: float, side_m: float, hour: int) -> None:
    assert abs(clock_hour(lean_direction_rad(back_m, side_m)) - hour) <= (back_m == side_m)


def test_azimuth_of_the_lean_is_the_one_that_was_read() -> None:
    for name in EXAMPLES:
        plan = example_plan(name)
        (reading,) = plan.tree.lean
        where = strings(lay_out(plan, Style())["where"])[-1]
        if reading.offset_m > 0.1:
            assert f"({reading.toward_deg:.0f}°)" in where, name
            assert where.startswith(f"{reading.offset_m:.2f} m to ")


def test_side_is_named_by_where_the_middle_stands() -> None:
    plan = example_plan("tarnshaw-9")
    assert plan.outcome is not None
    side = plan.outcome.figures.side_m
    assert side.p50 > 0.0
    assert f"right {side.p50:.2f} m ({side.p10:.2f} to {side.p90:.2f})" in str(lean(plan))
    mirrored = variant_plans()["leaning: to the left"]
    assert mirrored.outcome is not None
    side = Doubt(*(-value for value in reversed(mirrored.outcome.figures.side_m)))
    assert side.p50 > 0.0
    assert f"left {side.p50:.2f} m ({side.p10:.2f} to {side.p90:.2f})" in str(lean(mirrored))


def lean(plan: Plan) -> str:
    return strings(lay_out(plan, Style())["where"])[-1]


def test_direction_and_mirror_add_up_to_a_turn() -> None:
    for back in (-1.3, -0.2, 0.4, 2.0):
        for side in (0.1, 0.9):
            right = lean_direction_rad(back, side)
            left = lean_direction_rad(back, -side)
            assert right + left == pytest.approx(math.tau)
