"""Sections as shapely polygons, with moments of area by Green's theorem round their edges."""

import math
from typing import NamedTuple

import numpy as np
from shapely import LinearRing, Point, Polygon, box
from shapely.geometry.base import BaseGeometry

QUARTER_SIDES = 4096  # a disc of 16,384 sides: its area is short by 2.5e-8


class Moments(NamedTuple):
    """Area, centroid and second moments about the centroid of a plane figure."""

    area: float
    x: float
    y: float
    xx: float
    yy: float
    xy: float


def disc(diameter_m: float) -> Polygon:
    """Disc about the origin."""
    return Point(0.0, 0.0).buffer(0.5 * diameter_m, quad_segs=QUARTER_SIDES)


def strip(back_m: float, front_m: float, reach_m: float = 2.0) -> Polygon:
    """Everything between two lines across the lay; x along the lay."""
    return box(back_m, -reach_m, front_m, reach_m)


def straight_hinge(
    diameter_m: float, cavity_m: float, notch_m: float, thickness_m: float
) -> BaseGeometry:
    """Hinge left by two straight cuts, x along the lay from the stump's centre."""
    front = 0.5 * diameter_m - notch_m
    return _wood(diameter_m, cavity_m).intersection(strip(front - thickness_m, front))


def tapered_hinge(
    diameter_m: float, cavity_m: float, notch_m: float, left_m: float, right_m: float
) -> BaseGeometry:
    """Hinge whose back cut runs from one thickness at the left end of the notch to another."""
    front = 0.5 * diameter_m - notch_m
    half = math.sqrt((0.5 * diameter_m) ** 2 - front * front)
    slope = (left_m - right_m) / (2.0 * half)
    middle = 0.5 * (left_m + right_m)
    reach = diameter_m
    cut = Polygon(
        [
            (front, -reach),
            (front, reach),
            (front - middle - slope * reach, reach),
            (front - middle + slope * reach, -reach),
        ]
    )
    return _wood(diameter_m, cavity_m).intersection(cut)


def moments(figure: BaseGeometry) -> Moments:
    """Moments of a figure of one or more polygons, holes included."""
    parts = figure.geoms if hasattr(figure, "geoms") else [figure]
    total = np.zeros(6)
    for part in parts:
        total += _ring_integrals(part.exterior)
        for hole in part.interiors:
            total -= _ring_integrals(hole)
    area, first_x, first_y, xx, yy, xy = (float(value) for value in total)
    x, y = first_x / area, first_y / area
    return Moments(area, x, y, xx - area * x * x, yy - area * y * y, xy - area * x * y)


def _wood(diameter_m: float, cavity_m: float) -> BaseGeometry:
    wood = disc(diameter_m)
    return wood.difference(disc(cavity_m)) if cavity_m > 0.0 else wood


def _ring_integrals(ring: LinearRing) -> "np.ndarray[tuple[int], np.dtype[np.float64]]":
    points = np.asarray(ring.coords)
    x0, y0 = points[:-1].T
    x1, y1 = points[1:].T
    cross = x0 * y1 - x1 * y0
    integrals = np.array(
        [
            cross.sum() / 2.0,
            ((x0 + x1) * cross).sum() / 6.0,
            ((y0 + y1) * cross).sum() / 6.0,
            ((x0 * x0 + x0 * x1 + x1 * x1) * cross).sum() / 12.0,
            ((y0 * y0 + y0 * y1 + y1 * y1) * cross).sum() / 12.0,
            ((x0 * y1 + 2.0 * x0 * y0 + 2.0 * x1 * y1 + x1 * y0) * cross).sum() / 24.0,
        ]
    )
    return integrals if integrals[0] >= 0.0 else -integrals
