import json
from typing import Any

import pytest
from hypothesis import assume, given
from tests.records.samples import EXAMPLES, kit_data, tree_data
from tests.records.strategies import kit_files, tree_files

from fellwright.errors import BadInput
from fellwright.records.loader import read_kit, read_tree
from fellwright.records.plain import kit_as_data, tree_as_data


def readable(read: Any, data: Any) -> Any:
    """Read data that was drawn; drop it where its readings contradict each other."""
    try:
        return read(data, "drawn")
    except BadInput:
        assume(False)


@given(tree_files())
def test_a_tree_written_out_reads_back_equal(data: Any) -> None:
    tree = readable(read_tree, data)
    assert read_tree(json.loads(json.dumps(tree_as_data(tree))), "again") == tree


@given(kit_files())
def test_a_kit_written_out_reads_back_equal(data: Any) -> None:
    kit = readable(read_kit, data)
    assert read_kit(json.loads(json.dumps(kit_as_data(kit))), "again") == kit


def test_the_examples_come_back_with_the_keys_they_had() -> None:
    tree, kit = tree_data(), kit_data()
    written = tree_as_data(read_tree(tree, "tree"))
    del tree["tree"]["defects"]  # an empty list says what an absent key says
    assert written == tree | {"tree": tree["tree"] | {"lean": written["tree"]["lean"]}}
    assert kit_as_data(read_kit(kit, "kit")) == kit


def test_inches_come_back_as_inches() -> None:
    data: dict[str, Any] = {"tree": {"dbh_in": 15.7, "lean": []}, "day": {"temperature_degf": 41.3}}
    assert tree_as_data(read_tree(data, "tree")) == {
        "tree": {"dbh_in": 15.7},
        "day": {"temperature_degf": 41.3},
    }
    kit = {"device": [{"name": "a", "kind": "hand wedge", "thickness_in": 2.1, "hex_in": [0.7]}]}
    assert kit_as_data(read_kit(kit, "kit")) == kit


@pytest.mark.parametrize("path", sorted(EXAMPLES.glob("*.toml")), ids=lambda path: path.stem)
def test_records_can_be_kept_in_sets_and_shown(path: Any) -> None:
    data = kit_data() if path.stem == "van-2" else tree_data()
    record = read_kit(data, "a") if path.stem == "van-2" else read_tree(data, "a")
    assert len({record, record}) == 1
