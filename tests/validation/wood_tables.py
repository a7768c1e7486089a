"""The wood table against the handbook's printed values and other published figures."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence

from tests.validation.comparison import Comparison, Model, Pair, compare
from tests.validation.folder import Folder, Row, number
from tests.validation.standing_trees import species_of_latin

from fellwright.tables import (
    STRENGTH_PROPERTIES,
    Species,
    all_species,
    strength_regression,
    strength_variability,
)

__all__ = ["wood_tables"]

PSI_MPA = 0.006894757293168361
ROUNDING = 0.01
"""Printed to two or three figures in two units."""
HANDBOOK = "handbook green rows [FPL-GTR-282] Table 5-3b"
HANDBOOK_KEYS = {
    "spruce-sitka": "sitka_spruce",
    "fir-grand": "grand_fir",
    "douglas-fir-coast": "douglas_fir",
    "pine-loblolly": "loblolly_pine",
    "maple-sugar": "sugar_maple",
    "aspen-quaking": "aspen",
    "cherry-black": "black_cherry",
}
PSI_COLUMNS = {"mor": "mor_psi", "moe": "moe_mpsi", "crushing": "cpar_psi", "shear": "shear_psi"}
GROUPS = {"S": "softwood", "H": "hardwood"}
RECALLED_COLUMNS = {
    "mor": "mor_green_mpa",
    "moe": "moe_green_mpa",
    "crushing": "comp_parallel_green_mpa",
}
SIZES = {"mor": "bending", "moe": "stiffness", "crushing": "crushing", "shear": "shear"}
VARIABILITY_NAMES = {
    "MOR": "mor",
    "MOE": "moe",
    "compression parallel": "crushing",
    "shear parallel": "shear",
    "basic specific gravity": "basic_density",
}


def wood_tables(folder: Folder) -> list[Comparison]:
    """Copying, regression, recalled European values, density, scatter."""
    handbook = folder.read("wood/wood_handbook_green_psi.csv", ("id", "group", "sg"))
    rows = folder.read("wood/species.csv", ("record_id", "recommended", "scientific_name"))
    return [
        _copied(handbook),
        _second_copy(rows),
        *_regressions(handbook),
        *_recalled(rows),
        _densities(rows),
        _scatter(folder),
    ]


def _mpa(row: Row, prop: str) -> float | None:
    value = number(row, PSI_COLUMNS[prop]) if PSI_COLUMNS[prop] in row else None
    if value is None:
        return None
    return value * PSI_MPA * (1e6 if prop == "moe" else 1.0)


def _strengths(wood: Species) -> dict[str, float]:
    strength = wood.strength
    return {
        "mor": strength.mor_mpa,
        "moe": strength.moe_mpa,
        "crushing": strength.crushing_mpa,
        "shear": strength.shear_mpa,
    }


def _copied(rows: Sequence[Row]) -> Comparison:
    ours = {wood.key: wood for wood in all_species()}
    pairs = []
    for row in rows:
        key = HANDBOOK_KEYS.get(row["id"])
        if key is None or ours[key].strength.basis != "tabled":
            continue
        for prop, value in _strengths(ours[key]).items():
            printed = _mpa(row, prop)
            if printed:
                pairs.append(Pair(f"{ours[key].name}, {SIZES[prop]}", value, printed))
    return compare(
        Model("Green strength, species read from the handbook", HANDBOOK, ROUNDING, True), pairs
    )


def _second_copy(rows: Sequence[Row]) -> Comparison:
    """The metric file, converted apart; also holds the species whose strength was inferred."""
    columns = {**RECALLED_COLUMNS, "shear": "shear_parallel_green_mpa"}
    pairs = []
    for row in rows:
        wood = species_of_latin(row["scientific_name"]) if row["recommended"] == "yes" else None
        if wood is None or row["record_id"] == "douglas-fir-interior-north":
            continue
        for prop, column in columns.items():
            printed = number(row, column) if column in row else None
            if printed:
                label = f"{row['record_id'].removesuffix('__derived')}, {SIZES[prop]}"
                pairs.append(Pair(label, _strengths(wood)[prop], printed))
    return compare(
        Model("Green strength, all species", "second typing in SI units", ROUNDING, True),
        pairs,
        "European rows are inferred from density on both sides. Where one species of ours stands "
        "for two, both are compared with it.",
    )


def _regressions(rows: Sequence[Row]) -> Iterator[Comparison]:
    for group in GROUPS.values():
        for prop in STRENGTH_PROPERTIES:
            regression = strength_regression(group, prop)
            pairs = [
                Pair(row["id"], regression.strength_mpa(1000.0 * gravity), printed)
                for row in rows
                if GROUPS.get(row["group"]) == group
                and (gravity := number(row, "sg"))
                and (printed := _mpa(row, prop))
            ]
            named = Model(
                f"Green {SIZES[prop]} from density, {group}", HANDBOOK, regression.residual_ln, True
            )
            note = ""
            if len(pairs) > regression.species_count:
                note = f"The fit itself used {regression.species_count} of these rows."
            yield compare(named, pairs, note)


def _recalled(rows: Sequence[Row]) -> Iterator[Comparison]:
    by_property: dict[str, list[Pair]] = defaultdict(list)
    for row in rows:
        wood = (
            species_of_latin(row["scientific_name"])
            if row["record_id"].endswith("__recalled")
            else None
        )
        if wood is None:
            continue
        for prop, column in RECALLED_COLUMNS.items():
            value = number(row, column) if column in row else None
            if value:
                by_property[prop].append(Pair(wood.name, _strengths(wood)[prop], value))
    for prop in RECALLED_COLUMNS:
        yield compare(
            Model(
                f"Green {SIZES[prop]}, European species",
                "British green values, recalled and not seen (MEMORY)",
                strength_variability("regression", "hardwood", prop).cv_percent / 100.0,
            ),
            by_property[prop],
            "Weak evidence: remembered figures, British-grown wood.",
        )


def _densities(rows: Sequence[Row]) -> Comparison:
    """Two versions of the global database; the table took one value."""
    pairs = []
    for row in rows:
        wood = species_of_latin(row["scientific_name"]) if row["recommended"] == "yes" else None
        gravity = number(row, "basic_sg_gwdd2_mean") if "basic_sg_gwdd2_mean" in row else None
        if wood is not None and gravity:
            label = row["record_id"].removesuffix("__derived")
            pairs.append(Pair(label, wood.density.basic_kg_per_m3, 1000.0 * gravity))
    cv = strength_variability("tabled", "softwood", "basic_density").cv_percent / 100.0
    return compare(
        Model("Basic density", "global wood density database, version 2", cv),
        pairs,
        "The stated 11 % is the scatter of trees; these are means of species.",
    )


def _scatter(folder: Folder) -> Comparison:
    rows = folder.read("wood/variability.csv", ("property", "cov_pct", "status"))
    pairs = []
    for row in rows:
        tree, _, name = row["property"].partition(": ")
        value, prop = number(row, "cov_pct"), VARIABILITY_NAMES.get(name)
        if prop and value and row["status"].startswith("SEEN"):
            ours = strength_variability("tabled", "softwood", prop).cv_percent
            pairs.append(Pair(f"{tree}, {name}", ours, value))
    return compare(
        Model("Scatter of strength between trees", "means and standard deviations [ASTM-D2555]"),
        pairs,
        "Above zero: the engine draws wider than the species' own figures.",
    )
