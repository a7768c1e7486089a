"""Dry mass, green mass and balance height against weighed trees and a published mass model."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping

from tests.validation.comparison import (
    Comparison,
    Model,
    Pair,
    compare,
    spread_within_percent,
)
from tests.validation.folder import Folder, number
from tests.validation.standing_trees import (
    dry_density_kg_per_m3,
    dry_mass_kg,
    in_the_range_of_a_plan,
    species,
    whole_tree,
)
from tests.validation.weighed_trees import SOURCE, MassTree, binomial, mass_trees, our_species

from fellwright.physics.green_mass import jenkins_2003_dry_mass_kg
from fellwright.planning import bands
from fellwright.planning.tree_model import stem_green_density_kg_per_m3

__all__ = ["balance_heights", "dry_masses", "green_masses", "weighed_eucalypts"]

JENKINS_ERROR = 0.25
"""As the docstring of the formula says."""
MASS_ERROR = bands.MASS_RATIO
LEAST_TREES = 10
BALANCE_ERROR = bands.BALANCE_RATIO
BALANCE_BAND = (0.36, 0.42)
CAREFUL_BAND = (0.33, 0.45)
ROOT_COLLAR_GROUP = "10"
"""The woodland group takes the diameter at the root collar, which the data do not give."""
WIND_MODEL = {
    "Norway spruce": "norway_spruce",
    "Sitka spruce": "sitka_spruce",
    "Scots pine": "scots_pine",
    "Douglas fir": "douglas_fir",
    "European larch": "european_larch",
    "Maritime pine": "maritime_pine",
    "Birch": "birch",
    "Beech": "beech",
    "Oak": "oak",
}
WIND_MODEL_SOURCE = "published wind-risk mass model, computed [Hale-2015] [Locatelli-2022]"
MORI_SOURCE = "14 hinoki weighed fresh, Mori and Hagihara 1991 [BAAD-2015]"
# Trees of New South Wales weighed green, class means: dbh [cm], height [m], whole tree [kg].
XIMENES = (
    (14.5, 13.7, 144.0),
    (24.6, 17.9, 497.0),
    (37.4, 21.5, 1488.0),
    (57.2, 28.7, 4275.0),
    (109.0, 33.0, 13395.0),
)


def dry_masses(folder: Folder) -> list[Comparison]:
    """Jenkins by group, and the engine's own volume, density and crown share by genus."""
    trees = mass_trees(folder)
    return [*_jenkins(folder, trees), *_own_dry_mass(trees)]


def _jenkins(folder: Folder, trees: list[MassTree]) -> Iterator[Comparison]:
    coefficients = {
        row["group"]: (row["name"], float(row["b0"]), float(row["b1"]))
        for row in folder.read("tree/jenkins2003_coefficients.csv", ("group", "name", "b0", "b1"))
    }
    groups = _inventory_groups(folder)
    by_group: dict[str, list[Pair]] = defaultdict(list)
    left_out = 0
    for tree in trees:
        group = groups.get(binomial(tree.name)) or groups.get(tree.name.split()[0])
        if group is None or group == ROOT_COLLAR_GROUP or group not in coefficients:
            left_out += 1
            continue
        _, b0, b1 = coefficients[group]
        model = jenkins_2003_dry_mass_kg(tree.dbh_cm, b0, b1)
        by_group[group].append(Pair(tree.label, model, tree.above_ground_kg))
    every = [pair for pairs in by_group.values() for pair in pairs]
    named = Model("Dry mass, Jenkins, all groups", SOURCE, JENKINS_ERROR)
    note = (
        f"{left_out:,} trees are left out: of no one group, or of the group that takes the "
        "root-collar diameter, which the data lack."
    )
    yield compare(named, every, note if every else "")
    for group in sorted(by_group, key=int):
        name = coefficients[group][0]
        yield compare(
            Model(f"Dry mass, Jenkins: {name}", SOURCE, JENKINS_ERROR, is_part=True),
            by_group[group],
        )


def _inventory_groups(folder: Folder) -> Mapping[str, str]:
    """Species, and genera whose species all share one group, to the group's number."""
    columns = ("SCIENTIFIC_NAME", "JENKINS_SPGRPCD")
    found: dict[str, str] = {}
    by_genus: dict[str, set[str]] = defaultdict(set)
    for row in folder.read("tree/fia_species_wood_bark_green.csv", columns):
        code = number(row, "JENKINS_SPGRPCD")
        if code is not None and row["SCIENTIFIC_NAME"]:
            found[row["SCIENTIFIC_NAME"]] = f"{code:.0f}"
            by_genus[row["SCIENTIFIC_NAME"].split()[0]].add(f"{code:.0f}")
    found.update({genus: min(codes) for genus, codes in by_genus.items() if len(codes) == 1})
    return found


def _own_dry_mass(trees: list[MassTree]) -> Iterator[Comparison]:
    whole: dict[str, list[Pair]] = defaultdict(list)
    studies: dict[str, list[Pair]] = defaultdict(list)
    stems: dict[str, list[Pair]] = defaultdict(list)
    for tree in trees:
        key = our_species(tree.name)
        if key is None:
            continue
        model = dry_mass_kg(key, tree.dbh_cm, tree.height_m)
        pair = Pair(tree.label, model, tree.above_ground_kg)
        whole[key].append(pair)
        studies[f"{key}, {tree.study}"].append(pair)
        if tree.crown_kg is not None:
            stem = model * (1.0 - species(key).crown_share.median_dry)
            stems[key].append(Pair(tree.label, stem, tree.above_ground_kg - tree.crown_kg))
    every = [pair for pairs in whole.values() for pair in pairs]
    yield compare(
        Model("Dry mass of the stem, engine's volume and density", SOURCE, MASS_ERROR),
        [pair for pairs in stems.values() for pair in pairs],
        "Stem is all above ground less branches and foliage.",
    )
    yield compare(
        Model("Dry mass above ground, engine's stem and crown share", SOURCE, MASS_ERROR),
        every,
        "The crown share was made from the same trees, volume and density were not. Within one "
        f"study and species the spread is {spread_within_percent(studies.values()):.1f} %."
        if every
        else "",
    )
    for title, parts in (("of the stem", stems), ("above ground", whole)):
        for key, pairs in sorted(parts.items()):
            if len(pairs) < LEAST_TREES:
                continue
            name = f"Dry mass {title}, engine: as {species(key).name}"
            yield compare(Model(name, SOURCE, MASS_ERROR, is_part=True), pairs)


def weighed_eucalypts() -> Comparison:
    """Needs no folder: class means of trees weighed green, typed from the open raw data."""
    pairs = [
        Pair(f"{dbh:g} cm, {height:g} m", _green_kg("dense_hardwood", dbh, height), weighed)
        for dbh, height, weighed in XIMENES
    ]
    return compare(
        Model(
            "Green mass of the whole tree: class 'dense hardwood'",
            "class means of 504 Australian hardwoods weighed green, Ximenes and others 2004 "
            "[BAAD-2015]",
            MASS_ERROR,
        ),
        pairs,
        "No eucalypt in the tables: a class stands in. Single trees scatter 25 % about the means.",
    )


def _green_kg(key: str, dbh_cm: float, height_m: float) -> float:
    tree = whole_tree(key, dbh_cm, height_m)
    return tree.stem_kg + tree.crown_kg


def green_masses(folder: Folder) -> list[Comparison]:
    """Fresh hinoki, and stem and crown of the published mass model."""
    return [*_hinoki(folder), *_wind_model_masses(folder)]


def _hinoki(folder: Folder) -> Iterator[Comparison]:
    """No hinoki in the tables: the class of light softwoods stands in."""
    columns = ("tree", "dbh_cm", "H_m", "aboveground_fresh_kg", "crown_share_fresh")
    rows = folder.read("tree/mori1991_hinoki_fresh.csv", (*columns, "fresh_over_dry"))
    key = "light_softwood"
    ratio_model = stem_green_density_kg_per_m3(species(key)) / dry_density_kg_per_m3(key)
    mass, share, ratio = [], [], []
    for row in rows:
        dbh, height, fresh, crown = (number(row, name) for name in columns[1:])
        fresh_over_dry = number(row, "fresh_over_dry")
        label = f"tree {row['tree']}"
        if fresh_over_dry:
            ratio.append(Pair(label, ratio_model, fresh_over_dry))
        if dbh and height and fresh and crown and in_the_range_of_a_plan(dbh, height):
            tree = whole_tree(key, dbh, height)
            mass.append(Pair(label, tree.stem_kg + tree.crown_kg, fresh))
            share.append(Pair(label, tree.crown_share, crown))
    small = "Only trees of 10 cm and more; no hinoki in the tables, 'light softwood' stands in."
    yield compare(Model("Green mass of the whole tree", MORI_SOURCE, MASS_ERROR), mass, small)
    yield compare(
        Model("Green over dry mass", MORI_SOURCE, bands.DENSITY_RATIO),
        ratio,
        "All 14, dbh 3.5 to 14.4 cm, nearly all sapwood; the engine's figure is for a stem.",
    )
    yield compare(Model("Crown share, green", MORI_SOURCE, bands.CROWN.estimated), share, small)


def _wind_model_masses(folder: Folder) -> Iterator[Comparison]:
    columns = ("species", "dbh_cm", "H_m", "stem_green_kg", "crown_green_kg")
    rows = folder.read("tree/tree_mass_cog_computed.csv", columns)
    stem, crown, whole = [], [], []
    for row in rows:
        key = WIND_MODEL.get(row["species"])
        dbh, height, stem_kg, crown_kg = (number(row, name) for name in columns[1:])
        if key and dbh and height and stem_kg and crown_kg:
            tree = whole_tree(key, dbh, height)
            label = f"{row['species']} {dbh:g} cm, {height:g} m"
            stem.append(Pair(label, tree.stem_kg, stem_kg))
            crown.append(Pair(label, tree.crown_kg, crown_kg))
            whole.append(Pair(label, tree.stem_kg + tree.crown_kg, stem_kg + crown_kg))
    note = "Density of the stem is shared where it is the heaviest of three; the volume is not."
    yield compare(Model("Green mass of the stem", WIND_MODEL_SOURCE, MASS_ERROR), stem, note)
    yield compare(
        Model("Green mass of the crown", WIND_MODEL_SOURCE, bands.CROWN.estimated),
        crown,
        "Crown size and kg/m3 are shared; the engine takes the heavier of this and of the weighed "
        "shares, so it lies above on purpose.",
    )
    yield compare(Model("Green mass of the whole tree", WIND_MODEL_SOURCE, MASS_ERROR), whole)


def balance_heights(folder: Folder) -> list[Comparison]:
    """Height of the whole tree's balance point over tree height."""
    columns = ("species", "dbh_cm", "H_m", "tree_cog_over_H")
    pairs = []
    for row in folder.read("tree/tree_mass_cog_computed.csv", columns):
        key = WIND_MODEL.get(row["species"])
        dbh, height, ratio = (number(row, name) for name in columns[1:])
        if key and dbh and height and ratio:
            model = whole_tree(key, dbh, height).balance_height_m / height
            pairs.append(Pair(f"{row['species']} {dbh:g} cm, {height:g} m", model, ratio))
    named = Model("Balance height over tree height", WIND_MODEL_SOURCE, BALANCE_ERROR)
    return [compare(named, pairs, _balance_note(pairs))]


def _balance_note(pairs: list[Pair]) -> str:
    if not pairs:
        return ""
    low, high = min(pair.model for pair in pairs), max(pair.model for pair in pairs)
    inside = sum(BALANCE_BAND[0] <= pair.model <= BALANCE_BAND[1] for pair in pairs)
    careful = sum(CAREFUL_BAND[0] <= pair.model <= CAREFUL_BAND[1] for pair in pairs)
    return (
        f"The engine spans {low:.3f} to {high:.3f}; {inside} of {len(pairs)} lie in "
        f"{BALANCE_BAND[0]:.2f} to {BALANCE_BAND[1]:.2f}, {careful} in {CAREFUL_BAND[0]:.2f} to "
        f"{CAREFUL_BAND[1]:.2f}. A computed model, no tree was balanced."
    )
