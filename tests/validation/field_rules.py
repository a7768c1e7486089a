"""The wedge rule of a public safety body, and a stand regression of wind; no folder is needed."""

from __future__ import annotations

import math
from collections.abc import Iterator

from tests.checks.test_wedge_rule import FOOT_M, INCH_M, LIFT_IN, TABLE
from tests.validation.comparison import Comparison, Model, Pair, compare
from tests.validation.standing_trees import species, whole_tree

from fellwright.api.door import answer
from fellwright.physics.balance import lever_m
from fellwright.physics.wind import (
    drag_coefficient,
    gust_force_n,
    gust_moments_n_m,
    hale_2015_turning_moment_n_m,
)
from fellwright.planning import bands, limits

__all__ = ["wedge_rule", "wind_moments"]

RULE_SOURCE = "13 rows of the wedging table [OSHA-eTool]"
HALE_SOURCE = "regression for closed conifer stands [Hale-2015]"
RULE_HEIGHT_M = 25.0
STEADY_LEAN_ERROR_M = 0.01
DRAWS = 256
CUT_CM = 30.0
GRID_SPECIES = ("norway_spruce", "sitka_spruce", "scots_pine", "douglas_fir")
GRID_SIZES = ((20.0, 18.0), (35.0, 27.0), (50.0, 32.0))
GRID_WINDS_M_S = (4.0, 6.0, 8.0, 10.0, 12.0)
GUST_FACTORS = (1.0, 1.5, 2.0)
DRAG_ERROR = bands.DRAG.high - 1.0


def wedge_rule() -> list[Comparison]:
    """Bare geometry, and a whole plan, where the rule says that 2 in of lift will do."""
    return [_bare_geometry(), _whole_plan()]


def _bare_geometry() -> Comparison:
    """The rule turns the tree about its far side; the engine about the hinge.

    Diameters cancel: lift is lever times lean over height, and height is segments diameters.
    """
    notch, hinge = limits.NOTCH_SHARE.value, limits.HINGE_SHARE.value
    lever = lever_m(1.0, notch, hinge, 0.0)
    pairs = [
        Pair(f"{segments} segments", lever * lean_ft * FOOT_M / segments, LIFT_IN * INCH_M)
        for segments, lean_ft in TABLE
    ]
    return compare(
        Model("Lift to balance by geometry alone", RULE_SOURCE),
        pairs,
        "Below zero: the bare geometry asks for less lift than the rule. The rule's factor 0.8 and "
        "its lever of a whole diameter are a margin; the engine's balance lift has none of it.",
    )


def _whole_plan() -> Comparison:
    pairs = [
        Pair(f"{segments} segments, {lean_ft:g} ft", _let_go_mm(segments, lean_ft), 1000 * 0.0508)
        for segments, lean_ft in TABLE
    ]
    more = sum(pair.model > pair.outside for pair in pairs)
    return compare(
        Model("Let-go lift of a whole plan, P50", RULE_SOURCE),
        pairs,
        f"Norway spruce, {RULE_HEIGHT_M:g} m, lean at the top; the engine asks for more than the "
        f"rule's 2 in in {more} of {len(pairs)} rows, for it adds the set-back of the stem behind "
        "the hinge and the hinge itself, and takes off the rule's margin.",
    )


def _let_go_mm(segments: int, lean_ft: float) -> float:
    tree = {
        "tree": {
            "species": "Norway spruce",
            "dbh_cm": 100.0 * RULE_HEIGHT_M / segments,
            "height_m": RULE_HEIGHT_M,
            "flare": "none",
            "lean": [
                {
                    "offset_m": lean_ft * FOOT_M,
                    "toward_deg": 180,
                    "sighted_at": "top",
                    "error_m": STEADY_LEAN_ERROR_M,
                }
            ],
        },
        "cut": {"lay_deg": 0},
        "day": {"gust_m_s": 0},
    }
    response = answer("tip", {"tree": tree, "kit": {}, "draws": DRAWS, "bare": True})
    lift = response["lift_mm"]
    assert isinstance(lift, dict)
    return float(lift["let_go"]["p50"])


def wind_moments() -> list[Comparison]:
    """The gust entered as the mean wind, and as 1.5 and 2 times the mean wind."""
    return [_wind(factor) for factor in GUST_FACTORS]


def _wind(gust_factor: float) -> Comparison:
    pairs = list(_grid(gust_factor))
    low = min(pair.model / pair.outside for pair in pairs)
    high = max(pair.model / pair.outside for pair in pairs)
    entered = (
        "mean wind entered as the gust"
        if gust_factor == 1.0
        else f"gust {gust_factor:g} times the mean wind"
    )
    note = f"Engine over regression {low:.2f} to {high:.2f}."
    if gust_factor == 1.0:
        note += (
            " The regression takes the mean wind at the canopy top and gives the largest gust "
            "moment; a feller who enters the mean wind understates the moment by this much."
        )
    else:
        note += " The factor is assumed (OWN)."
    return compare(
        Model(f"Gust moment, {entered}", HALE_SOURCE, DRAG_ERROR, is_band=True), pairs, note
    )


def _grid(gust_factor: float) -> Iterator[Pair]:
    for key in GRID_SPECIES:
        wood = species(key)
        for dbh_cm, height_m in GRID_SIZES:
            tree = whole_tree(key, dbh_cm, height_m, CUT_CM)
            for wind in GRID_WINDS_M_S:
                gust = gust_factor * wind
                drag = drag_coefficient(wood.drag.c, wood.drag.n, gust, wood.drag.high_m_per_s)
                force = gust_force_n(drag, tree.crown_area_m2, gust)
                moment, _ = gust_moments_n_m(force, tree.crown_centre_m, math.pi, 0.0)
                label = f"{wood.name} {dbh_cm:g} cm, {height_m:g} m, {wind:g} m/s"
                regression = hale_2015_turning_moment_n_m(dbh_cm / 100.0, height_m, wind)
                yield Pair(label, moment, regression)
