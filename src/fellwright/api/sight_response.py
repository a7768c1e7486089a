"""Answer a measuring helper: what the readings of one sight come to, and how well it is known."""

from collections.abc import Callable, Mapping
from types import MappingProxyType

from fellwright.errors import BadInput
from fellwright.planning.sight_height import sight_height
from fellwright.planning.sight_plumb import sight_plumb
from fellwright.planning.sights import Sighted, sight_bore, sight_crown, sight_girth, sight_level
from fellwright.records.fault_log import FaultLog, shown
from fellwright.records.sights import (
    read_bore,
    read_crown,
    read_girth,
    read_height,
    read_level,
    read_plumb,
)
from fellwright.words import LANGUAGES, Style, render, say

__all__ = ["SCHEMA", "SIGHTS", "sight_answer"]

SCHEMA = "fellwright/sight/1"
Helper = Callable[[Mapping[str, object], FaultLog], Sighted]

SIGHTS: Mapping[str, Helper] = MappingProxyType(
    {
        "bore": lambda table, log: sight_bore(read_bore(table, log)),
        "crown": lambda table, log: sight_crown(read_crown(table, log)),
        "girth": lambda table, log: sight_girth(read_girth(table, log)),
        "height": lambda table, log: sight_height(read_height(table, log)),
        "level": lambda table, log: sight_level(read_level(table, log)),
        "plumb": lambda table, log: sight_plumb(read_plumb(table, log)),
    }
)

_STYLE: Mapping[str, tuple[object, ...]] = {
    "language": LANGUAGES,
    "force": ("kN", "t"),
    "imperial": (False, True),
}


def sight_answer(request: Mapping[str, object]) -> dict[str, object]:
    """Answer one measuring helper.

    Parameters
    ----------
    request : mapping
        ``sight`` is one of :data:`SIGHTS`; the keys of that helper; optional ``language``,
        ``force``, ``imperial``.

    Returns
    -------
    dict
        ``values`` are keys of a tree file (of a ``level``: keys of the request for a height),
        ``errors`` one sigma of each in its unit; ``text``, ``errors_from`` and ``cautions`` are
        sentences in the style asked for.

    Raises
    ------
    BadInput
        With every fault of the request.
    """
    log = FaultLog(say("fault.request"))
    style = _style(request, log)
    name = request.get("sight")
    if not isinstance(name, str) or name not in SIGHTS:
        rule = say("rule.one_of_asked", words=", ".join(SIGHTS))
        log.add("sight", shown(name), rule, say("sight.do_sight"), "not-a-choice")
        raise BadInput(log.faults)
    table = {key: raw for key, raw in request.items() if key not in ("sight", *_STYLE)}
    found = SIGHTS[name](table, log)
    return {
        "schema": SCHEMA,
        "sight": name,
        "values": dict(found.values),
        "errors": dict(found.errors),
        "text": render(found.text, style),
        "errors_from": [render(text, style) for text in found.behind],
        "cautions": [render(text, style) for text in found.cautions],
    }


def _style(request: Mapping[str, object], log: FaultLog) -> Style:
    """Read the style; every fault of it goes into the log with those of the readings."""
    chosen: dict[str, object] = {}
    for key, choices in _STYLE.items():
        value = request.get(key, choices[0])
        # True counts as one and false as nought among choices: the kind must agree, too.
        if any(value == choice and type(value) is type(choice) for choice in choices):
            chosen[key] = value
            continue
        known = ", ".join(str(choice).lower() for choice in choices)
        rule = say("rule.one_of_asked", words=known)
        log.add(key, shown(value), rule, say("remedy.choose"), "not-a-choice")
    return Style(
        str(chosen.get("language", "en")),
        str(chosen.get("force", "kN")),
        bool(chosen.get("imperial", False)),
    )
