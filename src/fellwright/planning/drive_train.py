"""The chain of small parts: nut, socket, square, wrench, charge; the first link that is missing.

A device comes out either as figures for the draws, or as the reason why it cannot be driven.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from fellwright.planning import bands, limits
from fellwright.planning.bands import Band
from fellwright.planning.device_draw import BLOWS, SCREW, DeviceFigures
from fellwright.planning.need import GRAVITY_M_PER_S2
from fellwright.planning.reasons import Reason, because
from fellwright.records.kit import Device, Grease, Kit, Wrench
from fellwright.tables import Species
from fellwright.words import Text, listed, say

__all__ = [
    "Drive",
    "Driven",
    "Setting",
    "bar_depth_mm",
    "fit_hand_wedge",
    "fit_screw",
    "grease_taken",
    "kerf_mm",
    "lacks",
    "pick_wrench",
    "shared_figures",
]

BAR_DEPTH_MM = 90.0
"""PRACTICE: depth of a wide guide bar, where the kit names no saw."""
KERF_MM = 10.0
"""MEMORY: 8 to 10 mm; the unfavourable bound, where the kit names no saw."""
HAND_WIDTH_MM = 55.0
HAND_LENGTH_MM = 200.0
"""PRACTICE: a usual plastic wedge, where the kit book does not give its size."""


@dataclass(frozen=True, slots=True)
class Drive:
    """What drives a device: the wrench with its socket, or the hammer."""

    wrench: Wrench | None
    socket_hex_mm: float | None
    hammer_kg: float | None
    charge_wh: float


@dataclass(frozen=True, slots=True)
class Driven:
    """A device that can be driven: its figures, its drive, and what was assumed of it.

    ``efficiency`` runs from torque to lift; ``joined`` names the devices where several work as one.
    """

    device: Device
    figures: DeviceFigures
    drive: Drive
    grease: str
    said: tuple[Text, ...]
    efficiency: Band = bands.EFFICIENCY["dry"]
    joined: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Setting:
    """What fitting a device depends on: the van, the wood, ice, preload, and hammering (R10)."""

    kit: Kit
    species: Species
    iced: bool
    preloaded: bool
    hammering: bool


def lacks(name: str, what: str) -> Reason:
    """Reason that the kit book lacks a figure of a device."""
    return Reason("kit_book", say("reason.kit_book", name=name, what=say(f"kit.{what}")))


def _sizes(sizes_mm: Sequence[float]) -> Text:
    """Sizes of hexes or squares, in millimetres as stamped on the steel."""
    return listed(say("kit.size", size=size / 1000.0) for size in sizes_mm)


def bar_depth_mm(kit: Kit) -> tuple[float, tuple[Text, ...]]:
    """Depth of the guide bar, or the unfavourable bound and a word on it."""
    if kit.saw is not None and kit.saw.bar_depth_mm is not None:
        return kit.saw.bar_depth_mm, ()
    return BAR_DEPTH_MM, (say("said.bar_depth", depth=BAR_DEPTH_MM / 1000.0),)


def kerf_mm(kit: Kit) -> tuple[float, tuple[Text, ...]]:
    """Kerf of the saw in the kit, or the unfavourable bound and a word on it."""
    if kit.saw is not None and kit.saw.kerf_mm is not None:
        return kit.saw.kerf_mm, ()
    return KERF_MM, (say("said.kerf", kerf=KERF_MM / 1000.0),)


def pick_wrench(device: Device, kit: Kit) -> Drive | Reason:
    """Strongest wrench within the device's limit that a socket joins to it, and its charge."""
    if not device.hex_mm:
        return lacks(device.name, "hex")
    if device.torque_limit_n_m is None:
        return lacks(device.name, "torque_limit")
    fitting = [s for s in kit.sockets if s.hex_mm in device.hex_mm]
    wanted = _sizes(device.hex_mm)
    if not fitting:
        return because("socket", name=device.name, hex=wanted)
    reached = [
        (wrench, socket.hex_mm)
        for wrench in kit.wrenches
        for socket in fitting
        if wrench.drive_mm == socket.drive_mm
    ]
    if not reached:
        drives = _sizes([s.drive_mm for s in fitting])
        return because("wrench", name=device.name, drives=drives, hex=wanted)
    within = [pair for pair in reached if pair[0].torque_n_m <= device.torque_limit_n_m]
    if not within:
        least = min(reached, key=lambda pair: pair[0].torque_n_m)[0]
        return because(
            "torque_limit",
            wrench=least.name,
            torque=least.torque_n_m,
            limit=device.torque_limit_n_m,
            name=device.name,
        )
    wrench, hex_mm = max(within, key=lambda pair: pair[0].torque_n_m)
    charge_wh = sum(pack.energy_wh * pack.count for pack in kit.packs)
    if charge_wh <= 0.0:
        return Reason("charge", say("reason.no_charge", name=device.name))
    return Drive(wrench, hex_mm, None, charge_wh)


def fit_screw(device: Device, setting: Setting) -> Driven | Reason:
    """Fit a screw-driven or nut-driven wedge, or name the missing link."""
    kit = setting.kit
    drive = pick_wrench(device, kit)
    if isinstance(drive, Reason):
        return drive
    assert drive.wrench is not None
    if device.depth_full_mm is None:
        return lacks(device.name, "depth_full")
    per_turn = device.mm_per_turn
    if per_turn is None:
        return lacks(device.name, "mm_per_turn")
    sizes = (device.rated_t, device.lift_mm, device.plate_width_mm, device.plate_length_mm)
    if None in sizes:
        return lacks(device.name, "sizes")
    rated_t, lift_mm, plate_width_mm, plate_length_mm = (float(size or 0.0) for size in sizes)
    travel_mm = lift_mm
    if device.turns_to_stop is not None:
        travel_mm = min(travel_mm, device.turns_to_stop * per_turn)
    said: list[Text] = []
    grease = grease_taken(device)
    if device.grease is None:
        said.append(say("said.grease", name=device.name))
    elif device.grease != grease:
        said.append(say("said.grease_due", name=device.name))
    angle_deg = device.outer_angle_deg
    if angle_deg is None:
        angle_deg = math.degrees(math.atan(lift_mm / plate_length_mm))
        said.append(say("said.plate_angle", name=device.name))
    bar_mm, bar_said = bar_depth_mm(kit)
    kerf, kerf_said = kerf_mm(kit) if not setting.preloaded else (0.0, ())
    said += [*bar_said, *kerf_said]
    threaded = bool(device.thread_mean_diameter_mm and device.thread_lead_mm)
    efficiency, thread_mu = bands.EFFICIENCY[grease], bands.THREAD_FRICTION[grease]
    figures = shared_figures(
        setting.iced,
        drive=SCREW,
        rated_n=rated_t * 1000.0 * GRAVITY_M_PER_S2,
        lift_m=travel_mm / 1000.0,
        lost_m=(limits.BEDDING_IN_MM.value + kerf) / 1000.0,
        width_m=plate_width_mm / 1000.0,
        # No more of a plate bears than is inserted.
        length_m=min(plate_length_mm, device.depth_full_mm) / 1000.0,
        angle_rad=math.radians(angle_deg),
        depth_m=device.depth_full_mm / 1000.0,
        bar_m=bar_mm / 1000.0,
        torque_n_m=drive.wrench.torque_n_m,
        torque_limit_n_m=device.torque_limit_n_m or 0.0,
        lift_per_turn_m=per_turn / 1000.0,
        thread_m=(device.thread_mean_diameter_mm or 0.0) / 1000.0 if threaded else 0.0,
        lead_m=(device.thread_lead_mm or 0.0) / 1000.0,
        collar_m=(device.collar_diameter_mm or 0.0) / 1000.0,
        efficiency_low=efficiency.low,
        efficiency_span=efficiency.high - efficiency.low,
        thread_mu_low=thread_mu.low,
        thread_mu_span=thread_mu.high - thread_mu.low,
    )
    return Driven(device, figures, drive, grease, tuple(said), efficiency)


def grease_taken(device: Device) -> Grease:
    """How well a device is taken to be greased: dry where not stated or due for it."""
    if device.grease is None or device.state == "GREASE":
        return "dry"
    return device.grease


def fit_hand_wedge(device: Device, setting: Setting) -> Driven | Reason:
    """Fit a hand wedge or a stack of them, or name the missing link."""
    kit = setting.kit
    if not setting.hammering:
        return because("hammering", name=device.name)
    if not kit.hammers:
        return because("hammer", name=device.name)
    if device.thickness_mm is None:
        return lacks(device.name, "thickness")
    said: list[Text] = []
    length_mm = device.length_mm or device.plate_length_mm
    width_mm = device.width_mm or device.plate_width_mm
    if length_mm is None:
        length_mm = HAND_LENGTH_MM
        said.append(say("said.wedge_length", name=device.name, length=length_mm / 1000.0))
    if width_mm is None:
        width_mm = HAND_WIDTH_MM
        said.append(say("said.wedge_width", name=device.name, width=width_mm / 1000.0))
    angle_rad = math.atan(device.thickness_mm / length_mm)
    if device.angle_deg is not None:
        angle_rad = math.radians(device.angle_deg)
    else:
        said.append(say("said.wedge_angle", name=device.name))
    bar_mm, bar_said = bar_depth_mm(kit)
    kerf, kerf_said = kerf_mm(kit)
    said += [*bar_said, *kerf_said]
    hammer = max(h.mass_kg for h in kit.hammers)
    rated_n = math.inf if device.rated_t is None else device.rated_t * 1000.0 * GRAVITY_M_PER_S2
    figures = shared_figures(
        setting.iced,
        drive=BLOWS,
        rated_n=rated_n,
        lift_m=max(0.0, device.thickness_mm - kerf) / 1000.0,
        lost_m=limits.BEDDING_IN_MM.value / 1000.0,
        width_m=width_mm / 1000.0,
        # A driven wedge bears on the part that stands in the cut: half of it.
        length_m=0.5 * length_mm / 1000.0,
        angle_rad=angle_rad,
        depth_m=limits.LEAST_SEAT_MM.value / 1000.0,
        bar_m=bar_mm / 1000.0,
        hammer_kg=hammer,
        wedge_kg=bands.WEDGE_KG * (device.stacked or 1),
    )
    return Driven(device, figures, Drive(None, None, hammer, 0.0), "dry", tuple(said))


def shared_figures(iced: bool, **known: float) -> DeviceFigures:
    """Device figures with the bands that all kinds share; what a kind does not use is 0."""
    friction = bands.ICED_FRICTION if iced else bands.PLATE_FRICTION
    shared = {
        "gap_m": limits.ROOM_GAP_MM.value / 1000.0,
        "restitution": bands.RESTITUTION,
        "friction_low": friction.low,
        "friction_span": friction.high - friction.low,
        "contact_low": bands.CONTACT.low,
        "contact_span": bands.CONTACT.high - bands.CONTACT.low,
        "wrench_low": bands.WRENCH.low,
        "wrench_span": bands.WRENCH.high - bands.WRENCH.low,
        "blow_low": bands.BLOW_SPEED.low,
        "blow_span": bands.BLOW_SPEED.high - bands.BLOW_SPEED.low,
        "stiffness_low_log": math.log(bands.WEDGE_STIFFNESS.low),
        "stiffness_span_log": math.log(bands.WEDGE_STIFFNESS.high / bands.WEDGE_STIFFNESS.low),
    }
    everything = dict.fromkeys(DeviceFigures._fields, 0.0) | shared | known
    return DeviceFigures(**everything)
