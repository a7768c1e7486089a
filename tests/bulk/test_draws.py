"""Compiled draws are the plain ones to 1e-12."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

pytest.importorskip("numba", reason="the compiled twin needs the extra 'bulk'")

import numpy as np
from tests.bulk.drawn import (
    plain_devices,
    plain_needs,
    points,
    random_device,
    random_situation,
)

from fellwright.bulk.draws import (
    NEED_ROW,
    CompiledDrawing,
    CompiledDrawn,
    as_floats,
    draw_devices_compiled,
    draw_needs_compiled,
    draw_pairs_compiled,
    points_array,
)
from fellwright.planning.device_draw import DeviceDraw, draw_pair
from fellwright.planning.drawn import PlainlyDrawn, draw_plainly
from fellwright.planning.need import Need

if TYPE_CHECKING:
    from fellwright.bulk.draws import Rows

SAME = 1e-12
SEEDS = range(0, 400, 20)


def assert_same(compiled: Rows, plain: list[Need] | list[DeviceDraw]) -> None:
    expected = np.array(plain, dtype=np.float64)
    assert np.isfinite(expected).all(), "a random draw must lie within the engine's range"
    assert (np.abs(as_floats(compiled) - expected) <= SAME * np.abs(expected)).all()


# Twenty situations and devices a test: 400 in all, 64 draws each.
@pytest.mark.parametrize("first", SEEDS)
def test_compiled_draws_are_the_plain_ones(first: int) -> None:
    for seed in range(first, first + 20):
        drawn = points(seed)
        array = points_array(drawn)
        gust = float(seed % 2)
        situation, figures = random_situation(seed), random_device(seed)
        needs = plain_needs(drawn, situation, gust)
        assert_same(draw_needs_compiled(array, situation, gust), needs)
        exact = np.array(needs, dtype=NEED_ROW)
        assert_same(
            draw_devices_compiled(array, exact, figures), plain_devices(drawn, needs, figures)
        )


@pytest.mark.parametrize("seed", range(40))
def test_compiled_pairs_are_the_plain_ones(seed: int) -> None:
    drawn, situation = points(seed), random_situation(seed)
    first, second = random_device(seed), random_device(seed + 1000)
    needs = plain_needs(drawn, situation, 1.0)
    exact = np.array(needs, dtype=NEED_ROW)
    found = draw_pairs_compiled(points_array(drawn), exact, first, second, 0.8)
    pairs = [draw_pair(u, n, first, second, 0.8) for u, n in zip(drawn, needs, strict=True)]
    assert_same(found, pairs)
    tally = CompiledDrawing()(drawn, situation, 1.0).pair(first, second, 0.8)
    plainly = draw_plainly(drawn, situation, 1.0).pair(first, second, 0.8)
    assert tally.shares == plainly.shares
    assert tally.available_n == pytest.approx(plainly.available_n, rel=SAME, abs=0.0)


def test_random_draws_reach_every_branch_that_matters() -> None:
    needs = [n for s in range(100) for n in plain_needs(points(s), random_situation(s), s % 2)]
    for name in ("early_go_m", "splitting", "hinge_tension_pa", "checked_push_n", "work_j"):
        some = sum(getattr(need, name) > 0.0 for need in needs)
        assert 0.02 * len(needs) < some < 0.98 * len(needs), name


@pytest.mark.parametrize("seed", range(20))
def test_compiled_summaries_are_the_plain_ones(seed: int) -> None:
    drawn, situation, figures = points(seed, 256), random_situation(seed), random_device(seed)
    plain = draw_plainly(drawn, situation, 1.0)
    found = CompiledDrawing()(drawn, situation, 1.0)
    assert isinstance(found, CompiledDrawn)
    assert np.allclose(np.array(found.needs), np.array(plain.needs), rtol=SAME, atol=0.0)
    for name in ("mass_kg", "push_n", "side_use", "splitting", "work_j", "back_m"):
        expected = getattr(plain.tree(), name)
        assert getattr(found.tree(), name) == pytest.approx(expected, rel=SAME, abs=0.0)
    assert found.need().push_p75_n == pytest.approx(plain.need().push_p75_n, rel=SAME, abs=0.0)
    assert found.need().let_go_lift_m == pytest.approx(plain.need().let_go_lift_m, rel=SAME)
    plainly, tally = plain.device(figures), found.device(figures)
    assert tally.shares == plainly.shares
    assert tally.joint_share == plainly.joint_share
    for name in ("usable_lift_m", "available_n", "drive_n", "bearing_n", "room_m"):
        assert getattr(tally, name) == pytest.approx(getattr(plainly, name), rel=SAME, abs=0.0)


def test_whole_numbers_are_taken_as_floats() -> None:
    array = points_array(points(1))
    situation = random_situation(1)
    whole = draw_needs_compiled(array, situation._replace(wall_m=0, frost_ratio=1), 0)
    floats = draw_needs_compiled(array, situation._replace(wall_m=0.0, frost_ratio=1.0), 0.0)
    assert (whole == floats).all()


def test_a_bad_number_is_left_to_plain_python() -> None:
    drawn, situation = points(1), random_situation(1)
    found = CompiledDrawing()(drawn, situation._replace(toughness_j_per_m2=float("nan")), 0.0)
    assert isinstance(found, PlainlyDrawn)
    device = random_device(1)._replace(contact_low=float("nan"))
    tally = CompiledDrawing()(drawn, situation, 0.0).device(device)
    assert tally.joint_share == 0.0
    assert str(tally.bearing_n.p50) == "nan"


@pytest.mark.parametrize(
    ("field", "value", "raised"),
    [("crown_ratio", 1e6, OverflowError), ("modulus_pa", 0.0, ZeroDivisionError)],
)
def test_compiled_draws_raise_where_plain_ones_do(
    field: str, value: float, raised: type[Exception]
) -> None:
    drawn, situation = points(1), random_situation(1)._replace(**{field: value})
    with pytest.raises(raised):
        draw_plainly(drawn, situation, 0.0)
    with pytest.raises(raised):
        CompiledDrawing()(drawn, situation, 0.0)
