"""Writes docs/species.md from the tables: `python -m tests.meta.species_page > docs/species.md`."""

from __future__ import annotations

import sys

import fellwright.tables as tables
from fellwright.planning.tree_model import stem_green_density_kg_per_m3
from fellwright.tables import Species

HEAD = """# Species

Written by `python -m tests.meta.species_page > docs/species.md`; do not edit by hand.

Write the English, German or Latin name, whatever its case, dashes or umlauts. A name that several
of these trees share (pine, red oak, Linde) is not guessed: it is answered with names to choose
from. For a tree that is not here, take the density class nearest to it.

- Basic density: oven-dry mass over green volume. Green stem: what a plan takes for stem and bark,
  the heaviest of mean moisture, half heartwood and half sapwood, and a published figure.
- MOR: bending strength of clear green wood, printed (SEEN) or from basic density (DERIVED).
- Seen: how many of the groups of figures were read for this very species; the others were taken
  from the relative that the table names, or computed.
- Splits: prone to split up from the hinge. Flat: roots flat, watch the plate at preload. Both are
  habits of the trade (PRACTICE).
"""
COLUMNS = (
    "English",
    "German",
    "Latin",
    "Basic density kg/m3",
    "Green stem kg/m3",
    "MOR MPa",
    "Seen",
    "Habits",
)
SECTIONS = (
    ("Conifers", "softwood", False),
    ("Broadleaves", "hardwood", False),
    ("Density classes", "", True),
)


def _row(species: Species) -> str:
    origins = species.origins
    seen = sum(origin.mark == "SEEN" for origin in origins)
    habits = [
        word
        for word, habit in (("splits", species.splitting_prone), ("flat", species.shallow_roots))
        if habit.holds
    ]
    cells = (
        species.name,
        tables.names_of(species.key, "de")[0],
        f"*{species.latin}*" if species.latin else "",
        f"{species.density.basic_kg_per_m3:.0f} {species.density.mark}",
        f"{stem_green_density_kg_per_m3(species):.0f}",
        f"{species.strength.mor_mpa:.1f} {species.strength.mark}",
        f"{seen} of {len(origins)}",
        ", ".join(habits),
    )
    return f"| {' | '.join(cells)} |"


def species_page() -> str:
    """Text of docs/species.md."""
    head = f"| {' | '.join(COLUMNS)} |\n|{'---|' * len(COLUMNS)}"
    parts = [HEAD]
    for title, group, is_class in SECTIONS:
        chosen = [
            s
            for s in tables.species_by_key().values()
            if s.is_class == is_class and group in ("", s.group)
        ]
        rows = "\n".join(_row(s) for s in chosen)
        parts.append(f"## {title}, {len(chosen)}\n\n{head}\n{rows}\n")
    return "\n".join(parts)


if __name__ == "__main__":
    sys.stdout.write(species_page())
