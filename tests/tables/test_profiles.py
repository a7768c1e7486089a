"""Profiles load, cite what they say, keep memory from barring, and refuse every fault at once."""

import tomllib
from pathlib import Path
from typing import Any

import pytest
from tests.meta.sources import reference_entries

from fellwright.errors import BadInput
from fellwright.exchange.profile_file import read_profile
from fellwright.tables import profiles
from fellwright.tables.practice_subjects import CASES, CONFLICT, LAW, SUBJECTS, UNITS
from fellwright.tables.profiles import (
    Profile,
    load_profile,
    parse_profile,
    profile_from,
    profile_names,
)

NAMES = profile_names()
WANTED = {
    "general",
    "us-federal",
    "oregon",
    "washington",
    "alberta",
    "british-columbia",
    "quebec",
    "new-brunswick",
    "germany",
    "switzerland",
    "united-kingdom",
    "sweden",
}
# The points on which the sources that were read disagree; each has one subject or two.
DISAGREEMENTS = {
    "notch depth": {"conflict_notch_share"},
    "two tests of one body for the depth": {"conflict_notch_tests"},
    "notch opening": {"conflict_notch_opening"},
    "step of the back cut": {"conflict_step", "conflict_step_share"},
    "which diameter": {"conflict_diameter"},
    "from which diameter a notch": {"conflict_notch_needed"},
    "usual back cut": {"conflict_back_cut"},
    "felling lever": {"conflict_lever"},
    "ring": {"conflict_ring"},
    "way out": {"conflict_way_out"},
    "freeing a hung tree with another": {"conflict_hung_freeing"},
    "cutting a hung tree in pieces": {"conflict_hung_pieces"},
    "rope before the saw is done": {"conflict_rope_slack"},
    "wedging dead trees": {"conflict_dead_wedging"},
    "wind": {"conflict_wind"},
    "alone": {"conflict_alone"},
}
OWN: dict[str, Any] = {
    "name": "ours",
    "title": "Harrowlees",
    "rule": [
        {
            "id": "notch",
            "subject": "notch_share",
            "low": "1/4",
            "unit": "share",
            "force": "law",
            "clause": "site rule 4",
            "source": "site rules of Harrowlees",
            "mark": "SEEN",
        }
    ],
}


def changed(**keys: object) -> dict[str, Any]:
    """One rule of our own with keys changed; None drops a key."""
    rule = {**OWN["rule"][0], **keys}
    return {**OWN, "rule": [{key: value for key, value in rule.items() if value is not None}]}


def faults_of(data: dict[str, Any]) -> dict[str, str]:
    with pytest.raises(BadInput) as caught:
        parse_profile(data, "ours.toml")
    return {fault.field: fault.code for fault in caught.value.faults}


@pytest.fixture(params=NAMES)
def profile(request: pytest.FixtureRequest) -> Profile:
    return load_profile(request.param)


def test_every_profile_of_the_folder_has_its_name_listed() -> None:
    folder = Path(profiles.__file__).parent / "practice"
    assert sorted(NAMES) == sorted(path.stem for path in folder.glob("*.toml"))
    assert NAMES[0] == "general"


def test_every_profile_that_was_asked_for_ships() -> None:
    assert set(NAMES) >= WANTED
    assert NAMES[0] == "general"


def test_profile_is_named_like_its_file_and_cites_what_it_declares(profile: Profile) -> None:
    assert profile.name in NAMES
    assert profile.title
    assert set(profile.reference_keys) == {s for rule in profile.rules for s in rule.sources}
    assert set(profile.reference_keys) <= set(reference_entries())


def test_memory_stands_for_recollection_only_and_never_bars(profile: Profile) -> None:
    for rule in profile.rules:
        assert (rule.mark == "MEMORY") == (rule.sources == ("Recalled",))
        assert rule.bars == (rule.force == LAW and rule.mark == "SEEN")


def test_recalled_rows_are_kept_somewhere() -> None:
    recalled = {r.id for name in NAMES for r in load_profile(name).rules if r.mark == "MEMORY"}
    assert {"notch-depth", "hinge-least", "line-clearance", "line-wood-poles"} <= recalled


def test_general_lists_every_disagreement_and_bars_nothing() -> None:
    general = load_profile("general")
    subjects = {rule.subject for rule in general.rules}
    for name, wanted in DISAGREEMENTS.items():
        assert wanted <= subjects, name
    assert subjects == set().union(*DISAGREEMENTS.values())
    assert all(rule.force == CONFLICT and not rule.bars for rule in general.rules)


def test_every_subject_is_used_by_a_profile() -> None:
    used = {rule.subject for name in NAMES for rule in load_profile(name).rules}
    assert set(SUBJECTS) - used == {"note"}


def test_figures_are_turned_into_si() -> None:
    rule = load_profile("oregon").rules[1]
    assert rule.when.over_m == pytest.approx(0.381)
    assert load_profile("alberta").rules[1].high == pytest.approx(1.0 / 3.0, abs=1e-15)


def test_own_profile_is_read_with_fractions_and_bounds() -> None:
    rule = parse_profile(OWN, "ours.toml").rules[0]
    assert (rule.low, rule.high, rule.of) == (0.25, None, "stump")
    assert rule.bars


def test_note_carries_words_of_its_own() -> None:
    data = changed(subject="note", text="call the yard first", low=None, unit=None)
    assert parse_profile(data, "ours.toml").rules[0].text == "call the yard first"


@pytest.mark.parametrize(
    ("keys", "field", "code"),
    [
        ({"subject": "notch_depth"}, "rule[1].subject", "not-a-choice"),
        ({"low": "a third"}, "rule[1].low", "out-of-range"),
        ({"low": float("nan")}, "rule[1].low", "out-of-range"),
        ({"low": -0.2}, "rule[1].low", "out-of-range"),
        ({"low": 25}, "rule[1].low", "out-of-range"),
        ({"low": "1/0"}, "rule[1].low", "out-of-range"),
        ({"low": 10**400}, "rule[1].low", "out-of-range"),
        ({"high": 0.2}, "rule[1].low", "contradiction"),
        ({"about": 0.3}, "rule[1].low", "missing-key"),
        ({"low": None}, "rule[1].low", "missing-key"),
        ({"unit": "mm"}, "rule[1].unit", "not-a-choice"),
        ({"unit": None}, "rule[1].unit", "not-a-choice"),
        ({"force": "custom"}, "rule[1].force", "not-a-choice"),
        ({"force": "conflict"}, "rule[1].force", "contradiction"),
        ({"mark": "TRUE"}, "rule[1].mark", "not-a-choice"),
        ({"source": None}, "rule[1].source", "not-text"),
        ({"source": ["Key", 3]}, "rule[1].source", "not-text"),
        ({"clause": ""}, "rule[1].clause", "not-text"),
        ({"clause": "4\x1b[31m"}, "rule[1].clause", "not-text"),
        ({"of": "crown"}, "rule[1].of", "not-a-choice"),
        ({"text": "words"}, "rule[1].text", "contradiction"),
        ({"subject": "hinge_left"}, "rule[1].low", "contradiction"),
        ({"when": "always"}, "rule[1].when", "not-a-table"),
        ({"when": {"cases": ["moonlight"]}}, "rule[1].when.cases", "not-a-choice"),
        ({"when": {"over": 15}}, "rule[1].when.unit", "not-a-choice"),
        ({"when": {"kv_unknown": 1}}, "rule[1].when.kv_unknown", "not-yes-or-no"),
        ({"lowest": 0.2}, "rule[1].lowest", "unknown-key"),
        ({"subject": "slope_quartered"}, "rule[1].high", "missing-key"),
    ],
)
def test_fault_of_a_rule_is_named_at_its_key(
    keys: dict[str, object], field: str, code: str
) -> None:
    assert faults_of(changed(**keys))[field] == code


def test_every_fault_of_a_file_is_named_at_once() -> None:
    data = {
        "name": "",
        "rule": [{**OWN["rule"][0], "mark": "SURE", "subject": "notch_shair"}, "no table"],
    }
    assert faults_of(data).keys() == {"name", "title", "rule[1].subject", "rule[1].mark", "rule[2]"}


def test_twice_the_same_id_and_no_rules_at_all_are_faults() -> None:
    assert faults_of({**OWN, "rule": OWN["rule"] * 2}) == {"rule.id": "duplicate"}
    assert faults_of({**OWN, "rule": []}) == {"rule": "missing-key"}


def test_unknown_name_is_refused_with_the_nearest() -> None:
    with pytest.raises(BadInput, match="The nearest is alberta"):
        load_profile("albertta")


def test_request_takes_a_name_or_tables() -> None:
    assert profile_from("quebec") == load_profile("quebec")
    assert profile_from(OWN).title == "Harrowlees"
    with pytest.raises(BadInput, match="must be the name of a profile"):
        profile_from(7)


def test_own_file_is_read_from_its_path(tmp_path: Path) -> None:
    shipped = Path(__file__).parents[2] / "src/fellwright/tables/practice/quebec.toml"
    own = tmp_path / "ours.toml"
    own.write_text(shipped.read_text("utf-8").replace('"quebec"', '"ours"'), "utf-8")
    assert read_profile(str(own)).rules == load_profile("quebec").rules
    assert read_profile("quebec") == load_profile("quebec")
    with pytest.raises(BadInput, match="must exist"):
        read_profile(str(tmp_path / "none.toml"))


PAGE = (Path(__file__).parents[2] / "docs" / "practice.md").read_text("utf-8")


def test_page_names_every_subject_under_a_unit_it_takes() -> None:
    rows = [line.split("|") for line in PAGE.partition("| unit | subjects |")[2].splitlines()]
    listed = {
        subject.strip(): row[1] for row in rows[2:] if len(row) > 2 for subject in row[2].split(",")
    }
    plain = {s: d for s, d in SUBJECTS.items() if not s.startswith("conflict_")}
    assert set(listed) == set(plain)
    for subject, dimension in plain.items():
        units = set(UNITS[dimension]) if dimension else {"none: a demand"}
        assert {unit.strip() for unit in listed[subject].split(",")} == units


def test_page_names_every_case_and_its_example_is_read() -> None:
    assert all(case in PAGE for case in CASES)
    own = parse_profile(tomllib.loads(PAGE.split("```toml")[1].split("```")[0]), "page")
    assert [rule.subject for rule in own.rules] == ["notch_share", "wedges_ready", "note"]
