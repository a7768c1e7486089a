"""The words a face offers are the very words that the loader takes, each with a name."""

import copy
import tomllib
from pathlib import Path
from typing import Any, get_args

import pytest

from fellwright.api.door import answer
from fellwright.api.vocabulary_response import vocabulary_answer
from fellwright.errors import BadInput
from fellwright.records.defects import DEFECTS
from fellwright.records.lean_errors import WAYS_OF_READING
from fellwright.records.tree import CutMethod, Flare
from fellwright.tables.profiles import profile_names
from fellwright.words import LANGUAGES

ROOT = Path(__file__).parents[2]
BASE = tomllib.loads((ROOT / "examples" / "harrowlees-11.toml").read_text("utf-8"))
KIT = tomllib.loads((ROOT / "examples" / "van-2.toml").read_text("utf-8"))
WORDS = {
    "defects": DEFECTS,
    "flare": get_args(Flare),
    "methods": get_args(CutMethod),
    "how": WAYS_OF_READING,
}


def rows(key: str, language: str = "en") -> list[dict[str, str]]:
    found: Any = vocabulary_answer({"language": language})[key]
    assert isinstance(found, list)
    return found


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("key", WORDS)
def test_every_word_of_the_record_stands_in_order_with_a_name_of_its_own(
    key: str, language: str
) -> None:
    found = rows(key, language)
    assert tuple(row["word"] for row in found) == WORDS[key]
    names = [row["name"] for row in found]
    assert all(names)
    assert len(set(names)) == len(names)


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_profile_that_ships_is_offered_with_its_title(language: str) -> None:
    found = rows("profiles", language)
    assert tuple(row["name"] for row in found) == profile_names()
    assert all(row["title"] for row in found)


def test_words_stay_and_names_change_with_the_language() -> None:
    english, german = vocabulary_answer({"language": "en"}), vocabulary_answer({"language": "de"})
    assert english != german
    assert [row["word"] for row in rows("defects", "de")] == list(DEFECTS)


def test_an_unknown_language_is_refused() -> None:
    with pytest.raises(BadInput):
        vocabulary_answer({"language": "fr"})


def taken(section: str, key: str, value: object) -> None:
    tree = copy.deepcopy(BASE)
    tree.setdefault(section, {})[key] = value
    answer("tip", {"tree": tree, "kit": KIT, "draws": 64, "bare": True})


@pytest.mark.parametrize("word", [row["word"] for row in rows("methods")])
def test_each_method_offered_is_taken_by_the_loader(word: str) -> None:
    taken("cut", "method", word)


@pytest.mark.parametrize("word", [row["word"] for row in rows("flare")])
def test_each_flare_offered_is_taken_by_the_loader(word: str) -> None:
    taken("tree", "flare", word)


def test_all_defects_offered_are_taken_by_the_loader() -> None:
    taken("tree", "defects", [row["word"] for row in rows("defects")])
