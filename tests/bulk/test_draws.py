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
    CompiledDrawing,
    CompiledDrawn,
    draw_devices_compiled,
    draw_needs_compiled,
)
from fellwright.planning.device_draw import DeviceDraw
from fellwright.planning.drawn import PlainlyDrawn, draw_plainly
from fellwright.planning.need import Need

if TYPE_CHECKING:
    from fellwright.bulk.draws import Floats

SAME = 1e-12
SEEDS = range(0, 400, 20)


def assert_same(compiled: Floats, plain: list[Need] | list[DeviceDraw]) -> None:
    expected = np.array(plain, dtype=np.float64).T
    assert np.isfinite(expected).all(), "a random draw must lie within the engine's range"
    assert (np.abs(compiled - expected) <= SAME * np.abs(expected)).all()


# Twenty situations and devices a test: 400 in all, 64 draws each.
@pytest.mark.parametrize("first", SEEDS)
def test_compiled_draws_are_the_plain_ones(first: int) -> None:
    for seed in range(first, first + 20):
        drawn = points(seed)
        array = np.array(drawn)
        gust = float(seed % 2)
        situation, figures = random_situation(seed), random_device(seed)
        needs = plain_needs(drawn, situation, gust)
        assert_same(draw_needs_compiled(array, situation, gust), needs)
        exact = np.array(needs).T
        assert_same(
            draw_devices_compiled(array, exact, figures), plain_devices(drawn, needs, figures)
        )


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
    expected, tally = plain.device(figures), found.device(figures)
    assert tally.shares == expected.shares
    assert tally.joint_share == expected.joint_share
    for name in ("usable_lift_m", "available_n", "drive_n", "bearing_n", "room_m"):
        assert getattr(tally, name) == pytest.approx(getattr(expected, name), rel=SAME, abs=0.0)


def test_whole_numbers_are_taken_as_floats() -> None:
    array = np.array(points(1))
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
