"""Green mass: density of green wood and bark, and the balance point of stem and crown."""

import math

__all__ = [
    "balance_point_height_m",
    "green_density_kg_per_m3",
    "heart_sap_moisture_percent",
    "heavy_side_density_kg_per_m3",
    "jenkins_2003_dry_mass_kg",
    "over_bark_density_kg_per_m3",
]


def green_density_kg_per_m3(basic_kg_per_m3: float, moisture_percent: float) -> float:
    """Density of green wood from basic density and moisture.

    Parameters
    ----------
    basic_kg_per_m3 : float
        Oven-dry mass over green volume [kg/m3].
    moisture_percent : float
        Water over oven-dry mass [%].

    Returns
    -------
    float
        ``basic (1 + MC/100)`` [kg/m3], above fibre saturation. By definition: [FPL-GTR-282] ch. 4.
    """
    return basic_kg_per_m3 * (1.0 + moisture_percent / 100.0)


def heart_sap_moisture_percent(
    heart_percent: float, sap_percent: float, sapwood_share: float
) -> float:
    """Moisture of a stem from heartwood and sapwood.

    Parameters
    ----------
    heart_percent, sap_percent : float
        Moisture of heartwood and sapwood [% of dry mass].
    sapwood_share : float
        Share of the cross-section that is sapwood, 0 to 1.

    Returns
    -------
    float
        Area-weighted moisture [%]. OWN; table values from [FPL-GTR-282] Table 4-1.
    """
    return sapwood_share * sap_percent + (1.0 - sapwood_share) * heart_percent


def over_bark_density_kg_per_m3(
    wood_kg_per_m3: float, bark_kg_per_m3: float, bark_volume_ratio: float
) -> float:
    """Green density of wood and bark together.

    Parameters
    ----------
    wood_kg_per_m3, bark_kg_per_m3 : float
        Green densities [kg/m3].
    bark_volume_ratio : float
        Bark over wood by volume.

    Returns
    -------
    float
        Density over bark [kg/m3]. Source of the shares: [NRS-38]. OWN mixture.
    """
    return (wood_kg_per_m3 + bark_volume_ratio * bark_kg_per_m3) / (1.0 + bark_volume_ratio)


def heavy_side_density_kg_per_m3(
    table_mean: float, heart_sap_mix: float, published_stem: float
) -> float:
    """Green density that errs to the heavy side.

    Parameters
    ----------
    table_mean : float
        From the mean moisture of the tables [kg/m3].
    heart_sap_mix : float
        From heartwood and sapwood moistures; 0 where none is published.
    published_stem : float
        Whole green stem of a wind-risk data set ([Locatelli-2022]); 0 where none is published.

    Returns
    -------
    float
        The heaviest of the three [kg/m3]. OWN: mean tables sit near heartwood for conifers, and a
        heavier tree asks for more push and leans harder.
    """
    return max(table_mean, heart_sap_mix, published_stem)


def balance_point_height_m(
    stem_kg: float, stem_height_m: float, crown_kg: float, crown_height_m: float
) -> float:
    """Height of the centre of mass of stem and crown.

    Parameters
    ----------
    stem_kg, crown_kg : float
        Green masses [kg].
    stem_height_m, crown_height_m : float
        Heights of their centres above the same level [m].

    Returns
    -------
    float
        Height above that level [m]. OWN: first moments.
    """
    return (stem_kg * stem_height_m + crown_kg * crown_height_m) / (stem_kg + crown_kg)


def jenkins_2003_dry_mass_kg(dbh_cm: float, b0: float, b1: float) -> float:
    """Above-ground dry mass from dbh, Jenkins et al. 2003.

    Parameters
    ----------
    dbh_cm : float
        Diameter at breast height [cm].
    b0, b1 : float
        Coefficients of the species group.

    Returns
    -------
    float
        ``exp(b0 + b1 ln D)`` [kg]. An outside measure of the mass model; one tree lies within
        about 25 % (one sigma). Source: [Jenkins-2003]. SEEN in published code.
    """
    return math.exp(b0 + b1 * math.log(dbh_cm))
