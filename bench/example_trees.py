"""What the benchmarks plan: the example trees, and the example van with a fifth device."""

from dataclasses import replace
from pathlib import Path

from fellwright.exchange.toml_file import read_kit_file
from fellwright.exchange.tree_file import read_trees
from fellwright.records.kit import Kit
from fellwright.records.tree import Tree

EXAMPLES = Path(__file__).resolve().parents[1] / "examples"
TREE = "harrowlees-11"


def example_tree(name: str = TREE) -> Tree:
    """One tree of the examples."""
    return read_trees(EXAMPLES / f"{name}.toml")[0]


def example_trees() -> list[Tree]:
    """Every tree of the examples that has a file of its own."""
    names = sorted(path.stem for path in EXAMPLES.glob("*.toml"))
    return [example_tree(name) for name in names if not name.startswith("van-")]


def van_of_five() -> Kit:
    """The complete example van, its hand wedges also one by one."""
    kit = read_kit_file(EXAMPLES / "van-2.toml")
    pair = next(device for device in kit.devices if device.kind == "hand wedge")
    single = replace(pair, name="Hand wedge", thickness_mm=26.0, stacked=1)
    five = replace(kit, devices=(*kit.devices, single))
    assert len(five.devices) == 5
    return five
