"""The derivation of a figure as plain data."""

import math

from fellwright.planning.why import Why
from fellwright.words import METRIC, Style, quantity, render, say

__all__ = ["WHY_SCHEMA", "why_response"]

WHY_SCHEMA = "fellwright/why/1"
SHARE_DIGITS = 4


def why_response(tree: str | None, why: Why, style: Style = METRIC) -> dict[str, object]:
    """Write a derivation as the answer to ``why``.

    Parameters
    ----------
    tree : str or None
        Name of the tree.
    why : Why
        The derivation.
    style : Style
        Language and units.

    Returns
    -------
    dict
        Figures written with their units, in the style; ``middle_share`` and the ``shares`` of each
        sensitivity lie on one axis from the lowest to the highest of them, None where nothing
        moves the figure.
    """

    def write(value: float) -> str:
        return quantity(value, why.kind, style)

    moved = [end for s in why.sensitivity for end in (s.low, s.high)]
    low, high = min((why.middle, *moved)), max((why.middle, *moved))
    has_axis = math.isfinite(high - low) and high > low

    def share(value: float) -> float | None:
        return round((value - low) / (high - low), SHARE_DIGITS) if has_axis else None

    return {
        "schema": WHY_SCHEMA,
        "tree": tree,
        "figure": why.figure,
        "name": render(say(f"why.{why.figure}"), style),
        "device": why.device,
        "value": {
            "p10": write(why.value.p10),
            "p50": write(why.value.p50),
            "p90": write(why.value.p90),
        },
        "middle": write(why.middle),
        "middle_share": share(why.middle),
        "formula": why.formula,
        "physics": list(why.functions),
        "inputs": [
            {
                "name": render(i.name, style),
                "value": quantity(i.value, i.kind, style),
                "sigma": None if i.sigma is None else quantity(i.sigma, i.kind, style),
            }
            for i in why.inputs
        ],
        "sources": [
            {
                "name": render(s.name, style),
                "value": s.value,
                "mark": s.mark,
                "source": render(s.source, style),
            }
            for s in why.sources
        ],
        "sensitivity": [
            {
                "name": render(s.name, style),
                "low": write(s.low),
                "high": write(s.high),
                "shares": [share(s.low), share(s.high)],
            }
            for s in why.sensitivity
        ],
    }
