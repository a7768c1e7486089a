import json
import random
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.records.bundles import (
    BODIES,
    HEAPS,
    ID,
    JSON_VALUES,
    bundle,
    event,
    events,
    text,
    uuid_7,
)

from fellwright.errors import BadInput, Fault
from fellwright.records import bundle as bundle_module
from fellwright.records.bundle import (
    Bundle,
    clashes_in,
    merge,
    read_bundle,
    write_bundle,
)
from fellwright.records.event import Event, content_of, event_as_data


def faults_of(whole: str) -> tuple[Fault, ...]:
    with pytest.raises(BadInput) as caught:
        read_bundle(whole, "a.json")
    return caught.value.faults


def only(whole: str) -> Fault:
    faults = faults_of(whole)
    assert len(faults) == 1, [fault.text for fault in faults]
    return faults[0]


@pytest.mark.parametrize("kind", BODIES)
def test_every_kind_reads_and_keeps_its_body_untouched(kind: str) -> None:
    whole = read_bundle(text(event(kind)))
    assert [event_as_data(one) for one in whole.events] == [event(kind)]
    assert whole.unknown_kinds == 0
    assert whole.clashes == ()


def test_an_unknown_kind_is_kept_untouched_and_counted() -> None:
    strange = event("weather", body={"any": [1, {"thing": None}]}, tree=None, by=None)
    whole = read_bundle(text(strange, event("state", id=uuid_7(2))))
    assert whole.unknown_kinds == 1
    assert strange in [event_as_data(one) for one in whole.events]


def test_more_in_a_body_than_its_kind_asks_for_is_kept() -> None:
    more = event("state", body={"state": "down", "photo": "p1"})
    assert event_as_data(read_bundle(text(more)).events[0]) == more


SPOILT: dict[str, tuple[Any, str, str]] = {
    "version 4 id": ({"id": "6f1c1c0e-6f0f-4c1b-9a51-0c6a3e2b7d11"}, "id", "not-text"),
    "capitals in id": ({"id": ID.upper()}, "id", "not-text"),
    "short device": ({"device": "phone-1"}, "device", "not-text"),
    "device with a slash": ({"device": "../../phone"}, "device", "not-text"),
    "seq nought": ({"seq": 0}, "seq", "not-whole"),
    "seq true": ({"seq": True}, "seq", "not-whole"),
    "seq a part": ({"seq": 1.5}, "seq", "not-whole"),
    "seq past exact": ({"seq": 2**53}, "seq", "not-whole"),
    "no offset": ({"at": "2026-03-02T07:40:00"}, "at", "not-text"),
    "no such day": ({"at": "2026-02-30T07:40:00Z"}, "at", "not-text"),
    "no such hour": ({"at": "2026-03-02T24:40:00Z"}, "at", "not-text"),
    "schema nought": ({"schema": 0}, "schema", "not-whole"),
    "kind in capitals": ({"kind": "Reading"}, "kind", "not-text"),
    "tree by name": ({"tree": "11"}, "tree", "not-text"),
    "by escape": ({"by": "H\x1b[2J"}, "by", "not-text"),
    "by right to left": ({"by": "H\u202eB"}, "by", "not-text"),
    "by too long": ({"by": "H" * 41}, "by", "not-text"),
    "body a list": ({"body": []}, "body", "not-a-table"),
    "no body": ({"body": None}, "body", "missing-key"),
    "tenth key": ({"extra": 1}, "extra", "unknown-key"),
    "half a character": ({"body": {"path": "a.b", "value": "\ud800"}}, "body", "not-text"),
    "no value": ({"body": {"path": "a.b"}}, "body.value", "missing-key"),
    "no path": ({"body": {"value": 1}}, "body.path", "missing-key"),
    "path with blanks": ({"body": {"path": "tree dbh", "value": 1}}, "body.path", "not-text"),
}


@pytest.mark.parametrize("name", SPOILT)
def test_a_spoilt_event_is_refused_with_its_place(name: str) -> None:
    changes, key, code = SPOILT[name]
    fault = only(text(event("state", id=uuid_7(2)), {**event(), **changes}))
    assert (fault.field, fault.code) == (f"events[2].{key}", code)
    assert fault.rule.startswith("must ")
    assert fault.text.isprintable()


BODY_FAULTS: dict[str, tuple[str, dict[str, Any], str]] = {
    "tree without name": ("tree", {}, "name"),
    "tree with a control character": ("tree", {"name": "a\x00b"}, "name"),
    "kit that is a list": ("kit", {"name": "v", "kit": []}, "kit"),
    "van without yes or no": ("van", {"device": "Dipper", "present": 1}, "present"),
    "plan without answer": ("plan", {"request": {}, "verdict": "TIGHT", "engine": "1"}, "answer"),
    "stump of a kilometre": ("trimmed", {"stump_diameter_cm": 1e5}, "stump_diameter_cm"),
    "notch to the middle": ("notch", {"side": "middle"}, "side"),
    "ready perhaps": ("ready", {"item": "ring", "done": "perhaps"}, "done"),
    "turns backwards": ("drive", {"stage": "goes", "turns": -1}, "turns"),
    "went as never heard": ("stump", {"went": ["fine"]}, "went[1]"),
    "state unknown": ("state", {"state": "sawn"}, "state"),
}


@pytest.mark.parametrize("name", BODY_FAULTS)
def test_a_spoilt_body_is_refused_with_its_place(name: str) -> None:
    kind, body, key = BODY_FAULTS[name]
    assert only(text(event(kind, body=body))).field == f"events[1].body.{key}"


def test_an_event_about_a_tree_needs_the_tree() -> None:
    assert only(text(event("state", tree=None))).field == "events[1].tree"
    assert read_bundle(text(event("setting", tree=None))).events


def test_every_fault_is_told_at_once() -> None:
    whole = text(event(seq=0), 7, event(at="now", by=""), engine="", exported_at=3)
    assert [fault.field for fault in faults_of(whole)] == [
        "engine",
        "exported_at",
        "events[1].seq",
        "events[2]",
        "events[3].at",
        "events[3].by",
    ]


def test_countless_faults_are_counted() -> None:
    found = faults_of(text(*[event(seq=0, id=uuid_7(n)) for n in range(1, 1501)]))
    assert len(found) == bundle_module.MOST_FAULTS_TOLD + 1
    assert "500 more" in found[-1].rule


@pytest.mark.parametrize(
    ("whole", "field"),
    [
        (text(event(), schema="fellwright/bundle/2"), "schema"),
        (text(event(seq=0), event(schema=2, newer=True)), "events[2].schema"),
        (text(7, schema="fellwright/bundle/12", engine=None, more=1), "schema"),
    ],
)
def test_what_a_newer_version_wrote_is_one_fault_that_says_nothing_was_changed(
    whole: str, field: str
) -> None:
    fault = only(whole)
    assert (fault.code, fault.field) == ("too-new", field)
    assert "Nothing was changed" in fault.remedy


@pytest.mark.parametrize(
    ("whole", "code"),
    [
        ("", "not-json"),
        ("[]", "unknown-file"),
        ("{}", "unknown-file"),
        ('{"schema": "another/1"}', "unknown-file"),
        (text(event())[:-9], "not-json"),
        ('{"schema": NaN}', "not-a-number"),
        ('{"schema": -Infinity}', "not-a-number"),
        ('{"schema": 1e999}', "not-a-number"),
        ('{"schema": ' + "9" * 5000 + "}", "not-a-number"),
        ('{"schema": "a", "schema": "b"}', "given-twice"),
        ("[" * 100_000, "too-deep"),
        ('{"schema": "fellwright/bundle/1\x00"}', "not-json"),
        (text(event(body={"path": "a.b", "value": json.loads("[" * 60 + "]" * 60)})), "too-deep"),
    ],
)
def test_what_is_no_bundle_is_one_fault(whole: str, code: str) -> None:
    assert only(whole).code == code


def test_events_that_are_no_list_are_refused() -> None:
    assert only(text(events={})).code == "not-a-list"


def test_too_much_is_refused_before_it_is_read(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(bundle_module, "MOST_EVENTS", 2)
    assert only(text(*[7] * 3)).code == "too-many"
    monkeypatch.setattr(bundle_module, "MOST_TEXT_BYTES", 400)
    # 130 characters of three bytes each, with the rest over 400 bytes but under 400 characters.
    assert only(text(by="x") + " " * 400).code == "too-large"
    assert only(json.dumps({"schema": "€" * 140}, ensure_ascii=False)).code == "too-large"


@given(st.data())
def test_a_good_bundle_cut_short_is_refused(draws: st.DataObject) -> None:
    whole = text(event(), event("state", id=uuid_7(2)))
    cut = draws.draw(st.integers(0, len(whole) - 1))
    assert only(whole[:cut]).code == "not-json"


@given(JSON_VALUES)
def test_anything_is_read_or_refused_with_faults(value: Any) -> None:
    for whole in (
        value,
        bundle(value),
        bundle(event(body=value)),
        bundle({**event(), "kind": value}),
    ):
        try:
            read_bundle(json.dumps(whole))
        except BadInput as bad:
            for fault in bad.faults:
                assert fault.rule.startswith("must ")
                assert fault.text.isprintable()


def contents(events_: tuple[Event, ...]) -> list[str]:
    return [content_of(one) for one in events_]


def test_the_same_event_twice_is_one() -> None:
    again = dict(reversed(event(body={"path": "a.b", "value": 2.0}).items()))
    whole = read_bundle(text(event(body={"path": "a.b", "value": 2}), again))
    assert len(whole.events) == 1
    assert whole.clashes == ()


@pytest.mark.parametrize(("one", "other"), [(1, True), (0, False), (1, "1"), (None, False)])
def test_one_id_with_two_contents_is_a_clash_and_both_are_kept(one: Any, other: Any) -> None:
    pair = [event(body={"path": "a.b", "value": value}) for value in (one, other)]
    for order in (pair, pair[::-1]):
        whole = read_bundle(text(*order, event(id=uuid_7(3))))
        assert len(whole.events) == 3
        (clash,) = whole.clashes
        assert clash.id == ID
        held = [one_.body["value"] for one_ in clash.events]
        assert sorted(map(repr, held)) == sorted(map(repr, (one, other)))


@given(HEAPS, HEAPS, HEAPS, st.randoms(use_true_random=False))
def test_merge_is_a_set_union(
    a: list[Event], b: list[Event], c: list[Event], chance: random.Random
) -> None:
    union = merge(a, b, c)
    assert set(contents(union)) == {content_of(one) for one in [*a, *b, *c]}
    assert len(set(contents(union))) == len(union)
    shuffled = [*a, *b, *c, *a]
    chance.shuffle(shuffled)
    for same in (
        merge(merge(a, b), c),
        merge(a, merge(b, c)),
        merge(c, b, a),
        merge(shuffled),
        merge(union, union),
    ):
        assert same == union
        assert list(map(repr, same)) == list(map(repr, union))
    assert list(map(repr, merge(a))) == list(map(repr, merge(a, a)))
    assert merge(a, []) == merge(a)


@given(HEAPS)
def test_clashes_are_exactly_the_ids_of_several_contents(heap: list[Event]) -> None:
    by_id: dict[str, set[str]] = {}
    for one in heap:
        by_id.setdefault(one.id, set()).add(content_of(one))
    told = {clash.id: {content_of(one) for one in clash.events} for clash in clashes_in(heap)}
    assert told == {name: held for name, held in by_id.items() if len(held) > 1}


@given(HEAPS)
def test_a_bundle_that_is_written_reads_as_it_was(heap: list[Event]) -> None:
    whole = Bundle("0.1.0", "2026-03-02T16:05:00Z", "harrowlees-phone-1", merge(heap))
    again = read_bundle(write_bundle(whole))
    assert again == whole
    assert contents(again.events) == contents(whole.events)


@given(events())
def test_content_survives_a_browser(one: Event) -> None:
    """JavaScript writes 2.0 as 2 and -0 as 0."""

    def as_javascript(value: Any) -> Any:
        if isinstance(value, dict):
            return {key: as_javascript(item) for key, item in reversed(value.items())}
        if isinstance(value, list):
            return [as_javascript(item) for item in value]
        if isinstance(value, float) and value.is_integer() and abs(value) < 1e15:
            return int(value)
        return value

    there_and_back = json.dumps(bundle(as_javascript(event_as_data(one))), ensure_ascii=False)
    (again,) = read_bundle(there_and_back).events
    assert content_of(again) == content_of(one)


@pytest.mark.parametrize("wrong", [lambda: read_bundle("\ufeff" + text(event()))])
def test_a_byte_order_mark_is_no_fault(wrong: Callable[[], Bundle]) -> None:
    assert len(wrong().events) == 1
