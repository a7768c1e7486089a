"""Fitting a threaded cone and a hydraulic ram: figures from the kit book, or what it lacks."""

import math

from fellwright.physics.ram import ram_force_n
from fellwright.physics.threaded_cone import (
    cone_efficiency_ratio,
    flank_bearing_n,
    flank_strength_pa,
    groove_arc_m,
    groove_width_m,
    lift_per_turn_m,
    rib_shear_n,
    thread_hold_n,
)
from fellwright.planning import bands, limits
from fellwright.planning.bands import Band
from fellwright.planning.device_draw import CONE, RAM
from fellwright.planning.drive_train import (
    Drive,
    Driven,
    Setting,
    bar_depth_mm,
    kerf_mm,
    lacks,
    pick_wrench,
    shared_figures,
)
from fellwright.planning.need import GRAVITY_M_PER_S2
from fellwright.planning.reasons import Reason
from fellwright.records.kit import Device, Kit
from fellwright.tables import Species, strength_regression
from fellwright.words import Text, say

__all__ = ["fit_cone", "fit_ram"]

PA_PER_BAR = 1e5
DEFAULT_TURNS_SHARE = 0.5
"""OWN: share of the turns within the inserted depth that have bitten when the push is highest."""
FOLLOWING = ("hand wedge", "screw wedge", "nut wedge")
"""Kinds that can follow a ram and hold what it has lifted."""


def fit_cone(device: Device, setting: Setting) -> Driven | Reason:
    """Fit a threaded cone: torque like a screw wedge, push as far as the wood under it holds."""
    kit = setting.kit
    drive = pick_wrench(device, kit)
    if isinstance(drive, Reason):
        return drive
    assert drive.wrench is not None
    if device.depth_full_mm is None:
        return lacks(device.name, "depth_full")
    if device.lift_mm is None:
        return lacks(device.name, "sizes")
    sizes = (
        device.outer_angle_deg,
        device.root_diameter_mm,
        device.pitch_mm,
        device.thread_depth_mm,
    )
    if None in sizes:
        return lacks(device.name, "cone_sizes")
    angle_deg, root_mm, pitch_mm, thread_mm = (float(size or 0.0) for size in sizes)
    said: list[Text] = []
    turns = device.engaged_turns
    if turns is None:
        turns = DEFAULT_TURNS_SHARE * device.depth_full_mm / pitch_mm
        said.append(say("kinds.engaged_turns", name=device.name, turns=turns))
    half = 0.5 * math.radians(angle_deg)
    pitch, thread = pitch_mm / 1000.0, thread_mm / 1000.0
    outer = 0.5 * root_mm / 1000.0 + thread
    middle = outer - 0.5 * thread
    per_turn = lift_per_turn_m(pitch, half)
    if device.mm_per_turn is not None:
        per_turn = device.mm_per_turn / 1000.0
    travel = device.lift_mm / 1000.0
    if device.turns_to_stop is not None:
        travel = min(travel, device.turns_to_stop * per_turn)
    holds = [
        _hold_n(setting.species, pitch, thread, groove_arc_m(outer, thread), turns, times)
        for times in (bands.FLANK.low, bands.FLANK.high)
    ]
    bar_mm, bar_said = bar_depth_mm(kit)
    kerf, kerf_said = kerf_mm(kit) if not setting.preloaded else (0.0, ())
    rated = math.inf if device.rated_t is None else device.rated_t * 1000.0 * GRAVITY_M_PER_S2
    figures = shared_figures(
        # Ice would drive a cone more easily; it is never credited with that.
        False,
        drive=CONE,
        rated_n=rated,
        lift_m=travel,
        lost_m=(limits.BEDDING_IN_MM.value + kerf) / 1000.0,
        width_m=groove_width_m(outer, thread),
        length_m=turns * pitch,
        angle_rad=2.0 * half,
        depth_m=device.depth_full_mm / 1000.0,
        bar_m=bar_mm / 1000.0,
        torque_n_m=drive.wrench.torque_n_m,
        torque_limit_n_m=device.torque_limit_n_m or 0.0,
        lift_per_turn_m=per_turn,
        collar_m=2.0 * outer,
        cone_radius_m=middle,
        cone_pitch_m=pitch,
        hold_low_n=holds[0],
        hold_span_n=holds[1] - holds[0],
        hold_cv=bands.ACROSS_CV,
    )
    friction = bands.PLATE_FRICTION
    efficiency = Band(
        "drive_efficiency_cone",
        cone_efficiency_ratio(middle, pitch, half, friction.high),
        cone_efficiency_ratio(middle, pitch, half, friction.low),
        "",
        "OWN",
    )
    said += [*bar_said, *kerf_said]
    return Driven(device, figures, drive, "dry", tuple(said), efficiency)


def _hold_n(
    species: Species, pitch_m: float, depth_m: float, arc_m: float, turns: float, times: float
) -> float:
    """Axial hold of a thread in fresh green wood; ``times`` the stress at its elastic limit [N]."""
    strength = species.strength
    across = strength_regression(species.group, "crushing_across")
    across_pa = 1e6 * times * across.strength_mpa(species.density.basic_kg_per_m3)
    flank = flank_strength_pa(1e6 * strength.crushing_mpa, across_pa, 0.0)
    return thread_hold_n(
        rib_shear_n(1e6 * strength.shear_mpa, pitch_m, arc_m, turns),
        flank_bearing_n(flank, depth_m, arc_m, turns),
    )


def fit_ram(device: Device, setting: Setting) -> Driven | Reason:
    """Fit a hydraulic ram: no torque and no hammer, but a wedge that follows it."""
    kit = setting.kit
    sizes = (
        device.rated_t,
        device.lift_mm,
        device.plate_width_mm,
        device.plate_length_mm,
    )
    if None in sizes:
        return lacks(device.name, "sizes")
    rated_t, lift_mm, width_mm, length_mm = (float(size or 0.0) for size in sizes)
    if device.depth_full_mm is None:
        return lacks(device.name, "depth_full")
    if not _wedge_follows(device, kit):
        return Reason("follow_up", say("kinds.follow_up", name=device.name))
    said: list[Text] = []
    rated = rated_t * 1000.0 * GRAVITY_M_PER_S2
    pump = rated
    if device.piston_diameter_mm is not None and device.pressure_bar is not None:
        pump = ram_force_n(device.pressure_bar * PA_PER_BAR, device.piston_diameter_mm / 1000.0)
    else:
        said.append(say("kinds.no_pressure", name=device.name))
    bar_mm, bar_said = bar_depth_mm(kit)
    kerf, kerf_said = kerf_mm(kit) if not setting.preloaded else (0.0, ())
    figures = shared_figures(
        setting.iced,
        drive=RAM,
        rated_n=rated,
        lift_m=lift_mm / 1000.0,
        lost_m=(limits.BEDDING_IN_MM.value + kerf) / 1000.0,
        width_m=width_mm / 1000.0,
        length_m=length_mm / 1000.0,
        depth_m=device.depth_full_mm / 1000.0,
        bar_m=bar_mm / 1000.0,
        pump_n=pump,
    )
    said += [*bar_said, *kerf_said]
    return Driven(device, figures, Drive(None, None, None, 0.0), "greased", tuple(said))


def _wedge_follows(ram: Device, kit: Kit) -> bool:
    """Whether the van holds a wedge that is fit to follow a ram."""
    return any(
        d.kind in FOLLOWING and d.state not in ("OUT", "PART", "LOOK") and d.name != ram.name
        for d in kit.devices
    )
