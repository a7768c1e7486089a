"""Plans to draw, and pictures read back as XML."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from collections.abc import Callable
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import NamedTuple

from fellwright.draw import draw_need_have, draw_push_lift, draw_stump, draw_tipping
from fellwright.draw.lettering import text_width_mm
from fellwright.exchange.toml_file import read_kit_file
from fellwright.exchange.tree_file import read_trees
from fellwright.planning.plan import Options, Plan
from fellwright.planning.tip import plan_tip
from fellwright.records.kit import Kit
from fellwright.records.tree import Tree
from fellwright.words import Style

ROOT = Path(__file__).parents[2]
EXAMPLES = sorted(
    path.stem for path in (ROOT / "examples").glob("*.toml") if not path.stem.startswith("van")
)
DRAWERS: dict[str, Callable[[Plan, Style], str]] = {
    "tipping": draw_tipping,
    "need-have": draw_need_have,
    "stump": draw_stump,
    "push-lift": draw_push_lift,
}
ENGLISH = Style()
GERMAN = Style(language="de", force="t")
IMPERIAL = Style(imperial=True)
STYLES = {"english": ENGLISH, "german": GERMAN, "imperial": IMPERIAL}
SVG = "{http://www.w3.org/2000/svg}"


@cache
def kit() -> Kit:
    return read_kit_file(str(ROOT / "examples" / "van-2.toml"))


@cache
def tree(name: str) -> Tree:
    return read_trees(str(ROOT / "examples" / f"{name}.toml"))[0]


def planned(a_tree: Tree, a_kit: Kit | None = None) -> Plan:
    """Plan with few draws: what is drawn does not hang on their number."""
    return plan_tip(a_tree, a_kit or kit(), Options(draws=128))


@cache
def example(name: str) -> Plan:
    return planned(tree(name))


def varied() -> dict[str, Tree]:
    """Trees that strain the layout or must not be cut."""
    base = tree("harrowlees-11")
    lean = base.lean[0]
    return {
        "look open": replace(base, look=replace(base.look, sound=None)),
        "ring not clear": replace(base, look=replace(base.look, ring_clear=False)),
        "no dbh": replace(base, dbh_cm=None),
        "no species": replace(base, species=None),
        "no lean": replace(base, lean=()),
        "no lay": replace(base, cut=replace(base.cut, lay_deg=None)),
        "no name": replace(base, name=None),
        "leans far back": replace(base, lean=(replace(lean, offset_m=2.2),)),
        "leans a metre back": replace(base, lean=(replace(lean, offset_m=1.1),)),
        "lodged": replace(base, defects=("lodged",)),
        "gust": replace(base, day=replace(base.day, gust_m_s=6.0)),
        "hollow": replace(
            base, look=replace(base.look, sound=False), cavity_wall_cm=12.0, name="hollow"
        ),
        "long name": replace(base, name="the third spruce from the left behind the old wall " * 4),
        "thin": replace(
            base,
            dbh_cm=14.0,
            height_m=12.0,
            crown_base_m=4.0,
            crown_radius_m=1.2,
            stump_diameter_cm=17.0,
            lean=(replace(lean, offset_m=0.1),),
            cut=replace(base.cut, hinge_mm=17.0),
        ),
        "wide": replace(
            base,
            species="beech",
            dbh_cm=80.0,
            height_m=32.0,
            crown_base_m=8.0,
            crown_radius_m=8.0,
            stump_diameter_cm=95.0,
            lean=(replace(lean, offset_m=0.1, toward_deg=300.0),),
            cut=replace(base.cut, hinge_mm=60.0, notch_share=0.25),
        ),
    }


class Box(NamedTuple):
    """Room that one line of text takes on the page [mm]."""

    text: str
    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: Box) -> bool:
        return (
            self.left < other.right
            and other.left < self.right
            and self.top < other.bottom
            and other.top < self.bottom
        )


def read(svg: str) -> ET.Element:
    return ET.fromstring(svg)


def texts(svg: str) -> list[ET.Element]:
    return list(read(svg).iter(f"{SVG}text"))


def words(svg: str) -> str:
    """Everything that is written on a picture, its description included."""
    return " ".join(" ".join(read(svg).itertext()).split())


def boxes(svg: str) -> list[Box]:
    found = []
    for node in texts(svg):
        text = node.text or ""
        size = float(node.attrib["font-size"])
        width = text_width_mm(text, size, bold=node.get("font-weight") == "bold")
        share = {"start": 0.0, "middle": 0.5, "end": 1.0}[node.get("text-anchor", "start")]
        left, base = float(node.attrib["x"]) - share * width, float(node.attrib["y"])
        found.append(Box(text, left, base - 0.74 * size, left + width, base + 0.2 * size))
    return found


def classed(svg: str, name: str) -> list[ET.Element]:
    return [node for node in read(svg).iter() if node.get("class") == name]


def only(svg: str, name: str) -> ET.Element:
    (node,) = classed(svg, name)
    return node


def corners(node: ET.Element) -> list[tuple[float, float]]:
    """Corners of a path."""
    numbers = [float(x) for x in re.findall(r"-?\d+\.?\d*", node.attrib["d"])]
    return list(zip(numbers[::2], numbers[1::2], strict=True))


def number(node: ET.Element, name: str) -> float:
    return float(node.attrib[name])
