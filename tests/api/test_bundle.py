"""The schema of bundles that ships with the package agrees with what reads them."""

import json
import re
from importlib.resources import files
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from hypothesis import given
from tests.records.bundles import BODIES, HEAPS, event, text, uuid_7
from tests.records.test_bundle import BODY_FAULTS, SPOILT

from fellwright.api.bundle_response import bundle_answer
from fellwright.errors import BadInput
from fellwright.records.bundle import BUNDLE_SCHEMA, MOST_EVENTS, Bundle, merge, write_bundle
from fellwright.records.event import EVENT_KEYS
from fellwright.records.event_kinds import ABOUT_A_TREE, KINDS
from fellwright.records.table_reader import accepted_keys

ROOT = Path(__file__).parents[2]
SCHEMA = json.loads(files("fellwright.api").joinpath("schemas/bundle.json").read_text("utf-8"))
CHECK = jsonschema.Draft202012Validator(SCHEMA)
PAGE = (ROOT / "docs" / "bundle.md").read_text(encoding="utf-8")
BEYOND_A_SCHEMA = {
    "no such day",
    "no such hour",
    "by escape",
    "by right to left",
    "half a character",
    "tree with a control character",
}
"""Faults that no pattern of a schema tells: calendars, and what a screen would obey."""


def fits(whole: str) -> bool:
    return bool(CHECK.is_valid(json.loads(whole)))


def test_the_schema_is_itself_valid() -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)


def test_the_schema_has_the_keys_and_kinds_of_the_reader() -> None:
    one = SCHEMA["$defs"]["event"]
    assert tuple(one["required"]) == tuple(one["properties"]) == EVENT_KEYS
    assert set(SCHEMA["$defs"]) - {"event"} == set(KINDS)
    for kind, fields in KINDS.items():
        held = set(SCHEMA["$defs"][kind]["properties"])
        # Inches are read too; a bundle is written in metric.
        assert {field.key for field in fields} <= held <= set(accepted_keys(fields))
    with_tree = {
        rule["if"]["properties"]["kind"]["const"]
        for rule in one["allOf"]
        if "tree" in rule["then"]["properties"]
    }
    assert with_tree == set(ABOUT_A_TREE)
    assert SCHEMA["properties"]["schema"]["const"] == BUNDLE_SCHEMA
    assert SCHEMA["properties"]["events"]["maxItems"] == MOST_EVENTS


@pytest.mark.parametrize("kind", BODIES)
def test_a_good_event_fits(kind: str) -> None:
    assert fits(text(event(kind)))


@given(HEAPS)
def test_whatever_is_written_fits_the_schema(heap: Any) -> None:
    assert fits(write_bundle(Bundle("0.1.0", "2026-03-02T16:05:00Z", "phone-10", merge(heap))))


@pytest.mark.parametrize("name", sorted(SPOILT.keys() - BEYOND_A_SCHEMA))
def test_a_spoilt_event_does_not_fit(name: str) -> None:
    assert not fits(text({**event(), **SPOILT[name][0]}))


@pytest.mark.parametrize("name", sorted(BODY_FAULTS.keys() - BEYOND_A_SCHEMA))
def test_a_spoilt_body_does_not_fit(name: str) -> None:
    kind, body, _ = BODY_FAULTS[name]
    assert not fits(text(event(kind, body=body)))


def test_the_page_shows_a_bundle_that_reads_and_names_every_kind() -> None:
    (shown,) = re.findall(r"```json\n(.*?)```", PAGE, re.DOTALL)
    answer = bundle_answer({"bundle": shown})
    assert answer["notes"] == ["Events read: 1."]
    assert fits(shown)
    for word in (*KINDS, *EVENT_KEYS):
        assert f"| `{word}` |" in PAGE
    for fields in KINDS.values():
        for field in fields:
            assert f"`{field.key}`" in PAGE, field.key


def test_the_answer_merges_two_bundles_and_tells_clashes_and_unknown_kinds() -> None:
    first = text(event("state", body={"state": "hung"}), event("weather", id=uuid_7(2)))
    second = text(event("state"), event("state", id=uuid_7(3)))
    answer = bundle_answer({"bundle": first, "with": second})
    events: Any = answer["events"]
    assert [one["id"] for one in events] == sorted(one["id"] for one in events)
    assert len(events) == 4
    clashes: Any = answer["clashes"]
    assert [len(clash["events"]) for clash in clashes] == [2]
    assert answer["unknown_kinds"] == 1
    assert len(answer["notes"]) == 3  # type: ignore[arg-type]  # a list of sentences
    other = bundle_answer({"bundle": second, "with": first})
    assert {**other, "clashes": None} == {**answer, "clashes": None}
    assert other["clashes"] == answer["clashes"]
    json.dumps(answer, allow_nan=False)


def test_faults_of_both_bundles_come_at_once_and_name_theirs() -> None:
    with pytest.raises(BadInput) as caught:
        bundle_answer({"bundle": text(event(seq=0)), "with": text(event(at="now"))})
    assert [(fault.file, fault.field) for fault in caught.value.faults] == [
        ("bundle", "events[1].seq"),
        ("with", "events[1].at"),
    ]


@pytest.mark.parametrize("wrong", [None, 7, ["a"], {}])
def test_a_bundle_that_is_no_text_is_refused(wrong: object) -> None:
    with pytest.raises(BadInput) as caught:
        bundle_answer({"bundle": wrong})
    assert caught.value.faults[0].code == "not-text"


def test_notes_are_told_in_german() -> None:
    answer = bundle_answer({"bundle": text(event()), "language": "de"})
    assert answer["notes"] == ["Einträge gelesen: 1."]
