"""Every answer fits the schema that ships with the package, and holds no NaN."""

import json
import tomllib
from importlib.resources import files
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from fellwright.api import answer

ROOT = Path(__file__).parents[2]
SCHEMA = json.loads(files("fellwright.api").joinpath("schemas/tip.json").read_text("utf-8"))
KIT = tomllib.loads((ROOT / "examples" / "van-2.toml").read_text("utf-8"))
TREES = sorted(path for path in (ROOT / "examples").glob("*.toml") if "van-" not in path.name)
BASE = tomllib.loads((ROOT / "examples" / "harrowlees-11.toml").read_text("utf-8"))

CHANGES: dict[str, dict[str, dict[str, Any]]] = {
    "no dbh": {"tree": {"dbh_cm": None}},
    "no species": {"tree": {"species": None}},
    "unknown species": {"tree": {"species": "baobab"}},
    "no lean": {"tree": {"lean": None}},
    "no lay": {"cut": {"lay_deg": None}},
    "no height": {"tree": {"height_m": None}},
    "look open": {"look": {"sound": None, "ways_out": None}},
    "ring": {"look": {"ring_clear": False}},
    "unsound": {"look": {"sound": False}},
    "hollow": {"tree": {"cavity_wall_cm": 9}, "look": {"sound": False}},
    "shell": {"tree": {"cavity_wall_cm": 4}, "look": {"sound": False}},
    "flare": {"tree": {"flare": "untrimmed"}},
    "frost": {"day": {"temperature_degc": -8}},
    "storm": {"day": {"gust_m_s": 30}},
    "huge": {"tree": {"dbh_cm": 125, "stump_diameter_cm": 140}},
    "tall": {"tree": {"height_m": 60}},
    "lodged": {"tree": {"defects": ["lodged"]}},
    "forward": {"cut": {"lay_deg": 220}},
    "proposed": {"cut": {"notch_share": None, "hinge_mm": None, "method": None, "preload": None}},
}


def check(response: dict[str, object]) -> dict[str, Any]:
    plain: dict[str, Any] = json.loads(json.dumps(response, allow_nan=False))
    jsonschema.Draft202012Validator(SCHEMA).validate(plain)
    return plain


def test_schema_is_itself_valid() -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)


@pytest.mark.parametrize("path", TREES, ids=lambda path: path.stem)
def test_examples_fit_the_schema(path: Path) -> None:
    check(answer("tip", {"tree": tomllib.loads(path.read_text("utf-8")), "kit": KIT}))


@pytest.mark.parametrize("name", CHANGES)
def test_incomplete_and_refused_trees_fit_the_schema(name: str) -> None:
    tree = {section: dict(keys) for section, keys in BASE.items()}
    for section, keys in CHANGES[name].items():
        tree[section].update(keys)
    plain = check(answer("tip", {"tree": tree, "kit": KIT, "draws": 64}))
    if plain["verdict"] in ("MEASURE", "LEAVE"):
        for key in ("hinge", "notch", "cut", "turns"):
            assert plain[key] is None
        assert plain["marks"] == []


@pytest.mark.parametrize("name", CHANGES)
def test_assumed_lists_nothing_that_was_seen(name: str) -> None:
    tree = {section: dict(keys) for section, keys in BASE.items()}
    for section, keys in CHANGES[name].items():
        tree[section].update(keys)
    plain = check(answer("tip", {"tree": tree, "kit": KIT, "draws": 64}))
    assert {item["mark"] for item in plain["assumed"]} <= {"MEMORY", "PRACTICE", "OWN", "DERIVED"}


def test_every_band_is_in_order() -> None:
    def bands(value: object) -> list[dict[str, float]]:
        if isinstance(value, dict):
            if set(value) == {"p10", "p50", "p90"}:
                return [value]
            return [band for item in value.values() for band in bands(item)]
        if isinstance(value, list):
            return [band for item in value for band in bands(item)]
        return []

    found = bands(check(answer("tip", {"tree": BASE, "kit": KIT})))
    assert len(found) > 12
    for band in found:
        assert band["p10"] <= band["p50"] <= band["p90"]
