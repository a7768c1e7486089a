"""What of a rule of practice can be told from a plan: figures, and demands that it answers.

A subject that stands in neither table cannot be told from a plan: the feller checks it.
"""

import math
from collections.abc import Callable, Mapping
from types import MappingProxyType

from fellwright.planning import limits
from fellwright.planning.marks import HINGE_FIRST
from fellwright.planning.practice_facts import PlanFacts
from fellwright.planning.proposal import notch_fits
from fellwright.planning.reasons import LEAVE, LINE
from fellwright.records.tree import Conductor
from fellwright.tables.profiles import Rule

__all__ = ["ABOUT_SHARE", "ANSWERS", "FIGURES", "is_outside"]

ABOUT_SHARE = 0.2
"""OWN: 'about' is taken as within a fifth either way; no source says how far it reaches."""
NEARLY = 1e-9
WEDGES = ("hand wedge", "screw wedge", "nut wedge")


def is_outside(rule: Rule, value: float) -> bool:
    """Whether a figure lies outside what a rule bounds.

    Parameters
    ----------
    rule : Rule
        A rule with bounds.
    value : float
        The figure, in SI or as a share.

    Returns
    -------
    bool
        True for a NaN too.
    """
    low, high = rule.low, rule.high
    if rule.about is not None:
        low, high = rule.about * (1.0 - ABOUT_SHARE), rule.about * (1.0 + ABOUT_SHARE)
    # Written as 'not within', so that a NaN is outside.
    above = low is None or value >= low * (1.0 - NEARLY)
    below = high is None or value <= high * (1.0 + NEARLY)
    return not (above and below)


def _share(length_m: float, rule: Rule, facts: PlanFacts) -> float | None:
    diameter = None if facts.cut is None else facts.cut.stem.diameter_m(rule.of)
    return None if diameter is None else length_m / diameter


def _notch_share(rule: Rule, facts: PlanFacts) -> float | None:
    return None if facts.cut is None else _share(facts.cut.notch_m, rule, facts)


def _hinge_share(rule: Rule, facts: PlanFacts) -> float | None:
    return None if facts.cut is None else _share(facts.cut.hinge_m, rule, facts)


def _hinge_length_share(rule: Rule, facts: PlanFacts) -> float | None:
    return None if facts.cut is None else _share(facts.cut.hinge_length_m, rule, facts)


def _step_share(rule: Rule, facts: PlanFacts) -> float | None:
    if facts.cut is None or facts.cut.step_m is None:
        return None
    return _share(facts.cut.step_m, rule, facts)


def _lever_diameter(rule: Rule, facts: PlanFacts) -> float | None:
    return None if facts.cut is None else facts.cut.stem.diameter_m(rule.of)


def _line_strength(_: Rule, facts: PlanFacts) -> float | None:
    return min((line.strength_n / line.tension_n for line in facts.lines), default=None)


def _rope_lengths(_: Rule, facts: PlanFacts) -> float | None:
    """Longest rope over the tree's height; a guy's rope alone says nothing of a direct pull."""
    if facts.height_m is None:
        return None
    pulls = [line for line in facts.lines if line.purpose == "pull line"]
    return min((line.rope_m / facts.height_m for line in pulls), default=None)


def _in_class(conductor: Conductor, rule: Rule) -> bool:
    when, kv = rule.when, conductor.voltage_kv
    if kv is None:
        return when.kv_unknown
    if when.kv_unknown:
        return False
    return (when.over_kv is None or kv > when.over_kv) and (
        when.upto_kv is None or kv <= when.upto_kv
    )


def _line_clearance(rule: Rule, facts: PlanFacts) -> float | None:
    """Room between the tree laid toward the nearest live conductor of the class and it [m]."""
    if facts.height_m is None:
        return None
    near = (c.distance_m for c in facts.live_conductors if _in_class(c, rule))
    nearest = min(near, default=None)
    return None if nearest is None else nearest - facts.height_m


def _line_reach(_: Rule, facts: PlanFacts) -> float | None:
    """Nearest live conductor in tree lengths; two where the look says none stands nearer."""
    if facts.height_m is None:
        return None
    nearest = min((c.distance_m for c in facts.live_conductors), default=None)
    if nearest is not None:
        return nearest / facts.height_m
    clear = facts.tree.look.no_conductor_in_reach
    return limits.RING_LENGTHS.value if clear else None


FIGURES: Mapping[str, Callable[[Rule, PlanFacts], float | None]] = MappingProxyType(
    {
        "notch_share": _notch_share,
        "notch_opening": lambda _, f: None if f.cut is None else f.cut.opening_rad,
        "hinge": lambda _, f: None if f.cut is None else f.cut.hinge_m,
        "hinge_share": _hinge_share,
        "hinge_length_share": _hinge_length_share,
        "step": lambda _, f: None if f.cut is None else f.cut.step_m,
        "step_share": _step_share,
        "lever_most": _lever_diameter,
        "ways_out": lambda _, f: f.tree.look.ways_out,
        "line_strength": _line_strength,
        "rope_lengths": _rope_lengths,
        "line_clearance": _line_clearance,
        "line_reach": _line_reach,
    }
)
"""Subject -> the plan's figure for it; None where it cannot be told."""


def _ring(rule: Rule, facts: PlanFacts) -> bool | None:
    """Whether the ring that was looked at, two tree lengths, reaches as far as the rule asks."""
    if facts.tree.look.ring_clear is not True:
        return None if facts.tree.look.ring_clear is None else False
    lengths = limits.RING_LENGTHS.value
    if rule.subject == "ring_metres":
        reach = math.nan if facts.height_m is None else lengths * facts.height_m
    else:
        reach = lengths
    return True if rule.low is not None and reach >= rule.low else None


def _wedges_ready(rule: Rule, facts: PlanFacts) -> bool | None:
    """Count hand wedges that may be driven; whether other kinds count as wedges is left open."""
    if facts.cut is None or rule.low is None:
        return None
    # Two devices that work as one stand in the list a second time.
    single = [d for d in facts.devices if d.driven is None or not d.driven.joined]
    hand = [device for device in single if device.kind == "hand wedge"]
    sure = sum(d.driven.device.stacked or 1 for d in hand if d.driven is not None)
    if sure >= rule.low:
        return True
    # Of a hand wedge that is ruled out it is not known how many stand in its stack.
    stack_unknown = any(device.driven is None for device in hand)
    others = sum(device.kind in WEDGES for device in single) - len(hand)
    return None if stack_unknown or sure + others >= rule.low else False


def _wedge_used(_: Rule, facts: PlanFacts) -> bool | None:
    if facts.driven is not None and facts.driven.kind in WEDGES:
        return True
    in_van = any(device.kind in WEDGES for device in facts.devices)
    return None if in_van or facts.cut is None else False


def _wedge_driver(_: Rule, facts: PlanFacts) -> bool | None:
    """Whether a hand wedge stands ready that a hammer in the van drives."""
    struck = any(d.driven is not None and d.driven.drive.hammer_kg for d in facts.devices)
    return True if struck else None


def _dead_tree_wedging(_: Rule, facts: PlanFacts) -> bool | None:
    """A struck wedge breaks it; whether a turned one shakes too little is left open."""
    if facts.cut is None:
        return None
    if facts.driven is None or facts.verdict == LINE:
        return True
    return False if facts.driven.kind == "hand wedge" else None


def _struck_wedge(_: Rule, facts: PlanFacts) -> bool | None:
    if facts.cut is None:
        return None
    return facts.driven is None or facts.driven.kind != "hand wedge"


def _back_cut_above(_: Rule, facts: PlanFacts) -> bool | None:
    """Whether the back cut lies above the notch; an open face or a pulled tree needs no step."""
    cut = facts.cut
    if cut is None:
        return None
    if facts.lines or notch_fits("open face", cut.opening_rad):
        return True
    return None if cut.step_m is None else cut.step_m > 0.0


def _aid_at_hand(_: Rule, facts: PlanFacts) -> bool | None:
    return True if any(device.driven is not None for device in facts.devices) else None


def _wind(_: Rule, facts: PlanFacts) -> bool | None:
    given = facts.tree.day.gust_m_s is not None
    return True if given and facts.verdict not in (None, LEAVE) else None


def _no_hand_felling(_: Rule, facts: PlanFacts) -> bool | None:
    """A lodged crown or tree, or no way out, bars hand felling."""
    look = facts.tree.look
    if facts.is_hung or look.ways_out == 0:
        return False
    return True if look.clear_overhead and look.ways_out else None


def _has_cut(_: Rule, facts: PlanFacts) -> bool | None:
    return None if facts.cut is None else True


ANSWERS: Mapping[str, Callable[[Rule, PlanFacts], bool | None]] = MappingProxyType(
    {
        "ring": _ring,
        "ring_metres": _ring,
        "wedges_ready": _wedges_ready,
        "wedge_used": _wedge_used,
        "wedge_driver": _wedge_driver,
        "dead_tree_wedging": _dead_tree_wedging,
        "struck_wedge": _struck_wedge,
        "back_cut_above": _back_cut_above,
        "forward_leaner_cut": lambda _, f: None if f.cut is None else f.cut.method == HINGE_FIRST,
        "hinge_left": _has_cut,
        "notch_needed_over": _has_cut,
        "aid_at_hand": _aid_at_hand,
        "wedge_or_rope": _aid_at_hand,
        "wind": _wind,
        "no_hand_felling": _no_hand_felling,
    }
)
"""Subject -> whether a plan keeps it; None where it cannot be told."""
