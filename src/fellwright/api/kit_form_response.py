"""What a kit may hold, field by field: from it a face makes the form on which a van is entered."""

from collections.abc import Mapping

from fellwright.api.door import style_from
from fellwright.records.kit_fields import KEYS_BY_KIND, KIT_SECTIONS, REQUIRED_BY_KIND
from fellwright.records.number_fields import UNIT_SYMBOLS, Number, NumberList, NumberPair
from fellwright.records.table_reader import Field
from fellwright.records.word_fields import Choice
from fellwright.words import Style, render, say

__all__ = ["KIT_FORM_SCHEMA", "kit_form_answer"]

KIT_FORM_SCHEMA = "fellwright/kit-form/1"


def kit_form_answer(request: Mapping[str, object]) -> dict[str, object]:
    """List the fields of a kit.

    Parameters
    ----------
    request : mapping
        ``language`` and ``imperial`` as for :func:`fellwright.api.answer`.

    Returns
    -------
    dict
        ``sections``: ``key`` of the kit file, ``title``, ``single`` where there is one at most, and
        ``fields``: ``key`` in the units of the style, ``label``, ``unit``, ``entry`` (number, pair,
        list, choice, text), ``required``, ``words`` to choose from. ``kinds`` of devices: ``word``,
        ``name``, and ``keys`` asked for in their order, the ``required`` ones among them.
    """
    style = style_from(request)
    return {
        "schema": KIT_FORM_SCHEMA,
        "sections": [_section(heading, style) for heading in KIT_SECTIONS],
        "kinds": [_kind(word, style) for word in KEYS_BY_KIND],
    }


def _section(heading: str, style: Style) -> dict[str, object]:
    key = heading.strip("[]")
    return {
        "key": key,
        "title": render(say(f"kit_form.section_{key}"), style),
        "single": not heading.startswith("[["),
        "fields": [_field(field, style) for field in KIT_SECTIONS[heading]],
    }


def _kind(word: str, style: Style) -> dict[str, object]:
    fields = {field.key: field for field in KIT_SECTIONS["[[device]]"]}
    return {
        "word": word,
        "name": render(say(f"kit_form.kind_{word.replace(' ', '_')}"), style),
        "keys": [_key(fields[key], style) for key in KEYS_BY_KIND[word]],
        "required": [_key(fields[key], style) for key in REQUIRED_BY_KIND[word]],
    }


def _number(field: Field) -> Number | None:
    if isinstance(field, NumberList | NumberPair):
        return field.number
    return field if isinstance(field, Number) else None


def _key(field: Field, style: Style) -> str:
    """Key under which the field is written in the units of the style."""
    number = _number(field)
    imperial = None if number is None or not style.imperial else number.imperial_key
    return field.key if imperial is None else imperial


def _field(field: Field, style: Style) -> dict[str, object]:
    number = _number(field)
    key = _key(field, style)
    words = field.options if isinstance(field, Choice) else {}
    return {
        "key": key,
        "label": render(say(f"kit_form.{field.key}"), style),
        "unit": "" if number is None else _unit(number, style, imperial=key != field.key),
        "entry": _entry(field),
        "required": field.required,
        "words": [
            {"word": word, "name": render(say(f"kit_form.word_{word.replace(' ', '_')}"), style)}
            for word in words
            if field.key != "kind"
        ],
    }


def _unit(number: Number, style: Style, *, imperial: bool) -> str:
    if imperial and number.imperial is not None:
        return number.imperial.symbol
    if number.unit:
        return render(UNIT_SYMBOLS.get(number.unit, number.unit), style)
    ending = number.key.rpartition("_")[2]
    return {"deg": "\N{DEGREE SIGN}", "bar": "bar"}.get(ending, "")


def _entry(field: Field) -> str:
    if isinstance(field, NumberPair):
        return "pair"
    if isinstance(field, NumberList):
        return "list"
    if isinstance(field, Number):
        return "number"
    return "choice" if isinstance(field, Choice) else "text"
