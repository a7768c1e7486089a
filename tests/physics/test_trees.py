"""Properties of stem form, stump, crown and mass."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fellwright.physics import crown, green_mass, notch, stem_form, stump

dbhs_cm = st.floats(10.0, 120.0)
heights_m = st.floats(6.0, 45.0)
exponents = st.floats(0.3, 1.6)
SPRUCE = stem_form.KozakCoefficients(
    1.0625010, 0.9590684, 0.9982461, 2.2909135, -0.5201230, 3.8808849, -2.1078922, 0.1695809
)
OAK = stem_form.WestfallScottCoefficients(
    12.8336, 0.0125, 0.9038, 1.0950, 0.0935, 0.3971, 0.2038, 1.0457, 0.5508, 3.4681
)


@given(dbhs_cm, heights_m, exponents)
def test_stem_has_its_dbh_at_breast_height_and_nothing_at_the_tip(
    dbh: float, height: float, p: float
) -> None:
    assert stem_form.ormerod_1973_diameter_cm(1.3, dbh, height, p) == pytest.approx(dbh)
    assert stem_form.ormerod_1973_diameter_cm(height, dbh, height, p) == 0.0
    assert stem_form.kozak_1988_diameter_cm(height, dbh, height, SPRUCE) == 0.0
    assert stem_form.westfall_scott_2010_diameter_cm(height, dbh, height, OAK) == 0.0


@given(st.floats(15.0, 45.0), st.floats(15.0, 32.0))
def test_fitted_stems_meet_their_dbh_within_a_twentieth(dbh: float, height: float) -> None:
    assert stem_form.kozak_1988_diameter_cm(1.3, dbh, height, SPRUCE) == pytest.approx(
        dbh, rel=0.06
    )
    assert stem_form.westfall_scott_2010_diameter_cm(1.37, dbh, height, OAK) == pytest.approx(
        dbh, rel=0.05
    )


@given(dbhs_cm, heights_m, exponents, st.floats(0.0, 1.0), st.floats(0.0, 1.0))
def test_higher_cut_never_leaves_more_stem(
    dbh: float, height: float, p: float, cut: float, higher: float
) -> None:
    low = stem_form.ormerod_1973_volume_m3(dbh, height, p, cut)
    assert stem_form.ormerod_1973_volume_m3(dbh, height, p, cut + higher) <= low
    assert stem_form.ormerod_1973_volume_m3(2.0 * dbh, height, p, cut) == pytest.approx(4.0 * low)


@given(heights_m, exponents, st.floats(0.0, 2.0))
def test_centroid_lies_above_the_cut_and_below_half_of_what_stands(
    height: float, p: float, cut: float
) -> None:
    centroid = stem_form.ormerod_1973_centroid_m(height, p, cut)
    assert cut < centroid < cut + 0.5 * (height - cut)


@given(st.floats(0.36, 0.60), st.floats(10.0, 45.0))
def test_exponent_reproduces_the_form_factor(factor: float, height: float) -> None:
    p = stem_form.ormerod_exponent(factor, height)
    cylinder = math.pi / 4.0 * 0.3**2 * height
    assert stem_form.ormerod_1973_volume_m3(30.0, height, p) == pytest.approx(factor * cylinder)


def test_stem_fuller_than_any_exponent_gives_is_refused() -> None:
    with pytest.raises(ValueError, match="form_factor must be reachable"):
        stem_form.ormerod_exponent(0.99, 25.0)


@given(st.floats(0.25, 0.60), st.floats(4.0, 45.0))
def test_exponent_never_gives_less_stem_than_the_form_factor_asks(
    factor: float, height: float
) -> None:
    """A short tree is held at the slimmest stem it can have: none of the exponents is slimmer."""
    p = stem_form.ormerod_exponent(factor, height)
    cylinder = math.pi / 4.0 * 0.3**2 * height
    found = stem_form.ormerod_1973_volume_m3(30.0, height, p)
    assert found >= factor * cylinder * (1.0 - 1e-9)
    slimmest = min(
        stem_form.ormerod_1973_volume_m3(30.0, height, 0.1 + 0.019 * i) for i in range(101)
    )
    if found > factor * cylinder * (1.0 + 1e-6):
        assert found <= slimmest * (1.0 + 1e-9)


@given(st.floats(0.1, 1.0), st.floats(0.0, 1.0), st.floats(0.5, 10.0))
def test_log_rules_keep_their_order(large: float, share: float, length: float) -> None:
    """Smalian is never below the cone, the cone never below the neiloid."""
    small = share * large
    smalian = stem_form.smalian_volume_m3(large, small, length)
    cone = stem_form.cone_frustum_volume_m3(large, small, length)
    neiloid = stem_form.neiloid_frustum_volume_m3(large, small, length)
    assert neiloid <= cone * (1.0 + 1e-9)
    assert cone <= smalian * (1.0 + 1e-9)


@given(st.floats(0.1, 1.0), st.floats(0.5, 10.0))
def test_log_rules_agree_on_a_cylinder(diameter: float, length: float) -> None:
    cylinder = math.pi / 4.0 * diameter**2 * length
    for found in (
        stem_form.smalian_volume_m3(diameter, diameter, length),
        stem_form.huber_volume_m3(diameter, length),
        stem_form.newton_volume_m3(diameter, diameter, diameter, length),
        stem_form.cone_frustum_volume_m3(diameter, diameter, length),
        stem_form.neiloid_frustum_volume_m3(diameter, diameter, length),
        stem_form.sections_volume_m3([diameter] * 5, length / 4.0),
    ):
        assert found == pytest.approx(cylinder)


@given(st.floats(0.1, 1.0), st.floats(0.0, 1.0), st.floats(0.5, 10.0))
def test_three_sections_are_exact_on_a_cone(large: float, share: float, length: float) -> None:
    small = share * large
    cone = stem_form.cone_frustum_volume_m3(large, small, length)
    middle = 0.5 * (large + small)
    assert stem_form.newton_volume_m3(large, middle, small, length) == pytest.approx(cone)
    assert stem_form.sections_volume_m3([large, middle, small], length / 2.0) == pytest.approx(cone)


@given(st.lists(st.floats(0.05, 1.0), min_size=3, max_size=31).filter(lambda d: len(d) % 2 == 1))
def test_centroid_of_sections_turns_round_with_the_stem(diameters: list[float]) -> None:
    length = 0.5 * (len(diameters) - 1)
    upright = stem_form.sections_centroid_m(diameters, 0.5)
    assert 0.0 < upright < length
    assert stem_form.sections_centroid_m(diameters[::-1], 0.5) == pytest.approx(length - upright)


@pytest.mark.parametrize("count", [0, 1, 2, 4])
def test_even_or_too_few_sections_are_refused(count: int) -> None:
    with pytest.raises(ValueError, match="odd number"):
        stem_form.sections_volume_m3([0.3] * count, 1.0)


@given(st.floats(0.05, 1.37), st.floats(0.05, 0.2))
def test_stump_is_thicker_the_lower_it_is_cut(height: float, a: float) -> None:
    assert stump.raile_1982_outside_ratio(height - 0.05, a) > (
        stump.raile_1982_outside_ratio(height, a)
    )


@given(st.floats(0.1, 1.5), st.floats(0.0, 0.4), st.floats(0.0, 0.2))
def test_thicker_bark_never_leaves_more_wood(over: float, ratio: float, more: float) -> None:
    wood = stump.inside_bark_diameter_m(over, ratio)
    assert stump.inside_bark_diameter_m(over, ratio + more) <= wood <= over


@given(st.floats(100.0, 900.0), st.floats(0.0, 250.0), st.floats(0.0, 1.0))
def test_wetter_wood_is_heavier_and_mixtures_lie_between(
    basic: float, moisture: float, share: float
) -> None:
    dry, wet = (green_mass.green_density_kg_per_m3(basic, mc) for mc in (moisture, moisture + 30.0))
    assert wet > dry >= basic
    mixed = green_mass.heart_sap_moisture_percent(moisture, moisture + 30.0, share)
    assert moisture - 1e-9 <= mixed <= moisture + 30.0 + 1e-9
    over_bark = green_mass.over_bark_density_kg_per_m3(dry, wet, share)
    assert dry * (1.0 - 1e-12) <= over_bark <= wet * (1.0 + 1e-12)
    assert green_mass.heavy_side_density_kg_per_m3(dry, wet, 0.0) == wet


@given(st.floats(1.0, 5e3), st.floats(1.0, 20.0), st.floats(0.0, 2e3), st.floats(1.0, 30.0))
def test_balance_point_lies_between_stem_and_crown(
    stem: float, stem_height: float, top: float, top_height: float
) -> None:
    height = green_mass.balance_point_height_m(stem, stem_height, top, top_height)
    assert min(stem_height, top_height) - 1e-9 <= height <= max(stem_height, top_height) + 1e-9


@given(st.floats(10.0, 5e3), st.floats(0.0, 0.6))
def test_crown_has_its_share_of_the_tree(stem: float, share: float) -> None:
    mass = crown.mass_from_share_kg(stem, share)
    assert mass / (stem + mass) == pytest.approx(share)


@given(st.floats(0.5, 15.0), st.floats(0.5, 30.0), st.floats(0.2, 5.0))
def test_crown_scales_with_the_powers_of_length(width: float, depth: float, scale: float) -> None:
    assert crown.double_cone_volume_m3(scale * width, scale * depth) == pytest.approx(
        scale**3 * crown.double_cone_volume_m3(width, depth)
    )
    assert crown.frontal_area_m2(scale * width, scale * depth) == pytest.approx(
        scale**2 * crown.frontal_area_m2(width, depth)
    )
    assert crown.crown_width_m(width / 2.0) == pytest.approx(width)


@given(st.floats(6.0, 45.0), st.floats(0.0, 1.0))
def test_crown_centre_lies_midway_between_base_and_tip(height: float, share: float) -> None:
    base = share * height
    depth = crown.crown_depth_m(height, base)
    assert crown.crown_centre_height_m(height, depth) == pytest.approx(0.5 * (height + base))


def test_allometry_never_gives_a_negative_crown() -> None:
    assert crown.linear_allometry_m(-2.0, 0.1, 5.0) == 0.0


@given(st.floats(0.1, 1.2), st.floats(0.0, 1.0))
def test_chord_is_the_same_from_front_and_back(diameter: float, share: float) -> None:
    depth = share * diameter
    chord = notch.chord_m(diameter, depth)
    assert notch.chord_m(diameter, diameter - depth) == pytest.approx(chord, abs=1e-7)
    assert 0.0 <= chord <= diameter * (1.0 + 1e-12)
    assert notch.chord_m(diameter, -0.01) == 0.0


@given(st.floats(0.0, 1.0))
def test_notch_share_from_chord_gives_back_its_chord(chord: float) -> None:
    assert notch.chord_m(1.0, notch.notch_share_from_chord(chord)) == pytest.approx(chord, abs=1e-7)
