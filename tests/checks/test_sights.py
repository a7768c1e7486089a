"""Measuring helpers against measured trees, printed examples, and geometry by other routes."""

import math
from collections.abc import Callable, Sequence

import numpy as np
import pytest
from scipy import stats
from scipy.optimize import brentq
from shapely import LineString, Point
from tests.checks.rows import HAND, MEASURED, SECOND_METHOD, WORKED_EXAMPLE, Row

from fellwright.physics.height_sight import (
    LevelDistance,
    SightSigmas,
    level_distance,
    sighted_height_m,
    sighted_height_sigma_m,
)
from fellwright.physics.plumb_sight import PlumbStation, plumb_offset

DEG = math.pi / 180.0
FAR_M = 1000.0

# Tree, eye height [m], level distance [m], angle to the top [deg], height [m] as printed.
FIRS = (
    (1, 1.51, 50.0, 54.0, 70.33),
    (9, 1.51, 7.17, 27.2, 5.19),
    (16, 1.73, 6.1, 8.8, 2.67),
    (18, 1.73, 33.6, 39.0, 28.94),
    (22, 1.73, 35.7, 44.0, 36.21),
    (25, 1.58, 76.43, 45.0, 78.01),
)


def _gradient(of: Callable[..., float], at: Sequence[float]) -> list[float]:
    """Central differences of a function of several numbers."""
    found = []
    for index, value in enumerate(at):
        step = 1e-5 * max(1.0, abs(value))
        up, down = list(at), list(at)
        up[index], down[index] = value + step, value - step
        found.append((of(*up) - of(*down)) / (2.0 * step))
    return found


def _level_m(along: float, foot: float, eye: float) -> float:
    """Level distance by root search: the foot on its ray, at the taped distance from the boots."""

    def too_far(level: float) -> float:
        return float(np.hypot(level, level * np.tan(foot) + eye)) - along

    return float(brentq(too_far, 1e-9, 2.0 * along, xtol=1e-13))


def _height_m(along: float, foot: float, eye: float, top: float) -> float:
    level = _level_m(along, foot, eye)
    return float(level * np.tan(top) - level * np.tan(foot))


SLOPES = ((25.0, -23.0 * DEG, 1.6), (25.0, 14.0 * DEG, 1.7), (30.0, -3.0 * DEG, 0.0))


def _line(station: PlumbStation) -> LineString:
    """Sight over the ground, from the station past the foot to where the plumb line passes it."""
    ahead = np.array([math.sin(station.bearing_rad), math.cos(station.bearing_rad)])
    right = np.array([ahead[1], -ahead[0]])
    beside = station.right_m * right
    start = -min(station.distance_m, FAR_M) * ahead
    along = beside - start if math.isfinite(station.distance_m) else ahead
    along = along / np.linalg.norm(along)
    return LineString([beside - FAR_M * along, beside + FAR_M * along])


def _crossing(first: PlumbStation, second: PlumbStation) -> tuple[float, float]:
    met = _line(first).intersection(_line(second))
    assert isinstance(met, Point)
    return float(met.x), float(met.y)


def _worst_sigma_m(first: PlumbStation, second: PlumbStation) -> float:
    """Largest principal sigma of the crossing, by differences of readings and bearings."""

    def part(index: int) -> Callable[..., float]:
        def of(right_1: float, right_2: float, bearing_1: float, bearing_2: float) -> float:
            one = first._replace(right_m=right_1, bearing_rad=bearing_1)
            other = second._replace(right_m=right_2, bearing_rad=bearing_2)
            return _crossing(one, other)[index]

        return of

    at = (first.right_m, second.right_m, first.bearing_rad, second.bearing_rad)
    sigmas = [first.sigma_m, second.sigma_m, first.bearing_sigma_rad, second.bearing_sigma_rad]
    rows = np.array([_gradient(part(index), at) for index in (0, 1)])
    covariance = rows @ np.diag(np.square(sigmas)) @ rows.T
    return float(np.sqrt(np.linalg.eigvalsh(covariance)[-1]))


def _turn(first: PlumbStation, second: PlumbStation) -> float:
    """Angle between two lines, the acute one."""
    ends = [np.array(_line(station).coords) for station in (first, second)]
    one, other = ((end[1] - end[0]) / np.linalg.norm(end[1] - end[0]) for end in ends)
    return float(np.arccos(min(1.0, abs(float(np.dot(one, other))))))


STATIONS = (
    (PlumbStation(0.0, 0.4, 0.17, 0.05), PlumbStation(math.pi / 2, 0.6, 0.19, 0.05)),
    (
        PlumbStation(20.0 * DEG, -0.5, 0.18, 0.05, 18.0),
        PlumbStation(85.0 * DEG, 0.9, 0.25, 0.17, 11.0),
    ),
    (PlumbStation(200.0 * DEG, 1.4, 0.3, 0.1, 25.0), PlumbStation(330.0 * DEG, -0.2, 0.15)),
)
REACHES = ([3.2, 4.1, 2.6, 3.7], [2.0, 5.0, 3.0])
EDGE = ([1.31, 1.22, 1.40, 1.18], [0.42, 0.55, 0.37])


def _later_sigma(first: Sequence[float], turned: Sequence[float]) -> float:
    """Standard deviation of one more reading less the zero: Student's t with pooled scatter."""
    freedom = len(first) + len(turned) - 2
    pooled = math.sqrt(
        (np.var(first, ddof=1) * (len(first) - 1) + np.var(turned, ddof=1) * (len(turned) - 1))
        / freedom
    )
    zero = 0.25 * (1.0 / len(first) + 1.0 / len(turned))
    return float(stats.t(freedom, scale=pooled * math.sqrt(1.0 + zero)).std())


def _second(function: str, inputs: dict[str, object], expected: object, place: str) -> Row:
    return Row(
        function=function,
        inputs=inputs,
        expected=expected,  # type: ignore[arg-type]
        kind=SECOND_METHOD,
        source="numpy, scipy, shapely",
        place=place,
        mark="DERIVED",
        tolerance=1e-6,
        why="central differences, or lines a kilometre long",
        absolute=1e-8,
    )


ROWS = [
    *(
        Row(
            function="height_sight.sighted_height_m",
            inputs={"level_m": level, "top_rad": top * DEG, "foot_rad": -math.atan(eye / level)},
            expected=height,
            kind=MEASURED,
            source="[Doug-Fir-Biometrics]",
            place=f"tree {tree}, the foot one eye height below the eye",
            mark="SEEN",
            tolerance=0.0,
            absolute=0.006,
            why="printed to a centimetre",
        )
        for tree, eye, level, top, height in FIRS
    ),
    Row(
        function="height_sight.sighted_height_m",
        inputs={"level_m": 24.6, "top_rad": math.atan(0.29), "foot_rad": -math.atan(0.23)},
        expected=12.8,
        kind=WORKED_EXAMPLE,
        source="[Height-Meter-Guide]",
        place="page 14, method 2: 29 and 23 per cent at 24.6 m",
        mark="SEEN",
        tolerance=0.0,
        absolute=0.05,
        why="printed to a decimetre",
    ),
    Row(
        function="height_sight.level_distance",
        inputs={"along_m": 25.0, "foot_rad": -9.0 * DEG, "eye_m": 0.0},
        expected={"level_m": 24.6},
        kind=WORKED_EXAMPLE,
        source="[Height-Meter-Guide]",
        place="page 14, method 2: 25 m along a slope of 9 degrees, sighted along it",
        mark="SEEN",
        tolerance=0.0,
        absolute=0.1,
        why="0.987 x 25 is printed as 24.6, cut off",
    ),
    *(
        _second(
            "height_sight.level_distance",
            {"along_m": along, "foot_rad": foot, "eye_m": eye},
            [_level_m(along, foot, eye), *_gradient(_level_m, (along, foot, eye))],
            f"scipy.optimize.brentq and differences, {along} m, foot at {foot / DEG:.0f} degrees",
        )
        for along, foot, eye in SLOPES
    ),
    *(
        _second(
            "height_sight.ground_slope_rad",
            {"level_m": _level_m(along, foot, eye), "foot_rad": foot, "eye_m": eye},
            float(np.arcsin((_level_m(along, foot, eye) * np.tan(foot) + eye) / along)),
            f"numpy.arcsin of rise over tape, foot at {foot / DEG:.0f} degrees",
        )
        for along, foot, eye in SLOPES
    ),
    *(
        _second(
            "height_sight.sighted_height_sigma_m",
            {
                "level": LevelDistance(
                    _level_m(along, foot, eye), *_gradient(_level_m, (along, foot, eye))
                ),
                "top_rad": 41.0 * DEG,
                "foot_rad": foot,
                "sigmas": SightSigmas(0.3, 0.9 * DEG, 0.1),
            },
            float(
                np.linalg.norm(
                    np.array(_gradient(_height_m, (along, foot, eye, 41.0 * DEG)))
                    * np.array([0.3, 0.9 * DEG, 0.1, 0.9 * DEG])
                )
            ),
            f"differences of a root search, foot at {foot / DEG:.0f} degrees",
        )
        for along, foot, eye in SLOPES
    ),
    *(
        _second(
            "plumb_sight.plumb_offset",
            {"first": first, "second": second},
            [*_crossing(first, second), _worst_sigma_m(first, second)],
            f"shapely intersection of sights and numpy.linalg.eigvalsh, case {case}",
        )
        for case, (first, second) in enumerate(STATIONS, start=1)
    ),
    *(
        _second(
            "plumb_sight.crossing_rad",
            {"first": first, "second": second},
            _turn(first, second),
            f"numpy.arccos between the sights, case {case}",
        )
        for case, (first, second) in enumerate(STATIONS, start=1)
    ),
    _second(
        "girth.diameter_from_girth_m",
        {"girth_m": Point(0.0, 0.0).buffer(0.2, quad_segs=4096).length},
        0.4,
        "shapely: length of a circle of 40 cm in 16 384 sides",
    ),
    *(
        _second(
            "crown_radius.mean_crown_radius",
            {"reaches_m": reaches, "length_error_share": 0.1, "least_scatter_share": 0.0},
            {
                "radius_m": float(np.mean(reaches)),
                "sigma_m": float(np.hypot(stats.sem(reaches), 0.1 * np.mean(reaches))),
            },
            f"numpy.mean and scipy.stats.sem of {len(reaches)} sides",
        )
        for reaches in REACHES
    ),
    Row(
        function="sound_wall.least_sound_wall_m",
        inputs={"depths_m": [0.14, 0.11, 0.19], "bark_m": 0.02},
        expected=0.09,
        kind=HAND,
        source="hand",
        place="three bores through 2 cm of bark",
        mark="OWN",
        tolerance=1e-12,
        why="0.11 - 0.02",
    ),
    Row(
        function="clinometer.check_clinometer",
        inputs={"first": [4.0, 4.0, 4.0], "turned": [3.0, 3.0, 3.0]},
        expected={"zero": 3.5, "edge": 0.5, "scatter": 0.0},
        kind=WORKED_EXAMPLE,
        source="[Level-Calibration]",
        place="example 1: 4 divisions to the left, turned 3 to the right",
        mark="SEEN",
        tolerance=1e-12,
        why="printed as (4 + 3)/2 and (4 - 3)/2",
    ),
    _second(
        "clinometer.check_clinometer",
        {"first": EDGE[0], "turned": EDGE[1]},
        {
            "zero": float(np.mean([np.mean(EDGE[0]), np.mean(EDGE[1])])),
            "edge": float(0.5 * (np.mean(EDGE[0]) - np.mean(EDGE[1]))),
            "sigma": _later_sigma(*EDGE),
        },
        "numpy.var pooled, scipy.stats.t",
    ),
]


@pytest.mark.check
def test_heights_sighted_with_errors_scatter_as_the_sigma_says() -> None:
    rng = np.random.default_rng(4)
    along, foot, eye, top = 25.0, -15.0 * DEG, 1.6, 38.0 * DEG
    sigmas = SightSigmas(0.25, 0.5 * DEG, 0.15)
    level = level_distance(along, foot, eye)
    stated = sighted_height_sigma_m(level, top, foot, sigmas)
    heights = []
    for z in rng.standard_normal((20_000, 4)):
        low = foot + sigmas.angle_rad * z[1]
        read = level_distance(along + sigmas.distance_m * z[0], low, eye + sigmas.eye_m * z[3])
        heights.append(sighted_height_m(read.level_m, top + sigmas.angle_rad * z[2], low))
    # Two standard errors of a standard deviation from 20 000 draws are 1 %; curvature adds little.
    assert np.std(heights) == pytest.approx(stated, rel=0.015)


@pytest.mark.check
@pytest.mark.parametrize("pair", STATIONS)
def test_plumb_lines_read_with_errors_scatter_as_the_sigma_says(
    pair: tuple[PlumbStation, PlumbStation],
) -> None:
    rng = np.random.default_rng(5)
    # A tenth of the errors: the sigma is that of small ones.
    small = [
        s._replace(sigma_m=0.1 * s.sigma_m, bearing_sigma_rad=0.1 * s.bearing_sigma_rad)
        for s in pair
    ]
    points = []
    for z in rng.standard_normal((20_000, 4)):
        read = [
            s._replace(
                right_m=s.right_m + s.sigma_m * z[i],
                bearing_rad=s.bearing_rad + s.bearing_sigma_rad * z[i + 2],
            )
            for i, s in enumerate(small)
        ]
        found = plumb_offset(read[0], read[1])
        points.append((found.east_m, found.north_m))
    worst = math.sqrt(np.linalg.eigvalsh(np.cov(np.array(points).T))[-1])
    assert worst == pytest.approx(plumb_offset(small[0], small[1]).sigma_m, rel=0.015)


@pytest.mark.check
@pytest.mark.parametrize(("slope_deg", "blunder"), [(20.0, 0.06), (35.0, 0.22)])
def test_a_slope_distance_taken_as_level_errs_as_the_trade_knows(
    slope_deg: float, blunder: float
) -> None:
    """PRACTICE: 6 % at 20 degrees and 22 % at 35, sighted along the ground."""
    foot, top = -slope_deg * DEG, 30.0 * DEG
    level = level_distance(25.0, foot, 0.0).level_m
    wrong, right = (sighted_height_m(x, top, foot) for x in (25.0, level))
    assert wrong / right - 1.0 == pytest.approx(blunder, abs=0.005)
