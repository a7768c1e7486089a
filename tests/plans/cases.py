"""Whole trees and vans for plans: those of the examples, and strategies for plausible ones."""

import math
import tomllib
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, TypeVar

from hypothesis import strategies as st

from fellwright.planning.plan import Options, Plan
from fellwright.planning.tip import plan_tip
from fellwright.records.kit import Device, Kit, Rope
from fellwright.records.loader import read_kit, read_tree
from fellwright.records.tree import Cut, Day, LeanReading, Look, Tree

Record = TypeVar("Record", Tree, Kit, Device, Rope, Look, LeanReading, Cut)


EXAMPLES = Path(__file__).parents[2] / "examples"
PLUMB = "plumb line, two sides"
CLEAR = Look(
    sound=True, clear_overhead=True, no_conductor_in_reach=True, ring_clear=True, ways_out=2
)
QUICK = Options(draws=128, bare=True)


@dataclass(frozen=True, slots=True)
class Case:
    """One tree and one van."""

    tree: Tree
    kit: Kit

    def plan(self, options: Options = QUICK) -> Plan:
        """Plan it."""
        return plan_tip(self.tree, self.kit, options)


def example(name: str) -> Tree:
    """Read a tree of the examples."""
    data = tomllib.loads((EXAMPLES / f"{name}.toml").read_text(encoding="utf-8"))
    return read_tree(data, name)


def van() -> Kit:
    """Read the complete van of the examples."""
    return read_kit(tomllib.loads((EXAMPLES / "van-2.toml").read_text(encoding="utf-8")), "van-2")


def with_lean(tree: Tree, offset_m: float, toward_deg: float) -> Tree:
    """Return the tree with one good lean reading."""
    reading = LeanReading(offset_m, toward_deg % 360.0, "balance", PLUMB)
    return replace(tree, lean=(reading,))


def with_day(tree: Tree, gust_m_s: float, wind_from_deg: float | None) -> Tree:
    """Return the tree on another day."""
    return replace(tree, day=replace(tree.day, gust_m_s=gust_m_s, wind_from_deg=wind_from_deg))


def only(kit: Kit, *names: str) -> Kit:
    """Return the van with these devices alone."""
    return replace(kit, devices=tuple(d for d in kit.devices if d.name in names))


SPECIES = ("Norway spruce", "Scots pine", "European larch", "beech", "oak", "ash", "birch", "aspen")


@st.composite
def trees(draw: st.DrawFn, *, method: bool = True) -> Tree:
    """Draw a tree whose look is clear, most of them near the edge of what the van can do."""
    dbh = draw(st.integers(14, 90))
    slender = draw(st.floats(45.0, 85.0))
    height = min(44.0, max(6.0, dbh * slender / 100.0))
    stump = round(dbh * draw(st.floats(1.05, 1.3)), 1)
    lay = float(draw(st.integers(0, 359)))
    offset = draw(st.floats(0.0, 1.5))
    around = draw(st.sampled_from([180.0, 180.0, 180.0, 160.0, 205.0, 250.0, 100.0, 20.0, 0.0]))
    hinge = draw(st.none() | st.floats(0.07, 0.13).map(lambda share: round(10.0 * share * stump)))
    how = draw(st.sampled_from([PLUMB, PLUMB, "eye"]))
    methods = [None, None, "half and half", "hinge first", "normal back cut"]
    wind = draw(st.sampled_from([None, 0.0, 0.0, 60.0, 90.0, 180.0, 270.0]))
    return Tree(
        name="drawn",
        species=draw(st.sampled_from(SPECIES)),
        dbh_cm=float(dbh),
        height_m=round(height, 1),
        crown_base_m=draw(st.none() | st.floats(0.3, 0.6).map(lambda s: round(s * height, 1))),
        crown_radius_m=draw(st.none() | st.floats(1.2, 5.0)),
        stump_diameter_cm=stump,
        cut_height_cm=30.0,
        flare="trimmed",
        lean=(LeanReading(offset, (lay + around) % 360.0, "balance", how),),
        look=CLEAR,
        cut=Cut(
            lay_deg=lay,
            notch_share=draw(st.none() | st.floats(0.15, 0.33)),
            hinge_mm=hinge,
            method=draw(st.sampled_from(methods)) if method else None,
            preload=draw(st.sampled_from([None, True, False])),
        ),
        day=Day(
            gust_m_s=draw(st.sampled_from([0.0, 0.0, 0.0, 3.0, 5.0])),
            wind_from_deg=None if wind is None else (lay + wind) % 360.0,
            temperature_degc=draw(st.sampled_from([12.0, 12.0, 5.0])),
        ),
    )


@st.composite
def vans(draw: st.DrawFn) -> Kit:
    """Draw a van: some of the complete one's devices, or none, each greased in its own way."""
    whole = van()
    names = [device.name for device in whole.devices]
    kept = draw(st.lists(st.sampled_from(names), unique=True) | st.just(names))

    def varied(device: Device) -> Device:
        if device.kind == "hand wedge":
            angle = draw(st.none() | st.floats(3.0, 14.0))
            return replace(device, angle_deg=angle, rated_t=draw(st.sampled_from([None, 4.0])))
        return replace(device, grease=draw(st.sampled_from(["greased", "greased", "half", "dry"])))

    ropes = draw(st.sampled_from([0, 1, 1, 2]))
    return replace(
        whole,
        devices=tuple(varied(d) for d in whole.devices if d.name in kept),
        ropes=tuple(replace(whole.ropes[0], name=f"Rope set {i + 1}") for i in range(ropes)),
    )


@st.composite
def cases(draw: st.DrawFn) -> Case:
    """Draw a tree and a van."""
    return Case(draw(trees()), draw(vans()))


def finite(value: float) -> bool:
    """Whether a figure is a plain number."""
    return math.isfinite(value)


def altered(record: Record, **changes: Any) -> Record:
    """Return the record with fields changed by name, whatever their types."""
    return replace(record, **changes)
