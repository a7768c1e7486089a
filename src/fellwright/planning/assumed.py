"""What a plan rests on that nobody published: every figure that is not marked SEEN."""

from dataclasses import dataclass

from fellwright.planning import bands, limits
from fellwright.planning.bands import Band
from fellwright.planning.device_kinds import GREASED_KINDS, KINDS
from fellwright.planning.drive_train import grease_taken
from fellwright.planning.missing import say_species
from fellwright.records.kit import Kit
from fellwright.tables import Species
from fellwright.words import Text, listed, say

__all__ = ["Assumed", "list_assumed"]


WORDED_UNITS = (
    "deg",
    "degC",
    "of balance lift",
    "of height",
    "of its mass",
    "of itself",
    "of stump",
    "tree lengths",
    "x need",
)


@dataclass(frozen=True, slots=True)
class Assumed:
    """One assumed figure: name, value as shown, mark, and why or where from."""

    name: Text
    value: Text | str
    mark: str
    reason: Text | str
    is_missing_reading: bool = False


def list_assumed(
    species: Species,
    kit: Kit,
    said: tuple[Text, ...],
    stated: frozenset[str] = frozenset(),
    *,
    iced: bool,
) -> list[Assumed]:
    """List every figure behind a plan that no published source holds.

    Parameters
    ----------
    species : Species
        Species or density class.
    kit : Kit
        Devices in the van.
    said : tuple of Text
        What was filled in because it was not read.
    stated : frozenset of str
        Keys of errors in whose place the tree file states a larger one.
    iced : bool
        Whether plates stand on frozen wood.

    Returns
    -------
    list of Assumed
        What was filled in first, then species, bands and thresholds.
    """
    not_read, filled_in = say("assumed.not_read"), say("assumed.not_read_why")
    found = [Assumed(not_read, text, "OWN", filled_in, is_missing_reading=True) for text in said]
    for origin in species.origins:
        if origin.mark != "SEEN":
            group = say(f"group.{origin.group}")
            name = say("assumed.species", species=say_species(species), group=group)
            why = origin.note or origin.source
            found.append(Assumed(name, say("assumed.table"), origin.mark, why))
    found += [
        Assumed(
            say(f"assumed.{band.key}"),
            _with_unit(say("assumed.to", low=band.low, high=band.high), band.unit),
            band.mark,
            say(f"assumed.{band.key}_why"),
        )
        for band in _drawn(kit, iced=iced)
    ]
    errors = (bands.HINGE, bands.NOTCH, bands.HEIGHT, bands.STUMP, bands.DBH, bands.CROWN)
    found += [
        Assumed(
            say(f"assumed.{error.key}"),
            _with_unit(say("assumed.value", value=error.usual), error.unit),
            error.mark,
            say("assumed.error_why"),
        )
        for error in errors
        if error.key not in stated
    ]
    found += [
        Assumed(
            say(f"assumed.{limit.key}"),
            _with_unit(say("assumed.value", value=limit.value), limit.unit),
            limit.mark,
            say(f"assumed.{limit.key}_why"),
        )
        for limit in limits.ALL_LIMITS
        if limit.mark != "SEEN"
    ]
    return found


def _with_unit(value: Text, unit: str) -> Text:
    """Value with its unit; units in words stand in the catalogue."""
    parts: list[Text | str] = [value]
    if unit:
        parts.append(say(f"unit.{unit.replace(' ', '_')}") if unit in WORDED_UNITS else unit)
    # A degree of angle stands close to its figure, every other unit apart.
    return listed(parts, "" if unit == "deg" else " ")


def _drawn(kit: Kit, *, iced: bool) -> list[Band]:
    """Bands that this van draws from."""
    drawn = [bands.RESIDUAL, bands.FIBRE, bands.CONTACT, bands.TOUGHNESS, bands.DRAG]
    drawn.append(bands.ICED_FRICTION if iced else bands.PLATE_FRICTION)
    greased = [device for device in kit.devices if device.kind in GREASED_KINDS]
    drawn += [bands.EFFICIENCY[g] for g in sorted({grease_taken(d) for d in greased})]
    kinds = {device.kind for device in kit.devices}
    drawn += [band for name, kind in KINDS.items() if name in kinds for band in kind.bands]
    return list(dict.fromkeys(drawn))
