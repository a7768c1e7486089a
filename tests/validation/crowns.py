"""Crown width, depth and share of mass, and height from dbh, against measured trees."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from tests.validation.comparison import Comparison, Model, Pair, compare
from tests.validation.folder import Folder, Row, number
from tests.validation.standing_trees import in_the_range_of_a_plan, species
from tests.validation.weighed_trees import (
    CROWN_FILE,
    SOURCE,
    genus,
    heights,
    mass_trees,
    our_species,
)

from fellwright.physics.crown import linear_allometry_m
from fellwright.planning import bands
from fellwright.planning.tree_model import estimate_height_m

__all__ = ["crown_shares", "crown_sizes", "heights_from_dbh"]

CROWN_SIZE_ERROR = 0.25
"""As an answer says it: 'crown not given: ... within 25 %'."""
HEIGHT_ERROR = bands.HEIGHT.estimated
LEAST_TREES = 10
SHARE_LEAST_DBH_CM = 15.0
PINES = "scots_pine"


def heights_from_dbh(folder: Folder) -> list[Comparison]:
    """The species' height curve, genus by genus; pines of all species by the pine curve."""
    by_genus: dict[str, list[Pair]] = defaultdict(list)
    for name, dbh_cm, height_m in heights(folder):
        key = our_species(name) or (PINES if genus(name) == "Pinus" else None)
        if key is not None:
            label = f"{name} {dbh_cm:.1f} cm, {height_m:.1f} m"
            model = estimate_height_m(species(key), dbh_cm)
            by_genus[genus(name)].append(Pair(label, model, height_m))
    every = [pair for pairs in by_genus.values() for pair in pairs]
    named = {"all": every, **{name: by_genus[name] for name in sorted(by_genus)}}
    return [
        compare(
            Model(f"Height from dbh: {name}", SOURCE, HEIGHT_ERROR, True, is_part=name != "all"),
            pairs,
            "" if len(pairs) >= LEAST_TREES else "Too few trees to say much.",
        )
        for name, pairs in named.items()
    ]


def crown_sizes(folder: Folder) -> list[Comparison]:
    """Width from dbh and depth from height, by genus; the lines come from another source."""
    rows = folder.read(CROWN_FILE, ("species", "d.bh", "h.t", "c.d", "d.cr"))
    return [*_sizes(rows, "width", "d.cr"), *_sizes(rows, "depth", "c.d")]


def _sizes(rows: list[Row], what: str, column: str) -> Iterator[Comparison]:
    by_genus: dict[str, list[Pair]] = defaultdict(list)
    for row in rows:
        key = our_species(row["species"])
        dbh, height, size = number(row, "d.bh"), number(row, "h.t"), number(row, column)
        if key is None or dbh is None or height is None or not size:
            continue
        if in_the_range_of_a_plan(100.0 * dbh, height):
            label = f"{row['species']} {100.0 * dbh:.1f} cm, {height:.1f} m"
            model = _size_m(key, what, 100.0 * dbh, height)
            by_genus[genus(row["species"])].append(Pair(label, model, size))
    every = [pair for pairs in by_genus.values() for pair in pairs]
    many = {name: pairs for name, pairs in sorted(by_genus.items()) if len(pairs) >= LEAST_TREES}
    for name, pairs in {"all": every, **many}.items():
        yield compare(
            Model(f"Crown {what}: {name}", SOURCE, CROWN_SIZE_ERROR, is_part=name != "all"), pairs
        )


def _size_m(key: str, what: str, dbh_cm: float, height_m: float) -> float:
    """Width or depth as a plan takes it; a depth is held to nine tenths of the height."""
    crown = species(key).crown
    if what == "width":
        return linear_allometry_m(crown.width_p0_m, crown.width_p1_m_per_cm, dbh_cm)
    return min(linear_allometry_m(crown.depth_q0_m, crown.depth_q1, height_m), 0.9 * height_m)


def crown_shares(folder: Folder) -> list[Comparison]:
    """Median share of the table against each tree, and how many lie in its 80 % band."""
    by_genus: dict[str, list[tuple[Pair, bool]]] = defaultdict(list)
    for tree in mass_trees(folder):
        key = our_species(tree.name)
        if key is None or not tree.crown_kg or tree.dbh_cm < SHARE_LEAST_DBH_CM:
            continue
        table = species(key).crown_share
        share = tree.crown_kg / tree.above_ground_kg
        pair = Pair(tree.label, table.median_dry, share)
        inside = table.p10_dry <= share <= table.p90_dry
        by_genus[genus(tree.name)].append((pair, inside))
    every = [found for trees in by_genus.values() for found in trees]
    named = {"all": every, **{name: by_genus[name] for name in sorted(by_genus)}}
    return [_share_row(name, found) for name, found in named.items()]


def _share_row(name: str, found: list[tuple[Pair, bool]]) -> Comparison:
    note = ""
    if found:
        inside = 100.0 * sum(inside for _, inside in found) / len(found)
        note = f"{inside:.0f} % lie in the table's 10 to 90 % band (80 % should)."
    model = Model(
        f"Crown share of dry mass: {name}", SOURCE, bands.CROWN.usual, True, is_part=name != "all"
    )
    return compare(model, [pair for pair, _ in found], note)
