"""Every fault can be told in both languages, and says the same in one line as in its parts."""

from __future__ import annotations

import ast
import inspect
import re
from collections.abc import Iterator
from functools import cache

import pytest
from tests.words.fault_samples import sample_faults, system_faults
from tests.words.test_catalogue import EN, FORBIDDEN
from tests.words.test_every_sentence import Recording
from tests.words.uses import source_trees

from fellwright.errors import Fault
from fellwright.words import Style, Text, catalogue, fault_data, fault_text

GERMAN = Style("de")
AREAS = ("fault.", "remedy.", "rule.")
VERBS = {
    "en": {"cannot", "must"},
    "de": {"braucht", "darf", "fehlt", "lässt", "muss", "müssen"},
}
ELSEWHERE = re.compile(r"remedy\.(ask_again|app_|port_)|rule\.(request_|json_|app_|port_)")
"""Sentences of the JSON door as text and of the server, which have tests of their own."""

KEPT = re.compile(r"\"[^\"]*\"|'[^']*'|`[^`]*`|\[[^]]*\]|\S*[._/]\S*|error_m|true oder false")
"""Words of a file stay as they are in every language: quoted, in brackets, paths and keys."""
ENGLISH = re.compile(
    r"\b(a|an|and|at|be|by|each|from|give|has|is|it|must|no|not|of|one|or|read|the|to|with|write)\b"
)


@pytest.fixture(scope="module")
def faults(tmp_path_factory: pytest.TempPathFactory) -> list[Fault]:
    return sample_faults(tmp_path_factory.mktemp("faults"))


def test_every_sentence_of_a_fault_comes_up(faults: list[Fault]) -> None:
    asked: set[str] = set()
    german = Recording(catalogue("de"), asked)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("fellwright.words.text.catalogue", lambda _language: german)
        for fault in [*faults, *system_faults()]:
            assert fault_text(fault, GERMAN)
    known = {key for key in EN if key.startswith(AREAS) and not ELSEWHERE.match(key)}
    assert len(known) > 200
    assert sorted(known - asked) == []


def test_german_faults_have_no_english_left(faults: list[Fault]) -> None:
    assert len(faults) > 250
    for fault in [*faults, *system_faults()]:
        english, german = fault_data(fault), fault_data(fault, GERMAN)
        for part in ("rule", "remedy"):
            assert english[part] != german[part], english[part]
        for part in ("value", "rule", "remedy"):
            left = KEPT.sub("", re.sub(r"(bekannt|davon sein): .*", "", str(german[part])))
            assert not ENGLISH.search(left), german[part]


def test_every_fault_of_the_samples_holds_sentences_and_no_bare_text(faults: list[Fault]) -> None:
    for fault in faults:
        assert isinstance(fault.rule_words, Text), fault.text
        assert isinstance(fault.remedy_words, Text), fault.text


@pytest.mark.parametrize("style", [Style(), GERMAN], ids=["en", "de"])
def test_faults_are_one_line_and_grant_nothing(style: Style, faults: list[Fault]) -> None:
    for fault in faults:
        text = fault_text(fault, style)
        assert text.isprintable()
        assert not FORBIDDEN.search(text.replace(fault.value, "") if fault.value else text)
        data = fault_data(fault, style)
        assert str(data["rule"]).split(" ")[0] in VERBS[style.language]
        assert str(data["remedy"]).endswith(".")


def test_the_english_line_is_that_of_the_fault_itself(faults: list[Fault]) -> None:
    for fault in faults:
        assert fault_text(fault) == fault.text


def test_the_data_of_a_fault_are_its_parts() -> None:
    fault = Fault("a.csv", 3, "column 2", '"x"', Text("rule.heading_known"), "Streichen.", "code")
    assert fault_data(fault, GERMAN) == {
        "file": "a.csv",
        "row": 3,
        "field": "column 2",
        "value": '"x"',
        "rule": "muss eine bekannte Überschrift sein und ist keine",
        "remedy": "Streichen.",
        "code": "code",
        "text": 'a.csv: Zeile 3: Spalte 2 = "x": '
        "muss eine bekannte Überschrift sein und ist keine. Streichen.",
    }


def test_a_value_in_braces_is_shown_as_it_is() -> None:
    fault = Fault("{x}", None, "{0}", '"{name.__class__}"', Text("rule.whole"), "{y}.", "code")
    assert fault_text(fault).startswith('{x}: {0} = "{name.__class__}": must be')


def test_numbers_of_a_rule_have_a_decimal_comma_in_german() -> None:
    words = (("low", 0.25), ("high", 12.0))
    fault = Fault("a", None, "b", "12.5", Text("rule.clock", words), "", "code")
    assert "0,25 bis 12 in" in fault_text(fault, GERMAN)
    assert "0.25 to 12 in" in fault_text(fault)


TELLING = ("rule", "remedy")


def makers_in(tree: ast.Module) -> dict[str, list[str]]:
    """Functions and records that take a rule or a remedy, with their parameters in order."""
    found = {}
    for node in ast.walk(tree):
        names: list[str] = []
        if isinstance(node, ast.FunctionDef):
            names = [argument.arg for argument in node.args.args if argument.arg != "self"]
        elif isinstance(node, ast.ClassDef):
            fields = [part for part in node.body if isinstance(part, ast.AnnAssign)]
            names = [field.target.id for field in fields if isinstance(field.target, ast.Name)]
        if set(TELLING) & set(names):
            found[getattr(node, "name", "")] = names
    return found


@cache
def public_makers() -> dict[str, list[str]]:
    """Those of all modules; a private one is known in its own module only."""
    found = {"Fault": ["file", "row", "field", "value", *TELLING, "code"]}
    for tree in source_trees().values():
        found |= {name: of for name, of in makers_in(tree).items() if not name.startswith("_")}
    return found


def told(tree: ast.Module, makers: dict[str, list[str]]) -> Iterator[ast.expr]:
    """Every rule and remedy that a module hands to one of the makers."""
    for node in ast.walk(tree):
        if not isinstance(node, ast.Call):
            continue
        name = getattr(node.func, "id", getattr(node.func, "attr", ""))
        names = makers.get(name, [])
        yield from (a for a, known in zip(node.args, names, strict=False) if known in TELLING)
        yield from (keyword.value for keyword in node.keywords if keyword.arg in TELLING)


def test_no_rule_or_remedy_is_written_in_the_code() -> None:
    assert {"add", "Number", "Flag", "whole_file_fault", "note_missing"} <= set(public_makers())
    written, counted = [], 0
    for where, tree in source_trees().items():
        makers = {**public_makers(), **makers_in(tree)}
        texts = {
            target.id
            for node in ast.walk(tree)
            if isinstance(node, ast.Assign) and isinstance(node.value, ast.Constant | ast.JoinedStr)
            for target in node.targets
            if isinstance(target, ast.Name)
        }
        for value in told(tree, makers):
            counted += 1
            bare = isinstance(value, ast.Constant) and isinstance(value.value, str)
            named = isinstance(value, ast.Name) and value.id in texts
            if bare or named or isinstance(value, ast.JoinedStr):
                written.append(f"{where}:{value.lineno}")
    assert counted > 150
    assert written == []


def test_a_rule_written_in_the_code_would_be_found() -> None:
    source = inspect.cleandoc(
        """
        remedy = "Mend it."
        log.add("a", "b", f"must be {c}", remedy, "code")
        """
    )
    found = list(told(ast.parse(source), public_makers()))
    assert [type(value) for value in found] == [ast.JoinedStr, ast.Name]
