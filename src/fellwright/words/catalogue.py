"""Read the catalogue: one folder a language, one file an area, one sentence a key."""

import tomllib
from collections.abc import Iterator, Mapping
from functools import lru_cache

from fellwright.package_text import package_text

__all__ = ["LANGUAGES", "catalogue"]

LANGUAGES = ("en", "de")
ENDING = ".toml"


class _Catalogue(Mapping[str, str]):
    """Sentences of a language; an area is read when its first sentence is asked for.

    An answer speaks a third of the areas, and half of the others are the phone's screens.
    """

    def __init__(self, language: str) -> None:
        self._language = language
        self._areas: dict[str, Mapping[str, str]] = {}

    def __getitem__(self, key: str) -> str:
        area, _, name = key.partition(".")
        try:
            return self._area(area)[name]
        except (FileNotFoundError, KeyError):
            raise KeyError(key) from None

    def _area(self, area: str) -> Mapping[str, str]:
        if area not in self._areas:
            text = package_text(__package__, f"{self._language}/{area}{ENDING}")
            self._areas[area] = tomllib.loads(text)
        return self._areas[area]

    def __iter__(self) -> Iterator[str]:
        # Only what looks at the whole catalogue needs this; its import is slow on a phone.
        from importlib.resources import files

        for entry in files(__package__).joinpath(self._language).iterdir():
            if entry.name.endswith(ENDING):
                area = entry.name.removesuffix(ENDING)
                yield from (f"{area}.{name}" for name in self._area(area))

    def __len__(self) -> int:
        return sum(1 for _ in self)


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
    return _Catalogue(language)
