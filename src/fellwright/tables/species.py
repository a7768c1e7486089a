"""Species and density classes: every figure of one kind of tree, with its source and mark."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields
from functools import lru_cache
from types import MappingProxyType

from fellwright.tables.read import Row, load_table

__all__ = [
    "Bark",
    "CrownModel",
    "CrownShare",
    "Density",
    "Drag",
    "Form",
    "GreenStem",
    "Habit",
    "HeartSapMoisture",
    "HeightModel",
    "MeanMoisture",
    "Origin",
    "Species",
    "Strength",
    "Stump",
    "all_species",
    "density_classes",
    "species_by_key",
]


@dataclass(frozen=True, slots=True)
class Density:
    """Oven-dry mass over green volume of the wood [kg/m3]."""

    basic_kg_per_m3: float
    mark: str
    source: str
    note: str


@dataclass(frozen=True, slots=True)
class MeanMoisture:
    """Mean moisture of the green wood [% of dry mass]; for conifers near heartwood."""

    percent: float
    mark: str
    source: str
    note: str


@dataclass(frozen=True, slots=True)
class HeartSapMoisture:
    """Moisture of heartwood and sapwood [% of dry mass]; None where the source gives none."""

    heart_percent: float | None
    sap_percent: float | None
    mark: str
    source: str
    note: str


@dataclass(frozen=True, slots=True)
class GreenStem:
    """Published green density of the whole stem [kg/m3]."""

    kg_per_m3: float
    mark: str
    source: str
    note: str


@dataclass(frozen=True, slots=True)
class Bark:
    """Bark volume [% of wood volume], its basic density [kg/m3] and moisture [% of dry mass]."""

    volume_percent: float
    basic_kg_per_m3: float
    moisture_percent: float
    mark: str
    source: str
    note: str


@dataclass(frozen=True, slots=True)
class Strength:
    """Mean strength of clear green wood [MPa]: bending, stiffness, crushing and shear along grain.

    `basis` says how the mean was got and picks its spread: tabled, regression or class.
    """

    mor_mpa: float
    moe_mpa: float
    crushing_mpa: float
    shear_mpa: float
    basis: str
    mark: str
    source: str
    note: str


@dataclass(frozen=True, slots=True)
class CrownModel:
    """Crown of a forest tree: width ``p0 + p1 dbh`` [m, cm], depth ``q0 + q1 H`` [m, m].

    `kg_per_m3` is green crown mass over the volume of two cones base to base.
    """

    width_p0_m: float
    width_p1_m_per_cm: float
    depth_q0_m: float
    depth_q1: float
    kg_per_m3: float
    mark: str
    source: str
    note: str


@dataclass(frozen=True, slots=True)
class CrownShare:
    """Branches and foliage over all above ground, dry mass: median, 10 and 90 % of trees."""

    median_dry: float
    p10_dry: float
    p90_dry: float
    mark: str
    source: str
    note: str


@dataclass(frozen=True, slots=True)
class HeightModel:
    """Height from dbh: ``H = 1.3 + a dbh^b`` [m, cm], spread of one tree in ln(H - 1.3).

    Outside `dbh_low_cm` to `dbh_high_cm`, hold dbh at the end and say so.
    """

    a: float
    b: float
    residual_ln: float
    dbh_low_cm: float
    dbh_high_cm: float
    mark: str
    source: str
    note: str


@dataclass(frozen=True, slots=True)
class Drag:
    """Crown drag ``Cd = C u^-N`` on still-air frontal area, and the tested speeds [m/s]."""

    c: float
    n: float
    low_m_per_s: float
    high_m_per_s: float
    mark: str
    source: str
    note: str


@dataclass(frozen=True, slots=True)
class Stump:
    """Raile 1982: over bark ``1 + A x``, inside bark ``B + C x`` of dbh, x of height in feet."""

    a: float
    b: float
    c: float
    mark: str
    source: str
    note: str


@dataclass(frozen=True, slots=True)
class Form:
    """Which stem-form model, and the row of its coefficients.

    `model` is kozak_1988, westfall_scott_2010 or form_factor.
    """

    model: str
    key: str
    mark: str
    source: str
    note: str


@dataclass(frozen=True, slots=True)
class Habit:
    """A habit of the species that calls for care: true or not, and why."""

    holds: bool
    reason: str
    mark: str
    source: str


@dataclass(frozen=True, slots=True)
class Origin:
    """How one group of a species' figures is known; anything but SEEN is assumed in a plan."""

    group: str
    mark: str
    source: str
    note: str


@dataclass(frozen=True, slots=True)
class Species:
    """One species, or one density class for a tree whose species is not known.

    Parameters
    ----------
    key
        Stable name in files and code.
    name
        English name to show; German and others through `names_of`.
    latin
        Scientific name; empty for a class.
    group
        softwood or hardwood.
    is_class
        True for a density class: every figure is then assumed.
    """

    key: str
    name: str
    latin: str
    group: str
    is_class: bool
    density: Density
    moisture: MeanMoisture
    heart_sap: HeartSapMoisture | None
    green_stem: GreenStem | None
    bark: Bark
    strength: Strength
    crown: CrownModel
    crown_share: CrownShare
    height: HeightModel
    drag: Drag
    stump: Stump
    form: Form
    splitting_prone: Habit
    shallow_roots: Habit

    @property
    def origins(self) -> tuple[Origin, ...]:
        """How each group of figures is known, in the order of the fields."""
        found = []
        for field in fields(self):
            group = getattr(self, field.name)
            if hasattr(group, "mark"):
                note = group.reason if isinstance(group, Habit) else group.note
                found.append(Origin(field.name, group.mark, group.source, note))
        return tuple(found)


@lru_cache(maxsize=1)
def species_by_key() -> Mapping[str, Species]:
    """All species and classes by key, in table order."""
    rows = load_table("species").rows
    return MappingProxyType({row.text("key"): _species(row) for row in rows})


def all_species() -> tuple[Species, ...]:
    """List the true species, without the density classes."""
    return tuple(s for s in species_by_key().values() if not s.is_class)


def density_classes() -> tuple[Species, ...]:
    """List the density classes for trees whose species is not known."""
    return tuple(s for s in species_by_key().values() if s.is_class)


def _species(row: Row) -> Species:
    return Species(
        key=row.text("key"),
        name=row.text("name"),
        latin=row.text("latin"),
        group=row.text("group"),
        is_class=row.yes("is_class"),
        density=Density(row.number("basic_density_kg_per_m3"), *_origin(row, "density")),
        moisture=MeanMoisture(row.number("moisture_mean_percent"), *_origin(row, "moisture")),
        heart_sap=_heart_sap(row),
        green_stem=_green_stem(row),
        bark=_bark(row),
        strength=_strength(row),
        crown=_crown(row),
        crown_share=_crown_share(row),
        height=_height(row),
        drag=_drag(row),
        stump=_stump(row),
        form=Form(row.text("form_model"), row.text("form_key"), *_origin(row, "form")),
        splitting_prone=_habit(row, "splitting_prone", "splitting"),
        shallow_roots=_habit(row, "shallow_roots", "shallow_roots"),
    )


def _origin(row: Row, group: str) -> tuple[str, str, str]:
    return row.mark(f"{group}_mark"), row.text(f"{group}_source"), row.text(f"{group}_note")


def _heart_sap(row: Row) -> HeartSapMoisture | None:
    if not row.mark("heart_sap_mark", required=False):
        return None
    heart = row.number_or_none("moisture_heart_percent")
    sap = row.number_or_none("moisture_sap_percent")
    return HeartSapMoisture(heart, sap, *_origin(row, "heart_sap"))


def _green_stem(row: Row) -> GreenStem | None:
    density = row.number_or_none("green_stem_kg_per_m3")
    if density is None:
        return None
    return GreenStem(density, row.mark("green_stem_mark"), row.text("green_stem_source"), "")


def _bark(row: Row) -> Bark:
    return Bark(
        row.number("bark_volume_percent"),
        row.number("bark_basic_density_kg_per_m3"),
        row.number("bark_moisture_percent"),
        *_origin(row, "bark"),
    )


def _strength(row: Row) -> Strength:
    mark, source, note = _origin(row, "strength")
    basis = "class" if row.yes("is_class") else "tabled" if mark == "SEEN" else "regression"
    return Strength(
        row.number("mor_mpa"),
        row.number("moe_mpa"),
        row.number("crushing_mpa"),
        row.number("shear_mpa"),
        basis,
        mark,
        source,
        note,
    )


def _crown(row: Row) -> CrownModel:
    return CrownModel(
        row.number("crown_width_p0_m"),
        row.number("crown_width_p1_m_per_cm"),
        row.number("crown_depth_q0_m"),
        row.number("crown_depth_q1"),
        row.number("crown_kg_per_m3"),
        *_origin(row, "crown"),
    )


def _crown_share(row: Row) -> CrownShare:
    return CrownShare(
        row.number("crown_share_dry"),
        row.number("crown_share_p10_dry"),
        row.number("crown_share_p90_dry"),
        *_origin(row, "crown_share"),
    )


def _height(row: Row) -> HeightModel:
    return HeightModel(
        row.number("height_a"),
        row.number("height_b"),
        row.number("height_residual_ln"),
        row.number("height_dbh_low_cm"),
        row.number("height_dbh_high_cm"),
        *_origin(row, "height"),
    )


def _drag(row: Row) -> Drag:
    return Drag(
        row.number("drag_c"),
        row.number("drag_n"),
        row.number("drag_low_m_per_s"),
        row.number("drag_high_m_per_s"),
        *_origin(row, "drag"),
    )


def _stump(row: Row) -> Stump:
    return Stump(
        row.number("stump_a"), row.number("stump_b"), row.number("stump_c"), *_origin(row, "stump")
    )


def _habit(row: Row, column: str, group: str) -> Habit:
    return Habit(
        row.yes(column),
        row.text(f"{group}_reason"),
        row.mark(f"{group}_mark"),
        row.text(f"{group}_source"),
    )
