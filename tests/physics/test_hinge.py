"""Properties of hinge sections and of the hinge's law."""

import itertools
import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from tests.physics import drawn

from fellwright.physics import hinge
from fellwright.physics.hinge import HingeLaw
from fellwright.physics.notch import chord_m

rotations_rad = st.floats(1e-6, 1.2)
ratios = st.floats(1.0, 4.0)


@given(drawn.stumps(), st.floats(0.0, 0.8))
def test_cavity_only_takes_wood_away(
    stump: tuple[float, float, float], cavity_share: float
) -> None:
    diameter, notch, thickness = stump
    sound = hinge.hinge_area_m2(diameter, 0.0, notch, thickness)
    hollow = hinge.hinge_area_m2(diameter, cavity_share * diameter, notch, thickness)
    assert -1e-9 <= hollow <= sound + 1e-9


@given(drawn.stumps())
def test_area_lies_between_its_chords(stump: tuple[float, float, float]) -> None:
    diameter, notch, thickness = stump
    assume(notch + thickness <= 0.5 * diameter)
    area = hinge.hinge_area_m2(diameter, 0.0, notch, thickness)
    shorter, longer = chord_m(diameter, notch), chord_m(diameter, notch + thickness)
    assert shorter * thickness <= area * (1.0 + 1e-9)
    assert area <= longer * thickness * (1.0 + 1e-9)


@given(drawn.stumps())
def test_two_thin_hinges_add_up_to_the_thick_one(stump: tuple[float, float, float]) -> None:
    diameter, notch, thickness = stump
    half = 0.5 * thickness
    parts = hinge.hinge_area_m2(diameter, 0.1 * diameter, notch, half) + hinge.hinge_area_m2(
        diameter, 0.1 * diameter, notch + half, half
    )
    whole = hinge.hinge_area_m2(diameter, 0.1 * diameter, notch, thickness)
    assert parts == pytest.approx(whole, rel=1e-9, abs=1e-12)


def test_uncut_disc_is_a_full_circle() -> None:
    assert hinge.hinge_area_m2(0.5, 0.0, 0.0, 0.5) == pytest.approx(math.pi * 0.0625)
    section = hinge.hinge_section(0.5, 0.0, 0.0, 0.5)
    assert section.weak_m4 == pytest.approx(math.pi * 0.5**4 / 64.0)
    assert section.strong_m4 == pytest.approx(math.pi * 0.5**4 / 64.0)
    ring = hinge.hinge_section(0.5, 0.3, 0.0, 0.5)
    assert ring.weak_m4 == pytest.approx(math.pi * (0.5**4 - 0.3**4) / 64.0)


@given(drawn.stumps(), st.floats(0.5, 20.0))
def test_section_scales_with_the_powers_of_length(
    stump: tuple[float, float, float], scale: float
) -> None:
    diameter, notch, thickness = stump
    small = hinge.hinge_section(diameter, 0.0, notch, thickness)
    large = hinge.hinge_section(scale * diameter, 0.0, scale * notch, scale * thickness)
    assert large.area_m2 == pytest.approx(scale**2 * small.area_m2, rel=1e-7)
    assert large.centroid_x_m == pytest.approx(scale * small.centroid_x_m, rel=1e-7, abs=1e-9)
    assert large.strong_m4 == pytest.approx(scale**4 * small.strong_m4, rel=1e-7)
    # The weak moment is a difference of nearly equal numbers on a thin hinge.
    assert large.weak_m4 == pytest.approx(scale**4 * small.weak_m4, rel=1e-4)


@given(drawn.stumps(), st.floats(-0.5, 0.5))
def test_mirrored_taper_mirrors_the_section(
    stump: tuple[float, float, float], taper: float
) -> None:
    diameter, notch, thickness = stump
    left, right = thickness * (1.0 + taper), thickness * (1.0 - taper)
    one = hinge.tapered_hinge_section(diameter, 0.0, notch, left, right, 300)
    other = hinge.tapered_hinge_section(diameter, 0.0, notch, right, left, 300)
    assert other.area_m2 == pytest.approx(one.area_m2, rel=1e-9)
    assert other.centroid_y_m == pytest.approx(-one.centroid_y_m, rel=1e-6, abs=1e-9)
    assert other.turn_rad == pytest.approx(-one.turn_rad, rel=1e-6, abs=1e-9)


@given(drawn.stumps(), st.floats(0.05, 0.5))
def test_taper_leads_the_tree_towards_its_thick_side(
    stump: tuple[float, float, float], taper: float
) -> None:
    diameter, notch, thickness = stump
    assume(thickness < 0.1 * diameter)
    section = hinge.tapered_hinge_section(
        diameter, 0.0, notch, thickness * (1.0 + taper), thickness * (1.0 - taper), 300
    )
    assert section.centroid_y_m > 0.0
    assert section.turn_rad > 0.0


@given(drawn.stumps())
def test_untapered_strips_agree_with_the_closed_form(stump: tuple[float, float, float]) -> None:
    diameter, notch, thickness = stump
    assume(thickness > 0.04 * diameter)
    strips = hinge.tapered_hinge_section(diameter, 0.0, notch, thickness, thickness)
    closed = hinge.hinge_section(diameter, 0.0, notch, thickness)
    assert strips.area_m2 == pytest.approx(closed.area_m2, rel=2e-3)
    assert strips.strong_m4 == pytest.approx(closed.strong_m4, rel=4e-3)
    assert strips.weak_m4 == pytest.approx(closed.weak_m4, rel=4e-3)
    assert strips.turn_rad == pytest.approx(0.0, abs=1e-9)


@given(drawn.laws(0.01), rotations_rad)
def test_hinge_never_holds_more_than_its_peak_nor_less_than_nothing(
    law: HingeLaw, rotation: float
) -> None:
    moment = hinge.hinge_moment_n_m(rotation, law)
    assert 0.0 <= moment <= law.peak_n_m * (1.0 + 1e-9)


@given(drawn.laws(0.01))
def test_law_has_no_step(law: HingeLaw) -> None:
    floor = law.break_rad / math.sqrt(law.residual_ratio)
    for corner in (law.yield_rad, law.break_rad, floor):
        below = hinge.hinge_moment_n_m(corner * (1.0 - 1e-9), law)
        above = hinge.hinge_moment_n_m(corner * (1.0 + 1e-9), law)
        assert above == pytest.approx(below, rel=1e-6)
    assert hinge.hinge_moment_n_m(law.break_rad, law) == pytest.approx(law.peak_n_m, rel=1e-9)


@given(drawn.laws(0.01))
def test_moment_rises_to_the_break_and_falls_behind_it(law: HingeLaw) -> None:
    rising = [hinge.hinge_moment_n_m(law.break_rad * i / 50.0, law) for i in range(51)]
    falling = [hinge.hinge_moment_n_m(law.break_rad * (1.0 + i / 5.0), law) for i in range(51)]
    assert all(b >= a * (1.0 - 1e-12) for a, b in itertools.pairwise(rising))
    assert all(b <= a * (1.0 + 1e-12) for a, b in itertools.pairwise(falling))


@given(drawn.laws(0.01))
def test_residual_is_the_floor_far_out(law: HingeLaw) -> None:
    far = 2.0 * law.break_rad / math.sqrt(law.residual_ratio)
    assert hinge.hinge_moment_n_m(far, law) == pytest.approx(law.residual_ratio * law.peak_n_m)


@given(drawn.laws(), rotations_rad, st.floats(0.0, 1.0))
def test_more_residual_never_lowers_moment_or_work(
    law: HingeLaw, rotation: float, more: float
) -> None:
    stiffer = law._replace(residual_ratio=law.residual_ratio + more * (1.0 - law.residual_ratio))
    assert hinge.hinge_moment_n_m(rotation, stiffer) >= hinge.hinge_moment_n_m(rotation, law)
    assert hinge.hinge_work_j(rotation, stiffer) >= hinge.hinge_work_j(rotation, law) * (1 - 1e-12)


@given(drawn.laws(0.01), rotations_rad, st.floats(1e-4, 0.2))
def test_work_grows_by_no_more_than_peak_times_rotation(
    law: HingeLaw, rotation: float, step: float
) -> None:
    grown = hinge.hinge_work_j(rotation + step, law) - hinge.hinge_work_j(rotation, law)
    assert -1e-9 * law.peak_n_m <= grown <= law.peak_n_m * step * (1.0 + 1e-6)


@given(drawn.laws(0.01), rotations_rad)
def test_work_has_the_moment_as_its_slope(law: HingeLaw, rotation: float) -> None:
    step = 1e-5 * rotation
    slope = (
        hinge.hinge_work_j(rotation + step, law) - hinge.hinge_work_j(rotation - step, law)
    ) / (2.0 * step)
    # Across a corner of the law the slope is the mean of both sides.
    assert slope == pytest.approx(hinge.hinge_moment_n_m(rotation, law), rel=1e-4, abs=1e-6)


@given(drawn.bending_pa, st.floats(0.1, 1.0), st.floats(0.01, 0.1), st.floats(0.0, 0.05))
def test_thinner_hinge_never_raises_holding_moment(
    strength: float, width: float, thickness: float, thinner: float
) -> None:
    thin = hinge.peak_moment_n_m(strength, width, max(0.0, thickness - thinner))
    assert thin <= hinge.peak_moment_n_m(strength, width, thickness)
    assert hinge.peak_moment_n_m(strength, width, 2.0 * thickness) == pytest.approx(
        4.0 * hinge.peak_moment_n_m(strength, width, thickness)
    )


@given(ratios, st.floats(10e6, 40e6))
def test_strength_ratio_inverts_the_rupture_modulus_below_its_cap(
    ratio: float, crushing: float
) -> None:
    bending = crushing * (3.0 * ratio - 1.0) / (ratio + 1.0)
    assert hinge.strength_ratio(bending, crushing) == pytest.approx(ratio, rel=1e-9)
    assert hinge.bending_compression_pa(bending, ratio) == pytest.approx(crushing, rel=1e-9)


@given(st.floats(1e6, 300e6), st.floats(5e6, 60e6))
def test_strength_ratio_stays_between_1_and_4(bending: float, crushing: float) -> None:
    assert 1.0 <= hinge.strength_ratio(bending, crushing) <= hinge.LARGEST_STRENGTH_RATIO


@given(st.floats(0.0, 0.1), st.floats(0.01, 0.1), st.floats(1.0, 3.0), st.floats(0.0, 0.05))
def test_higher_step_or_longer_fibre_lets_the_hinge_turn_farther(
    step: float, thickness: float, k: float, more: float
) -> None:
    short = hinge.fibre_length_m(step, thickness, k)
    long = hinge.fibre_length_m(step + more, thickness, k)
    at = [hinge.yield_rotation_rad(18e6, 6.3e9, length, thickness) for length in (short, long)]
    assert at[1] >= at[0]
    assert hinge.break_rotation_rad(at[0], 1.0) == pytest.approx(at[0])
