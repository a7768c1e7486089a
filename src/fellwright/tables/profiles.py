"""Practice profiles: what law and guidance ask of a felling, one file of data a profile.

A figure stands in its file as printed, with its unit; here it is turned into SI and shares.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import lru_cache

from fellwright.errors import BadInput, Fault
from fellwright.package_text import package_text
from fellwright.tables.practice_subjects import LAW, SUBJECTS
from fellwright.tables.profile_reader import Reader, clean_name, file_fault, nearest_remedy
from fellwright.words import Text, say

__all__ = [
    "Profile",
    "Rule",
    "When",
    "load_profile",
    "parse_profile",
    "profile_from",
    "profile_names",
]

NAMES = (
    "general",
    "alberta",
    "british-columbia",
    "germany",
    "michigan",
    "new-brunswick",
    "oregon",
    "quebec",
    "sweden",
    "switzerland",
    "united-kingdom",
    "us-federal",
    "washington",
)
"""Files of the folder `practice`; a test holds them equal to what lies there."""


@dataclass(frozen=True, slots=True)
class When:
    """When a rule applies: diameters [m], cases that must all hold, voltages [kV]."""

    diameter_of: str = "dbh"
    over_m: float | None = None
    upto_m: float | None = None
    cases: tuple[str, ...] = ()
    over_kv: float | None = None
    upto_kv: float | None = None
    kv_unknown: bool = False


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule: subject, bounds in SI or shares, force, clause, sources and mark.

    `low` and `high` bound, `about` names a figure that has no printed tolerance; a plain demand
    has none of them. `of` is the diameter of which a share is taken. `text` is set for notes only.
    """

    id: str
    subject: str
    force: str
    clause: str
    sources: tuple[str, ...]
    mark: str
    low: float | None = None
    high: float | None = None
    about: float | None = None
    of: str = "stump"
    when: When = When()
    text: str | None = None

    @property
    def bars(self) -> bool:
        """Whether breaking it bars a plan: law that was read, never what is only recalled."""
        return self.force == LAW and self.mark == "SEEN"

    @property
    def dimension(self) -> str:
        """Dimension of its subject, empty for a plain demand."""
        return SUBJECTS[self.subject]


@dataclass(frozen=True, slots=True)
class Profile:
    """One profile: name, title, the sources it cites, its rules in the order of the file.

    One that ships with the package has its title in the catalogue of words too.
    """

    name: str
    title: str
    reference_keys: tuple[str, ...]
    rules: tuple[Rule, ...]
    is_shipped: bool = False


def profile_names() -> tuple[str, ...]:
    """Names of the profiles that ship with the package, `general` first.

    Returns
    -------
    tuple of str
        Sorted but for `general`.
    """
    return NAMES


@lru_cache(maxsize=64)
def load_profile(name: str) -> Profile:
    """Load a profile that ships with the package.

    Parameters
    ----------
    name
        One of `profile_names`.

    Returns
    -------
    Profile
        Its rules.

    Raises
    ------
    BadInput
        If there is none of that name; the nearest one is named.
    """
    known = profile_names()
    if name not in known:
        rule, remedy = say("rule.profile"), nearest_remedy(name, known)
        source, shown = say("fault.profile"), clean_name(name)
        raise BadInput([Fault(source, None, "profile", shown, rule, remedy, "not-a-choice")])
    text = package_text(__package__, f"practice/{name}.toml")
    profile = parse_profile(tomllib.loads(text), f"{name}.toml")
    return replace(profile, is_shipped=True)


def profile_from(value: object) -> Profile:
    """Profile from what a request holds: a name, or the tables of a profile file.

    Parameters
    ----------
    value
        Name or tables.

    Returns
    -------
    Profile
        The profile.

    Raises
    ------
    BadInput
        With every fault.
    """
    if isinstance(value, str):
        return load_profile(value)
    if isinstance(value, Mapping):
        return parse_profile(value, say("fault.request_profile"))
    rule, remedy = say("rule.profile_or_tables"), nearest_remedy("", profile_names())
    raise BadInput([file_fault(say("fault.request_profile"), rule, remedy, "not-a-choice")])


def parse_profile(data: Mapping[str, object], source: str | Text) -> Profile:
    """Profile from the tables of its file.

    Parameters
    ----------
    data
        The tables as written.
    source
        File name, for the faults.

    Returns
    -------
    Profile
        The profile.

    Raises
    ------
    BadInput
        With every fault of the file.
    """
    top = Reader(source, "", data, ("name", "title", "reference_keys", "notes", "rule"))
    name, title = top.text("name"), top.text("title")
    keys = top.texts("reference_keys")
    top.texts("notes")
    faults = top.faults
    tables = data.get("rule")
    if not isinstance(tables, list) or not tables:
        wanted, remedy = say("rule.rules"), say("remedy.rule_heading")
        faults.append(Fault(source, None, "rule", "", wanted, remedy, "missing-key"))
        tables = []
    rules = [_rule(source, f"rule[{i}]", table, faults) for i, table in enumerate(tables, 1)]
    kept = [rule for rule in rules if rule is not None]
    seen: set[str] = set()
    for rule in kept:
        if rule.id in seen:
            once, remedy = say("rule.once_in_file"), say("remedy.rule_name")
            faults.append(Fault(source, None, "rule.id", rule.id, once, remedy, "duplicate"))
        seen.add(rule.id)
    if faults:
        raise BadInput(faults)
    return Profile(name, title, keys, tuple(kept))


RULE_KEYS = (
    "id",
    "subject",
    "force",
    "clause",
    "source",
    "mark",
    "low",
    "high",
    "about",
    "unit",
    "of",
    "when",
    "text",
)
WHEN_KEYS = ("diameter", "over", "upto", "unit", "cases", "over_kv", "upto_kv", "kv_unknown")


def _rule(source: str | Text, path: str, table: object, faults: list[Fault]) -> Rule | None:
    if not isinstance(table, Mapping):
        wanted, remedy = say("rule.table"), say("remedy.brackets_each", heading="[[rule]]")
        faults.append(Fault(source, None, path, "", wanted, remedy, "not-a-table"))
        return None
    reader = Reader(source, path, table, RULE_KEYS)
    subject = reader.subject()
    low, high, about = reader.bounds(subject) if subject else (None, None, None)
    rule = Rule(
        id=reader.text("id"),
        subject=subject,
        force=reader.force(subject),
        clause=reader.text("clause"),
        sources=reader.texts("source", required=True),
        mark=reader.mark(),
        low=low,
        high=high,
        about=about,
        of=reader.basis("of", "stump"),
        when=_when(source, f"{path}.when", table.get("when", {}), reader),
        text=reader.note(subject),
    )
    faults += reader.faults
    return None if reader.faults else rule


def _when(source: str | Text, path: str, table: object, above: Reader) -> When:
    if not isinstance(table, Mapping):
        remedy = say("remedy.when", brackets="{ ... }")
        above.add("when", table, say("rule.table"), remedy, "not-a-table")
        return When()
    reader = Reader(source, path, table, WHEN_KEYS)
    over, upto = reader.diameters()
    when = When(
        diameter_of=reader.basis("diameter", "dbh"),
        over_m=over,
        upto_m=upto,
        cases=reader.cases(),
        over_kv=reader.number("over_kv"),
        upto_kv=reader.number("upto_kv"),
        kv_unknown=reader.yes("kv_unknown"),
    )
    above.faults += reader.faults
    return when
