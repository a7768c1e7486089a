"""Coefficients of the taper models, ready for the functions in physics."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from types import MappingProxyType

from fellwright.physics.stem_form import KozakCoefficients, WestfallScottCoefficients
from fellwright.tables.read import load_table

__all__ = [
    "KOZAK_1988",
    "WESTFALL_SCOTT_2010",
    "kozak_coefficients",
    "taper_coefficients",
    "taper_keys",
    "westfall_scott_coefficients",
]

KOZAK_1988 = "kozak_1988"
WESTFALL_SCOTT_2010 = "westfall_scott_2010"


def taper_coefficients(form_key: str) -> KozakCoefficients | WestfallScottCoefficients:
    """Coefficients of whichever model holds the key; the two models share no key.

    Parameters
    ----------
    form_key
        As in `Species.form.key`.

    Returns
    -------
    KozakCoefficients or WestfallScottCoefficients
        For `kozak_1988_diameter_cm` or `westfall_scott_2010_diameter_cm`.

    Raises
    ------
    KeyError
        If neither model has the key.
    """
    if form_key in taper_keys(KOZAK_1988):
        return kozak_coefficients(form_key)
    return westfall_scott_coefficients(form_key)


def kozak_coefficients(form_key: str) -> KozakCoefficients:
    """Coefficients b1 to b8 of [Hansen-2023]; KeyError where there are none. SEEN."""
    return KozakCoefficients(**_coefficients()[KOZAK_1988][form_key])


def westfall_scott_coefficients(form_key: str) -> WestfallScottCoefficients:
    """Coefficients of [Westfall-Scott-2010]; KeyError where there are none. SEEN."""
    return WestfallScottCoefficients(**_coefficients()[WESTFALL_SCOTT_2010][form_key])


def taper_keys(model: str) -> tuple[str, ...]:
    """Keys that a model has coefficients for."""
    return tuple(_coefficients()[model])


@lru_cache(maxsize=1)
def _coefficients() -> Mapping[str, Mapping[str, Mapping[str, float]]]:
    found: dict[str, dict[str, dict[str, float]]] = {}
    for row in load_table("taper").rows:
        row.mark("mark")
        of_model = found.setdefault(row.text("model"), {})
        of_key = of_model.setdefault(row.text("form_key"), {})
        of_key[row.text("coefficient")] = row.number("value")
    return MappingProxyType(found)
