"""A bundle read in: its events once each, clashes told, what a newer phone wrote kept."""

from collections.abc import Mapping

from fellwright.api.door import style_from
from fellwright.errors import BadInput, Fault
from fellwright.records.bundle import Bundle, clashes_in, merge, read_bundle
from fellwright.records.event import Event, event_as_data
from fellwright.records.event_kinds import KINDS
from fellwright.records.fault_log import FaultLog, shown
from fellwright.words import Style, render, say

__all__ = ["BUNDLE_ANSWER_SCHEMA", "bundle_answer"]

BUNDLE_ANSWER_SCHEMA = "fellwright/bundle-read/1"


def bundle_answer(request: Mapping[str, object]) -> dict[str, object]:
    """Read a bundle, and merge it with another if one is given.

    Parameters
    ----------
    request : mapping
        ``bundle``: the text of the file; optional ``with``: the text of another bundle;
        ``language`` as for :func:`fellwright.api.answer`.

    Returns
    -------
    dict
        ``events`` each once, sorted by id; ``clashes`` with every event of an id whose events do
        not say the same; ``unknown_kinds`` that were kept; ``notes`` to show.

    Raises
    ------
    BadInput
        With every fault of both texts. Nothing is to be stored then.
    """
    style = style_from(request)
    faults: list[Fault] = []
    bundles: list[Bundle] = []
    for key in ("bundle", "with"):
        text = request.get(key)
        if text is None and key == "with":
            continue
        try:
            bundles.append(_read(text, key))
        except BadInput as bad:
            faults += bad.faults
    if faults:
        raise BadInput(faults)
    events = merge(*(bundle.events for bundle in bundles))
    clashes = clashes_in(events)
    unknown = sum(event.kind not in KINDS for event in events)
    first = bundles[0]
    return {
        "schema": BUNDLE_ANSWER_SCHEMA,
        "engine": first.engine,
        "exported_at": first.exported_at,
        "device": first.device,
        "events": [event_as_data(event) for event in events],
        "clashes": [
            {"id": clash.id, "events": [event_as_data(event) for event in clash.events]}
            for clash in clashes
        ],
        "unknown_kinds": unknown,
        "notes": _notes(events, sum(len(clash.events) for clash in clashes), unknown, style),
    }


def _read(text: object, key: str) -> Bundle:
    if not isinstance(text, str):
        log = FaultLog(say("fault.request"))
        rule = say("bundle.a_text")
        log.add(key, "" if text is None else shown(text), rule, say("bundle.send_text"), "not-text")
        raise BadInput(log.faults)
    return read_bundle(text, key)


def _notes(events: tuple[Event, ...], clashing: int, unknown: int, style: Style) -> list[str]:
    notes = [say("bundle.holds", count=len(events))]
    if clashing:
        notes.append(say("bundle.clash", count=clashing))
    if unknown:
        notes.append(say("bundle.unknown_kinds", count=unknown))
    return [render(note, style) for note in notes]
