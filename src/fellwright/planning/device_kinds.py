"""Every kind of device in one place: how it is fitted, what limits it, what is said of it.

The draw of a kind is a branch on its drive code in :mod:`fellwright.planning.device_draw`.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass, fields

from fellwright.planning import bands
from fellwright.planning.bands import Band
from fellwright.planning.cone_and_ram import fit_cone, fit_ram
from fellwright.planning.device_draw import BLOWS, CONE, RAM, SCREW
from fellwright.planning.drive_train import Driven, Setting, fit_hand_wedge, fit_screw
from fellwright.planning.reasons import Reason, because
from fellwright.records.kit import Device
from fellwright.words import Text, say

__all__ = [
    "GREASED_KINDS",
    "KINDS",
    "STEEL_KINDS",
    "DeviceKind",
    "fit_device",
    "kind_cautions",
    "range_cap",
]


@dataclass(frozen=True, slots=True)
class DeviceKind:
    """One kind of device.

    ``drive_limit`` and ``wood_limit`` name what its drive and the wood at it can give;
    ``joins`` says whether it works side by side with another or in two stages;
    ``only_a_range`` that its push is known as a range only and never rests on it alone (K3);
    ``slot`` is the sentence on the place that is cut for it.
    """

    fit: Callable[[Device, Setting], Driven | Reason]
    drive: float
    drive_limit: str
    wood_limit: str = "bearing"
    steel: bool = True
    greased: bool = False
    joins: bool = False
    only_a_range: bool = False
    slot: str = "cut.slot"
    bands: tuple[Band, ...] = ()
    cautions: tuple[str, ...] = ()


_WRENCH = (bands.WRENCH, bands.BATTERY_SHARE)
_SCREW = DeviceKind(fit_screw, SCREW, "torque", greased=True, joins=True, bands=_WRENCH)

KINDS: dict[str, DeviceKind] = {
    "screw wedge": _SCREW,
    "nut wedge": _SCREW,
    "hand wedge": DeviceKind(
        fit_hand_wedge,
        BLOWS,
        "blow",
        steel=False,
        bands=(bands.BLOW_SPEED, bands.WEDGE_STIFFNESS),
    ),
    "threaded cone": DeviceKind(
        fit_cone,
        CONE,
        "torque",
        wood_limit="thread",
        only_a_range=True,
        bands=(*_WRENCH, bands.FLANK),
        cautions=("fresh_hole", "thread_strips"),
    ),
    "hydraulic ram": DeviceKind(
        fit_ram,
        RAM,
        "pressure",
        joins=True,
        slot="kinds.pocket",
        cautions=("gauge_and_valve", "sound_plates", "wedge_follows"),
    ),
}
STEEL_KINDS = tuple(name for name, kind in KINDS.items() if kind.steel)
GREASED_KINDS = tuple(name for name, kind in KINDS.items() if kind.greased)


def fit_device(device: Device, setting: Setting) -> Driven | Reason:
    """Close the drive train of one device, or name the missing link.

    Parameters
    ----------
    device : Device
        The device.
    setting : Setting
        The van, the wood and the day.

    Returns
    -------
    Driven or Reason
        Figures, or why the device stays in the van.
    """
    if device.state in ("OUT", "PART", "LOOK"):
        return because("out", name=device.name, state=device.state)
    values = (getattr(device, field.name) for field in fields(device))
    if any(isinstance(value, float) and math.isnan(value) for value in values):
        return because("not_a_number")
    fitted = KINDS[device.kind].fit(device, setting)
    if isinstance(fitted, Driven) and any(map(math.isnan, fitted.figures)):
        return because("not_a_number")
    return fitted


def range_cap(driven: Driven, low_n: float, asked_n: float) -> Reason | None:
    """Reason why a device whose push is only a range is not the only means (K3).

    Parameters
    ----------
    driven : Driven
        The device.
    low_n : float
        P10 of its push [N].
    asked_n : float
        P90 of the push that the tree asks for [N].

    Returns
    -------
    Reason or None
        None where its low end carries the tree, or where the rule does not apply.
    """
    if not KINDS[driven.device.kind].only_a_range or low_n >= asked_n:
        return None
    text = say("kinds.only_a_range", name=driven.device.name, low=low_n, asks=asked_n)
    return Reason("push", text)


def kind_cautions(driven: Driven) -> list[Reason]:
    """Cautions of the kind that was chosen.

    Parameters
    ----------
    driven : Driven
        The device.

    Returns
    -------
    list of Reason
        Codes and sentences.
    """
    kind = KINDS[driven.device.kind]
    return [Reason(code, _caution(code, driven)) for code in kind.cautions]


def _caution(code: str, driven: Driven) -> Text:
    return say(f"kinds.{code}", name=driven.device.name)
