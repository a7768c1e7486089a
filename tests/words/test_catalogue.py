"""The catalogue says the same in both languages, lacks nothing and holds nothing idle."""

import re
import string
import tomllib
from collections.abc import Iterable
from pathlib import Path
from typing import get_args

import pytest
from tests.words.uses import PACKAGE, completes, used_keys, uses, whole_keys
from tests.words.web_uses import gapped_keys, web_keys, written_keys

from fellwright.api import METHOD_KEYS
from fellwright.planning import bands, limits
from fellwright.planning.bands import Band, ReadingError
from fellwright.planning.measure_next import JSON_UNITS
from fellwright.planning.reasons import ADDS_UP, LEAVE, LINE, MEASURE, TIGHT, say_verdict
from fellwright.planning.refusals import unanswered
from fellwright.records.defects import DEFECTS
from fellwright.records.kit import Grease, ItemState
from fellwright.records.kit_fields import KEYS_BY_KIND, KIT_SECTIONS, TOP_KEYS
from fellwright.records.tree import Look
from fellwright.tables import names_of, species_by_key
from fellwright.tables.profiles import profile_names
from fellwright.words import LANGUAGES, Style, catalogue, render
from fellwright.words.text import KINDS

EN, DE = catalogue("en"), catalogue("de")
FILES = sorted(path for language in LANGUAGES for path in (PACKAGE / "words" / language).iterdir())
LONGEST = 180
FORBIDDEN = re.compile(r"\bsafe|\bunsafe|sicher|\bpermi|\bgefahrlos|freigabe|freigegeben", re.I)


def places(sentence: str) -> list[tuple[str, str]]:
    """Values that a sentence asks for, each with its kind."""
    return sorted(
        (name if conversion is None else f"{name}!{conversion}", spec or "")
        for _, name, spec, conversion in string.Formatter().parse(sentence)
        if name is not None
    )


def spelled(path: Path) -> str:
    return f"{path.parent.name}/{path.name}"


def test_both_languages_have_the_same_files_and_keys() -> None:
    assert set(EN) == set(DE)
    folders = [{p.name for p in FILES if p.parent.name == language} for language in LANGUAGES]
    assert folders[0] == folders[1]


def test_both_languages_ask_for_the_same_values() -> None:
    assert [key for key in set(EN) & set(DE) if places(EN[key]) != places(DE[key])] == []


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_place_is_a_plain_name_of_a_known_kind(language: str) -> None:
    strange = [
        key
        for key, sentence in catalogue(language).items()
        for name, kind in places(sentence)
        # A plain name: no attribute, index or conversion of a value is ever looked up.
        if not name.isidentifier() or kind.removeprefix("bare ") not in ("", *KINDS)
    ]
    assert strange == []


@pytest.mark.parametrize("path", FILES, ids=spelled)
def test_keys_are_sorted_and_the_file_says_what_it_holds(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    keys = list(tomllib.loads(text))
    assert keys == sorted(keys)
    assert re.match(r"# \S.*\.\n", text)


@pytest.mark.parametrize("language", LANGUAGES)
def test_no_sentence_calls_anything_safe_or_grants_permission(language: str) -> None:
    sentences = catalogue(language).items()
    assert [key for key, sentence in sentences if FORBIDDEN.search(sentence)] == []


@pytest.mark.parametrize("language", LANGUAGES)
def test_sentences_are_short_and_on_one_line(language: str) -> None:
    long = [k for k, s in catalogue(language).items() if len(s) > LONGEST or "\n" in s]
    assert long == []


@pytest.mark.parametrize("name", [key for key in EN if key.startswith("verdict.")])
def test_a_verdict_within_a_sentence_is_the_word_of_its_language(name: str) -> None:
    for key in set(EN) & set(DE) - {name}:
        if re.search(rf"\b{EN[name]}\b", EN[key]):
            assert re.search(rf"\b{DE[name]}\b", DE[key]), key
        assert not re.search(rf"\b{EN[name]}\b", DE[key]), key


def test_no_two_verdicts_share_a_word() -> None:
    codes = {ADDS_UP, TIGHT, LINE, LEAVE, MEASURE}
    for language in LANGUAGES:
        words = {render(say_verdict(code), Style(language)) for code in codes}
        assert len(words) == len(codes)
    assert {str(say_verdict(code)) for code in codes} == codes


def test_every_key_that_the_code_writes_out_is_in_the_catalogue() -> None:
    assert {key: where for key, where in whole_keys().items() if key not in EN} == {}


def test_every_key_put_together_at_run_time_leads_to_sentences() -> None:
    gapped = [use for use in uses() if not use.is_whole]
    assert gapped
    assert [use for use in gapped if not any(completes(use, key) for key in EN)] == []


def test_no_sentence_is_idle() -> None:
    by_family = frozenset().union(*FAMILIES.values())
    used = used_keys(frozenset(EN)) | web_keys(frozenset(EN))
    assert sorted(set(EN) - used - by_family) == []


def test_every_key_of_the_app_is_in_the_catalogue() -> None:
    assert written_keys()
    assert {key: where for key, where in written_keys().items() if key not in EN} == {}
    assert {
        pattern: where
        for pattern, where in gapped_keys().items()
        if not any(re.fullmatch(pattern, key) for key in EN)
    } == {}


def test_the_app_is_handed_its_figures_as_they_are_shown() -> None:
    """Units and digits are the engine's; a sentence of the app only places what it is handed."""
    screens = [key for key in EN if key.startswith("screen")]
    assert screens
    assert [key for key in screens if any(kind for _, kind in places(EN[key]))] == []


def test_an_idle_sentence_would_be_found() -> None:
    idle = {"limit.no_such_limit", "show.heading_of_old", "reason.lift_", "cut.half", "verdict.GO"}
    idle |= {"screen.button_of_old", "screen.ask_", "screen_tip.not_any_more"}
    known = frozenset(EN) | idle
    assert (used_keys(known) | web_keys(known)) & idle == set()


def named(prefix: str, words: Iterable[str], suffix: str = "") -> set[str]:
    return {f"{prefix}{word}{suffix}".replace(" ", "_").replace("-", "_") for word in words}


BANDS = [value for value in vars(bands).values() if isinstance(value, Band)]
BANDS += [*bands.EFFICIENCY.values(), *bands.THREAD_FRICTION.values()]
FAMILIES = {
    "defects": named("defect.", DEFECTS),
    "grease": named("kit.", get_args(Grease)),
    "answers of the look": named("look.", unanswered(Look())),
    "deciding figures": named("figure.", JSON_UNITS),
    "their gains": named("measure.of_", JSON_UNITS),
    "groups of a species": named(
        "group.", {origin.group for s in species_by_key().values() for origin in s.origins}
    ),
    "sections of a kit": named("kit_form.section_", TOP_KEYS),
    "kinds of devices": named("kit_form.kind_", KEYS_BY_KIND),
    "fields of a kit": named(
        "kit_form.", (field.key for fields in KIT_SECTIONS.values() for field in fields)
    ),
    "choices of a kit": named("kit_form.word_", (*get_args(Grease), *get_args(ItemState))),
    "limits": named("assumed.", [limit.key for limit in limits.ALL_LIMITS]),
    "reasons of limits": named(
        "assumed.", [limit.key for limit in limits.ALL_LIMITS if limit.mark != "SEEN"], "_why"
    ),
    "bands": named("assumed.", [band.key for band in BANDS]),
    "reasons of bands": named("assumed.", [band.key for band in BANDS], "_why"),
    "errors of readings": named(
        "assumed.", [value.key for value in vars(bands).values() if isinstance(value, ReadingError)]
    ),
    "profiles": named("practice.profile_", profile_names()),
    "methods": named("cut.", METHOD_KEYS.values()),
}


@pytest.mark.parametrize("family", FAMILIES)
def test_every_member_of_a_family_has_its_words(family: str) -> None:
    assert FAMILIES[family]
    assert not FAMILIES[family] - set(EN)


def test_every_species_has_a_german_name() -> None:
    assert [key for key in species_by_key() if not names_of(key, "de")] == []
