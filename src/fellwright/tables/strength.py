"""How green strength follows from density, and how much it varies from tree to tree."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from types import MappingProxyType

from fellwright.tables.read import Row, load_table
from fellwright.tables.species import Species

__all__ = [
    "STRENGTH_PROPERTIES",
    "StrengthRegression",
    "Variability",
    "strength_regression",
    "strength_variability",
    "variability_of",
]

STRENGTH_PROPERTIES = ("mor", "moe", "crushing", "shear")


@dataclass(frozen=True, slots=True)
class StrengthRegression:
    """Green property from basic density: ``a G^b`` [MPa], G basic density over 1000 kg/m3.

    `residual_ln` is the standard deviation of the residual logarithm between species.
    """

    group: str
    prop: str
    a_mpa: float
    b: float
    residual_ln: float
    species_count: int
    r_squared: float
    mark: str
    source: str

    def strength_mpa(self, basic_kg_per_m3: float) -> float:
        """Mean strength [MPa] of a wood of that basic density [kg/m3]. DERIVED."""
        strength: float = self.a_mpa * (basic_kg_per_m3 / 1000.0) ** self.b
        return strength


@dataclass(frozen=True, slots=True)
class Variability:
    """Coefficient of variation of one property from tree to tree [%]."""

    basis: str
    group: str
    prop: str
    cv_percent: float
    mark: str
    source: str
    note: str


def strength_regression(group: str, prop: str) -> StrengthRegression:
    """Regression of one group and property; KeyError where there is none.

    Parameters
    ----------
    group
        softwood or hardwood.
    prop
        mor, moe, crushing, shear or crushing_across (stress at the proportional limit).

    Returns
    -------
    StrengthRegression
        Fitted on green rows of [FPL-GTR-282] Table 5-3b. DERIVED.
    """
    return _regressions()[group, prop]


def strength_variability(basis: str, group: str, prop: str) -> Variability:
    """Spread of one property; KeyError where there is none.

    Parameters
    ----------
    basis
        tabled, regression or class, as in `Species.strength.basis`.
    group
        softwood or hardwood.
    prop
        mor, moe, crushing, shear or basic_density.

    Returns
    -------
    Variability
        Coefficient of variation [%]; wider where the mean is only inferred. Source: [ASTM-D2555].
    """
    return _variabilities()[basis, group, prop]


def variability_of(species: Species, prop: str) -> Variability:
    """Spread of one property of a species or class, on the basis of its own strength."""
    return strength_variability(species.strength.basis, species.group, prop)


@lru_cache(maxsize=1)
def _regressions() -> Mapping[tuple[str, str], StrengthRegression]:
    rows = (_regression(row) for row in load_table("strength_regression").rows)
    return MappingProxyType({(row.group, row.prop): row for row in rows})


@lru_cache(maxsize=1)
def _variabilities() -> Mapping[tuple[str, str, str], Variability]:
    rows = (_variability(row) for row in load_table("strength_variability").rows)
    return MappingProxyType({(row.basis, row.group, row.prop): row for row in rows})


def _regression(row: Row) -> StrengthRegression:
    return StrengthRegression(
        group=row.text("group"),
        prop=row.text("property"),
        a_mpa=row.number("a_mpa"),
        b=row.number("b"),
        residual_ln=row.number("residual_ln"),
        species_count=row.whole("species_count"),
        r_squared=row.number("r_squared"),
        mark=row.mark("mark"),
        source=row.text("source"),
    )


def _variability(row: Row) -> Variability:
    return Variability(
        basis=row.text("basis"),
        group=row.text("group"),
        prop=row.text("property"),
        cv_percent=row.number("cv_percent"),
        mark=row.mark("mark"),
        source=row.text("source"),
        note=row.text("note"),
    )
