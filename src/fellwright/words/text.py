"""A sentence that is not yet written: its key and its values, rendered in a language and units.

Planning says ``say("reason.lift", name="Dipper", gives_m=0.041)``; a face renders it. A place in a
template reads ``{gives_m:lift}``: the kind after the colon turns SI into the units of the style.
"""

import string
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from fellwright import units
from fellwright.words.catalogue import catalogue

__all__ = [
    "KINDS",
    "METRIC",
    "Style",
    "Text",
    "in_languages",
    "listed",
    "quantity",
    "render",
    "say",
    "unit_name",
]


@dataclass(frozen=True, slots=True)
class Style:
    """How a face wants its sentences: language, force in kN or t, metric or imperial."""

    language: str = "en"
    force: str = "kN"
    imperial: bool = False


METRIC = Style()


@dataclass(frozen=True, slots=True)
class Text:
    """A sentence by key with its values; a value may be a sentence itself."""

    key: str
    values: tuple[tuple[str, object], ...] = ()

    def __str__(self) -> str:
        """Return the English sentence in metric units."""
        return render(self, METRIC)


def say(key: str, /, **values: object) -> Text:
    """Make a sentence.

    Parameters
    ----------
    key : str
        ``area.key`` in the catalogue.
    **values
        Numbers in SI, words, or other sentences.

    Returns
    -------
    Text
        To be rendered by a face.
    """
    return Text(key, tuple(values.items()))


_LIST = ""
_ONE_A_LANGUAGE = "|"
"""Keys that no area can have, for the two texts that stand in no catalogue."""


def in_languages(**words: str | Text) -> Text:
    """Words that are data and known by language, as the name of a species: ``en`` and ``de``."""
    return Text(_ONE_A_LANGUAGE, tuple(words.items()))


def listed(texts: Iterable[object], between: str | Text = ", ") -> Text:
    """Join sentences or words into one, as a list."""
    return Text(_LIST, (("between", between), *((str(i), text) for i, text in enumerate(texts))))


_DEGREE = "\N{DEGREE SIGN}"


@dataclass(frozen=True, slots=True)
class _Unit:
    factor: float
    digits: int | None
    unit: str
    offset: float = 0.0

    def write(self, value: float) -> str:
        inside = value * self.factor + self.offset
        number = f"{inside:.6g}" if self.digits is None else f"{inside:.{self.digits}f}"
        if number.strip("-0.") == "":
            number = number.lstrip("-")
        # A degree of angle stands close to its figure, every other unit apart.
        between = "" if self.unit in ("", _DEGREE) else " "
        return f"{number}{between}{self.unit}"


_METRIC_KINDS = {
    "lift": _Unit(1000.0, 0, "mm"),
    "width": _Unit(100.0, 0, "cm"),
    "mark": _Unit(100.0, 1, "cm"),
    "length": _Unit(1.0, 0, "m"),
    "height": _Unit(1.0, 1, "m"),
    "offset": _Unit(1.0, 2, "m"),
    "mass": _Unit(1.0, 0, "kg"),
    "hammer": _Unit(1.0, 1, "kg"),
    "speed": _Unit(1.0, 1, "m/s"),
    "temperature": _Unit(1.0, 0, "\N{DEGREE SIGN}C"),
    "torque": _Unit(1.0, 0, "N m"),
    "stress": _Unit(1e-6, 1, "MPa"),
    "volume": _Unit(1.0, 2, "m\N{SUPERSCRIPT THREE}"),
}
_IMPERIAL_KINDS = {
    "lift": _Unit(1.0 / units.M_PER_IN, 1, "in"),
    "width": _Unit(1.0 / units.M_PER_IN, 1, "in"),
    "mark": _Unit(1.0 / units.M_PER_IN, 1, "in"),
    "length": _Unit(1.0 / units.M_PER_FT, 0, "ft"),
    "height": _Unit(1.0 / units.M_PER_FT, 1, "ft"),
    "offset": _Unit(1.0 / units.M_PER_FT, 1, "ft"),
    "mass": _Unit(1.0 / units.KG_PER_LB, 0, "lb"),
    "hammer": _Unit(1.0 / units.KG_PER_LB, 1, "lb"),
    "speed": _Unit(1.0 / units.M_PER_S_PER_MPH, 0, "mph"),
    "temperature": _Unit(1.8, 0, "\N{DEGREE SIGN}F", 32.0),
    "torque": _Unit(1.0 / units.N_M_PER_FT_LBF, 0, "ft lbf"),
    "stress": _Unit(units.M_PER_IN**2 / units.N_PER_LBF, 0, "psi"),
    "volume": _Unit(1.0 / units.M_PER_FT**3, 0, "ft\N{SUPERSCRIPT THREE}"),
}
_COMMON_KINDS = {
    "angle": _Unit(1.0 / units.RAD_PER_DEG, 0, _DEGREE),
    "turn": _Unit(1.0 / units.RAD_PER_DEG, 1, _DEGREE),
    "energy": _Unit(1.0 / units.J_PER_WH, 0, "Wh"),
    "percent": _Unit(100.0, 0, "%"),
    "percent1": _Unit(100.0, 1, "%"),
    "seconds": _Unit(1.0, 0, "s"),
    "minutes": _Unit(1.0 / 60.0, 0, "min"),
    "n0": _Unit(1.0, 0, ""),
    "n1": _Unit(1.0, 1, ""),
    "n2": _Unit(1.0, 2, ""),
    "plain": _Unit(1.0, None, ""),
    "size": _Unit(1000.0, None, "mm"),
}
_FORCE_KINDS: dict[str, _Unit] = {
    "kN": _Unit(1e-3, 0, "kN"),
    "t": _Unit(1.0 / units.N_PER_TF, 1, "t"),
    "lbf": _Unit(1.0 / units.N_PER_LBF, 0, "lbf"),
}
KINDS = (*_METRIC_KINDS, *_COMMON_KINDS, "force", "tension")
"""Kinds that a place may name; ``bare`` before a kind drops the unit: ``{x:bare lift}``."""


def _unit_of(kind: str, style: Style) -> _Unit:
    if kind == "force":
        return _FORCE_KINDS["lbf" if style.imperial else style.force]
    if kind == "tension":
        return _FORCE_KINDS["lbf"] if style.imperial else _Unit(1.0 / units.N_PER_TF, 2, "t")
    if kind in _COMMON_KINDS:
        return _COMMON_KINDS[kind]
    return (_IMPERIAL_KINDS if style.imperial else _METRIC_KINDS)[kind]


def quantity(value: float, kind: str, style: Style = METRIC) -> str:
    """Write one number of a kind, ``bare lift`` without its unit.

    Parameters
    ----------
    value : float
        Value in SI.
    kind : str
        One of ``KINDS``, or ``bare`` and one of them.
    style : Style
        Language and units.

    Returns
    -------
    str
        With a decimal comma in German.
    """
    unit = _unit_of(kind.removeprefix("bare "), style)
    written = unit.write(value)
    if kind.startswith("bare ") and unit.unit:
        written = written.removesuffix(unit.unit).rstrip()
    return written.replace(".", ",") if style.language == "de" else written


def unit_name(kind: str, style: Style = METRIC) -> str:
    """Name of the unit that a kind is written in."""
    return _unit_of(kind, style).unit


class _Writer(string.Formatter):
    """Formats the places of a template in one style."""

    def __init__(self, style: Style) -> None:
        self.style = style

    def format_field(self, value: Any, format_spec: str) -> str:
        if isinstance(value, Text):
            return render(value, self.style)
        if not format_spec:
            return str(value)
        return quantity(float(value), format_spec, self.style)


def render(text: Text | str, style: Style = METRIC) -> str:
    """Write a sentence in a style.

    Parameters
    ----------
    text : Text or str
        A sentence, or words that need no translation (a name).
    style : Style
        Language and units.

    Returns
    -------
    str
        The sentence.

    Raises
    ------
    KeyError
        If the catalogue lacks the key, or the sentence lacks a value.
    """
    if isinstance(text, str):
        return text
    values = dict(text.values)
    if text.key == _ONE_A_LANGUAGE:
        return _plain(values[style.language], style)
    if text.key == _LIST:
        between = _plain(values.pop("between"), style)
        return between.join(_plain(value, style) for value in values.values())
    return _Writer(style).vformat(catalogue(style.language)[text.key], (), values)


def _plain(value: object, style: Style) -> str:
    return render(value, style) if isinstance(value, Text | str) else str(value)
