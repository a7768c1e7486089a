"""Drawn friction bands against published coefficients, and our friction table against its rows."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from tests.validation.comparison import Comparison, Model, Pair, compare
from tests.validation.folder import Folder, Row, number

from fellwright.planning import bands
from fellwright.planning.bands import Band
from fellwright.tables import all_friction

__all__ = ["friction_bands"]

FILE = "wood/friction.csv"
COLUMNS = ("pair", "condition", "kind", "mu_low", "mu_high", "mu_typical", "status")
DRY, GREASED = ("dry",), ("greased", "lubricated")


class Drawn(NamedTuple):
    """A band by name, which published rows speak to it, and which side is the bold one."""

    name: str
    band: Band
    pairs: tuple[str, ...]
    conditions: tuple[str, ...]
    unfavourable: str


DRAWN = (
    Drawn(
        "Plate on green wood",
        bands.PLATE_FRICTION,
        ("steel / wood", "metal / wood"),
        (),
        "Lower friction throws a device out, higher friction makes a driven wedge harder to drive",
    ),
    Drawn(
        "Plate on frozen wood",
        bands.ICED_FRICTION,
        ("steel / ice",),
        (),
        "Lower friction throws a device out",
    ),
    Drawn(
        "Thread and face, greased",
        bands.THREAD_FRICTION["greased"],
        ("steel / steel", "steel / steel (power screw)"),
        GREASED,
        "Higher friction takes push away",
    ),
    Drawn(
        "Thread and face, dry",
        bands.THREAD_FRICTION["dry"],
        ("steel / steel", "steel / steel (power screw)"),
        DRY,
        "Higher friction takes push away",
    ),
)


def friction_bands(folder: Folder) -> list[Comparison]:
    """The four bands that have published rows, and the table."""
    rows = [row for row in folder.read(FILE, COLUMNS) if row["status"] == "SEEN"]
    return [*(_band(rows, drawn) for drawn in DRAWN), _table(rows)]


def _band(rows: Sequence[Row], drawn: Drawn) -> Comparison:
    band = drawn.band
    middle = math.sqrt(band.low * band.high)
    spans = list(_spans(rows, drawn))
    pairs = [Pair(label, middle, math.sqrt(low * high)) for label, low, high in spans]
    note = ""
    if spans:
        below = sum(high < band.low for _, low, high in spans)
        above = sum(low > band.high for _, low, high in spans)
        note = (
            f"Published spans: {len(spans) - below - above} touch the band {band.low:g} to "
            f"{band.high:g}, {below} lie below it, {above} above; they run from "
            f"{min(low for _, low, _ in spans):g} to {max(high for _, _, high in spans):g}. "
            f"{drawn.unfavourable}."
        )
    half_width = math.sqrt(band.high / band.low) - 1.0
    name = f"{drawn.name}: friction drawn {band.low:g} to {band.high:g}"
    return compare(
        Model(
            name,
            "published coefficients [Friction-Values] [Drive-Guide] [Screw-Guide] "
            "[McKenzie-Karpovich-1968] [Koubek-Dedicova-2014]",
            half_width,
            is_band=True,
        ),
        pairs,
        note,
    )


def _spans(rows: Sequence[Row], drawn: Drawn) -> Iterator[tuple[str, float, float]]:
    for row in rows:
        low, high = number(row, "mu_low"), number(row, "mu_high")
        wanted = not drawn.conditions or any(word in row["condition"] for word in drawn.conditions)
        if row["pair"] in drawn.pairs and wanted and low and high:
            words = ", ".join(part for part in (row["condition"], row["kind"]) if part)
            yield f"{row['pair']}, {words}", low, high


def _table(rows: Sequence[Row]) -> Comparison:
    """Each row of ours that is SEEN, against a published row of the same span."""
    printed = {
        (number(row, "mu_low"), number(row, "mu_high"), number(row, "mu_typical")) for row in rows
    }
    seen = [row for row in all_friction() if row.mark == "SEEN"]
    lost = [
        f"{row.pair}, {row.state}, {row.kind}"
        for row in seen
        if (row.mu_low, row.mu_high, row.mu_typical) not in printed
    ]
    model = Model("Friction table, rows marked SEEN", "the same rows, typed apart", 0.01, True)
    if not rows:
        return compare(model, [])
    pairs = [
        Pair(f"{row.pair}, {row.state}, {row.kind}", row.mu_low, row.mu_low)
        for row in seen
        if (row.mu_low, row.mu_high, row.mu_typical) in printed
    ]
    note = f"{len(pairs)} of {len(seen)} rows have a published row with the same three figures."
    if lost:
        note += f" Not found: {'; '.join(lost)}."
    return compare(model, pairs, note)
