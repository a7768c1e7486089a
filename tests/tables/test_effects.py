"""Do the effects read as typed laws and spans, and does the frost formula follow them?"""

from __future__ import annotations

import pytest

import fellwright.tables as tables
from fellwright.physics.frost import bending_strength_ratio
from fellwright.tables import Effect, TemperatureLaw

LAWS = tuple(e for e in tables.all_effects() if e.law is not None)


def law_of(key: str) -> TemperatureLaw:
    law = tables.effect(key).law
    assert law is not None
    return law


def degc(degf: float) -> float:
    return (degf - 32.0) * 5.0 / 9.0


def test_keys_are_unique_and_every_row_was_read() -> None:
    rows = tables.load_table("effects").rows
    assert len({row.text("key") for row in rows}) == len(rows) == len(tables.all_effects())
    assert {e.mark for e in tables.all_effects()} == {"SEEN"}
    assert {"temperature", "freezing and thawing", "decay", "grain angle"} == {
        e.effect for e in tables.all_effects()
    }
    with pytest.raises(KeyError):
        tables.effect("jam")


@pytest.mark.parametrize("effect", tables.all_effects(), ids=lambda e: e.key)
def test_a_row_is_a_span_or_a_law_or_says_why_it_is_neither(effect: Effect) -> None:
    if effect.law is not None:
        assert effect.low is effect.high is None
        return
    if effect.low is not None and effect.high is not None:
        assert effect.low <= effect.high
    else:
        assert effect.note
    if effect.effect == "decay" and effect.high is not None:
        assert effect.high < 0.0


# [FPL-GTR-282] Table 5-16 worked at 0 degF and where the stiffness laws meet, 32 degF.
@pytest.mark.parametrize(
    ("key", "degf", "percent"),
    [
        ("moe_green_frozen", 0.0, 22.0),
        ("moe_green_frozen", 32.0, 7.39),
        ("moe_green_thawed", 32.0, 7.38),
        ("mor_green_select", 0.0, 34.1),
        ("mor_green_no_2", 0.0, 56.9),
    ],
)
def test_laws_give_the_values_worked_from_the_table(key: str, degf: float, percent: float) -> None:
    assert law_of(key).percent_at(degc(degf)) == pytest.approx(percent, abs=0.06)


@pytest.mark.parametrize("effect", LAWS, ids=lambda e: e.key)
def test_no_law_is_carried_beyond_its_range_and_cold_never_weakens(effect: Effect) -> None:
    law = law_of(effect.key)
    low, high = degc(law.from_degf), degc(law.to_degf)
    steps = [low + (high - low) * i / 20.0 for i in range(21)]
    inner = [law.percent_at(min(max(t, low + 1e-9), high - 1e-9)) for t in steps]
    assert inner == sorted(inner, reverse=True)
    for outside in (low - 0.1, high + 0.1):
        with pytest.raises(ValueError, match="degF"):
            law.percent_at(outside)


@pytest.mark.parametrize("degf", [-20.0, -10.0, 0.0, 10.0, 20.0, 32.0, 40.0, 45.0])
def test_the_frost_formula_of_physics_is_the_tables_law(degf: float) -> None:
    law = law_of("mor_green_select")
    celsius = degc(degf + 1e-9)
    expected = max(1.0, 1.0 + law.percent_at(celsius) / 100.0)
    assert bending_strength_ratio(celsius) == pytest.approx(expected, rel=1e-9)


def test_physics_holds_the_law_at_the_ends_of_its_range() -> None:
    law = law_of("mor_green_select")
    coldest = bending_strength_ratio(degc(law.from_degf))
    assert bending_strength_ratio(degc(law.from_degf) - 30.0) == pytest.approx(coldest)
    assert bending_strength_ratio(degc(law.to_degf) + 0.01) == 1.0
