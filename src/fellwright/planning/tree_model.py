"""The tree above the cut as a body: stem, crown, mass and balance point, from readings and tables.

What was not read is estimated here, and every estimate is said.
"""

import math
from dataclasses import dataclass

from fellwright.physics.crown import (
    crown_centre_height_m,
    double_cone_volume_m3,
    frontal_area_m2,
    linear_allometry_m,
    mass_from_share_kg,
)
from fellwright.physics.green_mass import (
    balance_point_height_m,
    green_density_kg_per_m3,
    heart_sap_moisture_percent,
    heavy_side_density_kg_per_m3,
    over_bark_density_kg_per_m3,
)
from fellwright.physics.stem_form import (
    kozak_1988_diameter_cm,
    ormerod_1973_centroid_m,
    ormerod_1973_volume_m3,
    ormerod_exponent,
    sections_centroid_m,
    sections_volume_m3,
    westfall_scott_2010_diameter_cm,
)
from fellwright.physics.stump import inside_bark_diameter_m, raile_1982_outside_ratio
from fellwright.planning import bands
from fellwright.planning.stated_errors import dbh_excess_ratio, height_doubt_ratio
from fellwright.records.defects import LOADED_CROWN
from fellwright.records.tree import Tree
from fellwright.tables import (
    KOZAK_1988,
    WESTFALL_SCOTT_2010,
    Species,
    form_factor,
    kozak_coefficients,
    westfall_scott_coefficients,
)
from fellwright.words import Text, listed, say

__all__ = ["TreeModel", "build_tree_model", "estimate_height_m"]

SECTIONS = 48
SAPWOOD_SHARE = 0.5
"""OWN: half of the cross-section, where heartwood and sapwood moistures are both published."""
CUT_HEIGHT_M = 0.30
"""PRACTICE: height of the cut where it is not given."""
LOADED_CROWN_RATIO = 1.3
"""MEMORY: snow, ice or ivy add 10 to 30 % to a crown; the unfavourable bound."""
LOWEST_CROWN_DEPTH_SHARE = 0.1


@dataclass(frozen=True, slots=True)
class TreeModel:
    """The body above the cut: masses [kg], heights above the cut [m], stump, and what was said."""

    species: Species
    height_m: float
    height_ratio: float
    cut_m: float
    stem_kg: float
    stem_volume_m3: float
    stem_centre_m: float
    crown_kg: float
    load_kg: float
    crown_ratio: float
    crown_centre_m: float
    crown_area_m2: float
    stump_m: float
    stump_sigma_m: float
    said: tuple[Text, ...]

    @property
    def balance_height_m(self) -> float:
        """Height of the balance point above the cut [m]."""
        return balance_point_height_m(
            self.stem_kg, self.stem_centre_m, self.crown_kg, self.crown_centre_m
        )

    @property
    def crown_share(self) -> float:
        """Crown mass over tree mass."""
        return self.crown_kg / (self.crown_kg + self.stem_kg)

    @property
    def bark_volume_ratio(self) -> float:
        """Volume of bark over volume of wood."""
        return self.species.bark.volume_percent / 100.0

    @property
    def wood_m(self) -> float:
        """Stump diameter inside bark [m]."""
        return inside_bark_diameter_m(self.stump_m, self.bark_volume_ratio)


def estimate_height_m(species: Species, dbh_cm: float) -> float:
    """Height from dbh by the species' curve, held at the ends of its range.

    Parameters
    ----------
    species : Species
        Species or density class.
    dbh_cm : float
        Diameter at breast height [cm].

    Returns
    -------
    float
        Height [m].
    """
    model = species.height
    held = min(max(dbh_cm, model.dbh_low_cm), model.dbh_high_cm)
    height: float = 1.3 + model.a * held**model.b
    return height


def stem_green_density_kg_per_m3(species: Species) -> float:
    """Green density of the stem over bark, on the heavy side."""
    basic = species.density.basic_kg_per_m3
    bark = green_density_kg_per_m3(species.bark.basic_kg_per_m3, species.bark.moisture_percent)
    ratio = species.bark.volume_percent / 100.0

    def over_bark(moisture_percent: float) -> float:
        wood = green_density_kg_per_m3(basic, moisture_percent)
        return over_bark_density_kg_per_m3(wood, bark, ratio)

    mix = 0.0
    parts = species.heart_sap
    if parts is not None and parts.heart_percent is not None and parts.sap_percent is not None:
        mix = over_bark(
            heart_sap_moisture_percent(parts.heart_percent, parts.sap_percent, SAPWOOD_SHARE)
        )
    published = 0.0 if species.green_stem is None else species.green_stem.kg_per_m3
    return heavy_side_density_kg_per_m3(over_bark(species.moisture.percent), mix, published)


def stem_volume_and_centre(
    species: Species, dbh_cm: float, height_m: float, cut_m: float
) -> tuple[float, float]:
    """Volume of the stem above the cut [m3] and height of its centroid above the ground [m]."""
    form = species.form
    if form.model == KOZAK_1988 or form.model == WESTFALL_SCOTT_2010:
        step = (height_m - cut_m) / SECTIONS
        heights = [cut_m + i * step for i in range(SECTIONS + 1)]
        if form.model == KOZAK_1988:
            kozak = kozak_coefficients(form.key)
            cm = [kozak_1988_diameter_cm(z, dbh_cm, height_m, kozak) for z in heights]
        else:
            westfall = westfall_scott_coefficients(form.key)
            cm = [westfall_scott_2010_diameter_cm(z, dbh_cm, height_m, westfall) for z in heights]
        diameters = [d / 100.0 for d in cm]
        return sections_volume_m3(diameters, step), cut_m + sections_centroid_m(diameters, step)
    exponent = ormerod_exponent(form_factor(form.key, dbh_cm), height_m)
    return (
        ormerod_1973_volume_m3(dbh_cm, height_m, exponent, cut_m),
        ormerod_1973_centroid_m(height_m, exponent, cut_m),
    )


def build_tree_model(tree: Tree, species: Species, dbh_cm: float) -> TreeModel:
    """Build the body above the cut from readings, estimating what was not read.

    Parameters
    ----------
    tree : Tree
        The tree as read.
    species : Species
        Its species or density class.
    dbh_cm : float
        Diameter at breast height [cm].

    Returns
    -------
    TreeModel
        With every estimate in ``said``.
    """
    said: list[Text] = []
    height_ratio = bands.HEIGHT.usual
    height = tree.height_m
    excess = dbh_excess_ratio(tree, dbh_cm)
    if height is None:
        height = estimate_height_m(species, dbh_cm)
        # The curve rises with dbh to the power b, which so scales what dbh adds to its scatter.
        height_ratio = math.hypot(
            max(bands.HEIGHT.estimated, species.height.residual_ln), species.height.b * excess
        )
    height_ratio = height_doubt_ratio(tree, height, height_ratio)
    if tree.height_m is None:
        said.append(say("said.height", height=height, ratio=height_ratio))
    cut_m = CUT_HEIGHT_M if tree.cut_height_cm is None else tree.cut_height_cm / 100.0
    if tree.cut_height_cm is None:
        said.append(say("said.cut_height", cut=cut_m))

    volume, stem_centre = stem_volume_and_centre(species, dbh_cm, height, cut_m)
    stem = volume * stem_green_density_kg_per_m3(species)

    width, depth, estimated = _crown_size(tree, species, dbh_cm, height)
    if estimated:
        said.append(say("said.crown", parts=listed(estimated)))
    by_share = mass_from_share_kg(stem, species.crown_share.median_dry)
    crown = max(species.crown.kg_per_m3 * double_cone_volume_m3(width, depth), by_share)
    load = 0.0
    loads = [d for d in tree.defects if d in LOADED_CROWN]
    if loads:
        load = crown * (LOADED_CROWN_RATIO - 1.0)
        loaded = listed(say(f"defect.{word}") for word in loads)
        said.append(say("said.loaded", loads=loaded, times=LOADED_CROWN_RATIO))

    stump_m, stump_sigma = _stump(tree, species, dbh_cm, cut_m, said)
    return TreeModel(
        species=species,
        height_m=height,
        height_ratio=height_ratio,
        cut_m=cut_m,
        stem_kg=stem,
        stem_volume_m3=volume,
        stem_centre_m=stem_centre - cut_m,
        crown_kg=crown,
        load_kg=load,
        crown_ratio=bands.CROWN.estimated if estimated else bands.CROWN.usual,
        crown_centre_m=crown_centre_height_m(height, depth) - cut_m,
        crown_area_m2=frontal_area_m2(width, depth),
        stump_m=stump_m,
        stump_sigma_m=stump_sigma,
        said=tuple(said),
    )


def _crown_size(
    tree: Tree, species: Species, dbh_cm: float, height_m: float
) -> tuple[float, float, list[Text]]:
    """Crown width and depth [m], and which of them was estimated."""
    model = species.crown
    estimated: list[Text] = []
    if tree.crown_radius_m is not None:
        width = 2.0 * tree.crown_radius_m
    else:
        width = linear_allometry_m(model.width_p0_m, model.width_p1_m_per_cm, dbh_cm)
        estimated.append(say("said.crown_width", width=width))
    if tree.crown_base_m is not None:
        depth = height_m - tree.crown_base_m
    else:
        depth = linear_allometry_m(model.depth_q0_m, model.depth_q1, height_m)
        estimated.append(say("said.crown_depth", depth=min(depth, 0.9 * height_m)))
    # A base read above an estimated top, or an allometry longer than the tree, is held.
    depth = min(max(depth, LOWEST_CROWN_DEPTH_SHARE * height_m), 0.9 * height_m)
    return width, depth, estimated


def _stump(
    tree: Tree, species: Species, dbh_cm: float, cut_m: float, said: list[Text]
) -> tuple[float, float]:
    """Stump diameter over bark [m] and its sigma [m]."""
    if tree.stump_diameter_cm is not None:
        return tree.stump_diameter_cm / 100.0, bands.STUMP.usual
    ratio = math.hypot(bands.STUMP.estimated, dbh_excess_ratio(tree, dbh_cm))
    stump = dbh_cm / 100.0 * raile_1982_outside_ratio(min(cut_m, 1.37), species.stump.a)
    said.append(say("said.stump", stump=stump, ratio=ratio))
    return stump, ratio * stump
