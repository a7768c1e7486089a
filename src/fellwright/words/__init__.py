"""Words of every face: one catalogue of sentences in English and German, with their units."""

from fellwright.words.catalogue import LANGUAGES, catalogue
from fellwright.words.text import (
    METRIC,
    Style,
    Text,
    in_languages,
    listed,
    quantity,
    render,
    say,
    unit_name,
)

__all__ = [
    "LANGUAGES",
    "METRIC",
    "Style",
    "Text",
    "catalogue",
    "in_languages",
    "listed",
    "quantity",
    "render",
    "say",
    "unit_name",
]
