"""Numbers, units, nested sentences, and names that look like places of a template."""

import math
import string

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fellwright.words import (
    METRIC,
    Style,
    Text,
    in_languages,
    listed,
    quantity,
    render,
    say,
    unit_name,
)
from fellwright.words.text import KINDS

GERMAN = Style(language="de")
TONNES = Style(force="t")
IMPERIAL = Style(imperial=True)
STYLES = [
    Style(language, force, imperial)
    for language in ("en", "de")
    for force in ("kN", "t")
    for imperial in (False, True)
]
HOSTILE = ["{x}", "{", "}", "{0}", "{name}", "{name.__class__}", "{gives:lift}", "%s", "{{y}}"]


@pytest.mark.parametrize(
    ("value", "kind", "style", "written"),
    [
        (0.0412, "lift", METRIC, "41 mm"),
        (0.0412, "lift", IMPERIAL, "1.6 in"),
        (0.0412, "bare lift", METRIC, "41"),
        (0.0412, "bare lift", IMPERIAL, "1.6"),
        (0.46, "width", METRIC, "46 cm"),
        (0.4572, "width", IMPERIAL, "18.0 in"),
        (0.092, "mark", METRIC, "9.2 cm"),
        (0.092, "mark", GERMAN, "9,2 cm"),
        (25.0, "length", METRIC, "25 m"),
        (25.0, "length", IMPERIAL, "82 ft"),
        (25.34, "height", GERMAN, "25,3 m"),
        (25.34, "height", IMPERIAL, "83.1 ft"),
        (math.radians(-0.84), "turn", METRIC, "-0.8°"),
        (0.5, "offset", METRIC, "0.50 m"),
        (0.5, "offset", GERMAN, "0,50 m"),
        (0.5, "offset", IMPERIAL, "1.6 ft"),
        (1367.0, "mass", GERMAN, "1367 kg"),
        (1000.0, "mass", IMPERIAL, "2205 lb"),
        (3.0, "hammer", METRIC, "3.0 kg"),
        (4.5, "speed", GERMAN, "4,5 m/s"),
        (4.4704, "speed", IMPERIAL, "10 mph"),
        (850.0, "torque", METRIC, "850 N m"),
        (850.0, "torque", IMPERIAL, "627 ft lbf"),
        (12.5e6, "stress", GERMAN, "12,5 MPa"),
        (12.5e6, "stress", IMPERIAL, "1813 psi"),
        (31_000.0, "force", METRIC, "31 kN"),
        (31_000.0, "force", TONNES, "3.2 t"),
        (31_000.0, "force", Style(language="de", force="t"), "3,2 t"),
        (31_000.0, "force", IMPERIAL, "6969 lbf"),
        (31_000.0, "force", Style(force="t", imperial=True), "6969 lbf"),
        (3726.5, "tension", METRIC, "0.38 t"),
        (3726.5, "tension", TONNES, "0.38 t"),
        (3726.5, "tension", IMPERIAL, "838 lbf"),
        (math.radians(40.0), "angle", METRIC, "40°"),
        (math.radians(40.0), "bare angle", METRIC, "40"),
        (0.9, "percent", METRIC, "90 %"),
        (0.905, "percent1", GERMAN, "90,5 %"),
        (7200.0, "energy", METRIC, "2 Wh"),
        (300.0, "minutes", METRIC, "5 min"),
        (0.0127, "size", METRIC, "12.7 mm"),
        (0.0127, "size", Style(language="de", imperial=True), "12,7 mm"),
        (0.019, "size", METRIC, "19 mm"),
        (0.35, "plain", GERMAN, "0,35"),
        (1300.0, "plain", METRIC, "1300"),
        (5e6, "plain", METRIC, "5e+06"),
    ],
)
def test_a_quantity_is_written_in_its_unit(
    value: float, kind: str, style: Style, written: str
) -> None:
    assert quantity(value, kind, style) == written


@pytest.mark.parametrize(
    ("degc", "style", "written"),
    [
        (-18.0, METRIC, "-18 °C"),
        (-18.0, IMPERIAL, "0 °F"),
        (0.0, IMPERIAL, "32 °F"),
        (100.0, IMPERIAL, "212 °F"),
        (-40.0, IMPERIAL, "-40 °F"),
    ],
)
def test_a_temperature_is_moved_as_well_as_scaled(degc: float, style: Style, written: str) -> None:
    assert quantity(degc, "temperature", style) == written


@pytest.mark.parametrize("kind", KINDS)
@given(style=st.sampled_from(STYLES), value=st.floats(-1e4, 1e4))
def test_every_kind_ends_in_its_unit_and_nothing_is_minus_zero(
    kind: str, style: Style, value: float
) -> None:
    written, bare = quantity(value, kind, style), quantity(value, f"bare {kind}", style)
    unit = unit_name(kind, style)
    between = "" if unit in ("", "°") else " "
    assert written == f"{bare}{between}{unit}"
    assert float(bare.replace(",", ".")) != 0.0 or not bare.startswith("-")
    assert ("." if style.language == "de" else ",") not in bare


@given(value=st.floats(-0.00049, -0.0, exclude_max=True))
def test_what_rounds_to_nothing_has_no_sign(value: float) -> None:
    assert quantity(value, "lift") == "0 mm"
    assert quantity(-0.0, "offset", GERMAN) == "0,00 m"


def test_a_degree_stands_close_and_other_units_apart() -> None:
    for kind in KINDS:
        written = quantity(1.0, kind)
        assert written[-1] != "°" or " " not in written
        assert "%" not in written or written.endswith(" %")


def test_a_sentence_holds_sentences_that_take_its_style() -> None:
    inner = listed([say("said.crown_width", width=5.2), say("said.crown_depth", depth=14.0)])
    outer = say("said.crown", parts=inner)
    assert render(outer) == (
        "crown not given: width 5 m, depth 14 m from dbh and height, within 25 %"
    )
    assert render(outer, Style("de", "kN", imperial=True)) == (
        "Krone nicht angegeben: Breite 17 ft, Länge 46 ft aus BHD und Höhe, auf 25 %"
    )
    assert str(outer) == render(outer, METRIC)


def test_a_list_is_joined_as_asked_and_may_be_empty() -> None:
    assert render(listed(["a", say("look.sound"), 3], "; "), GERMAN) == "a; gesund; 3"
    assert render(listed(["en", "de"], say("fault.or")), GERMAN) == "en oder de"
    assert render(listed([])) == ""
    assert render(listed(str(i) for i in range(12))) == "0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11"


def test_words_known_by_language_follow_the_language() -> None:
    assert render(in_languages(en="as told", de=say("look.sound")), GERMAN) == "gesund"
    name = in_languages(en="Norway spruce", de="Fichte")
    assert [render(name, Style(language)) for language in ("en", "de")] == [
        "Norway spruce",
        "Fichte",
    ]
    assert render(say("condition.species", name=name), GERMAN) == "wenn es Fichte ist"


@pytest.mark.parametrize("name", HOSTILE)
@pytest.mark.parametrize("language", ["en", "de"])
def test_a_name_is_data_and_never_a_template(name: str, language: str) -> None:
    style = Style(language)
    values: dict[str, object] = {"name": name, "gives": 0.04, "asks": 0.03, "to": 0.05}
    once = say("reason.lift", **values)
    assert render(once, style).count(name) == 1
    twice = say("reason.line", line=once, why=listed([name, say("caution.means", name=name)]))
    assert render(twice, style).count(name) == 3
    assert render(name, style) == name
    assert render(listed([name], name + name), style) == name
    assert render(in_languages(en=name, de=name), style) == name


@given(name=st.text(string.printable, max_size=20))
def test_any_name_comes_out_as_it_went_in(name: str) -> None:
    assert render(say("caution.hand_wedge", name=name)) == f"{name} and hammer"


def test_a_missing_key_or_value_is_an_error_and_no_silence() -> None:
    with pytest.raises(KeyError):
        render(say("reason.no_such_reason"))
    with pytest.raises(KeyError):
        render(say("reason.room", name="Dipper"))


def test_a_text_is_plain_data() -> None:
    assert say("reason.room", name="Dipper", lacks=0.01) == Text(
        "reason.room", (("name", "Dipper"), ("lacks", 0.01))
    )
    assert hash(say("look.sound")) == hash(say("look.sound"))
