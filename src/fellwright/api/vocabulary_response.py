"""The words that a tree file takes, with what a person calls them: what a face offers to tap."""

from collections.abc import Mapping
from typing import get_args

from fellwright.api.door import style_from
from fellwright.api.shown import METHOD_KEYS
from fellwright.planning.practice import TITLES
from fellwright.records.defects import DEFECTS
from fellwright.records.lean_errors import PLUMB_ONE_SIDE, PLUMB_TWO_SIDES, WAYS_OF_READING
from fellwright.records.tree import CutMethod, Flare
from fellwright.tables.profiles import profile_names
from fellwright.words import Style, Text, render, say

__all__ = ["VOCABULARY_SCHEMA", "vocabulary_answer"]

VOCABULARY_SCHEMA = "fellwright/vocabulary/1"

WAY_KEYS = {PLUMB_TWO_SIDES: "plumb_two_sides", PLUMB_ONE_SIDE: "plumb_one_side"}
"""Key in the catalogue by way of reading a lean, where the way itself is none."""


def vocabulary_answer(request: Mapping[str, object]) -> dict[str, object]:
    """List the words of every key that takes one of a few.

    Parameters
    ----------
    request : mapping
        ``language`` as for :func:`fellwright.api.answer`.

    Returns
    -------
    dict
        ``defects``, ``flare``, ``methods`` and ``how`` (ways of reading a lean whose error is
        known): rows of the ``word`` as a file takes it and its ``name`` in the language;
        ``profiles``: rows of ``name`` and ``title``. In the order of the records.
    """
    style = style_from(request)
    return {
        "schema": VOCABULARY_SCHEMA,
        "defects": [_row(word, _defect(word), style) for word in DEFECTS],
        "flare": [_row(word, say(f"vocabulary.flare_{word}"), style) for word in get_args(Flare)],
        "methods": [
            _row(word, say(f"cut.{METHOD_KEYS[word]}"), style) for word in get_args(CutMethod)
        ],
        "how": [_row(word, _way(word), style) for word in WAYS_OF_READING],
        "profiles": [
            {"name": name, "title": render(say(TITLES[name]), style)} for name in profile_names()
        ],
    }


def _row(word: str, name: Text, style: Style) -> dict[str, str]:
    return {"word": word, "name": render(name, style)}


def _defect(word: str) -> Text:
    return say(f"defect.{word.replace(' ', '_')}")


def _way(word: str) -> Text:
    return say(f"vocabulary.way_{WAY_KEYS.get(word, word)}")
