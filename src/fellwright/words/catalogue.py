"""Read the catalogue: one folder a language, one file an area, one sentence a key."""

import tomllib
from collections.abc import Mapping
from functools import lru_cache
from importlib.resources import files
from types import MappingProxyType

__all__ = ["LANGUAGES", "catalogue"]

LANGUAGES = ("en", "de")


@lru_cache(maxsize=len(LANGUAGES))
def catalogue(language: str) -> Mapping[str, str]:
    """All sentences of a language by ``area.key``.

    Parameters
    ----------
    language : str
        ``en`` or ``de``.

    Returns
    -------
    mapping
        Templates with ``{value:kind}`` places; see :mod:`fellwright.words.text`.
    """
    found: dict[str, str] = {}
    for entry in files(__package__).joinpath(language).iterdir():
        if entry.name.endswith(".toml"):
            area = entry.name.removesuffix(".toml")
            sentences = tomllib.loads(entry.read_text(encoding="utf-8"))
            found.update({f"{area}.{key}": sentence for key, sentence in sentences.items()})
    return MappingProxyType(found)
