"""The hinge and the opening at the wedge, enlarged, from the side: part of the tipping picture."""

from typing import NamedTuple

from fellwright.draw.body import Place, Stance, TippingPoints, turned, turned_all
from fellwright.draw.frame import Frame
from fellwright.draw.lettering import BODY, LEAST, shorten, text_width_mm
from fellwright.draw.page import LEFT, RIGHT, Page
from fellwright.draw.scales import round_scale, scale_text
from fellwright.draw.svg import DASHED, FINE, HAIR, Canvas, Letters, Pen, Spot
from fellwright.planning.marks import HINGE_FIRST, STRAP_SHARE
from fellwright.planning.plan import Plan
from fellwright.units import MM_PER_M
from fellwright.words import Text, say

__all__ = ["OpeningFrame", "draw_opening", "opening_frame"]

STUMP_ROOM = 82.0
UP = 22.0
DOWN = 17.0
NAMES_WIDTH = 44.0
PENS = {"start": Pen(0.3), "balance": DASHED, "let-go": Pen(0.6)}


class OpeningFrame(NamedTuple):
    """The cut in the plane of the lay [m], x from the pith, z from the back cut; and its frame."""

    frame: Frame
    scale: float
    half_stump_m: float
    apex: Place
    hinge_back: Place
    roof: Place
    tip_m: float | None
    strap_m: float | None


def opening_frame(plan: Plan, top_y: float) -> OpeningFrame:
    """Lay the inset out.

    Parameters
    ----------
    plan : Plan
        A plan with marks.
    top_y : float
        Upper edge on the page [mm].

    Returns
    -------
    OpeningFrame
        Points and frame; the wedge's tip at full travel and the strap where there are such.
    """
    assert plan.model is not None
    assert plan.cut is not None
    assert plan.marks is not None
    half = 0.5 * plan.model.stump_m
    scale = round_scale(plan.model.stump_m, STUMP_ROOM)
    per_m = MM_PER_M / scale
    frame = Frame(Spot(RIGHT - 3.0 - half * per_m, top_y + UP), per_m)
    front = half - plan.marks.notch_depth_mm / MM_PER_M
    step = plan.marks.step_mm / MM_PER_M
    hinge_first = plan.marks.method == HINGE_FIRST
    choice = plan.outcome.choice if plan.outcome is not None else None
    tip = None
    if choice is not None and choice.driven is not None and not hinge_first and plan.drives_device:
        tip = -half + min(choice.driven.figures.depth_m, 0.9 * (front - plan.cut.hinge_m + half))
    return OpeningFrame(
        frame,
        scale,
        half,
        Place(front, -step),
        Place(front - plan.cut.hinge_m, 0.0),
        Place(half, plan.marks.notch_height_mm / MM_PER_M - step),
        tip,
        -half + 2.0 * half * STRAP_SHARE if hinge_first else None,
    )


def draw_opening(page: Page, plan: Plan, points: TippingPoints) -> None:
    """Draw the enlarged cut under what is on the page, and move down.

    Parameters
    ----------
    page : Page
        The page.
    plan : Plan
        A plan that may be cut.
    points : TippingPoints
        Turns and lever.
    """
    page.canvas.line(Spot(LEFT, page.y), Spot(RIGHT, page.y), FINE)
    page.y += 1.5
    cut = opening_frame(plan, page.y + 7.5)
    scale = scale_text(cut.scale, page.style)
    page.paragraph(say("pictures.opening_subject", scale=scale), bold=True)
    _draw_stump(page.canvas, cut)
    for stance, name in zip(points.stances, PENS, strict=False):
        _draw_upper(page.canvas, cut, points.axis, stance, name)
    _draw_wedge(page, plan, cut, points)
    page.canvas.circle(cut.frame.spot(points.axis), 1.0, Pen(0.0, fill="ink"), name="axis opening")
    _draw_openings(page, plan, cut, points)
    page.y = _draw_sizes(page, plan, cut, points)


def _draw_stump(canvas: Canvas, cut: OpeningFrame) -> None:
    """The stump under the cut, with notch floor and hinge."""
    frame, half = cut.frame, cut.half_stump_m
    bottom = -DOWN / frame.mm_per_m
    stump = [
        Place(-half, bottom),
        Place(-half, 0.0),
        cut.hinge_back,
        Place(cut.hinge_back.x_m, cut.apex.z_m),
        cut.apex,
        Place(half, cut.apex.z_m),
        Place(half, bottom),
    ]
    canvas.path(frame.spots(stump), Pen(0.0, fill="grain"), closed=True)
    canvas.path(frame.spots([stump[0], stump[1], stump[2]]), Pen(0.5), name="back-cut")
    canvas.path(frame.spots([stump[4], stump[5], stump[6]]), Pen(0.5), name="notch-floor")
    canvas.line(frame.at(-half, bottom), frame.at(half, bottom), Pen(0.25, "1.2 0.9"))
    above = min(6.0, 0.3 * UP) / frame.mm_per_m
    hinge = [
        Place(cut.hinge_back.x_m, cut.apex.z_m),
        Place(cut.hinge_back.x_m, above),
        Place(cut.apex.x_m, above),
        cut.apex,
    ]
    canvas.path(frame.spots(hinge), Pen(0.25, fill="fibre"), closed=True, name="hinge")
    if cut.strap_m is not None:
        canvas.box(
            frame.at(-half, -above),
            frame.at(cut.strap_m, above),
            Pen(0.25, fill="fibre"),
            name="strap",
        )


def _draw_upper(canvas: Canvas, cut: OpeningFrame, axis: Place, stance: Stance, name: str) -> None:
    """The foot of the stem above the cut in one stance."""
    top = (UP - 4.5) / cut.frame.mm_per_m
    half, turn = cut.half_stump_m, stance.rotation_rad
    back = [Place(-half, top), Place(-half, 0.0), cut.hinge_back]
    front = [cut.apex, cut.roof, Place(half, max(top, cut.roof.z_m))]
    if cut.strap_m is not None:
        back = [Place(-half, top), Place(-half, 0.0)]
        kerf = cut.frame.spots([Place(cut.strap_m, 0.0), cut.hinge_back])
        canvas.path(kerf, Pen(0.7), name="plunge")
    pen = PENS[name]
    canvas.path(cut.frame.spots(turned_all(back, axis, turn)), pen, name=f"face {name}")
    canvas.path(cut.frame.spots(turned_all(front, axis, turn)), pen, name=f"roof {name}")


def _draw_wedge(page: Page, plan: Plan, cut: OpeningFrame, points: TippingPoints) -> None:
    """The device in the opening at let-go, drawn as a plain block, and its name."""
    choice = plan.outcome.choice if plan.outcome is not None else None
    if cut.strap_m is not None:
        at = Spot(LEFT, cut.frame.origin.y + 9.0)
        page.canvas.text(at, page.write(say("pictures.strap")), Letters(LEAST))
        end = LEFT + text_width_mm(page.write(say("pictures.strap")), LEAST) + 1.0
        page.canvas.line(Spot(end, at.y - 1.0), cut.frame.at(-cut.half_stump_m, 0.0), HAIR)
    if cut.tip_m is None or choice is None or points.let_go is None:
        return
    out = -cut.half_stump_m - 7.0 / cut.frame.mm_per_m
    lower = [Place(out, 0.0), Place(cut.tip_m, 0.0)]
    upper = turned_all(reversed(lower), points.axis, points.let_go.rotation_rad)
    block = cut.frame.spots([*lower, *upper])
    page.canvas.path(block, Pen(0.3, fill="slope"), closed=True, name="wedge")
    at = Spot(LEFT, cut.frame.origin.y + 9.0)
    name = shorten(page.write(say("pictures.device_plainly", name=choice.name)), NAMES_WIDTH, LEAST)
    page.canvas.text(at, name, Letters(LEAST))
    page.canvas.line(Spot(LEFT + 8.0, at.y - 3.4), Spot(block[0].x + 1.0, block[0].y - 0.3), HAIR)


def _draw_openings(page: Page, plan: Plan, cut: OpeningFrame, points: TippingPoints) -> None:
    """The opening at the contact, as an arc with a point for each stance, named at the left."""
    canvas, last = page.canvas, points.stances[-1].rotation_rad
    if last <= 0.0:
        return
    arc = [turned(points.contact, points.axis, last * i / 8.0) for i in range(9)]
    canvas.path(cut.frame.spots(arc), Pen(0.7), name="opening")
    turns = plan.marks.turns if plan.marks is not None else None
    keys = {"start": "pictures.start", "balance": "pictures.balance", "let-go": "pictures.let_go"}
    for stance, name in zip(points.stances, PENS, strict=False):
        at = cut.frame.spot(turned(points.contact, points.axis, stance.rotation_rad))
        canvas.circle(at, 0.8, Pen(0.25, fill="ink"), name=f"contact {name}")
        if name == "start":
            continue
        counted = None
        if turns is not None:
            counted = turns.balance[1] if name == "balance" else turns.let_go[1]
        y = cut.frame.origin.y - (3.0 if name == "balance" else 11.5)
        canvas.text(Spot(LEFT, y - 4.2), page.write(say(keys[name])), Letters(BODY, bold=True))
        words = page.write(_lift_words(stance.lift_m, counted))
        canvas.text(Spot(LEFT, y), words, Letters(BODY))
        end = LEFT + text_width_mm(words, BODY) + 1.0
        canvas.path([Spot(end, y - 1.2), Spot(LEFT + NAMES_WIDTH, y - 1.2), at], HAIR)


def _lift_words(lift_m: float, turns: float | None) -> Text:
    if turns is None:
        return say("pictures.lift", lift=lift_m)
    return say("pictures.lift_turns", lift=lift_m, turns=turns)


def _draw_sizes(page: Page, plan: Plan, cut: OpeningFrame, points: TippingPoints) -> float:
    """Lever, hinge and notch as dimensions under the stump; return where they end."""
    assert plan.cut is not None
    frame = cut.frame
    y = frame.origin.y + DOWN + 4.0
    hinge, notch = plan.cut.hinge_m, cut.half_stump_m - cut.apex.x_m
    lever = (points.contact.x_m, points.axis.x_m, say("pictures.lever", lever=points.lever_m))
    sizes = [
        (cut.apex.x_m, cut.half_stump_m, say("pictures.notch", notch=notch)),
        (cut.hinge_back.x_m, cut.apex.x_m, say("pictures.hinge", hinge=hinge)),
        *([] if points.let_go is None else [lever]),
    ]
    # From the front back: the notch is named a row lower, the others keep left of what is named.
    most = RIGHT
    for row, (start, end, words) in enumerate(sizes):
        line_y = y - 2.6 if row == 1 else y
        first, second = frame.at(start, 0.0).x, frame.at(end, 0.0).x
        middle = 0.5 * (first + second)
        page.canvas.span(Spot(first, line_y), Spot(second, line_y))
        text = page.write(words)
        half = 0.5 * text_width_mm(text, LEAST)
        centre = min(middle, most - half)
        text_y = y + (9.0 if row == 0 else 4.4)
        if row == 0:
            page.canvas.line(Spot(middle, y), Spot(middle, text_y - LEAST), HAIR)
        most = middle - 1.5 if row == 0 else centre - half - 2.0
        page.canvas.text(Spot(centre, text_y), text, Letters(LEAST, "middle"))
    return y + 10.5
