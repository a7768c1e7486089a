"""The crown: size from allometry, mass, centre, and the area it shows to the wind."""

import math

__all__ = [
    "crown_centre_height_m",
    "crown_depth_m",
    "crown_width_m",
    "double_cone_volume_m3",
    "frontal_area_m2",
    "linear_allometry_m",
    "mass_from_share_kg",
]


def linear_allometry_m(intercept_m: float, slope: float, size: float) -> float:
    """Crown width from dbh [cm], or crown depth from height [m]: a straight line.

    Parameters
    ----------
    intercept_m : float
        Intercept [m].
    slope : float
        Slope [m per cm of dbh, or m per m of height].
    size : float
        Dbh [cm] or height [m].

    Returns
    -------
    float
        Width or depth [m], not below 0. Source: [Hale-2015], [Locatelli-2022]. SEEN.
    """
    return max(0.0, intercept_m + slope * size)


def crown_width_m(crown_radius_m: float) -> float:
    """Crown width from its radius by paces.

    Parameters
    ----------
    crown_radius_m : float
        Mean crown radius [m].

    Returns
    -------
    float
        Width [m]. OWN: twice the radius.
    """
    return 2.0 * crown_radius_m


def crown_depth_m(height_m: float, crown_base_m: float) -> float:
    """Crown depth from its base.

    Parameters
    ----------
    height_m, crown_base_m : float
        Tree height and height of the crown base above the ground [m].

    Returns
    -------
    float
        Depth [m]. OWN: the difference.
    """
    return height_m - crown_base_m


def double_cone_volume_m3(width_m: float, depth_m: float) -> float:
    """Volume of two cones base to base, widest at mid-depth.

    Parameters
    ----------
    width_m, depth_m : float
        Crown width and depth [m].

    Returns
    -------
    float
        ``pi/12 w^2 L`` [m3]: the crown of [Hale-2015]. SEEN.
    """
    return math.pi / 12.0 * width_m * width_m * depth_m


def mass_from_share_kg(stem_kg: float, crown_share: float) -> float:
    """Crown mass from the crown's share of the tree above ground.

    Parameters
    ----------
    stem_kg : float
        Green mass of the stem [kg].
    crown_share : float
        Branches and foliage over stem, branches and foliage, 0 to below 1.

    Returns
    -------
    float
        Crown mass [kg]: ``stem s/(1 - s)``. Shares are of dry mass ([BAAD-2015], DERIVED); foliage
        is wetter than stem wood, so green crowns run somewhat heavier.
    """
    return stem_kg * crown_share / (1.0 - crown_share)


def crown_centre_height_m(height_m: float, crown_depth: float) -> float:
    """Height of the crown's centre of mass above the ground, double cone.

    Parameters
    ----------
    height_m, crown_depth : float
        Tree height and crown depth [m].

    Returns
    -------
    float
        Height [m]: mid-depth. OWN, geometry of the double cone.
    """
    return height_m - 0.5 * crown_depth


def frontal_area_m2(width_m: float, depth_m: float) -> float:
    """Still-air area that the crown shows to the wind.

    Parameters
    ----------
    width_m, depth_m : float
        Crown width and depth [m].

    Returns
    -------
    float
        ``w L/2`` [m2], the frontal area that the drag coefficients of [Mayhead-1973] are used
        with in [Hale-2015]. SEEN.
    """
    return 0.5 * width_m * depth_m
