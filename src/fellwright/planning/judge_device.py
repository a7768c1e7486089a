"""One device on one tree: which limit stops it, and whether it adds up or is tight."""

from collections.abc import Sequence
from dataclasses import dataclass

from fellwright.physics.reliability import quantile
from fellwright.planning.chance import Doubt, doubt
from fellwright.planning.device_draw import DeviceDraw
from fellwright.planning.device_kinds import KINDS, range_cap
from fellwright.planning.drive_train import Driven
from fellwright.planning.limits import JOINT_SHARE, PUSH_MARGIN, TIGHT_PUSH_SHARE
from fellwright.planning.need import Need
from fellwright.planning.reasons import ADDS_UP, LEAVE, TIGHT, Reason, because
from fellwright.words import say

__all__ = [
    "DeviceOutcome",
    "DeviceTally",
    "NeedSummary",
    "judge_device",
    "ruled_out",
    "summarise_need",
    "tally_draws",
]

LEAST_SHARE = 0.5


@dataclass(frozen=True, slots=True)
class NeedSummary:
    """Quantiles of what the devices are held against, SI units."""

    balance_lift_m: Doubt
    let_go_lift_m: Doubt
    push_n: Doubt
    push_p75_n: float


@dataclass(frozen=True, slots=True)
class DeviceTally:
    """One device over all draws: doubts [SI] and, by name, the share of draws that pass a check."""

    usable_lift_m: Doubt
    available_n: Doubt
    drive_n: Doubt
    bearing_n: Doubt
    room_m: Doubt
    joint_share: float
    shares: dict[str, float]


@dataclass(frozen=True, slots=True)
class DeviceOutcome:
    """How one device does: figures [SI], its limits, the one that governs, verdict and reasons."""

    name: str
    kind: str
    mass_kg: float | None
    driven: Driven | None
    usable_lift_m: Doubt | None
    available_n: Doubt | None
    limits_n: dict[str, float]
    room_m: float | None
    limit: str
    verdict: str
    reasons: tuple[Reason, ...]
    joint_share: float
    lift_margin: float


def summarise_need(needs: Sequence[Need]) -> NeedSummary:
    """Quantiles of the checked need of many draws."""
    push = sorted(n.checked_push_n for n in needs)
    return NeedSummary(
        doubt([n.checked_balance_lift_m for n in needs]),
        doubt([n.checked_let_go_lift_m for n in needs]),
        Doubt(quantile(push, 0.1), quantile(push, 0.5), quantile(push, 0.9)),
        quantile(push, TIGHT_PUSH_SHARE.value),
    )


def ruled_out(name: str, kind: str, mass_kg: float | None, reason: Reason) -> DeviceOutcome:
    """Outcome of a device that cannot be driven at all."""
    return DeviceOutcome(
        name, kind, mass_kg, None, None, None, {}, None, reason.code, LEAVE, (reason,), 0.0, 0.0
    )


def tally_draws(draws: Sequence[DeviceDraw], needs: Sequence[Need]) -> DeviceTally:
    """Quantiles and shares of a device's draws on the same draws of the tree."""
    count = len(draws)
    pairs = list(zip(draws, needs, strict=True))
    return DeviceTally(
        doubt([d.usable_lift_m for d in draws]),
        doubt([d.available_n for d in draws]),
        doubt([d.drive_n for d in draws]),
        doubt([d.bearing_n for d in draws]),
        doubt([d.room_m for d in draws]),
        sum(d.adds_up for d in draws) / count,
        {
            "room": sum(d.room_m >= 0.0 for d in draws) / count,
            "expulsion": sum(d.holds for d in draws) / count,
            "seat": sum(d.seat_ratio <= 1.0 for d in draws) / count,
            "let_go": sum(d.usable_lift_m >= n.checked_let_go_lift_m for d, n in pairs) / count,
            "balance": sum(d.balances for d in draws) / count,
            "push": sum(d.available_n >= n.checked_push_n for d, n in pairs) / count,
        },
    )


def judge_device(driven: Driven, tally: DeviceTally, need: NeedSummary) -> DeviceOutcome:
    """Turn the tally of one device into its verdict and reasons.

    Parameters
    ----------
    driven : Driven
        The device with its drive.
    tally : DeviceTally
        Its quantiles and shares on this tree.
    need : NeedSummary
        Quantiles of what the tree asks for.

    Returns
    -------
    DeviceOutcome
        Verdict of the device alone; what the tree itself forbids comes on top.
    """
    usable, available, room = tally.usable_lift_m, tally.available_n, tally.room_m.p50
    kind = KINDS[driven.device.kind]
    limits_n = {
        "rated": driven.figures.rated_n,
        kind.drive_limit: tally.drive_n.p50,
        kind.wood_limit: tally.bearing_n.p50,
    }
    weakest = min(limits_n, key=lambda name: limits_n[name])
    texts = _Texts(driven.device.name, need, usable, available, weakest, room)
    hard = _tight_failures(tally.shares, available, need, texts)
    soft = [] if hard else _adds_up_failures(tally, need, texts)
    if not hard and not soft:
        capped = range_cap(driven, available.p10, need.push_n.p90)
        soft = [] if capped is None else [capped]
    verdict = LEAVE if hard else TIGHT if soft else ADDS_UP
    reasons = tuple(hard or soft)
    lift_margin = usable.p50 / need.let_go_lift_m.p50 if need.let_go_lift_m.p50 > 0.0 else 99.0
    push_margin = (
        available.p50 / need.push_n.p50 / PUSH_MARGIN.value if need.push_n.p50 > 0.0 else 99.0
    )
    if reasons:
        limit = weakest if reasons[0].code == "push" else reasons[0].code
    else:
        limit = "lift" if lift_margin <= push_margin else weakest
        reasons = (texts.lift(),) if limit == "lift" else (texts.push(),)
    return DeviceOutcome(
        driven.device.name,
        driven.device.kind,
        driven.device.mass_kg,
        driven,
        usable,
        available,
        limits_n,
        room,
        limit,
        verdict,
        reasons,
        tally.joint_share,
        min(lift_margin, push_margin),
    )


@dataclass(frozen=True, slots=True)
class _Texts:
    """Sentences about one device, from its figures."""

    name: str
    need: NeedSummary
    usable: Doubt
    available: Doubt
    weakest: str
    room_m: float

    def lift(self) -> Reason:
        lift = self.need.let_go_lift_m
        return because("lift", name=self.name, gives=self.usable.p50, asks=lift.p50, to=lift.p90)

    def balance(self) -> Reason:
        lift = self.need.balance_lift_m
        sentence = say("reason.balance", name=self.name, gives=self.usable.p50, asks=lift.p90)
        return Reason("lift", sentence)

    def push(self) -> Reason:
        return because(
            "push",
            name=self.name,
            gives=self.available.p50,
            cause=say(f"limit.{self.weakest}_cause"),
            asks=self.need.push_n.p50,
            to=self.need.push_n.p90,
        )

    def other(self, code: str) -> Reason:
        if code == "room":
            return because("room", name=self.name, lacks=-self.room_m)
        return because(code, name=self.name)


def _tight_failures(
    shares: dict[str, float], available: Doubt, need: NeedSummary, texts: _Texts
) -> list[Reason]:
    """What keeps a device from TIGHT, the plainest first."""
    found = [texts.other(code) for code in ("room", "expulsion") if not shares[code] >= LEAST_SHARE]
    if not shares["let_go"] >= LEAST_SHARE:
        found.append(texts.lift())
    elif not shares["balance"] >= JOINT_SHARE.value:
        found.append(texts.balance())
    if not available.p50 >= need.push_p75_n:
        found.append(texts.push())
    if not shares["seat"] >= LEAST_SHARE:
        found.append(texts.other("seat"))
    return found


def _adds_up_failures(tally: DeviceTally, need: NeedSummary, texts: _Texts) -> list[Reason]:
    """What keeps a device from ADDS UP, the weakest share first."""
    shares = tally.shares
    found: list[tuple[float, Reason]] = []
    if not tally.joint_share >= JOINT_SHARE.value:
        found.append((shares["let_go"], texts.lift()))
        found.append((shares["push"], texts.push()))
        found += [
            (shares[code], texts.other(code))
            for code in ("expulsion", "seat")
            if shares[code] < JOINT_SHARE.value
        ]
    elif not tally.available_n.p50 >= PUSH_MARGIN.value * need.push_n.p50:
        found.append((0.0, texts.push()))
    found.sort(key=lambda pair: pair[0])
    worst = [reason for share, reason in found if share < JOINT_SHARE.value]
    return worst or [reason for _, reason in found[:1]]
