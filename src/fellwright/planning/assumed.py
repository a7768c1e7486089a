"""What a plan rests on that nobody published: every figure that is not marked SEEN."""

from dataclasses import dataclass

from fellwright.planning import bands, limits
from fellwright.planning.drive_train import STEEL_KINDS
from fellwright.records.kit import Kit
from fellwright.tables import Species

__all__ = ["Assumed", "list_assumed"]


@dataclass(frozen=True, slots=True)
class Assumed:
    """One assumed figure: name, value as shown, mark, and why or where from."""

    name: str
    value: str
    mark: str
    reason: str


def list_assumed(species: Species, kit: Kit, said: tuple[str, ...], *, iced: bool) -> list[Assumed]:
    """List every figure behind a plan that no published source holds.

    Parameters
    ----------
    species : Species
        Species or density class.
    kit : Kit
        Devices in the van.
    said : tuple of str
        What was filled in because it was not read.
    iced : bool
        Whether plates stand on frozen wood.

    Returns
    -------
    list of Assumed
        What was filled in first, then species, bands and thresholds.
    """
    found = [Assumed("not read", text, "OWN", "filled in, doubt widened") for text in said]
    for origin in species.origins:
        if origin.mark != "SEEN":
            note = origin.note or origin.source
            found.append(Assumed(f"{species.name}: {origin.group}", "table", origin.mark, note))
    drawn = [bands.RESIDUAL, bands.FIBRE, bands.CONTACT, bands.TOUGHNESS, bands.DRAG]
    drawn.append(bands.ICED_FRICTION if iced else bands.PLATE_FRICTION)
    if any(device.kind in STEEL_KINDS for device in kit.devices):
        drawn += [bands.WRENCH, bands.BATTERY_SHARE]
        for grease in sorted({device.grease or "dry" for device in kit.devices}):
            drawn.append(bands.EFFICIENCY[grease])
    if any(device.kind == "hand wedge" for device in kit.devices):
        drawn += [bands.BLOW_SPEED, bands.WEDGE_STIFFNESS]
    found += [Assumed(band.name, band.text, band.mark, band.reason) for band in drawn]
    found += [
        Assumed(error.name, f"{error.usual:g} {error.unit}", error.mark, "one sigma of the reading")
        for error in (bands.HINGE, bands.NOTCH, bands.HEIGHT, bands.STUMP, bands.DBH, bands.CROWN)
    ]
    found += [
        Assumed(limit.name, f"{limit.value:g} {limit.unit}".strip(), limit.mark, limit.reason)
        for limit in limits.ALL_LIMITS
        if limit.mark != "SEEN"
    ]
    return found
