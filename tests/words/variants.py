"""Trees and vans that between them make the planner say everything it can say."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from tests.plans.cases import EXAMPLES, Case, example, van, with_day, with_lean
from tests.plans.worsening import ALL

from fellwright.records.kit import Device, Kit
from fellwright.records.tree import Conductor, CrownShift, LeanReading, Look, Tree

NAMES = sorted(p.stem for p in EXAMPLES.glob("*.toml") if not p.stem.startswith("van"))
BASE = "harrowlees-11"
READINGS = (
    "name",
    "species",
    "dbh_cm",
    "height_m",
    "crown_base_m",
    "crown_radius_m",
    "stump_diameter_cm",
    "cut_height_cm",
)
DEVICE_FIGURES = (
    "torque_limit_n_m",
    "depth_full_mm",
    "mm_per_turn",
    "rated_t",
    "grease",
    "state",
    "outer_angle_deg",
)


def _look(tree: Tree, **answers: Any) -> Tree:
    return replace(tree, look=replace(tree.look, **answers))


def _cut(tree: Tree, **cut: Any) -> Tree:
    return replace(tree, cut=replace(tree.cut, **cut))


def _day(tree: Tree, **day: Any) -> Tree:
    return replace(tree, day=replace(tree.day, **day))


def _device(kit: Kit, name: str, **figures: Any) -> Kit:
    """The van with one device alone, changed."""
    (device,) = (d for d in kit.devices if d.name == name)
    return replace(kit, devices=(replace(device, **figures),))


def unread(tree: Tree) -> Iterator[tuple[str, Tree]]:
    """The tree with one reading left out at a time, then with none at all."""
    for name in READINGS:
        nothing: dict[str, Any] = {name: None}
        yield f"no {name}", replace(tree, **nothing)
    yield "no flare", replace(tree, flare=None)
    yield "no lean", replace(tree, lean=())
    yield "no lay", _cut(tree, lay_deg=None)
    yield "no notch and hinge", _cut(tree, notch_share=None, hinge_mm=None)
    yield "no hinge", _cut(tree, hinge_mm=None)
    yield "no method and preload", _cut(tree, method=None, preload=None)
    yield "no gust", _day(tree, gust_m_s=None)
    yield "no temperature", _day(tree, temperature_degc=None)
    yield "no wind direction", _day(tree, gust_m_s=2.0, wind_from_deg=None)
    yield "no look", replace(tree, look=Look())
    for answer in ("sound", "clear_overhead", "no_conductor_in_reach", "ring_clear", "ways_out"):
        yield f"{answer} not answered", _look(tree, **{answer: None})
    yield "nothing", Tree(look=tree.look)
    yield "nothing but a diameter", Tree(dbh_cm=40.0, look=tree.look)


def seen(tree: Tree) -> Iterator[tuple[str, Tree]]:
    """The tree with what may be seen on it or around it."""
    yield "not sound, wall not bored", _look(tree, sound=False)
    yield "hollow", replace(tree, cavity_wall_cm=3.0)
    yield "hollow with a good wall", replace(tree, cavity_wall_cm=15.0)
    yield "conductor in sight", _look(tree, no_conductor_in_reach=False)
    yield "people in the ring", _look(tree, ring_clear=False)
    yield "one way out", _look(tree, ways_out=1)
    line = (Conductor(20.0, voltage_kv=20.0),)
    yield "conductor", replace(tree, conductors=line)
    yield "conductor, no sizes", replace(tree, conductors=line, height_m=None, dbh_cm=None)
    yield "thin", replace(tree, dbh_cm=8.0)
    yield "tall", replace(tree, height_m=50.0)
    yield "leans too far", with_lean(tree, 5.0, 220.0)
    yield "unknown species", replace(tree, species="Norwy sprce")
    yield "species like nothing", replace(tree, species="{x} qqq")
    yield "species by class", replace(tree, species="light softwood")
    yield "deep cut", _cut(tree, notch_share=0.5, hinge_mm=200.0)
    yield "hostile name", replace(tree, name="{name} {0} {x.y}")
    yield "fork, sweep and snow", replace(tree, defects=("fork", "sweep", "snow", "ice"))
    yield (
        "no preload on an unsound stem",
        replace(_look(tree, sound=False), cavity_wall_cm=15.0, cut=replace(tree.cut, preload=None)),
    )


def leaning(tree: Tree) -> Iterator[tuple[str, Tree]]:
    """The tree with other readings of its lean, and other wishes for its cut."""
    yield "to the right", with_lean(tree, 1.5, 130.0)
    yield "to the left", with_lean(tree, 1.5, 310.0)
    yield (
        "to either side",
        replace(tree, lean=(LeanReading(0.1, 130.0, "balance", "eye", error_m=2.0),)),
    )
    yield "far back", with_lean(tree, 1.6, 220.0)
    yield "far back and aside", with_lean(tree, 2.0, 170.0)
    forward = with_lean(tree, 2.2, 40.0)
    yield "forward", _cut(forward, method=None, notch_share=None)
    yield "forward by an ordinary cut", forward
    yield (
        "forward, thick and split-prone",
        replace(_cut(with_lean(tree, 4.0, 40.0), method=None), species="ash", dbh_cm=60.0),
    )
    slim = replace(with_lean(tree, 1.5, 40.0), species="ash", dbh_cm=30.0, stump_diameter_cm=34.5)
    slim = replace(slim, crown_base_m=6.0, crown_radius_m=4.0)
    yield "splits hinge first", _cut(replace(slim, height_m=15.0), method="hinge first")
    yield "splits in an ordinary cut", _cut(slim, hinge_mm=150.0)
    yield (
        "may split in an ordinary cut",
        _cut(replace(with_lean(slim, 0.9, 40.0), height_m=15.0), hinge_mm=65.0, method=None),
    )
    yield "forward with a lever", _cut(forward, method="felling lever")
    yield "hinge first", _cut(tree, method="hinge first")
    yield "normal back cut", _cut(tree, method="normal back cut")
    again = (*tree.lean, LeanReading(1.9, 40.0, "balance"), LeanReading(1.0, 90.0, "top"))
    yield "readings that disagree", replace(tree, lean=again)
    yield (
        "sighted at the top",
        replace(
            tree,
            lean=(LeanReading(1.0, 220.0, "top", "clinometer"),),
            crown_shift=CrownShift(0.5, 0),
        ),
    )
    yield "gusty", with_day(tree, 5.0, 40.0)
    yield "frost", _day(tree, temperature_degc=-8.0)


def other_vans(kit: Kit) -> Iterator[tuple[str, Kit]]:
    """The van with one link missing at a time."""
    yield "empty van", Kit()
    yield "no rope, no hammer", replace(kit, ropes=(), hammers=())
    for part in ("hammers", "wrenches", "sockets", "packs"):
        nothing: dict[str, Any] = {part: ()}
        yield f"no {part}", replace(kit, **nothing)
    yield "no saw", replace(kit, saw=None)
    yield (
        "small wrench with another square",
        replace(kit, wrenches=(replace(kit.wrenches[0], drive_mm=19.0),)),
    )
    yield "wrench too strong", replace(kit, wrenches=(kit.wrenches[1],))
    yield "one small pack", replace(kit, packs=(replace(kit.packs[0], energy_wh=20.0, count=1),))
    yield "nearly flat pack", replace(kit, packs=(replace(kit.packs[0], energy_wh=1.0, count=1),))
    for state in ("OUT", "PART", "LOOK"):
        yield (
            f"all {state}",
            replace(kit, devices=tuple(replace(d, state=state) for d in kit.devices)),
        )
    for figure in DEVICE_FIGURES:
        yield f"no {figure}", _device(kit, "Dipper", **{figure: None})
    yield "rating that is no number", _device(kit, "Dipper", rated_t=math.nan)
    yield "no hex", _device(kit, "Dipper", hex_mm=())
    yield "half greased", _device(kit, "Dipper", grease="half")
    yield "due for grease", _device(kit, "Dipper", state="GREASE")
    yield "short plate", _device(kit, "Dipper", plate_length_mm=40.0)
    yield "tiny plate", _device(kit, "Dipper", plate_width_mm=8.0, plate_length_mm=12.0)
    yield "blunt device", _device(kit, "Dipper", outer_angle_deg=60.0)
    yield "weak device", _device(kit, "Dipper", rated_t=0.8)
    yield "weak wrench", replace(kit, wrenches=(replace(kit.wrenches[0], torque_n_m=60.0),))
    yield "no thickness", _device(kit, "Hand pair", thickness_mm=None)
    yield (
        "hand wedge with all its figures",
        _device(kit, "Hand pair", length_mm=200.0, width_mm=60.0, angle_deg=6.0),
    )
    yield (
        "hand wedge and ropes only",
        replace(_device(kit, "Hand pair", thickness_mm=10.0), hammers=()),
    )
    yield (
        "light hammer",
        replace(_device(kit, "Hand pair"), hammers=(replace(kit.hammers[0], mass_kg=0.3),)),
    )
    (rope,) = kit.ropes
    weak = replace(kit, devices=())
    yield "rope only", weak
    for name, other in {
        "weak puller": replace(rope, puller_t=0.05),
        "puller that is doubled": replace(rope, puller_t=0.1),
        "weak rope": replace(rope, strength_t=1.0),
        "short rope": replace(rope, length_m=5.0),
        "rope of unknown strength": replace(rope, strength_t=None),
        "rope of unknown length": replace(rope, length_m=None),
    }.items():
        yield name, replace(weak, ropes=(other,))
    yield "devices of every kind", replace(kit, devices=(*kit.devices, *_others()))
    yield (
        "devices of every kind, no figures",
        replace(kit, devices=tuple(Device(d.name, d.kind) for d in (*kit.devices, *_others()))),
    )
    hostile = tuple(replace(d, name="{x} {" + d.name + "}") for d in kit.devices)
    yield "hostile names", replace(kit, devices=hostile)


def _others() -> tuple[Device, ...]:
    cone = Device("Siskin", "threaded cone", lift_mm=20.0)
    ram = Device("Dunlin", "hydraulic ram", rated_t=20.0, lift_mm=40.0, depth_full_mm=110.0)
    return cone, ram


def variants() -> dict[str, Case]:
    """Every variant by name."""
    base, kit = example(BASE), van()
    found = {f"example {name}": Case(example(name), kit) for name in NAMES}
    for kind, trees in (("unread", unread), ("seen", seen), ("leaning", leaning)):
        found |= {f"{kind}: {name}": Case(tree, kit) for name, tree in trees(base)}
    found |= {f"van: {name}": Case(base, other) for name, other in other_vans(kit)}
    leaner = with_lean(base, 1.5, 130.0)
    found |= {f"van and side lean: {name}": Case(leaner, other) for name, other in other_vans(kit)}
    for name, worsen in ALL.items():
        worse = worsen(Case(base, kit), 0.6)
        if worse is not None:
            found[f"worse: {name}"] = worse
    small = example("pikeless-moss-33")
    found |= {
        "small and steel only": Case(small, replace(kit, devices=kit.devices[:3])),
        "small and unread": Case(_cut(small, method=None, notch_share=None, hinge_mm=None), kit),
        "small, by lever": Case(_cut(small, method="felling lever"), kit),
        "nothing stands by": Case(
            replace(base, defects=("fork",)), replace(kit, ropes=(), hammers=())
        ),
        "dead overhead and a hand wedge": Case(_look(small, clear_overhead=False), kit),
    }
    return found
