"""From a tree as read to the situation that is drawn: lean, cut, strength, wind and their doubt."""

import math
from dataclasses import dataclass

from fellwright.physics.frost import bending_strength_ratio
from fellwright.physics.hinge import strength_ratio
from fellwright.physics.lean import (
    LeanVector,
    back_and_side_m,
    balance_offset_from_top_m,
    combine_readings,
)
from fellwright.physics.wind import drag_coefficient, gust_force_n, gust_moments_n_m
from fellwright.planning import bands, limits
from fellwright.planning.need import Situation
from fellwright.planning.proposal import proposal_for
from fellwright.planning.stated_errors import dbh_doubt_ratio
from fellwright.planning.tree_model import TreeModel
from fellwright.records.defects import SHAPE
from fellwright.records.lean_errors import reading_sigma_m
from fellwright.records.tree import Tree
from fellwright.tables import variability_of
from fellwright.tables.profiles import Profile
from fellwright.words import Text, say

__all__ = ["CutPlan", "LeanEstimate", "build_situation", "estimate_lean", "propose_cut"]

OFFSET_DIGITS = 9
"""A side offset of 1e-17 m is none: its sign would turn the draws of a tree that leans straight."""
CROWN_SHIFT_SIGMA_M = 0.4
"""MEMORY: doubt of a crown's shift that nobody looked at, unfavourable bound."""


@dataclass(frozen=True, slots=True)
class LeanEstimate:
    """Offset of the balance point over the ground [m], its sigma [m], and what was said."""

    east_m: float
    north_m: float
    sigma_m: float
    said: tuple[Text, ...]

    @property
    def offset_m(self) -> float:
        """Distance of the balance point from the pith, over the ground [m]."""
        return math.hypot(self.east_m, self.north_m)


@dataclass(frozen=True, slots=True)
class CutPlan:
    """The cut that is planned: lay [deg], notch share, hinge [m], method, and what is proposed.

    Opening and step are always proposed.
    """

    lay_deg: float
    notch_share: float
    hinge_m: float
    method: str | None
    preload: bool | None
    notch_is_proposed: bool
    hinge_is_proposed: bool
    opening_rad: float = math.radians(limits.NOTCH_OPENING_DEG.value)
    step_m: float = limits.STEP_MM.value / 1000.0


def estimate_lean(tree: Tree, model: TreeModel) -> LeanEstimate | None:
    """Combine the lean readings into the offset of the balance point.

    Parameters
    ----------
    tree : Tree
        The tree as read.
    model : TreeModel
        Its body, for readings sighted at the top.

    Returns
    -------
    LeanEstimate or None
        None without a reading.
    """
    if not tree.lean:
        return None
    said: list[Text] = []
    readings = []
    for reading in tree.lean:
        sigma = reading_sigma_m(reading)
        east = reading.offset_m * math.sin(math.radians(reading.toward_deg))
        north = reading.offset_m * math.cos(math.radians(reading.toward_deg))
        if reading.sighted_at == "top":
            east, north, sigma = _from_top(tree, model, east, north, sigma)
        readings.append(LeanVector(east, north, sigma))
        if reading.error_m is None and reading.how is None:
            said.append(say("said.lean_how"))
    combined = combine_readings(readings)
    if combined.chi_square_ratio > 1.0:
        said.append(say("said.lean_scatter"))
    return LeanEstimate(combined.east_m, combined.north_m, combined.sigma_m, tuple(said))


def _from_top(
    tree: Tree, model: TreeModel, east: float, north: float, sigma: float
) -> tuple[float, float, float]:
    """Turn a reading at the top into one at the balance point; the crown's shift comes on top."""
    share = balance_offset_from_top_m(
        1.0,
        model.stem_centre_m / (model.height_m - model.cut_m),
        model.crown_centre_m / (model.height_m - model.cut_m),
        model.crown_share,
    )
    east, north, sigma = share * east, share * north, share * sigma
    crown = model.crown_share
    if tree.crown_shift is None:
        return east, north, math.hypot(sigma, crown * CROWN_SHIFT_SIGMA_M)
    toward = math.radians(tree.crown_shift.toward_deg)
    east += crown * tree.crown_shift.offset_m * math.sin(toward)
    north += crown * tree.crown_shift.offset_m * math.cos(toward)
    return east, north, math.hypot(sigma, 0.5 * crown * CROWN_SHIFT_SIGMA_M)


def propose_cut(
    tree: Tree, model: TreeModel, lay_deg: float, profile: Profile | None = None
) -> CutPlan:
    """Take the cut as given and propose what is not, within the practice profile chosen.

    Parameters
    ----------
    tree : Tree
        The tree as read.
    model : TreeModel
        Its body.
    lay_deg : float
        Lay, clockwise from true north [deg].
    profile : Profile, optional
        What the proposal keeps to.

    Returns
    -------
    CutPlan
        Notch a fifth, hinge a tenth of the stump but at most 60 mm, where neither feller nor
        profile says otherwise.
    """
    cut = tree.cut
    own = proposal_for(profile, model.stump_m, None if tree.dbh_cm is None else tree.dbh_cm / 100.0)
    return CutPlan(
        lay_deg=lay_deg,
        notch_share=own.notch_share if cut.notch_share is None else cut.notch_share,
        hinge_m=own.hinge_m if cut.hinge_mm is None else cut.hinge_mm / 1000.0,
        method=cut.method,
        preload=cut.preload,
        notch_is_proposed=cut.notch_share is None,
        hinge_is_proposed=cut.hinge_mm is None,
        opening_rad=own.opening_rad,
        step_m=own.step_m,
    )


def build_situation(
    tree: Tree, model: TreeModel, lean: LeanEstimate, cut: CutPlan, gust_m_per_s: float
) -> Situation:
    """Put medians and errors of one tree, cut and day together for the draws.

    Parameters
    ----------
    tree : Tree
        The tree as read.
    model : TreeModel
        Its body.
    lean : LeanEstimate
        Offset of the balance point.
    cut : CutPlan
        The cut.
    gust_m_per_s : float
        Gust at crown height [m/s].

    Returns
    -------
    Situation
        SI figures.
    """
    species = model.species
    strength = species.strength
    cv = {
        name: variability_of(species, name).cv_percent / 100.0
        for name in ("mor", "crushing", "shear")
    }
    lay_rad = math.radians(cut.lay_deg)
    back, side = (
        round(offset, OFFSET_DIGITS)
        for offset in back_and_side_m(lean.east_m, lean.north_m, lay_rad)
    )
    wind_from = cut.lay_deg if tree.day.wind_from_deg is None else tree.day.wind_from_deg
    drag = drag_coefficient(species.drag.c, species.drag.n, gust_m_per_s, species.drag.high_m_per_s)
    force = gust_force_n(drag, model.crown_area_m2, gust_m_per_s)
    forward, sideways = gust_moments_n_m(
        force, model.crown_centre_m, math.radians(wind_from), lay_rad
    )
    freezing = (
        tree.day.temperature_degc is not None
        and tree.day.temperature_degc < limits.FROST_DEGC.value
    )
    prone = species.splitting_prone.holds or freezing or any(d in SHAPE for d in tree.defects)
    frost = 1.0
    if tree.day.temperature_degc is not None:
        frost = bending_strength_ratio(tree.day.temperature_degc)
    return Situation(
        stem_kg=model.stem_kg,
        stem_centre_m=model.stem_centre_m,
        crown_kg=model.crown_kg,
        crown_centre_m=model.crown_centre_m,
        load_kg=model.load_kg,
        mass_ratio=bands.MASS_RATIO,
        dbh_ratio=dbh_doubt_ratio(tree),
        height_ratio=model.height_ratio,
        crown_ratio=model.crown_ratio,
        balance_ratio=bands.BALANCE_RATIO,
        back_m=back,
        upright_back_m=max(0.0, back),
        side_m=side,
        offset_sigma_m=lean.sigma_m,
        stump_m=model.stump_m,
        stump_sigma_m=model.stump_sigma_m,
        bark_volume_ratio=model.bark_volume_ratio,
        wall_m=0.0 if tree.cavity_wall_cm is None else tree.cavity_wall_cm / 100.0,
        wall_sigma_m=bands.WALL.usual,
        notch_share=cut.notch_share,
        notch_sigma_share=bands.NOTCH.usual,
        hinge_m=cut.hinge_m,
        hinge_sigma_m=bands.HINGE.usual,
        bending_pa=strength.mor_mpa * 1e6,
        bending_cv=cv["mor"],
        frost_ratio=frost,
        modulus_pa=strength.moe_mpa * 1e6,
        crushing_pa=strength.crushing_mpa * 1e6,
        crushing_cv=cv["crushing"],
        shear_pa=strength.shear_mpa * 1e6,
        shear_cv=cv["shear"],
        strength_ratio=strength_ratio(strength.mor_mpa, strength.crushing_mpa),
        toughness_j_per_m2=bands.TOUGHNESS_J_PER_M2,
        toughness_cv=bands.TOUGHNESS_CV,
        split_prone_ratio=bands.SPLIT_PRONE_RATIO if prone else 1.0,
        step_m=cut.step_m,
        rim_m=limits.RIM_MM.value / 1000.0,
        closing_rad=cut.opening_rad,
        wind_forward_n_m=forward,
        wind_side_n_m=sideways,
        residual_low=bands.RESIDUAL.low,
        residual_span=bands.RESIDUAL.high - bands.RESIDUAL.low,
        fibre_low=bands.FIBRE.low,
        fibre_span=bands.FIBRE.high - bands.FIBRE.low,
        drag_low_log=math.log(bands.DRAG.low),
        drag_span_log=math.log(bands.DRAG.high / bands.DRAG.low),
    )
