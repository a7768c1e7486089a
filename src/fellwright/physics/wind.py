"""Wind: a gust on the crown as a moment about the hinge."""

import math

from fellwright.kernel import kernel

__all__ = ["drag_coefficient", "gust_force_n", "gust_moments_n_m", "hale_2015_turning_moment_n_m"]

AIR_DENSITY_KG_PER_M3 = 1.25
LOWEST_FITTED_M_PER_S = 4.0


@kernel
def drag_coefficient(c: float, n: float, gust_m_per_s: float, high_m_per_s: float) -> float:
    """Drag coefficient of a crown on its still-air frontal area.

    Parameters
    ----------
    c, n : float
        Coefficients of ``Cd = C u^-N``.
    gust_m_per_s : float
        Wind speed at crown height [m/s].
    high_m_per_s : float
        Highest tested speed [m/s]; the coefficient is held above it.

    Returns
    -------
    float
        Drag coefficient, at most 1, held below 4 m/s. Power fits to [Mayhead-1973] and
        [Vollsinger-2005] as in [Locatelli-2022]. SEEN.
    """
    held = min(max(gust_m_per_s, LOWEST_FITTED_M_PER_S), high_m_per_s)
    value: float = c * held ** (-n)
    return min(1.0, value)


@kernel
def gust_force_n(drag: float, area_m2: float, gust_m_per_s: float) -> float:
    """Horizontal force of a gust on the crown.

    Parameters
    ----------
    drag : float
        Drag coefficient.
    area_m2 : float
        Still-air frontal area [m2].
    gust_m_per_s : float
        Gust speed at crown height [m/s].

    Returns
    -------
    float
        ``1/2 rho Cd A u^2`` [N] at 1.25 kg/m3; uniform over the crown, which is on the high side in
        a stand. Definition of the drag coefficient: [Mayhead-1973].
    """
    return 0.5 * AIR_DENSITY_KG_PER_M3 * drag * area_m2 * gust_m_per_s * gust_m_per_s


@kernel
def gust_moments_n_m(
    force_n: float, arm_m: float, wind_from_rad: float, lay_rad: float
) -> tuple[float, float]:
    """Forward and sideways moment of a gust.

    Parameters
    ----------
    force_n : float
        Force of the gust [N].
    arm_m : float
        Height of the crown's centre above the hinge [m].
    wind_from_rad : float
        Direction the wind comes from, clockwise from true north [rad].
    lay_rad : float
        Lay, clockwise from true north [rad].

    Returns
    -------
    tuple of float
        Forward moment [N.m], positive in the direction of the lay (a head wind is negative); side
        moment [N.m], positive towards the right of the lay. OWN: components.
    """
    angle = wind_from_rad + math.pi - lay_rad
    moment = force_n * arm_m
    return moment * math.cos(angle), moment * math.sin(angle)


def hale_2015_turning_moment_n_m(dbh_m: float, height_m: float, wind_m_per_s: float) -> float:
    """Largest gust moment at the base of a tree in a closed conifer stand.

    Parameters
    ----------
    dbh_m, height_m : float
        Diameter at breast height and tree height [m].
    wind_m_per_s : float
        Mean wind at the canopy top [m/s].

    Returns
    -------
    float
        ``111.7 D^2 h u^2`` [N.m]. An independent cross-check, not used in a plan.
        Source: [Hale-2015] (form of Hale et al. 2012, corrected). SEEN.
    """
    return 111.7 * dbh_m**2 * height_m * wind_m_per_s**2
