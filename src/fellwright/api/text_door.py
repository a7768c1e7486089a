"""The JSON door as text in, text out: what the app's worker and the server call.

Whatever is refused comes back as a list of faults, never as an exception.
"""

import json
from collections.abc import Callable, Mapping
from functools import lru_cache

from fellwright.api.bundle_response import bundle_answer
from fellwright.api.door import answer_why, plan_from, style_from
from fellwright.api.drive_response import drive_rows
from fellwright.api.kit_form_response import kit_form_answer
from fellwright.api.kit_response import kit_answer
from fellwright.api.notch_response import notch_answer
from fellwright.api.sheet_response import sheet_response
from fellwright.api.sight_response import sight_answer
from fellwright.api.species_response import species_answer
from fellwright.api.stuck_response import stuck_answer
from fellwright.api.stump_response import stump_answer
from fellwright.api.tip_response import mark_response, tip_response
from fellwright.api.vocabulary_response import vocabulary_answer
from fellwright.errors import BadInput, Fault
from fellwright.planning.plan import Plan
from fellwright.words import METRIC, Style, Text, fault_data, say

__all__ = ["TEXT_QUESTIONS", "answer_text"]

Request = Mapping[str, object]
Answer = dict[str, object]

SAME_PLAN = ("tree", "kit", "lay_deg", "draws", "seed", "bare", "profile")
"""Keys on which a plan depends; language, units and pictures are only how it is shown."""
PLANS_KEPT = 4
MOST_CHARACTERS = 80_000_000
"""A bundle of a crew's season fits; nothing larger is parsed."""


def answer_text(question: str, request: str) -> str:
    """Answer one question asked in JSON.

    Parameters
    ----------
    question : str
        One of ``TEXT_QUESTIONS``.
    request : str
        JSON object; see the question.

    Returns
    -------
    str
        JSON: ``{"answer": ...}``, or ``{"faults": [...]}`` in the language asked for.
    """
    style = METRIC
    try:
        asked = _parsed(request)
        style = _style_or_default(asked)
        if question not in TEXT_QUESTIONS:
            rule = say("rule.one_of_asked", words=", ".join(sorted(TEXT_QUESTIONS)))
            raise BadInput([_fault("question", question, rule, "not-a-choice")])
        whole: Answer = {"answer": TEXT_QUESTIONS[question](asked)}
    except BadInput as bad:
        whole = {"faults": [fault_data(fault, style) for fault in bad.faults]}
    return json.dumps(whole, ensure_ascii=False, allow_nan=False, separators=(",", ":"))


def _parsed(request: str) -> Request:
    if len(request) > MOST_CHARACTERS:
        raise BadInput([_fault("", "", say("rule.request_size"), "too-large")])
    try:
        asked = json.loads(request)
    except (ValueError, RecursionError):
        asked = None
    if not isinstance(asked, dict):
        raise BadInput([_fault("", "", say("rule.json_object"), "not-json")])
    return asked


def _style_or_default(asked: Request) -> Style:
    """Language of the faults: a wrong style is itself a fault, told in English."""
    try:
        return style_from(asked)
    except BadInput:
        return METRIC


def _fault(field: str, value: str, rule: Text, code: str) -> Fault:
    return Fault(say("fault.request"), None, field, value, rule, say("remedy.ask_one"), code)


@lru_cache(maxsize=PLANS_KEPT)
def _plan_of(key: str) -> Plan:
    return plan_from(json.loads(key))


def _plan(asked: Request) -> Plan:
    """Plan a request once, however often its figures, pictures and reasons are asked for."""
    return _plan_of(json.dumps({key: asked[key] for key in SAME_PLAN if key in asked}))


def _device(asked: Request) -> str | None:
    device = asked.get("device")
    return None if device is None else str(device)


TEXT_QUESTIONS: dict[str, Callable[[Request], Answer]] = {
    "bundle": bundle_answer,
    "drive": lambda asked: drive_rows(_plan(asked), style_from(asked)),
    "kit": kit_answer,
    "kit_form": kit_form_answer,
    "mark": lambda asked: mark_response(_plan(asked), style_from(asked)),
    "notch": notch_answer,
    "sheet": lambda asked: sheet_response(_plan(asked), asked),
    "sight": sight_answer,
    "species": species_answer,
    "stuck": stuck_answer,
    "stump": stump_answer,
    "tip": lambda asked: tip_response(_plan(asked), style_from(asked)),
    "vocabulary": vocabulary_answer,
    "why": lambda asked: answer_why(
        _plan(asked), str(asked.get("figure")), _device(asked), style_from(asked)
    ),
}
"""What can be asked, and who answers."""
