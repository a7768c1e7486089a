"""The cut that the tool proposes, kept within what a practice profile asks where it can be."""

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from fellwright.planning import limits
from fellwright.tables.practice_subjects import GUIDANCE, LAW
from fellwright.tables.profiles import Profile, Rule, When

__all__ = [
    "OPEN_FACE_RAD",
    "Proposal",
    "Stem",
    "diameter_fits",
    "notch_fits",
    "proposal_for",
    "share_within",
]

OPEN_FACE_RAD = math.radians(70.0)
"""SEEN: a notch of at least 70 degrees is an open face, [OSHA-eTool] kinds of notches."""
MM_PER_M = 1000.0
NEARLY = 1e-9


@dataclass(frozen=True, slots=True)
class Stem:
    """Diameters that rules refer to [m]: stump over bark, and breast height where it was read."""

    stump_m: float
    dbh_m: float | None

    def diameter_m(self, of: str) -> float | None:
        """Diameter that a rule names [m]."""
        return self.stump_m if of == "stump" else self.dbh_m


@dataclass(frozen=True, slots=True)
class Proposal:
    """Notch share of the stump, opening [rad], hinge [m] and step [m] that are proposed."""

    notch_share: float
    opening_rad: float
    hinge_m: float
    step_m: float


def proposal_for(profile: Profile | None, stump_m: float, dbh_m: float | None) -> Proposal:
    """Propose a cut: the tool's own, moved as little as a profile asks.

    Law comes first, then guidance as far as law leaves room; what is only recalled moves nothing.
    A figure that is printed as 'about' is taken as it stands.

    Parameters
    ----------
    profile : Profile or None
        The profile chosen; without one the tool's own figures stand.
    stump_m : float
        Stump over bark in the fall axis [m].
    dbh_m : float or None
        Diameter at breast height [m].

    Returns
    -------
    Proposal
        Share of the stump, angle [rad] and lengths [m].
    """
    stem = Stem(stump_m, dbh_m)
    own_rad = math.radians(limits.NOTCH_OPENING_DEG.value)
    window = _Window(profile, stem, own_rad)
    opening = window.hold(own_rad, {"notch_opening": lambda _: 1.0})
    window = _Window(profile, stem, opening)
    sizes = {"hinge": lambda _: 1.0, "hinge_share": window.diameter_m}
    steps = {"step": lambda _: 1.0, "step_share": window.diameter_m}
    own_hinge_mm = min(
        round(MM_PER_M * limits.HINGE_SHARE.value * stump_m), limits.HINGE_MOST_MM.value
    )
    hinge_m = window.hold(own_hinge_mm / MM_PER_M, sizes)
    return Proposal(
        notch_share=share_within(profile, limits.NOTCH_SHARE.value, stump_m, dbh_m),
        opening_rad=opening,
        hinge_m=_whole_mm(hinge_m, own_hinge_mm) / MM_PER_M,
        step_m=window.hold(limits.STEP_MM.value / MM_PER_M, steps),
    )


def share_within(
    profile: Profile | None, notch_share: float, stump_m: float, dbh_m: float | None
) -> float:
    """Notch share of the stump, moved into what a profile asks.

    Parameters
    ----------
    profile : Profile or None
        The profile chosen.
    notch_share : float
        Share that is wanted.
    stump_m, dbh_m : float, float or None
        Diameters [m].

    Returns
    -------
    float
        The same share where the profile says nothing against it.
    """
    window = _Window(profile, Stem(stump_m, dbh_m), math.radians(limits.NOTCH_OPENING_DEG.value))

    def stump_shares(rule: Rule) -> float | None:
        diameter = window.diameter_m(rule)
        return None if diameter is None else diameter / stump_m

    return window.hold(notch_share, {"notch_share": stump_shares})


def diameter_fits(when: When, stem: Stem) -> bool | None:
    """Whether a rule's diameters take a stem in; None where the diameter was not read."""
    if when.over_m is None and when.upto_m is None:
        return True
    diameter = stem.diameter_m(when.diameter_of)
    if diameter is None:
        return None
    over = when.over_m is None or diameter > when.over_m
    return over and (when.upto_m is None or diameter <= when.upto_m)


def notch_fits(case: str, opening_rad: float) -> bool | None:
    """Whether a notch is of the kind a case names; None where the case is about something else."""
    is_open = opening_rad >= OPEN_FACE_RAD * (1.0 - NEARLY)
    kinds = {"open face": is_open, "conventional notch": not is_open, "reverse notch": False}
    return kinds.get(case)


@dataclass(frozen=True, slots=True)
class _Window:
    """What the rules of a profile leave of one figure, for a stem and a notch opening [rad]."""

    profile: Profile | None
    stem: Stem
    opening_rad: float

    def diameter_m(self, rule: Rule) -> float | None:
        """Diameter of which a rule takes its share [m]."""
        return self.stem.diameter_m(rule.of)

    def hold(self, own: float, scales: Mapping[str, Callable[[Rule], float | None]]) -> float:
        """Move a figure into the window; a rule that leaves no room beside the earlier is skipped.

        ``scales`` maps subjects to what turns their bounds into the unit of the figure.
        """
        low, high = 0.0, math.inf
        for rule in self._ruling():
            scale = scales[rule.subject](rule) if rule.subject in scales else None
            if scale is None:
                continue
            least, most = _ends(rule)
            new_low, new_high = max(low, scale * least), min(high, scale * most)
            if new_low <= new_high * (1.0 + NEARLY):
                low, high = new_low, new_high
        return min(max(own, low), high)

    def _ruling(self) -> list[Rule]:
        rules = () if self.profile is None else self.profile.rules
        return [
            rule
            for force in (LAW, GUIDANCE)
            for rule in rules
            if rule.force == force and rule.mark != "MEMORY" and self._applies(rule)
        ]

    def _applies(self, rule: Rule) -> bool:
        cases = all(notch_fits(case, self.opening_rad) for case in rule.when.cases)
        return cases and diameter_fits(rule.when, self.stem) is True


def _ends(rule: Rule) -> tuple[float, float]:
    if rule.about is not None:
        return rule.about, rule.about
    return rule.low or 0.0, math.inf if rule.high is None else rule.high


def _whole_mm(length_m: float, own_mm: float) -> float:
    """Whole millimetres on the side of the window: up where it was raised, down where lowered."""
    length_mm = MM_PER_M * length_m
    if length_mm > own_mm:
        return float(math.ceil(length_mm * (1.0 - NEARLY)))
    return float(math.floor(length_mm * (1.0 + NEARLY)))
