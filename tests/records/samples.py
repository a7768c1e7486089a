"""The tables of a whole tree file and a whole kit file, fresh for each test to spoil."""

import tomllib
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import pytest

from fellwright.errors import BadInput, Fault
from fellwright.records.loader import read_kit, read_tree

EXAMPLES = Path(__file__).parents[2] / "examples"


def tree_data() -> dict[str, Any]:
    return tomllib.loads((EXAMPLES / "harrowlees-11.toml").read_text(encoding="utf-8"))


def kit_data() -> dict[str, Any]:
    return tomllib.loads((EXAMPLES / "van-2.toml").read_text(encoding="utf-8"))


def put(data: dict[str, Any], path: str, value: object) -> None:
    """Set a value at a dotted path; a number in the path is an entry of a list, from 0."""
    *parents, last = path.split(".")
    place: Any = data
    for part in parents:
        place = place[int(part)] if part.isdigit() else place.setdefault(part, {})
    place[last] = value


def faults_of_tree(data: Any) -> tuple[Fault, ...]:
    with pytest.raises(BadInput) as caught:
        read_tree(data, "tree.toml")
    return caught.value.faults


def faults_of_kit(data: Any) -> tuple[Fault, ...]:
    with pytest.raises(BadInput) as caught:
        read_kit(data, "kit.toml")
    return caught.value.faults


def only_fault(faults: Sequence[Fault]) -> Fault:
    assert len(faults) == 1, [fault.text for fault in faults]
    return faults[0]
