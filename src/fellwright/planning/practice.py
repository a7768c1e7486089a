"""A plan held against a practice profile: what is kept, what is broken, what to check oneself."""

from dataclasses import dataclass, replace

from fellwright.planning.plan import Plan
from fellwright.planning.practice_checks import ANSWERS, FIGURES, is_outside
from fellwright.planning.practice_facts import PlanFacts, applies, facts_of
from fellwright.planning.reasons import LEAVE, Reason
from fellwright.tables.practice_subjects import CONFLICT, LAW, NOTE, THRESHOLDS
from fellwright.tables.profiles import Profile, Rule
from fellwright.words import Text, say

__all__ = [
    "BROKEN",
    "CANNOT_TELL",
    "KEPT",
    "RECALLED",
    "PracticeFinding",
    "apply_profile",
    "breaks_law",
    "check_practice",
    "profile_title",
]

KEPT = "kept"
BROKEN = "broken"
CANNOT_TELL = "cannot tell"
RECALLED = "memory"

TITLES = {
    "alberta": "practice.profile_alberta",
    "british-columbia": "practice.profile_british_columbia",
    "general": "practice.profile_general",
    "germany": "practice.profile_germany",
    "michigan": "practice.profile_michigan",
    "new-brunswick": "practice.profile_new_brunswick",
    "oregon": "practice.profile_oregon",
    "quebec": "practice.profile_quebec",
    "sweden": "practice.profile_sweden",
    "switzerland": "practice.profile_switzerland",
    "united-kingdom": "practice.profile_united_kingdom",
    "us-federal": "practice.profile_us_federal",
    "washington": "practice.profile_washington",
}
"""Profile that ships with the package -> its title in every language."""


@dataclass(frozen=True, slots=True)
class PracticeFinding:
    """One rule held against a plan: broken, kept, or None where the plan cannot tell."""

    rule: Rule
    broken: bool | None
    text: Text

    @property
    def status(self) -> str:
        """One of `kept`, `broken`, `cannot tell` and, whatever it says, `memory`."""
        if self.rule.mark == "MEMORY":
            return RECALLED
        if self.broken is None:
            return CANNOT_TELL
        return BROKEN if self.broken else KEPT

    @property
    def bars(self) -> bool:
        """Whether it bars the plan: a law that was read, and broken."""
        return self.broken is True and self.rule.bars


def check_practice(plan: Plan, profile: Profile) -> tuple[PracticeFinding, ...]:
    """Hold every rule of a profile that applies against a plan.

    Parameters
    ----------
    plan : Plan
        The plan, before or after `apply_profile`.
    profile : Profile
        The profile chosen.

    Returns
    -------
    tuple of PracticeFinding
        In the order of the profile; rules that do not apply are left out.
    """
    facts = facts_of(plan)
    findings = (_finding(rule, facts, profile) for rule in profile.rules)
    return tuple(finding for finding in findings if finding is not None)


def breaks_law(plan: Plan, profile: Profile) -> bool:
    """Whether a plan breaks a law of a profile; for advice that must not do so."""
    return any(finding.bars for finding in check_practice(plan, profile))


def apply_profile(plan: Plan, profile: Profile) -> Plan:
    """Lay a profile on a plan: a broken law bars it, everything else that is open is a caution.

    Parameters
    ----------
    plan : Plan
        The plan.
    profile : Profile
        The profile chosen.

    Returns
    -------
    Plan
        Never bolder than before. With a broken law: LEAVE with the law first, no marks.
    """
    findings = check_practice(plan, profile)
    laws = tuple(Reason("law", finding.text) for finding in findings if finding.bars)
    cautions = (*plan.cautions, *_cautions(findings))
    if not laws:
        return replace(plan, cautions=cautions)
    if not plan.may_cut:
        reasons = (*plan.reasons, *laws)
        return replace(plan, reasons=reasons, if_clear=LEAVE, marks=None, cautions=cautions)
    return replace(
        plan,
        verdict=LEAVE,
        reasons=(*laws, *plan.reasons),
        if_clear=LEAVE,
        marks=None,
        envelope=None,
        cautions=cautions,
    )


def _cautions(findings: tuple[PracticeFinding, ...]) -> list[Reason]:
    """Cautions of what bars nothing: broken guidance first, then law and guidance to be checked."""
    open_ones = [f for f in findings if not f.bars and f.status != KEPT]
    order = {BROKEN: 0, CANNOT_TELL: 1, RECALLED: 3}
    open_ones.sort(key=lambda f: (order[f.status], f.rule.force != LAW))
    return [Reason(_code(finding), finding.text) for finding in open_ones]


def _code(finding: PracticeFinding) -> str:
    if finding.rule.force == CONFLICT:
        return "conflict"
    return {BROKEN: "guidance", CANNOT_TELL: "check_yourself", RECALLED: "memory"}[finding.status]


def _finding(rule: Rule, facts: PlanFacts, profile: Profile) -> PracticeFinding | None:
    """Hold one rule against the facts; None where it does not apply."""
    does_apply = applies(rule, facts)
    if does_apply is False or _lacks_conductor(rule, facts):
        return None
    who = {"profile": profile_title(profile), "clause": rule.clause}
    demand = say("practice.check", rule=_demand(rule), **who)
    if rule.force == CONFLICT:
        return PracticeFinding(rule, None, say("practice.conflict", rule=_demand(rule), **who))
    if rule.mark == "MEMORY":
        return PracticeFinding(rule, None, say("practice.recalled", rule=_demand(rule), **who))
    if does_apply is None:
        return PracticeFinding(rule, None, demand)
    if rule.subject in FIGURES:
        return _figure_finding(rule, facts, who) or PracticeFinding(rule, None, demand)
    kept = ANSWERS[rule.subject](rule, facts) if rule.subject in ANSWERS else None
    if kept is None:
        return PracticeFinding(rule, None, demand)
    text = say(
        "practice.kept" if kept else f"practice.not_kept_{rule.force}", rule=_demand(rule), **who
    )
    return PracticeFinding(rule, not kept, text)


def _figure_finding(rule: Rule, facts: PlanFacts, who: dict[str, object]) -> PracticeFinding | None:
    """Hold a figure of the plan against the bounds of a rule; None where there is no figure."""
    value = FIGURES[rule.subject](rule, facts)
    if value is None:
        return None
    broken = is_outside(rule, value)
    have = say(f"practice.have_{rule.subject}", value=_amount(rule, value), of=_of(rule))
    text = say(
        f"practice.broken_{rule.force}" if broken else "practice.within",
        have=have,
        asks=_asks(rule),
        **who,
    )
    return PracticeFinding(rule, broken, text)


def _lacks_conductor(rule: Rule, facts: PlanFacts) -> bool:
    """Whether a clearance by voltage finds no conductor of its class in the readings."""
    if rule.subject != "line_clearance":
        return False
    if not facts.live_conductors:
        return True
    return facts.height_m is not None and FIGURES[rule.subject](rule, facts) is None


def profile_title(profile: Profile) -> Text:
    """Title of a profile: in the catalogue for those that ship, as its file says for others.

    Parameters
    ----------
    profile : Profile
        The profile.

    Returns
    -------
    Text
        Its title.
    """
    key = TITLES.get(profile.name) if profile.is_shipped else None
    return say("practice.profile_own", title=profile.title) if key is None else say(key)


def _demand(rule: Rule) -> Text:
    """What a rule asks, in words of our own."""
    if rule.subject == NOTE:
        return say("practice.note", text=rule.text)
    asks = _asks(rule) if rule.dimension else ""
    return say(f"practice.{rule.subject}", asks=asks, of=_of(rule))


def _of(rule: Rule) -> Text:
    return say(f"practice.of_{rule.of}")


def _asks(rule: Rule) -> Text:
    """Bounds of a rule with their unit."""
    kind = rule.dimension
    low, high = rule.low, rule.high
    if rule.subject in THRESHOLDS:
        return _written(kind, low or high or 0.0)
    if rule.about is not None:
        return say(f"practice.{kind}_about", value=_value(kind, rule.about))
    if high is None:
        return say(f"practice.{kind}_least", low=_value(kind, low or 0.0))
    if not low:
        return say(f"practice.{kind}_most", high=_value(kind, high))
    return say(f"practice.{kind}_between", low=_value(kind, low), high=_value(kind, high))


def _value(kind: str, value: float) -> Text | float:
    """Write metres and diameters as fine as printed, leave the rest to the sentence."""
    return _written(kind, value) if kind in ("distance", "diameter") else value


def _written(kind: str, value: float) -> Text:
    """Write one figure, whole units where it is whole."""
    whole = {"distance": 1.0, "diameter": 0.01}.get(kind)
    fine = whole is not None and abs(value / whole - round(value / whole)) > 0.005
    return say(f"practice.{kind}_fine" if fine else f"practice.{kind}", value=value)


def _amount(rule: Rule, value: float) -> Text:
    """Write a figure of the plan, finer where whole units would hide what breaks the rule."""
    bounds = [bound for bound in (rule.low, rule.high) if bound is not None]
    coarse = _coarse(rule.dimension)
    if any(0.0 < abs(value - bound) < coarse for bound in bounds):
        return say(f"practice.{rule.dimension}_fine", value=value)
    return _written(rule.dimension, value)


def _coarse(dimension: str) -> float:
    """Difference that whole units may hide, in what planning works in."""
    return {"share": 0.01, "angle": 0.018, "size": 0.001}.get(dimension, 0.0)
