"""The species that can be asked for, by their names in a language: what a face offers."""

from collections.abc import Mapping

from fellwright.api.door import style_from
from fellwright.tables import names_of, species_by_key

__all__ = ["SPECIES_SCHEMA", "species_answer"]

SPECIES_SCHEMA = "fellwright/species/1"


def species_answer(request: Mapping[str, object]) -> dict[str, object]:
    """List every species and density class.

    Parameters
    ----------
    request : mapping
        ``language`` as for :func:`fellwright.api.answer`.

    Returns
    -------
    dict
        ``species``: ``key``, usual ``name`` and ``other`` names in the language, ``latin``; sorted
        by name.
    """
    language = style_from(request).language
    rows = [_row(key, language) for key in species_by_key()]
    return {
        "schema": SPECIES_SCHEMA,
        "species": sorted(rows, key=lambda row: str(row["name"]).casefold()),
    }


def _row(key: str, language: str) -> dict[str, object]:
    names = names_of(key, language) or (key,)
    latin = names_of(key, "la")
    return {
        "key": key,
        "name": names[0],
        "other": list(names[1:]),
        "latin": latin[0] if latin else None,
    }
