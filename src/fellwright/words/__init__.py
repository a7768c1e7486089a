"""Words of every face: one catalogue of sentences in English and German, with their units."""

from fellwright.words.catalogue import LANGUAGES, catalogue
from fellwright.words.faults import fault_data, fault_text, system_words
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
    "fault_data",
    "fault_text",
    "in_languages",
    "listed",
    "quantity",
    "render",
    "say",
    "system_words",
    "unit_name",
]
