"""Answer a question from plain data: the only function that a face calls."""

from collections.abc import Mapping
from dataclasses import replace

from fellwright.api.tip_response import mark_response, tip_response
from fellwright.api.why_response import why_response
from fellwright.errors import BadInput, Fault
from fellwright.planning.chance import DRAWS_DEFAULT, SEED_DEFAULT
from fellwright.planning.plan import Options, Plan
from fellwright.planning.tip import plan_tip
from fellwright.planning.why import FIGURES, explain
from fellwright.records.fault_log import shown
from fellwright.records.kit import Kit
from fellwright.records.loader import read_kit, read_tree
from fellwright.records.tree import Tree
from fellwright.tables.profiles import profile_from
from fellwright.words import LANGUAGES, METRIC, Style, Text, listed, say

__all__ = [
    "FIGURE_NAMES",
    "QUESTIONS",
    "answer",
    "answer_plan",
    "answer_read",
    "answer_why",
    "options_from",
    "plan_from",
    "with_lay",
]

LEAST_DRAWS = 64
MOST_DRAWS = 65536
LARGEST_SEED = 2**63 - 1


def answer(question: str, request: Mapping[str, object]) -> dict[str, object]:
    """Answer one question.

    Parameters
    ----------
    question : str
        ``tip`` or ``mark``.
    request : mapping
        ``tree`` and ``kit`` as in their files; optional ``lay_deg``, ``draws``,
        ``seed``, ``bare``, ``profile``, ``language``, ``force``, ``imperial``.

    Returns
    -------
    dict
        The response, ready for JSON; see ``schemas/tip.json``.

    Raises
    ------
    BadInput
        With every fault of the request.
    """
    if question not in QUESTIONS:
        raise BadInput([_unknown("question", question, QUESTIONS)])
    return QUESTIONS[question](plan_from(request), style_from(request))


def answer_read(
    question: str,
    tree: Tree,
    kit: Kit,
    options: Options | None = None,
    style: Style = METRIC,
) -> dict[str, object]:
    """Answer one question on records that are already read; see :func:`answer`."""
    return answer_plan(question, plan_tip(tree, kit, options), style)


def answer_plan(question: str, plan: Plan, style: Style = METRIC) -> dict[str, object]:
    """Answer one question from a plan that is made already; see :func:`answer`."""
    return QUESTIONS[question](plan, style)


def answer_why(
    plan: Plan, figure: str, device: str | None, style: Style = METRIC
) -> dict[str, object]:
    """Derive one figure of a plan.

    Raises
    ------
    BadInput
        If there is no such figure, or this tree's answer does not hold it.
    """
    if figure not in FIGURES:
        raise BadInput([_unknown("figure", figure, FIGURES)])
    found = explain(plan, figure, device)
    if found is None:
        value: object = figure
        if device is not None:
            value = say("fault.figure_of", figure=shown(figure), device=shown(device))
        rule, remedy = say("rule.figure_held"), say("remedy.figure_missing")
        raise BadInput([_fault("figure", value, rule, remedy, "not-a-choice")])
    return why_response(plan.tree.name, found, style)


FIGURE_NAMES = tuple(FIGURES)
QUESTIONS = {"tip": tip_response, "mark": mark_response}


def plan_from(request: Mapping[str, object]) -> Plan:
    """Read a request and plan it; every fault of tree, kit and options at once.

    Parameters
    ----------
    request : mapping
        As for :func:`answer`.

    Returns
    -------
    Plan
        The plan.

    Raises
    ------
    BadInput
        With every fault of the request.
    """
    faults: list[Fault] = []
    tree, kit, options = Tree(), Kit(), Options()
    try:
        tree = read_tree(_table(request, "tree"), say("fault.request_tree"))
    except BadInput as bad:
        faults += bad.faults
    try:
        kit = read_kit(_table(request, "kit"), say("fault.request_kit"))
    except BadInput as bad:
        faults += bad.faults
    try:
        options = options_from(request)
        tree = with_lay(tree, request.get("lay_deg"))
    except BadInput as bad:
        faults += bad.faults
    if faults:
        raise BadInput(faults)
    return plan_tip(tree, kit, options)


def with_lay(tree: Tree, lay_deg: object) -> Tree:
    """Return the tree with another lay, if one is asked for.

    Parameters
    ----------
    tree : Tree
        The tree as read.
    lay_deg : object
        Lay [deg] or None.

    Returns
    -------
    Tree
        The same tree where ``lay_deg`` is None.

    Raises
    ------
    BadInput
        If it is no azimuth.
    """
    if lay_deg is None:
        return tree
    number = isinstance(lay_deg, int | float) and not isinstance(lay_deg, bool)
    if not number or not 0.0 <= float(lay_deg) <= 360.0:  # type: ignore[arg-type]  # number says so
        rule = say("rule.between_unit", low=0.0, high=360.0, unit=say("fault.degrees"))
        raise BadInput([_fault("lay_deg", lay_deg, rule, say("remedy.lay_deg"), "out-of-range")])
    return replace(tree, cut=replace(tree.cut, lay_deg=float(lay_deg)))  # type: ignore[arg-type]


def options_from(request: Mapping[str, object]) -> Options:
    """Read draws, seed and bare.

    Parameters
    ----------
    request : mapping
        As for :func:`answer`.

    Returns
    -------
    Options
        Defaults where absent.

    Raises
    ------
    BadInput
        With every fault of them.
    """
    faults = []
    draws = request.get("draws", DRAWS_DEFAULT)
    seed = request.get("seed", SEED_DEFAULT)
    bare = request.get("bare", False)
    if (
        not isinstance(draws, int)
        or isinstance(draws, bool)
        or not LEAST_DRAWS <= draws <= MOST_DRAWS
    ):
        rule = say("rule.whole_range", low=LEAST_DRAWS, high=MOST_DRAWS)
        faults.append(_fault("draws", draws, rule, say("remedy.draws"), "not-a-choice"))
    if not isinstance(seed, int) or isinstance(seed, bool) or not 0 <= seed <= LARGEST_SEED:
        rule = say("rule.whole_from_zero")
        faults.append(_fault("seed", seed, rule, say("remedy.any_number"), "not-whole"))
    if not isinstance(bare, bool):
        rule, remedy = say("rule.true_or_false"), say("remedy.true_or_false")
        faults.append(_fault("bare", bare, rule, remedy, "not-yes-or-no"))
    if faults:
        raise BadInput(faults)
    assert isinstance(draws, int)
    assert isinstance(seed, int)
    assert isinstance(bare, bool)
    named = request.get("profile")
    # The points come in powers of two; the answer says how many were drawn.
    drawn = 1 << (draws - 1).bit_length()
    return Options(drawn, seed, bare, None if named is None else profile_from(named))


def style_from(request: Mapping[str, object]) -> Style:
    """Read language and units of the sentences.

    Parameters
    ----------
    request : mapping
        ``language`` en or de, ``force`` kN or t, ``imperial`` true or false.

    Returns
    -------
    Style
        English, kilonewtons, metric where absent.

    Raises
    ------
    BadInput
        With every fault of them.
    """
    faults = []
    for field, choices in STYLE_CHOICES.items():
        value = request.get(field, choices[0])
        if value not in choices:
            written = [shown(choice) if isinstance(choice, bool) else choice for choice in choices]
            rule = say("rule.choice", choices=listed(written, say("fault.or")))
            faults.append(_fault(field, value, rule, say("remedy.choose"), "not-a-choice"))
    if faults:
        raise BadInput(faults)
    return Style(
        str(request.get("language", "en")),
        str(request.get("force", "kN")),
        bool(request.get("imperial", False)),
    )


STYLE_CHOICES: dict[str, tuple[object, ...]] = {
    "language": LANGUAGES,
    "force": ("kN", "t"),
    "imperial": (False, True),
}


def _table(request: Mapping[str, object], name: str) -> Mapping[str, object]:
    table = request.get(name, {})
    if not isinstance(table, Mapping):
        rule, remedy = say("rule.table_of_keys"), say("remedy.send_as_file")
        raise BadInput([_fault(name, table, rule, remedy, "not-a-table")])
    return table


def _unknown(field: str, value: str, known: Mapping[str, object]) -> Fault:
    rule = say("rule.one_of_asked", words=", ".join(sorted(known)))
    return _fault(field, value, rule, say("remedy.ask_one"), "not-a-choice")


def _fault(field: str, value: object, rule: Text, remedy: Text, code: str) -> Fault:
    told = value if isinstance(value, Text) else shown(value)
    return Fault(say("fault.request"), None, field, told, rule, remedy, code)
