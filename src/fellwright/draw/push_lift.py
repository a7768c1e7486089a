"""Push against lift: what the tree asks for on the way, and where each device ends."""

from typing import NamedTuple

from fellwright.draw.body import MEDIAN
from fellwright.draw.lettering import BODY, LEAST, shorten, text_width_mm
from fellwright.draw.page import LEFT, RIGHT, Page, refusal
from fellwright.draw.scales import Axis, axis_to, force_unit, lift_unit, tick_text
from fellwright.draw.svg import DASHED, FINE, GRID, HAIR, HEAVY, Letters, Pen, Spot
from fellwright.physics.balance import lift_m, rotation_of_lift_rad, set_back_m
from fellwright.physics.tipping import resisting_moment_n_m, solve_tipping
from fellwright.planning.judge_device import DeviceOutcome
from fellwright.planning.need import Situation, draw_body, draw_hinge, draw_wood
from fellwright.planning.plan import Plan
from fellwright.words import Style, say

__all__ = ["Curve", "Plot", "draw_push_lift", "plot", "push_curve"]

SAMPLES = 160
PLOT_LEFT = LEFT + 18.0
PLOT_RIGHT = RIGHT - 4.0
PLOT_HEIGHT = 78.0
LEVEL = 4.8
HEADROOM = 1.08
TALLEST = 2.2
"""The push axis reaches this many times the curve's peak: stronger devices point over the edge."""


class Curve(NamedTuple):
    """Push against lift at the median of every reading: lifts [m] and pushes [N]."""

    lifts_m: tuple[float, ...]
    pushes_n: tuple[float, ...]
    balance_m: float
    let_go_m: float
    peak_lift_m: float
    peak_n: float


class Plot(NamedTuple):
    """Axes of the plot and where it stands on the page [mm]."""

    lift: Axis
    push: Axis
    top: float
    bottom: float

    def spot(self, at_m: float, push_n: float) -> Spot:
        """Put a lift and a push on the page."""
        return Spot(
            PLOT_LEFT + (PLOT_RIGHT - PLOT_LEFT) * self.lift.share(at_m),
            self.bottom - (self.bottom - self.top) * self.push.share(push_n),
        )


def push_curve(situation: Situation) -> Curve | None:
    """Work the push out from lift to lift.

    Parameters
    ----------
    situation : Situation
        The tree; its gust as entered.

    Returns
    -------
    Curve or None
        None where the tree needs no push at all.
    """
    body = draw_body(MEDIAN, situation)
    hinge = draw_hinge(MEDIAN, situation)
    law = draw_wood(MEDIAN, situation, hinge).law
    behind = set_back_m(hinge.wood_m, hinge.notch_m, hinge.thickness_m, body.back_m)
    wind = situation.wind_forward_n_m
    tipping = solve_tipping(body.weight_n, behind, body.height_m, wind, law, situation.closing_rad)
    if tipping.push_moment_n_m <= 0.0:
        return None
    lever = hinge.lever_m
    let_go = lift_m(lever, tipping.let_go_rad)
    lifts = [let_go * i / SAMPLES for i in range(SAMPLES + 1)]
    lifts = sorted({*lifts, lift_m(lever, tipping.push_rad)})
    pushes = [
        max(
            0.0,
            resisting_moment_n_m(
                rotation_of_lift_rad(lever, lift), body.weight_n, behind, body.height_m, wind, law
            ),
        )
        / lever
        for lift in lifts
    ]
    return Curve(
        tuple(lifts),
        tuple(pushes),
        lift_m(lever, tipping.balance_rad),
        let_go,
        lift_m(lever, tipping.push_rad),
        tipping.push_moment_n_m / lever,
    )


def _devices(plan: Plan) -> list[DeviceOutcome]:
    """Devices with figures, in the order of their lift; none where nothing may be cut."""
    if plan.outcome is None or not plan.may_cut or not plan.drives_device:
        return []
    shown = [d for d in plan.outcome.devices if d.usable_lift_m and d.available_n]
    return sorted(shown, key=lambda d: d.usable_lift_m.p50 if d.usable_lift_m else 0.0)


def plot(plan: Plan, style: Style, curve: Curve, top: float) -> Plot:
    """Choose axes that show the curve large and every device's lift.

    Parameters
    ----------
    plan : Plan
        The plan.
    style : Style
        Units.
    curve : Curve
        The curve.
    top : float
        Upper edge of the plot [mm].

    Returns
    -------
    Plot
        Both axes start at 0.
    """
    assert plan.outcome is not None
    lifts = [curve.let_go_m, plan.outcome.figures.let_go_lift_m.p90]
    lifts += [d.usable_lift_m.p50 for d in _devices(plan) if d.usable_lift_m]
    tallest = max(TALLEST * curve.peak_n, HEADROOM * plan.outcome.figures.push_n.p90)
    return Plot(
        axis_to(HEADROOM * max(lifts), lift_unit(style), 7),
        axis_to(tallest, force_unit(style), 6),
        top,
        top + PLOT_HEIGHT,
    )


def draw_push_lift(plan: Plan, style: Style) -> str:
    """Draw push against lift with balance, let-go and where each device ends.

    Parameters
    ----------
    plan : Plan
        The plan.
    style : Style
        Language and units.

    Returns
    -------
    str
        SVG. Where nothing may be cut, the need alone; where no push is needed, it says so.
    """
    subject = say("pictures.push_lift_subject")
    if plan.situation is None or plan.outcome is None:
        return refusal(plan, style, subject, say("pictures.no_figures"))
    curve = push_curve(plan.situation)
    if curve is None:
        return refusal(plan, style, subject, say("pictures.no_push"))
    page = Page(plan, style, subject)
    devices = _devices(plan)
    area = plot(plan, style, curve, page.y + 7.0 + LEVEL * len(devices))
    _draw_axes(page, area)
    _draw_doubt(page, plan, area)
    lefts = _draw_devices(page, area, devices)
    _draw_push_name(page, area, lefts)
    _draw_curve(page, area, curve)
    page.y = area.bottom + 17.0
    page.paragraph(say("pictures.curve_read"), size=LEAST)
    if devices:
        page.paragraph(say("pictures.ends_read"), size=LEAST)
    page.y += 1.5
    if not plan.may_cut:
        page.paragraph(say("pictures.no_cut"), bold=True)
        page.reasons()
    page.conditions()
    return page.finish(
        say(
            "pictures.push_lift_told",
            push=curve.peak_n,
            lift=curve.peak_lift_m,
            let_go=curve.let_go_m,
        )
    )


def _draw_axes(page: Page, area: Plot) -> None:
    canvas = page.canvas
    for tick in area.lift.ticks:
        at = area.spot(tick / area.lift.unit.per_si, 0.0)
        canvas.line(Spot(at.x, area.top), at, GRID)
        canvas.line(at, Spot(at.x, at.y + 1.4), FINE)
        text = tick_text(tick, page.style)
        canvas.text(Spot(at.x, at.y + 5.4), text, Letters(BODY, "middle"))
    for tick in area.push.ticks:
        at = area.spot(0.0, tick / area.push.unit.per_si)
        canvas.line(at, Spot(PLOT_RIGHT, at.y), GRID)
        canvas.line(Spot(at.x - 1.4, at.y), at, FINE)
        text = tick_text(tick, page.style)
        canvas.text(Spot(at.x - 4.6, at.y + 1.3), text, Letters(BODY, "end"))
    origin = area.spot(0.0, 0.0)
    canvas.line(origin, Spot(PLOT_RIGHT, origin.y), Pen(0.5))
    canvas.line(origin, Spot(origin.x, area.top), Pen(0.5))
    word = page.write(say("pictures.lift_axis", unit=area.lift.unit.sign))
    canvas.text(Spot(PLOT_RIGHT, area.bottom + 14.2), word, Letters(BODY, "end", bold=True))


def _draw_doubt(page: Page, plan: Plan, area: Plot) -> None:
    """Bands from P10 to P90 beside the axes: let-go under the lift, the push left of it."""
    assert plan.outcome is not None
    lift, push = plan.outcome.figures.let_go_lift_m, plan.outcome.figures.push_n
    low, high = area.spot(lift.p10, 0.0), area.spot(lift.p90, 0.0)
    y = area.bottom + 7.6
    page.canvas.box(Spot(low.x, y), Spot(high.x, y + 2.2), Pen(0.3, fill="slope"), name="let-go")
    middle = area.spot(lift.p50, 0.0).x
    page.canvas.line(Spot(middle, y), Spot(middle, y + 2.2), HEAVY)
    bottom, top = area.spot(0.0, push.p10), area.spot(0.0, push.p90)
    x = PLOT_LEFT - 4.0
    page.canvas.box(Spot(x, bottom.y), Spot(x + 2.2, top.y), Pen(0.3, fill="slope"), name="push")
    middle = area.spot(0.0, push.p50).y
    page.canvas.line(Spot(x, middle), Spot(x + 2.2, middle), HEAVY)


def _draw_curve(page: Page, area: Plot, curve: Curve) -> None:
    canvas = page.canvas
    spots = [area.spot(x, y) for x, y in zip(curve.lifts_m, curve.pushes_n, strict=True)]
    canvas.path(spots, Pen(0.9), name="curve")
    peak = area.spot(curve.peak_lift_m, curve.peak_n)
    canvas.circle(peak, 1.1, Pen(0.4, fill="paper"), name="peak")
    marks = [("pictures.let_go", curve.let_go_m, Pen(0.6), "let-go")]
    if curve.balance_m > 0.0:
        marks.insert(0, ("pictures.balance", curve.balance_m, DASHED, "balance"))
    tallest = area.spot(0.0, curve.peak_n).y
    before = PLOT_LEFT
    for row, (key, at_m, pen, name) in enumerate(marks):
        foot = area.spot(at_m, 0.0)
        head = tallest - 5.0 - 5.5 * (len(marks) - 1 - row)
        canvas.line(foot, Spot(foot.x, head), pen, name=name)
        words = page.write(say(key))
        width = text_width_mm(words, BODY)
        # A name stands left of its line, unless the axis or the line before it is in the way.
        anchor = "end" if foot.x - width - 2.0 > before else "start"
        before = foot.x if foot.x + width + 2.0 < PLOT_RIGHT else PLOT_LEFT
        side = -1.2 if anchor == "end" else 1.2
        canvas.text(Spot(foot.x + side, head + 2.6), words, Letters(BODY, anchor, ground=True))


def _draw_devices(page: Page, area: Plot, devices: list[DeviceOutcome]) -> list[float]:
    """A corner where each device ends, with a line up to its name; the least lift lowest.

    Returns where each name begins, from the lowest up.
    """
    canvas = page.canvas
    names: list[tuple[Spot, str]] = []
    lefts: list[float] = []
    for row, device in enumerate(devices):
        assert device.usable_lift_m is not None
        assert device.available_n is not None
        lift, push = device.usable_lift_m.p50, device.available_n.p50
        is_over = area.push.share(push) > 1.0
        end = area.spot(lift, push)
        level = area.top - 3.6 - LEVEL * row
        if is_over:
            canvas.line(area.spot(lift, 0.0), Spot(end.x, area.top), FINE, name="device")
            canvas.arrow(Spot(end.x, area.top + 5.0), Spot(end.x, area.top), Pen(0.5))
            canvas.line(Spot(end.x, area.top), Spot(end.x, level), HAIR)
        else:
            canvas.line(area.spot(lift, 0.0), end, FINE, name="device")
            canvas.line(area.spot(0.0, push), end, FINE)
            canvas.line(end, Spot(end.x, level), Pen(0.18, "0.8 0.8"))
            size = 1.4
            corner = Spot(end.x - size, end.y - size)
            fill = Pen(0.4, fill="ink")
            canvas.box(corner, Spot(end.x + size, end.y + size), fill, name="device-end")
        names.append((Spot(end.x, level), _device_words(page, device, lift, push)))
    for at, words in names:
        text = shorten(words, RIGHT - LEFT, LEAST)
        width = text_width_mm(text, LEAST)
        x = max(at.x - 1.0, LEFT + width)
        canvas.text(Spot(x, at.y + 1.0), text, Letters(LEAST, "end", ground=True))
        lefts.append(x - width)
    return lefts


def _draw_push_name(page: Page, area: Plot, lefts: list[float]) -> None:
    """Name the push axis over its end, above any device's name that is in the way."""
    words = page.write(say("pictures.push_axis", unit=area.push.unit.sign))
    right = LEFT + text_width_mm(words, BODY, bold=True) + 2.0
    in_the_way = [row for row, left in enumerate(lefts) if left < right]
    row = in_the_way[-1] + 1 if in_the_way else 0
    at = Spot(LEFT, area.top - 2.8 - LEVEL * row)
    page.canvas.text(at, words, Letters(BODY, bold=True))


def _device_words(page: Page, device: DeviceOutcome, lift: float, push: float) -> str:
    name = shorten(device.name, 40.0, LEAST)
    return page.write(say("pictures.device_end", name=name, lift=lift, push=push))
