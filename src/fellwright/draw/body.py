"""The tree as a shape: stem and crown to scale, and where it stands at start, balance, let-go.

Frame: x along the lay from the pith, z up from the cut, metres. Forward turns are positive.
"""

import math
from collections.abc import Iterable
from typing import NamedTuple

from fellwright.physics.balance import rotation_of_lift_rad
from fellwright.physics.stem_form import (
    kozak_1988_diameter_cm,
    ormerod_1973_diameter_cm,
    ormerod_exponent,
    westfall_scott_2010_diameter_cm,
)
from fellwright.planning.chance import Points
from fellwright.planning.need import Need, Situation, draw_need
from fellwright.planning.plan import Plan
from fellwright.planning.tree_model import TreeModel
from fellwright.tables import (
    KOZAK_1988,
    WESTFALL_SCOTT_2010,
    Species,
    form_factor,
    kozak_coefficients,
    westfall_scott_coefficients,
)

__all__ = [
    "MEDIAN",
    "Outline",
    "Place",
    "Stance",
    "TippingPoints",
    "median_need",
    "outline",
    "stem_diameter_m",
    "tipping_points",
    "turned",
    "turned_all",
]

MEDIAN = Points(**{name: 0.0 if name.startswith("z_") else 0.5 for name in Points._fields})
"""The draw in the middle of every reading and every band."""
STEM_STEPS = 24
BREAST_HEIGHT_M = 1.3


class Place(NamedTuple):
    """A place in the plane of the lay [m]."""

    x_m: float
    z_m: float


class Stance(NamedTuple):
    """The tree turned about its hinge: turn [rad], opening at the wedge [m], balance point, tip."""

    rotation_rad: float
    lift_m: float
    balance_point: Place
    tip: Place


class TippingPoints(NamedTuple):
    """Points of the tipping picture. Balance and let-go are None where the tree needs no lift.

    The turns are those of the P50 lifts on the median lever. Where a balance lift is needed, the
    balance point at start stands so far behind the axis that it is over it at just that lift;
    from the median reading that differs by millimetres.
    """

    axis: Place
    contact: Place
    lever_m: float
    start: Stance
    balance: Stance | None
    let_go: Stance | None

    @property
    def stances(self) -> tuple[Stance, ...]:
        """The stances that there are, in their order."""
        return tuple(s for s in (self.start, self.balance, self.let_go) if s is not None)


class Outline(NamedTuple):
    """Stem and crown as closed shapes."""

    stem: tuple[Place, ...]
    crown: tuple[Place, ...]


def median_need(situation: Situation) -> Need:
    """What the tree asks for at the median of every reading."""
    need: Need = draw_need(MEDIAN, situation, 1.0)
    return need


def turned(place: Place, axis: Place, rotation_rad: float) -> Place:
    """Turn a place forward about an axis.

    Parameters
    ----------
    place, axis : Place
        What turns, and about what.
    rotation_rad : float
        Turn [rad], positive forward.

    Returns
    -------
    Place
        Where it comes to stand.
    """
    x, z = place.x_m - axis.x_m, place.z_m - axis.z_m
    cosine, sine = math.cos(rotation_rad), math.sin(rotation_rad)
    return Place(axis.x_m + x * cosine + z * sine, axis.z_m - x * sine + z * cosine)


def tipping_points(plan: Plan) -> TippingPoints | None:
    """Work out where axis, contact and balance point stand.

    Parameters
    ----------
    plan : Plan
        The plan.

    Returns
    -------
    TippingPoints or None
        None where the plan has no figures.
    """
    if plan.model is None or plan.situation is None or plan.outcome is None:
        return None
    need = median_need(plan.situation)
    figures = plan.outcome.figures
    axis = Place(0.5 * need.wood_m - need.notch_m - 0.5 * need.hinge_m, 0.0)
    contact = Place(axis.x_m - need.lever_m, 0.0)
    balance_lift, let_go_lift = figures.balance_lift_m.p50, figures.let_go_lift_m.p50
    x = -need.back_m
    if balance_lift > 0.0:
        turn = rotation_of_lift_rad(need.lever_m, balance_lift)
        x = axis.x_m - need.height_m * math.tan(turn)
    balance_point = Place(x, need.height_m)
    reach = (plan.model.height_m - plan.model.cut_m) / need.height_m
    tip = Place(reach * x, reach * need.height_m)

    def stance(lift: float) -> Stance:
        turn = rotation_of_lift_rad(need.lever_m, lift)
        return Stance(turn, lift, turned(balance_point, axis, turn), turned(tip, axis, turn))

    return TippingPoints(
        axis,
        contact,
        need.lever_m,
        Stance(0.0, 0.0, balance_point, tip),
        stance(balance_lift) if balance_lift > 0.0 else None,
        stance(let_go_lift) if let_go_lift > 0.0 else None,
    )


def stem_diameter_m(species: Species, dbh_cm: float, height_m: float, z_m: float) -> float:
    """Diameter of the stem over bark by the species' form model.

    Parameters
    ----------
    species : Species
        Species or density class.
    dbh_cm, height_m : float
        Diameter at breast height [cm] and height [m].
    z_m : float
        Height above the ground [m], above 0.

    Returns
    -------
    float
        Diameter [m].
    """
    form = species.form
    if form.model == KOZAK_1988:
        cm = kozak_1988_diameter_cm(z_m, dbh_cm, height_m, kozak_coefficients(form.key))
    elif form.model == WESTFALL_SCOTT_2010:
        coefficients = westfall_scott_coefficients(form.key)
        cm = westfall_scott_2010_diameter_cm(z_m, dbh_cm, height_m, coefficients)
    else:
        exponent = ormerod_exponent(form_factor(form.key, dbh_cm), height_m)
        cm = ormerod_1973_diameter_cm(z_m, dbh_cm, height_m, exponent)
    return max(0.0, cm / 100.0)


def outline(model: TreeModel, dbh_cm: float, points: TippingPoints) -> Outline:
    """Shape of the tree at the start.

    Parameters
    ----------
    model : TreeModel
        The body above the cut.
    dbh_cm : float
        Diameter at breast height [cm].
    points : TippingPoints
        Where the tip stands.

    Returns
    -------
    Outline
        A straight leaning stem with the taper of its form model, from the stump's width at the cut,
        and a crown of two cones base to base.
    """
    length = model.height_m - model.cut_m
    tip = points.start.tip

    def on_axis(z_m: float, aside_m: float) -> Place:
        share = z_m / length
        return Place(share * tip.x_m + aside_m, share * tip.z_m)

    def half_m(z_m: float) -> float:
        above = max(z_m + model.cut_m, 1e-3)
        by_form = stem_diameter_m(model.species, dbh_cm, model.height_m, min(above, model.height_m))
        if above >= BREAST_HEIGHT_M or model.cut_m >= BREAST_HEIGHT_M:
            return 0.5 * by_form
        # Below breast height the stump as measured says more than a curve through it.
        at_breast = stem_diameter_m(model.species, dbh_cm, model.height_m, BREAST_HEIGHT_M)
        share = z_m / (BREAST_HEIGHT_M - model.cut_m)
        return 0.5 * (model.stump_m + share * (at_breast - model.stump_m))

    levels = [length * i / STEM_STEPS for i in range(STEM_STEPS + 1)]
    left = [on_axis(z, -half_m(z)) for z in levels]
    right = [on_axis(z, half_m(z)) for z in levels]
    depth = 2.0 * (length - model.crown_centre_m)
    radius = model.crown_area_m2 / depth
    crown = (
        on_axis(length, 0.0),
        on_axis(length - 0.5 * depth, radius),
        on_axis(length - depth, 0.0),
        on_axis(length - 0.5 * depth, -radius),
    )
    return Outline((*left, *reversed(right)), crown)


def turned_all(places: Iterable[Place], axis: Place, rotation_rad: float) -> tuple[Place, ...]:
    """Turn a shape forward about an axis."""
    return tuple(turned(place, axis, rotation_rad) for place in places)
