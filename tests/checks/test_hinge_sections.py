"""Hinge sections, notch chords and uncut wood against shapely polygons."""

import math
from typing import Any

import numpy as np
import pytest
from tests.checks.polygons import Moments, moments, straight_hinge, strip, tapered_hinge
from tests.checks.polygons import disc as round_section
from tests.checks.rows import SECOND_METHOD, Row

from fellwright.physics.hinge import hinge_section, tapered_hinge_section

pytestmark = pytest.mark.check

# Diameter, cavity, notch, thickness [m].
STRAIGHT = (
    (0.46, 0.0, 0.092, 0.046),
    (0.20, 0.0, 0.05, 0.02),
    (0.45, 0.0, 0.15, 0.03),
    (0.80, 0.0, 0.16, 0.20),
    (0.60, 0.30, 0.12, 0.06),  # the cut passes in front of the cavity, the hinge is whole
    (0.60, 0.30, 0.18, 0.06),  # the hinge is two posts beside the cavity
    (0.60, 0.36, 0.11, 0.05),  # the cavity's edge lies within the hinge
    (0.60, 0.30, 0.10, 0.45),  # uncut wood round the whole cavity
)
# Diameter, cavity, notch, left, right [m].
TAPERED = (
    (0.45, 0.0, 0.09, 0.060, 0.030),
    (0.45, 0.0, 0.09, 0.030, 0.060),
    (0.46, 0.0, 0.092, 0.050, 0.042),
    (0.60, 0.34, 0.12, 0.080, 0.040),
    (0.45, 0.0, 0.09, 0.045, 0.045),
)
CLOSED = "closed form against a polygon of 16,384 sides"


def _fields(section: Moments) -> dict[str, float]:
    # Principal axis from the eigenvectors, not from the formula under test.
    inertia = np.array([[section.xx, section.xy], [section.xy, section.yy]])
    _, vectors = np.linalg.eigh(inertia)
    # The largest spread lies along the hinge: turn of that direction from the y axis.
    along = vectors[:, 1] * np.sign(vectors[1, 1])
    return {
        "area_m2": section.area,
        "centroid_x_m": section.x,
        "centroid_y_m": section.y,
        "weak_m4": section.xx,
        "strong_m4": section.yy,
        "mixed_m4": section.xy,
        "turn_rad": math.atan2(-float(along[0]), float(along[1])),
    }


def _named(names: str, values: tuple[float, ...]) -> dict[str, Any]:
    return dict(zip(names.split(), values, strict=True))


def _row(function: str, inputs: dict[str, Any], expected: Any, place: str, **more: Any) -> Row:
    given: dict[str, Any] = {"tolerance": 1e-6, "absolute": 1e-9, "why": CLOSED}
    return Row(
        function=function,
        inputs=inputs,
        expected=expected,
        kind=SECOND_METHOD,
        source="shapely",
        place=place,
        mark="DERIVED",
        **(given | more),
    )


def _chord_m(diameter_m: float, depth_m: float) -> float:
    """Width of a disc at a depth, from a sliver of it."""
    x = 0.5 * diameter_m - depth_m
    sliver = 1e-6
    cut = round_section(diameter_m).intersection(strip(x - sliver, x + sliver))
    return float(cut.area) / (2.0 * sliver)


def _uncut_moment_n_m(
    bending_pa: float, diameter_m: float, notch_m: float, uncut_share: float
) -> float:
    behind = round_section(diameter_m).intersection(strip(-1.0, 0.5 * diameter_m - notch_m))
    depth = diameter_m - notch_m
    width = uncut_share * behind.area / depth
    return float(bending_pa * width * depth**2 / 6.0)


UNCUT = {"bending_pa": 38e6, "diameter_m": 0.46, "notch_m": 0.092, "uncut_share": 0.45}

ROWS = [
    *(
        _row(
            "hinge.hinge_area_m2",
            _named("diameter_m cavity_m notch_m thickness_m", case),
            straight_hinge(*case).area,
            f"area of the intersection, {case}",
        )
        for case in STRAIGHT
    ),
    *(
        _row(
            "hinge.hinge_section",
            _named("diameter_m cavity_m notch_m thickness_m", case),
            _fields(moments(straight_hinge(*case))),
            f"Green's theorem round the intersection, {case}",
            absolute=2e-9,
        )
        for case in STRAIGHT
        if case[1] == 0.0 or case[3] < 0.4
    ),
    *(
        _row(
            "hinge.tapered_hinge_section",
            _named("diameter_m cavity_m notch_m left_m right_m", case),
            _fields(moments(tapered_hinge(*case))),
            f"Green's theorem round the intersection, {case}",
            tolerance=2e-3,
            absolute=1e-7,
            why="2,000 strips, each a rectangle: its ends cut the rim in steps",
        )
        for case in TAPERED
    ),
    *(
        _row(
            "notch.chord_m",
            {"diameter_m": 1.0, "depth_m": depth},
            _chord_m(1.0, depth),
            f"area of a sliver at a depth of {depth:.3f}",
        )
        for depth in (0.20, 0.25, 1.0 / 3.0)
    ),
    _row(
        "preload.uncut_moment_n_m",
        UNCUT,
        _uncut_moment_n_m(**UNCUT),
        "area of the wood behind the notch",
    ),
]


def test_published_chords_of_the_usual_notch_depths() -> None:
    """0.8, 0.866 and 0.943 of the diameter at depths of 0.20, 1/4 and 1/3."""
    for depth, chord in ((0.20, 0.8), (0.25, 0.866), (1.0 / 3.0, 0.943)):
        assert _chord_m(1.0, depth) == pytest.approx(chord, abs=5e-4)


def test_taper_of_60_to_30_mm_turns_the_axis_2_83_degrees_and_moves_the_centroid_28_mm() -> None:
    section = tapered_hinge_section(0.45, 0.0, 0.09, 0.060, 0.030)
    assert math.degrees(section.turn_rad) == pytest.approx(2.83, abs=0.005)
    assert section.centroid_y_m == pytest.approx(0.028, abs=0.0005)
    # About half the angle of the taper.
    assert section.turn_rad == pytest.approx(0.5 * math.atan(0.030 / 0.36), rel=0.2)


def test_thin_strip_has_the_second_moments_of_its_rectangle() -> None:
    section = hinge_section(0.45, 0.0, 0.20, 0.002)
    width = section.area_m2 / 0.002
    assert section.weak_m4 == pytest.approx(width * 0.002**3 / 12.0, rel=1e-3)
    assert section.strong_m4 == pytest.approx(0.002 * width**3 / 12.0, rel=1e-3)
