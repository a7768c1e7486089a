"""Bad input of every kind: the faults that it brings up between its pieces."""

from __future__ import annotations

import datetime as dt
import errno
import importlib.util
import os
import tomllib
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from tests.records.samples import EXAMPLES, kit_data, put, tree_data
from tests.tables.test_profiles import OWN

from fellwright.api import answer, answer_why, options_from, plan_tip, style_from
from fellwright.cli.check import check_files
from fellwright.cli.new import write_new_files
from fellwright.cli.papers import Papers, keep_papers
from fellwright.errors import BadInput, Fault
from fellwright.exchange.csv_file import MOST_BYTES
from fellwright.exchange.pictures import write_pictures
from fellwright.exchange.tree_file import read_trees
from fellwright.planning.plan import Options
from fellwright.print import check_target
from fellwright.records.bearing_field import Bearing
from fellwright.records.kit import Kit
from fellwright.records.kit_fields import KIT_SECTIONS
from fellwright.records.loader import read_kit, read_tree
from fellwright.records.table_reader import Field
from fellwright.records.tree import Tree
from fellwright.records.tree_fields import TREE_SECTIONS
from fellwright.tables.profiles import load_profile, parse_profile, profile_from
from fellwright.words import Style, system_words
from fellwright.words.faults import SYSTEM

Table = dict[str, Any]
FILES: dict[str, bytes] = {
    "a.csv": b'name,dbh_cm\n"A,40\n',
    "b.csv": b"name\n",
    "c.csv": b"name" + b",name" * 300 + b"\nA\n",
    "d.csv": b"name,dbh_cm,heigth_m,name,hinge_mm\nA,4000,25,B,46\nC,40\n",
    "e.csv": b"zzzzz\n1\n",
    "f.csv": b"x" * (MOST_BYTES + 1),
    "g.toml": b"name = '\xe4'",
    "h.toml": b"a = 1\0",
    "i.toml": b"[tree]\ndbh_cm = forty\n",
    "j.toml": b"a = [" + b"\n[" * 20_000,
    "k.toml": b"a = '''",
    "l.toml": b"a." * 400 + b"a = 1",
    "m.toml": b"a = 1\n",
}


def changed(data: Table, **values: object) -> Table:
    """Set values at paths whose dots are written as two underscores."""
    for path, value in values.items():
        put(data, path.replace("__", "."), value)
    return data


def trees() -> Iterator[object]:
    """Tree files with something wrong in each."""
    spoilt: tuple[Table, ...] = (
        {"tree__dbh_cm": 4, "tree__crown_base_m": 26, "tree__cavity_wall_cm": 23},
        {"tree__stump_diameter_cm": 460, "tree__dbh_cm": float("nan"), "tree__height_m": 10**99},
        {"tree__stump_diameter_cm": 460, "tree__lean__0__offset_m": 26},
        {"cut__hinge_mm": 460, "tree__cut_height_cm": "low", "look__ways_out": 1.5},
        {"cut__hinge_mm": 460, "cut__notch_share": None, "tree__dbh_in": 15.7},
        {"cut__lay_deg": None, "tree__lean__0__toward_clock": 6, "tree__lean__0__toward_deg": None},
        {"tree__lean__0__toward_clock": 6.1, "tree__lean__0__toward_deg": None},
        {"tree__crown_shift": {"offset_m": 1, "toward_deg": 9}},
        {"tree__lean__0__how": "drone", "cut__method": "half & half", "tree__defects": ["loged"]},
        {"tree__defects": "crack", "tree__name": "\x1b", "look__sound": "yes", "day": True},
        {"tree__lean": [{}] * 21, "tree__conductor": {}, "tree__dbh_mm": 4, "device": []},
        {"tree__lean": [3, {}], "tree__lay_deg": {}, "lok": (1, 2), "day__zzz": 3},
        {"tree": {f"junk{count}": count for count in range(40)}, "tree_cm": 7},
        {"tree__flare": EXAMPLES, "day__zzz": None, "look__lay_dg": 7},
        {"tree__name": dt.date(2026, 3, 2), "tree__species": dt.time(7, 40)},
    )
    yield from (changed(tree_data(), **values) for values in spoilt)
    yield {}
    yield 3
    yield {"tree": {"height_m": 5, "cut_height_cm": 260}}
    yield {"tree": {"dbh_in": 200, "height_ft": 80}}
    for toward in ("top", "balance"):
        reading = {"offset_m": 3.5, "toward_deg": 220, "sighted_at": toward, "error_m": 0.05}
        yield {"tree": {"lean": [reading, {**reading, "toward_deg": 40}]}}
    yield from spoilt_fields(TREE_SECTIONS)


def kits() -> Iterator[object]:
    """Kit files with something wrong in each."""
    spoilt: tuple[Table, ...] = (
        {"device__0__plate_mm": [65], "device__0__hex_mm": [1] * 9, "device__1__name": "DIPPER"},
        {"device__0__mm_per_turn": 900, "device__0__kind": "screw", "device__0__lift_mm": 1e9},
        {"tree": {}, "saw__bar_deep_mm": 7},
    )
    yield from (changed(kit_data(), **values) for values in spoilt)
    yield {"device": [{"name": "Dipper", "kind": "screw wedge"}]}
    yield from spoilt_fields(KIT_SECTIONS)


def spoilt_fields(sections: dict[str, tuple[Field, ...]]) -> Iterator[Table]:
    """Each field of a file with a value of no kind, and each entry without its required ones."""
    for heading, fields in sections.items():
        for wrong in (*({key: object()} for field in fields for key in field.accepted_keys), {}):
            data: Table = {}
            put(data, heading.strip("[]"), [wrong] if heading.startswith("[[") else wrong)
            data.setdefault("tree", {}) if sections is TREE_SECTIONS else None
            yield data
        for field in fields:
            if isinstance(field, Bearing) and heading == "[day]":
                yield {"tree": {}, "day": {field.key: 400}}


def profiles() -> Iterator[object]:
    """Profile files with something wrong in each."""
    spoilt: tuple[Table, ...] = (
        {"subject": "notch_depth", "when": "always", "zzz": 10**99},
        {"low": "a third", "mark": "TRUE", "lowest": 1, "source": None, "text": "words"},
        {"high": 0.2, "force": "conflict", "clause": "", "of": "crown"},
        {"about": 0.3, "when": {"cases": ["moonlight"], "kv_unknown": 1}},
        {"subject": "hinge_left", "id": {}},
        {"subject": "slope_quartered", "id": ["x"], "clause": (1,)},
    )
    for values in spoilt:
        yield {**OWN, "rule": [{**OWN["rule"][0], **values}, "no table"]}
    yield {**OWN, "rule": OWN["rule"] * 2}
    yield {**OWN, "rule": []}


def requests() -> Iterator[Callable[[], object]]:
    """Bad questions, options and styles."""
    plan = plan_tip(Tree(), Kit(), Options(draws=64))
    yield lambda: answer("tipp", {})
    yield lambda: answer("tip", {"tree": [], "kit": {"saw": 3}})
    yield lambda: answer("tip", {"tree": {"tree": {"dbh_cm": 0}}, "kit": 3, "lay_deg": 400})
    yield lambda: options_from({"draws": 1, "seed": -1, "bare": "yes", "profile": "x"})
    yield lambda: style_from({"language": "fr", "force": "N", "imperial": 7})
    yield lambda: answer_why(plan, "pusch", None)
    yield lambda: answer_why(plan, "push", None)
    yield lambda: answer_why(plan, "push", "Dipper")
    yield lambda: load_profile("albertta")
    yield lambda: profile_from(7)
    yield lambda: profile_from({})


def files(folder: Path) -> Iterator[Callable[[], object]]:
    """Files that cannot be read, and places that cannot be written."""
    for name, content in FILES.items():
        path = folder / name
        path.write_bytes(content)
        yield lambda path=path: read_trees(path)  # type: ignore[misc]  # bound at once
        yield lambda path=path: _refused(check_files([str(path)]).faults)  # type: ignore[misc]
    taken = folder / "taken"
    taken.write_text("a file", encoding="utf-8")
    plan = plan_tip(Tree(), Kit(), Options(draws=64))
    for place in (folder / "none.toml", folder, folder / "long".ljust(3000, "g"), "\0"):
        yield lambda place=place: read_trees(place)  # type: ignore[misc]
    yield lambda: write_new_files(folder, {"taken": ""})
    yield lambda: write_new_files(taken, {"tree.toml": ""})
    yield lambda: write_pictures(plan, taken, Style())
    yield lambda: write_pictures(plan, "\0", Style())
    for target in (folder / "no" / "card.pdf", folder, "a\0b.pdf", "x" * 300):
        yield lambda target=target: check_target(target)  # type: ignore[misc]
    yield lambda: check_target(taken, "a3")
    yield _toml_that_breaks_off_nowhere
    yield _two_of_one_name
    yield _without_the_extra


def _toml_that_breaks_off_nowhere() -> None:
    def refuse(_text: str) -> None:
        raise tomllib.TOMLDecodeError("Something else")

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(tomllib, "loads", refuse)
        read_trees(EXAMPLES / "harrowlees-11.toml")


def _two_of_one_name() -> None:
    trees = [Tree(name="Harrowlees 11"), Tree(name="harrowlees-11")]
    with keep_papers(Papers(pictures="pictures"), trees, Style()):
        pass


def _without_the_extra() -> None:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(importlib.util, "find_spec", lambda _: None)
        check_target("card.pdf")


def _refused(faults: tuple[Fault, ...]) -> None:
    raise BadInput(faults)


def system_faults() -> list[Fault]:
    """Everything that the system may say of a file, as one fault each."""
    numbers = (*SYSTEM, errno.EIO)
    told = [system_words(OSError(number, os.strerror(number))) for number in numbers]
    told.append(system_words(ValueError("embedded null byte")))
    return [Fault("a.toml", None, "", words, words, words, "file-unreadable") for words in told]


def sample_faults(folder: Path) -> list[Fault]:
    """Every fault that all of it brings up."""
    tries: list[Callable[[], object]] = [*requests(), *files(folder)]
    tries += [lambda data=data: read_tree(data, "tree.toml") for data in trees()]  # type: ignore[misc]
    tries += [lambda data=data: read_kit(data, "kit.toml") for data in kits()]  # type: ignore[misc]
    tries += [lambda data=data: parse_profile(data, "ours.toml") for data in profiles()]  # type: ignore[misc]
    found: list[Fault] = []
    for attempt in tries:
        try:
            attempt()
        except BadInput as bad:
            found += bad.faults
    return found
