"""Findings of a practice profile as plain data."""

from collections.abc import Iterable

from fellwright.planning.practice import PracticeFinding
from fellwright.words import METRIC, Style, render

__all__ = ["practice_response"]


def practice_response(
    findings: Iterable[PracticeFinding], style: Style = METRIC
) -> list[dict[str, object]]:
    """Write findings as the `practice` list of an answer.

    Parameters
    ----------
    findings : iterable of PracticeFinding
        What `check_practice` found.
    style : Style
        Language and units.

    Returns
    -------
    list of dict
        `rule`, `clause`, `text`, `status` (kept, broken, cannot tell, memory), `force` (law,
        guidance, conflict), `mark` and `sources`, in the order of the profile.
    """
    return [
        {
            "rule": finding.rule.id,
            "clause": finding.rule.clause,
            "text": render(finding.text, style),
            "status": finding.status,
            "force": finding.rule.force,
            "mark": finding.rule.mark,
            "sources": list(finding.rule.sources),
        }
        for finding in findings
    ]
