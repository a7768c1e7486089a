"""The form on which a van is entered is made of the fields that a kit file takes, none left out."""

from __future__ import annotations

from typing import Any

import pytest

from fellwright.api.kit_form_response import kit_form_answer
from fellwright.api.kit_response import kit_answer
from fellwright.errors import BadInput
from fellwright.records.kit_fields import (
    DEVICE_FIELDS,
    KEYS_BY_KIND,
    KIT_SECTIONS,
    REQUIRED_BY_KIND,
)

ENTRIES = {"number", "pair", "list", "choice", "text"}


def form(**asked: object) -> Any:
    return kit_form_answer(asked)


def test_every_section_and_field_of_a_kit_file_is_on_the_form() -> None:
    sections = form()["sections"]
    assert [s["key"] for s in sections] == [heading.strip("[]") for heading in KIT_SECTIONS]
    for section, fields in zip(sections, KIT_SECTIONS.values(), strict=True):
        assert [field["key"] for field in section["fields"]] == [field.key for field in fields]
        assert all(field["label"] and field["entry"] in ENTRIES for field in section["fields"])


def test_every_field_of_a_device_is_asked_of_some_kind_and_its_required_ones_are_asked() -> None:
    asked = {key for keys in KEYS_BY_KIND.values() for key in keys}
    assert asked | {"name", "kind"} == {field.key for field in DEVICE_FIELDS}
    assert set(KEYS_BY_KIND) == set(REQUIRED_BY_KIND)
    for kind, keys in KEYS_BY_KIND.items():
        assert set(REQUIRED_BY_KIND[kind]) <= set(keys)
        assert len(set(keys)) == len(keys)


@pytest.mark.parametrize("imperial", [False, True])
@pytest.mark.parametrize("language", ["en", "de"])
def test_what_is_asked_can_be_read_back(language: str, imperial: bool) -> None:
    answer = form(language=language, imperial=imperial)
    fields = {field["key"]: field for field in answer["sections"][0]["fields"]}
    for kind in answer["kinds"]:
        assert set(kind["required"]) <= set(kind["keys"]) <= set(fields)
        device: dict[str, object] = {"name": "Dipper", "kind": kind["word"]}
        for key in kind["required"]:
            size = 2.0 if imperial else 10.0
            device[key] = [size, size] if fields[key]["entry"] == "pair" else size
        tables = {"device": [device]}
        read: Any = kit_answer({"kit": tables})
        assert read["kit"] == tables
        assert read["devices"] == [{"name": "Dipper", "kind": kind["word"]}]


def test_a_device_with_a_gap_is_refused_with_its_fault() -> None:
    with pytest.raises(BadInput) as refused:
        kit_answer({"kit": {"device": [{"name": "Dipper", "kind": "screw wedge", "lift_mm": -1}]}})
    assert {fault.field for fault in refused.value.faults} >= {"device[1].lift_mm"}


@pytest.mark.parametrize("asked", [{}, {"kit": 3}, {"toml": 3}])
def test_neither_file_nor_tables_is_a_fault(asked: dict[str, object]) -> None:
    with pytest.raises(BadInput) as refused:
        kit_answer(asked)
    assert [fault.code for fault in refused.value.faults] == ["missing-key"]


def test_words_to_choose_are_those_that_the_records_take() -> None:
    for section in form()["sections"]:
        for field in section["fields"]:
            has_words = field["entry"] == "choice" and field["key"] != "kind"
            assert bool(field["words"]) == has_words
