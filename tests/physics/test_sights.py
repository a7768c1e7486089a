"""Properties of the measuring helpers: a tree and stations made up, read, and got back."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from fellwright.physics.clinometer import check_clinometer
from fellwright.physics.crown_radius import mean_crown_radius
from fellwright.physics.girth import diameter_from_girth_m
from fellwright.physics.height_sight import (
    LevelDistance,
    SightSigmas,
    ground_slope_rad,
    level_distance,
    sighted_height_m,
    sighted_height_sigma_m,
)
from fellwright.physics.plumb_sight import PlumbStation, crossing_rad, plumb_offset
from fellwright.physics.sound_wall import least_sound_wall_m

heights_m = st.floats(4.0, 45.0)
levels_m = st.floats(6.0, 60.0)
slopes_rad = st.floats(-0.6, 0.6)
eyes_m = st.floats(1.2, 2.0)
bearings_rad = st.floats(0.0, math.tau)
offsets_m = st.floats(-4.0, 4.0)
distances_m = st.floats(12.0, 80.0) | st.just(math.inf)


def foot_rad(level_m: float, slope_rad: float, eye_m: float) -> float:
    return math.atan2(level_m * math.tan(slope_rad) - eye_m, level_m)


def looked(bearing_rad: float, distance_m: float, east_m: float, north_m: float) -> PlumbStation:
    """Return what a person reads there of a point that stands over east and north."""
    ahead = math.sin(bearing_rad) * east_m + math.cos(bearing_rad) * north_m
    right = math.cos(bearing_rad) * east_m - math.sin(bearing_rad) * north_m
    seen = right / (1.0 + ahead / distance_m)
    return PlumbStation(bearing_rad, seen, 0.12 + 0.12 * abs(seen), 0.05, distance_m)


# --- height -------------------------------------------------------------------------------------


@given(heights_m, levels_m, slopes_rad, eyes_m)
def test_a_height_on_any_slope_comes_back(
    height: float, level: float, slope: float, eye: float
) -> None:
    along = level / math.cos(slope)
    assume(along > 1.5 * eye)
    foot = foot_rad(level, slope, eye)
    top = math.atan2(level * math.tan(foot) + height, level)
    found = level_distance(along, foot, eye)
    assert found.level_m == pytest.approx(level, rel=1e-9)
    assert sighted_height_m(found.level_m, top, foot) == pytest.approx(height, rel=1e-9)
    assert ground_slope_rad(found.level_m, foot, eye) == pytest.approx(slope, abs=1e-9)


@given(st.floats(3.0, 200.0), st.floats(-1.2, 1.2))
def test_from_eye_to_foot_the_level_distance_is_the_cosine(along: float, foot: float) -> None:
    found = level_distance(along, foot, 0.0)
    assert found.level_m == pytest.approx(along * math.cos(foot), rel=1e-12)
    assert found.per_distance == pytest.approx(math.cos(foot), rel=1e-12)


@given(levels_m, st.floats(-0.5, 0.3), st.floats(0.05, 0.6), st.floats(0.001, 0.3))
def test_a_steeper_sight_is_a_taller_tree(
    level: float, foot: float, rise: float, more: float
) -> None:
    little = sighted_height_m(level, foot + rise, foot)
    assert sighted_height_m(level, foot + rise + more, foot) > little
    assert sighted_height_m(1.1 * level, foot + rise, foot) == pytest.approx(1.1 * little)


@given(
    levels_m,
    st.floats(-0.4, 0.2),
    st.floats(0.3, 1.0),
    st.tuples(st.floats(0.0, 3.0), st.floats(0.0, 0.03), st.floats(0.0, 0.2)),
    st.sampled_from(SightSigmas._fields),
)
def test_a_larger_error_of_any_part_never_makes_a_height_better_known(
    level: float, foot: float, rise: float, sigmas: tuple[float, float, float], name: str
) -> None:
    before = SightSigmas(*sigmas)
    after = before._replace(**{name: 2.0 * getattr(before, name) + 0.01})
    found = level_distance(level / math.cos(foot) + 2.0, foot, 1.6)
    assert sighted_height_sigma_m(found, foot + rise, foot, after) >= sighted_height_sigma_m(
        found, foot + rise, foot, before
    )


def test_from_a_tree_length_off_a_tape_and_a_degree_give_four_percent() -> None:
    """PRACTICE: clinometer and taped distance err by 4 %, 1 m on 25 m."""
    top, foot = math.atan(23.4 / 25.0), -math.atan(1.6 / 25.0)
    sigmas = SightSigmas(0.25, math.radians(1.0))
    sigma = sighted_height_sigma_m(LevelDistance(25.0), top, foot, sigmas)
    assert sigma / 25.0 == pytest.approx(0.04, abs=0.005)


def test_a_top_under_the_foot_and_a_foot_under_the_boots_are_refused() -> None:
    with pytest.raises(ValueError, match="top_rad must be above"):
        sighted_height_m(20.0, -0.1, 0.1)
    for along in (1.6, 1.0):
        with pytest.raises(ValueError, match="along_m must be more"):
            level_distance(along, -1.3, 1.6)


# --- plumb line ---------------------------------------------------------------------------------


@given(offsets_m, offsets_m, bearings_rad, st.floats(0.6, 2.5), distances_m, distances_m)
def test_a_lean_comes_back_from_any_two_stations(
    east: float, north: float, bearing: float, turn: float, near: float, far: float
) -> None:
    first = looked(bearing, near, east, north)
    second = looked(bearing + turn, far, east, north)
    assume(crossing_rad(first, second) > 0.3)
    found = plumb_offset(first, second)
    assert (found.east_m, found.north_m) == pytest.approx((east, north), abs=1e-9)
    other_way = plumb_offset(second, first)
    assert other_way == pytest.approx(found, abs=1e-9)


@given(offsets_m, offsets_m, bearings_rad, st.floats(0.6, 2.5), distances_m)
def test_a_mirrored_lean_is_read_mirrored(
    east: float, north: float, bearing: float, turn: float, distance: float
) -> None:
    first = looked(bearing, distance, east, north)
    second = looked(bearing + turn, distance, east, north)
    assume(crossing_rad(first, second) > 0.3)

    def mirrored(station: PlumbStation) -> PlumbStation:
        return station._replace(bearing_rad=-station.bearing_rad, right_m=-station.right_m)

    found, other = plumb_offset(first, second), plumb_offset(mirrored(first), mirrored(second))
    assert other == pytest.approx((-found.east_m, found.north_m, found.sigma_m), abs=1e-9)


@given(offsets_m, offsets_m, bearings_rad, st.floats(0.0, math.tau))
def test_a_lean_read_from_turned_stations_is_turned(
    east: float, north: float, bearing: float, turn: float
) -> None:
    first = looked(bearing, 25.0, east, north)
    second = looked(bearing + 1.4, 25.0, east, north)
    assume(crossing_rad(first, second) > 0.3)
    found = plumb_offset(first, second)
    one, other = (s._replace(bearing_rad=s.bearing_rad + turn) for s in (first, second))
    again = plumb_offset(one, other)
    assert again.sigma_m == pytest.approx(found.sigma_m, rel=1e-9)
    azimuth = math.atan2(again.east_m, again.north_m) - math.atan2(found.east_m, found.north_m)
    if math.hypot(east, north) > 1e-6:
        assert math.cos(azimuth - turn) == pytest.approx(1.0, abs=1e-9)


@given(st.floats(-2.0, 2.0), st.floats(-2.0, 2.0), st.floats(0.3, 1.5), st.floats(0.01, 0.25))
def test_stations_nearer_to_parallel_never_tell_more(
    one: float, other: float, crossing: float, less: float
) -> None:
    def worst(turn: float) -> float:
        first = PlumbStation(0.0, one, 0.2)
        second = PlumbStation(turn, one * math.cos(turn) + other * math.sin(turn), 0.2)
        return plumb_offset(first, second).sigma_m

    assert worst(crossing - less) >= worst(crossing) - 1e-12


@given(offsets_m, offsets_m, st.floats(1.0, 3.0), st.sampled_from(["sigma_m", "bearing_sigma_rad"]))
def test_a_larger_error_never_makes_a_lean_better_known(
    east: float, north: float, factor: float, name: str
) -> None:
    first, second = looked(0.3, 20.0, east, north), looked(1.7, 25.0, east, north)
    worse = first._replace(**{name: factor * getattr(first, name)})
    assert plumb_offset(worse, second).sigma_m >= plumb_offset(first, second).sigma_m - 1e-12


def test_square_stations_far_off_give_their_own_sigma() -> None:
    first = PlumbStation(0.0, 0.3, 0.2)
    second = PlumbStation(math.pi / 2.0, -0.1, 0.2)
    assert plumb_offset(first, second) == pytest.approx((0.3, 0.1, 0.2))


@pytest.mark.parametrize("turn", [0.0, math.pi])
def test_parallel_sights_are_refused(turn: float) -> None:
    first, second = PlumbStation(0.4, 0.2, 0.1), PlumbStation(0.4 + turn, 0.1, 0.1)
    assert crossing_rad(first, second) == pytest.approx(0.0, abs=1e-9)
    with pytest.raises(ValueError, match="planes of sight must cross"):
        plumb_offset(first, second)


# --- girth, crown, bore, phone ------------------------------------------------------------------


@given(st.floats(0.05, 3.0))
def test_a_girth_is_the_way_round_a_stem(diameter: float) -> None:
    assert diameter_from_girth_m(math.pi * diameter) == pytest.approx(diameter)


reaches = st.lists(st.floats(0.5, 12.0), min_size=2, max_size=12)


@given(reaches, st.floats(0.0, 0.2), st.floats(0.0, 0.3))
def test_a_crown_lies_between_its_sides_whichever_comes_first(
    sides: list[float], length: float, scatter: float
) -> None:
    found = mean_crown_radius(sides, length, scatter)
    assert min(sides) - 1e-9 <= found.radius_m <= max(sides) + 1e-9
    assert mean_crown_radius(sides[::-1], length, scatter) == pytest.approx(found)
    assert found.sigma_m >= length * found.radius_m - 1e-12
    more = mean_crown_radius(sides, length + 0.05, scatter + 0.05)
    assert more.sigma_m >= found.sigma_m


@given(st.floats(0.5, 12.0), st.integers(2, 12))
def test_a_crown_that_is_equal_all_round_is_still_not_known_exactly(
    radius: float, count: int
) -> None:
    found = mean_crown_radius([radius] * count, 0.1, 0.15)
    assert found.radius_m == pytest.approx(radius)
    assert found.sigma_m == pytest.approx(radius * math.hypot(0.1, 0.15 / math.sqrt(count)))


@given(st.lists(st.floats(0.01, 1.0), min_size=1, max_size=8), st.floats(0.01, 1.0))
def test_one_more_bore_never_makes_the_wall_thicker(depths: list[float], more: float) -> None:
    assert least_sound_wall_m([*depths, more], 0.02) <= least_sound_wall_m(depths, 0.02)
    assert least_sound_wall_m(depths, 0.03) < least_sound_wall_m(depths, 0.02)


angles = st.floats(-30.0, 30.0)


@given(angles, st.floats(-4.0, 4.0), st.lists(st.floats(-0.5, 0.5), min_size=6, max_size=10))
def test_a_phone_tells_its_zero_on_an_edge_of_any_slope(
    edge: float, zero: float, jitter: list[float]
) -> None:
    half = len(jitter) // 2
    first = [zero + edge + x for x in jitter[:half]]
    turned = [zero - edge + x for x in jitter[half:]]
    found = check_clinometer(first, turned)
    shift = 0.5 * (sum(jitter[:half]) / half + sum(jitter[half:]) / (len(jitter) - half))
    assert found.zero == pytest.approx(zero + shift, abs=1e-9)
    assert found.sigma >= found.scatter
    swapped = check_clinometer(turned, first)
    assert swapped.zero == pytest.approx(found.zero, abs=1e-9)
    assert swapped.edge == pytest.approx(-found.edge, abs=1e-9)


@given(st.lists(st.floats(-0.5, 0.5), min_size=6, max_size=10), st.floats(1.0, 5.0))
def test_readings_that_scatter_more_are_known_less(jitter: list[float], factor: float) -> None:
    half = len(jitter) // 2
    found = check_clinometer(jitter[:half], jitter[half:])
    wide = [factor * x for x in jitter]
    assert check_clinometer(wide[:half], wide[half:]).sigma == pytest.approx(factor * found.sigma)


def test_too_few_readings_are_refused() -> None:
    with pytest.raises(ValueError, match="must hold 3 readings"):
        check_clinometer([0.1, 0.2], [0.1, 0.2, 0.3])
    with pytest.raises(ValueError, match="at least two directions"):
        mean_crown_radius([3.0], 0.1, 0.1)
    with pytest.raises(ValueError, match="at least one bore"):
        least_sound_wall_m([], 0.0)
