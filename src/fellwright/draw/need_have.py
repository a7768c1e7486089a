"""The need-have bars: lift and push that the tree asks for, and what each device gives."""

from collections.abc import Callable
from typing import NamedTuple

from fellwright.draw.lettering import BODY, LEAST, shorten, text_width_mm
from fellwright.draw.page import LEFT, RIGHT, Page, refusal
from fellwright.draw.scales import Axis, Unit, axis_to, force_unit, lift_unit, tick_text
from fellwright.draw.svg import FINE, GRID, HAIR, HEAVY, Letters, Pen, Spot
from fellwright.planning.chance import Doubt
from fellwright.planning.judge_device import DeviceOutcome
from fellwright.planning.plan import Plan
from fellwright.planning.reasons import say_verdict
from fellwright.words import Style, Text, say

__all__ = ["Bars", "Panel", "draw_need_have", "panels"]

NAMES = 35.0
BAR_LEFT = LEFT + NAMES + 2.0
BAR_RIGHT = RIGHT - 3.0
LIMITS_LEFT = LEFT + 26.0
ROW = 7.4
TICKS = 6
HEADROOM = 1.08


class Bars(NamedTuple):
    """What one device gives of one quantity: name, band [SI], whether it was chosen."""

    name: str
    band: Doubt
    is_choice: bool


class Panel(NamedTuple):
    """One quantity: heading, axis, the tree's need, what is given, and how a band is said."""

    heading: Text
    axis: Axis
    need: Doubt
    bars: tuple[Bars, ...]
    says: Callable[[Doubt], Text]

    def x(self, value_si: float) -> float:
        """Place of a value on the page [mm]."""
        return BAR_LEFT + (BAR_RIGHT - BAR_LEFT) * self.axis.share(value_si)


def _devices(plan: Plan) -> tuple[DeviceOutcome, ...]:
    """Devices that may be shown: none where nothing may be cut or nothing is driven."""
    if plan.outcome is None or not plan.may_cut or not plan.drives_device:
        return ()
    return plan.outcome.devices


def _panel(
    plan: Plan, need: Doubt, unit: Unit, pick: Callable[[DeviceOutcome], Doubt | None]
) -> tuple[Axis, tuple[Bars, ...]]:
    choice = None if plan.outcome is None else plan.outcome.choice
    bars = tuple(
        Bars(device.name, band, device is choice)
        for device in _devices(plan)
        if (band := pick(device)) is not None
    )
    most = max([need.p90, *(bar.band.p90 for bar in bars)])
    if most <= 0.0:
        # A tree that asks for nothing still gets an axis to read the nothing from.
        most = 10.0 / unit.per_si
    return axis_to(HEADROOM * most, unit, TICKS), bars


def panels(plan: Plan, style: Style) -> tuple[Panel, ...]:
    """Lay out both quantities.

    Parameters
    ----------
    plan : Plan
        The plan.
    style : Style
        Units.

    Returns
    -------
    tuple of Panel
        Lift and push; empty where the plan has no figures.
    """
    if plan.outcome is None:
        return ()
    lift, push = plan.outcome.figures.let_go_lift_m, plan.outcome.figures.push_n
    lift_axis, lift_bars = _panel(plan, lift, lift_unit(style), lambda d: d.usable_lift_m)
    push_axis, push_bars = _panel(plan, push, force_unit(style), lambda d: d.available_n)
    return (
        Panel(
            say("pictures.lift_heading", unit=lift_axis.unit.sign),
            lift_axis,
            lift,
            lift_bars,
            lambda b: say("pictures.lift_band", p10=b.p10, p50=b.p50, p90=b.p90),
        ),
        Panel(
            say("pictures.push_heading", unit=push_axis.unit.sign),
            push_axis,
            push,
            push_bars,
            lambda b: say("pictures.push_band", p10=b.p10, p50=b.p50, p90=b.p90),
        ),
    )


def draw_need_have(plan: Plan, style: Style) -> str:
    """Draw need as a band and each device as a mark, on one scale for lift and one for push.

    Parameters
    ----------
    plan : Plan
        The plan.
    style : Style
        Language and units.

    Returns
    -------
    str
        SVG. Where nothing may be cut, the need alone.
    """
    both = panels(plan, style)
    subject = say("pictures.need_have_subject")
    if not both:
        return refusal(plan, style, subject, say("pictures.no_figures"))
    page = Page(plan, style, subject)
    for panel in both:
        _draw_panel(page, panel)
    _draw_words(page, plan)
    page.conditions()
    lift, push = both
    return page.finish(
        say(
            "pictures.need_have_told",
            lift=lift.need.p50,
            lift_high=lift.need.p90,
            push=push.need.p50,
            push_high=push.need.p90,
        )
    )


def _draw_panel(page: Page, panel: Panel) -> None:
    canvas = page.canvas
    page.paragraph(panel.heading, bold=True)
    top = page.y + 1.0
    rows = 1 + len(panel.bars)
    bottom = top + ROW * rows + 1.0
    for tick in panel.axis.ticks:
        x = panel.x(tick / panel.axis.unit.per_si)
        canvas.line(Spot(x, top), Spot(x, bottom), GRID)
        canvas.line(Spot(x, bottom), Spot(x, bottom + 1.4), FINE)
        text = tick_text(tick, page.style)
        canvas.text(Spot(x, bottom + 5.0), text, Letters(LEAST, "middle"))
    _draw_need(page, panel, top, bottom)
    for i, bar in enumerate(panel.bars):
        _draw_bar(page, panel, bar, top + ROW * (i + 1.5))
    canvas.line(Spot(BAR_LEFT, bottom), Spot(BAR_RIGHT, bottom), Pen(0.4))
    canvas.line(Spot(BAR_LEFT, top), Spot(BAR_LEFT, bottom), Pen(0.4))
    page.y = bottom + 8.5


def _draw_need(page: Page, panel: Panel, top: float, bottom: float) -> None:
    """The band from P10 to P90 over all rows, the P50 as a heavy line, and their figures."""
    canvas, need = page.canvas, panel.need
    low, middle, high = panel.x(need.p10), panel.x(need.p50), panel.x(need.p90)
    canvas.box(Spot(low, top), Spot(high, bottom), Pen(0.3, fill="slope"), name="need")
    canvas.line(Spot(middle, top), Spot(middle, bottom), HEAVY, name="need-p50")
    baseline = top + 0.5 * ROW + 1.2
    asks = page.write(say("pictures.tree_asks"))
    canvas.text(Spot(LEFT, baseline), asks, Letters(BODY, bold=True))
    words = page.write(panel.says(need))
    width = text_width_mm(words, LEAST)
    if high + 2.0 + width <= BAR_RIGHT:
        canvas.text(Spot(high + 2.0, baseline), words, Letters(LEAST, ground=True))
    elif low - 2.0 - width >= BAR_LEFT:
        canvas.text(Spot(low - 2.0, baseline), words, Letters(LEAST, "end", ground=True))
    else:
        at = min(max(middle, BAR_LEFT + 0.5 * width + 1.0), BAR_RIGHT - 0.5 * width)
        canvas.text(Spot(at, baseline), words, Letters(LEAST, "middle", ground=True))


def _draw_bar(page: Page, panel: Panel, bar: Bars, y: float) -> None:
    """One device: a line to its P50, a mark there, a stroke from its P10 to its P90."""
    canvas = page.canvas
    name = shorten(bar.name, NAMES, BODY, bold=bar.is_choice)
    canvas.text(Spot(LEFT, y + 1.2), name, Letters(BODY, bold=bar.is_choice))
    end = panel.x(bar.band.p50)
    canvas.line(Spot(BAR_LEFT, y), Spot(end, y), HAIR)
    canvas.line(Spot(panel.x(bar.band.p10), y), Spot(panel.x(bar.band.p90), y), HEAVY)
    size = 1.9
    corners = [Spot(end - size, y), Spot(end, y - size), Spot(end + size, y), Spot(end, y + size)]
    fill = "ink" if bar.is_choice else "paper"
    canvas.path(corners, Pen(0.4, fill=fill), closed=True, name="have")


def _draw_words(page: Page, plan: Plan) -> None:
    """How the bars are read, and what limits each device or the tree."""
    key = "pictures.bars_read" if _devices(plan) else "pictures.band_read"
    page.paragraph(say(key), size=LEAST)
    page.y += 2.0
    if not plan.may_cut:
        page.paragraph(say("pictures.no_cut"), bold=True)
        page.reasons()
        return
    if not plan.drives_device:
        page.paragraph(say("pictures.nothing_driven"), bold=True)
        page.reasons()
        return
    page.paragraph(say("pictures.limits_heading"), bold=True)
    page.y += 1.0
    for device in _devices(plan):
        words = say(
            "pictures.device_limit",
            verdict=say_verdict(device.verdict),
            reason=device.reasons[0].text,
        )
        name = shorten(device.name, LIMITS_LEFT - LEFT - 2.0, LEAST, bold=True)
        page.canvas.text(Spot(LEFT, page.y + LEAST), name, Letters(LEAST, bold=True))
        end = page.column(words, Spot(LIMITS_LEFT, page.y), RIGHT - LIMITS_LEFT, size=LEAST)
        page.y = end + 0.8
    if plan.outcome is not None and plan.reasons and plan.reasons[0] not in _said(plan):
        page.y += 1.0
        page.paragraph(say("pictures.tree_limit", reason=plan.reasons[0].text), bold=True)


def _said(plan: Plan) -> list[object]:
    return [device.reasons[0] for device in _devices(plan)]
