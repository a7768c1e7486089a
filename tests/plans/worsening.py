"""What makes a tree, a day or a kit worse; no plan may get bolder by any of it.

Each takes a case and an amount from 0 (hardly) to 1 (much), and returns the worse case, or None
where it does not apply.
"""

import math
from collections.abc import Callable
from dataclasses import replace

from tests.plans.cases import Case, altered

from fellwright.planning import bands
from fellwright.planning.tree_model import build_tree_model
from fellwright.records.defects import DEFECTS, HOLLOW
from fellwright.records.kit import Device, Kit
from fellwright.records.lean_errors import reading_sigma_m
from fellwright.records.tree import Conductor, Tree
from fellwright.tables import find_species

Worsening = Callable[[Case, float], Case | None]
STEEL = ("screw wedge", "nut wedge")


def _tree(change: Callable[[Tree, float], Tree | None]) -> Worsening:
    def worsen(case: Case, amount: float) -> Case | None:
        tree = change(case.tree, amount)
        return None if tree is None else replace(case, tree=tree)

    return worsen


def _kit(change: Callable[[Kit, float], Kit | None]) -> Worsening:
    def worsen(case: Case, amount: float) -> Case | None:
        kit = change(case.kit, amount)
        return None if kit is None else replace(case, kit=kit)

    return worsen


def _each(change: Callable[[Device, float], Device], kinds: tuple[str, ...] = STEEL) -> Worsening:
    def worsen(kit: Kit, amount: float) -> Kit:
        return replace(
            kit,
            devices=tuple(change(d, amount) if d.kind in kinds else d for d in kit.devices),
        )

    return _kit(worsen)


# --- the tree -----------------------------------------------------------------------------------


def further_from_upright(tree: Tree, amount: float) -> Tree:
    factor = 1.0 + 2.0 * amount
    return replace(tree, lean=tuple(replace(r, offset_m=factor * r.offset_m) for r in tree.lean))


def _wall_cm(tree: Tree, share: float) -> float:
    """Sound wall as a share of the radius inside bark [cm]."""
    species = find_species(tree.species or "")
    assert species is not None
    assert tree.dbh_cm is not None
    return 50.0 * share * build_tree_model(tree, species, tree.dbh_cm).wood_m


def hollow(tree: Tree, amount: float) -> Tree:
    return replace(tree, cavity_wall_cm=_wall_cm(tree, 0.95 - 0.9 * amount))


def smaller_wall(tree: Tree, amount: float) -> Tree | None:
    if tree.cavity_wall_cm is None:
        return None
    return replace(tree, cavity_wall_cm=tree.cavity_wall_cm * (1.0 - 0.6 * amount))


def untrimmed(tree: Tree, amount: float) -> Tree:
    return replace(tree, flare="untrimmed" if amount < 0.5 else None)


def dead_overhead(tree: Tree, amount: float) -> Tree:
    if amount < 0.5:
        return replace(tree, look=replace(tree.look, clear_overhead=False))
    return replace(tree, defects=(*tree.defects, "dead limbs"))


def conductor(tree: Tree, amount: float) -> Tree:
    assert tree.height_m is not None
    line = Conductor(2.0 * tree.height_m * (1.0 - amount))
    return replace(tree, conductors=(*tree.conductors, line))


def defect(word: str) -> Callable[[Tree, float], Tree]:
    return lambda tree, _amount: replace(tree, defects=(*tree.defects, word))


def larger_error(tree: Tree, amount: float) -> Tree:
    factor = 1.0 + 2.0 * amount
    return replace(
        tree, lean=tuple(replace(r, error_m=factor * reading_sigma_m(r)) for r in tree.lean)
    )


def height_error(tree: Tree, amount: float) -> Tree:
    assert tree.height_m is not None
    stated = max(tree.height_error_m or 0.0, bands.HEIGHT.usual * tree.height_m)
    return replace(tree, height_error_m=stated * (1.0 + 4.0 * amount))


def dbh_error(tree: Tree, amount: float) -> Tree:
    stated = max(tree.dbh_error_cm or 0.0, 100.0 * bands.DBH.usual)
    return replace(tree, dbh_error_cm=stated * (1.0 + 6.0 * amount))


def by_eye(tree: Tree, amount: float) -> Tree:
    return replace(tree, lean=tuple(replace(r, how="eye") for r in tree.lean))


def no_preload(tree: Tree, amount: float) -> Tree:
    return replace(tree, cut=replace(tree.cut, preload=False))


# --- the day ------------------------------------------------------------------------------------


def more_head_gust(tree: Tree, amount: float) -> Tree:
    return replace(tree, day=replace(tree.day, gust_m_s=(tree.day.gust_m_s or 0.0) + 9.0 * amount))


def frost(tree: Tree, amount: float) -> Tree:
    return replace(tree, day=replace(tree.day, temperature_degc=-0.1 - 25.0 * amount))


def colder(tree: Tree, amount: float) -> Tree | None:
    now = tree.day.temperature_degc
    if now is None:
        return None
    return replace(tree, day=replace(tree.day, temperature_degc=now - 12.0 * amount))


# --- the kit ------------------------------------------------------------------------------------

LESS_GREASE = {"greased": "half", "half": "dry", "dry": None, None: None}


def less_grease(device: Device, amount: float) -> Device:
    return altered(device, grease=LESS_GREASE[device.grease])


def shorter_plate(device: Device, amount: float) -> Device:
    assert device.plate_length_mm
    return replace(device, plate_length_mm=device.plate_length_mm * (1.0 - 0.7 * amount))


def narrower_plate(device: Device, amount: float) -> Device:
    assert device.plate_width_mm
    return replace(device, plate_width_mm=device.plate_width_mm * (1.0 - 0.7 * amount))


def less_rated(device: Device, amount: float) -> Device:
    return replace(device, rated_t=(device.rated_t or 4.0) * (1.0 - 0.8 * amount))


def less_lift(device: Device, amount: float) -> Device:
    assert device.lift_mm
    return replace(device, lift_mm=device.lift_mm * (1.0 - 0.8 * amount))


def fewer_turns(device: Device, amount: float) -> Device:
    assert device.turns_to_stop
    return replace(device, turns_to_stop=device.turns_to_stop * (1.0 - 0.8 * amount))


def deeper_device(device: Device, amount: float) -> Device:
    assert device.depth_full_mm
    return replace(device, depth_full_mm=device.depth_full_mm * (1.0 + amount))


def blunter(device: Device, amount: float) -> Device:
    assert device.outer_angle_deg
    return replace(device, outer_angle_deg=device.outer_angle_deg * (1.0 + 3.0 * amount))


def due_for_grease(device: Device, amount: float) -> Device:
    return replace(device, state="GREASE")


def out_of_order(device: Device, amount: float) -> Device:
    return replace(device, state="OUT" if amount < 0.5 else "LOOK")


def thinner_wedge(device: Device, amount: float) -> Device:
    assert device.thickness_mm
    # Its angle is kept: a thinner wedge of the same length would also be a sharper one.
    angle = math.degrees(math.atan(device.thickness_mm / (device.length_mm or 200.0)))
    return replace(
        device,
        angle_deg=angle if device.angle_deg is None else device.angle_deg,
        thickness_mm=device.thickness_mm * (1.0 - 0.8 * amount),
    )


def weaker_wrench(kit: Kit, amount: float) -> Kit:
    """Weaken each wrench, but never across a device's limit: that would make it usable."""

    def torque(now: float) -> float:
        limits = [d.torque_limit_n_m or 0.0 for d in kit.devices]
        crossed = [limit for limit in limits if limit < now]
        return max([now * (1.0 - 0.8 * amount), *(math.nextafter(c, now) for c in crossed)])

    return replace(
        kit, wrenches=tuple(replace(w, torque_n_m=torque(w.torque_n_m)) for w in kit.wrenches)
    )


def lighter_hammer(kit: Kit, amount: float) -> Kit:
    return replace(
        kit,
        hammers=tuple(replace(h, mass_kg=h.mass_kg * (1.0 - 0.8 * amount)) for h in kit.hammers),
    )


def fewer_packs(kit: Kit, amount: float) -> Kit:
    return replace(
        kit, packs=tuple(replace(p, energy_wh=p.energy_wh * (1.0 - amount)) for p in kit.packs)
    )


def weaker_rope(kit: Kit, amount: float) -> Kit:
    return replace(
        kit, ropes=tuple(replace(r, puller_t=r.puller_t * (1.0 - 0.9 * amount)) for r in kit.ropes)
    )


def shorter_rope(kit: Kit, amount: float) -> Kit:
    return replace(
        kit,
        ropes=tuple(replace(r, length_m=(r.length_m or 0.0) * (1.0 - amount)) for r in kit.ropes),
    )


def without(name: str) -> Callable[[Kit, float], Kit | None]:
    """Take one part of a kind out of the van."""

    def worsen(kit: Kit, amount: float) -> Kit | None:
        parts = getattr(kit, name)
        if name == "saw":
            return replace(kit, saw=None)
        if not parts:
            return None
        index = min(int(amount * len(parts)), len(parts) - 1)
        changed: Kit = replace(kit, **{name: parts[:index] + parts[index + 1 :]})
        return changed

    return worsen


TREE_WORSENINGS: dict[str, Worsening] = {
    "further from upright": _tree(further_from_upright),
    "hollow": _tree(hollow),
    "smaller wall": _tree(smaller_wall),
    "flare not trimmed": _tree(untrimmed),
    "dead wood overhead": _tree(dead_overhead),
    "a conductor in reach": _tree(conductor),
    "lean read worse": _tree(larger_error),
    "lean read by eye": _tree(by_eye),
    "height read worse": _tree(height_error),
    "dbh read worse": _tree(dbh_error),
    "no preload": _tree(no_preload),
    **{f"defect {word}": _tree(defect(word)) for word in DEFECTS},
}
DAY_WORSENINGS: dict[str, Worsening] = {
    "more gust": _tree(more_head_gust),
    "frost": _tree(frost),
    "colder": _tree(colder),
}
KIT_WORSENINGS: dict[str, Worsening] = {
    "less grease": _each(less_grease),
    "due for grease": _each(due_for_grease),
    "shorter plate": _each(shorter_plate),
    "narrower plate": _each(narrower_plate),
    "less rated": _each(less_rated, (*STEEL, "hand wedge")),
    "less lift": _each(less_lift),
    "fewer turns": _each(fewer_turns),
    "longer depth": _each(deeper_device),
    "blunter": _each(blunter),
    "marked out": _each(out_of_order, (*STEEL, "hand wedge")),
    "thinner hand wedge": _each(thinner_wedge, ("hand wedge",)),
    "weaker wrench": _kit(weaker_wrench),
    "lighter hammer": _kit(lighter_hammer),
    "less charge": _kit(fewer_packs),
    "weaker puller": _kit(weaker_rope),
    "shorter rope": _kit(shorter_rope),
    "one device fewer": _kit(without("devices")),
    "one socket fewer": _kit(without("sockets")),
    "one wrench fewer": _kit(without("wrenches")),
    "one hammer fewer": _kit(without("hammers")),
    "one pack fewer": _kit(without("packs")),
    "one rope fewer": _kit(without("ropes")),
    "saw not described": _kit(without("saw")),
}
ALL: dict[str, Worsening] = {**TREE_WORSENINGS, **DAY_WORSENINGS, **KIT_WORSENINGS}
__all__ = ["ALL", "DAY_WORSENINGS", "HOLLOW", "KIT_WORSENINGS", "TREE_WORSENINGS", "Worsening"]
