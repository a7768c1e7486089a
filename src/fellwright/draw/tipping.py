"""The tipping picture: side view to scale, the tree at start, at balance and at let-go."""

import math
from typing import NamedTuple

from fellwright.draw.body import (
    Outline,
    Place,
    Stance,
    TippingPoints,
    outline,
    tipping_points,
    turned,
    turned_all,
)
from fellwright.draw.frame import Frame
from fellwright.draw.lettering import BODY, LEAST, text_width_mm
from fellwright.draw.opening import draw_opening
from fellwright.draw.page import LEFT, RIGHT, Page, refusal
from fellwright.draw.scales import round_scale, scale_text
from fellwright.draw.svg import DASHED, FINE, HAIR, HEAVY, Canvas, Letters, Pen, Spot
from fellwright.planning.plan import Plan
from fellwright.units import M_PER_FT, MM_PER_M
from fellwright.words import Style, Text, say

__all__ = ["TippingFrame", "draw_tipping", "tipping_frame"]

TREE_WIDTH = 62.0
TREE_HEIGHT = 104.0
TREE_MIDDLE = LEFT + 32.0
TREE_TOP = 32.0
NAMES_Y = 27.4
COLUMN = 78.0
LENS = Spot(110.0, 50.0)
LENS_RADIUS = 25.0
BAR_LENGTHS = (1.0, 2.0, 5.0, 10.0, 20.0, 50.0)
BAR_MOST = 20.5
ARC_STEPS = 12
PENS = (Pen(0.3), DASHED, Pen(0.55))
STANCES = ("start", "balance", "let-go")


class TippingFrame(NamedTuple):
    """Points in metres, the outlines, and how the tree and the lens stand on the page."""

    points: TippingPoints
    outline: Outline
    tree: Frame
    scale: float
    lens: Frame
    lens_scale: float


def tipping_frame(plan: Plan) -> TippingFrame | None:
    """Lay the picture out: everything that it shows in metres, and where it stands on paper.

    Parameters
    ----------
    plan : Plan
        The plan.

    Returns
    -------
    TippingFrame or None
        None where the plan has no figures.
    """
    points = tipping_points(plan)
    if points is None or plan.model is None or plan.tree.dbh_cm is None:
        return None
    shape = outline(plan.model, plan.tree.dbh_cm, points)
    places = [
        place
        for stance in points.stances
        for place in turned_all(
            (*shape.stem, *shape.crown, points.axis), points.axis, stance.rotation_rad
        )
    ]
    low, high = min(p.x_m for p in places), max(p.x_m for p in places)
    top = max(p.z_m for p in places)
    scale = max(round_scale(high - low, TREE_WIDTH), round_scale(top, TREE_HEIGHT))
    per_m = MM_PER_M / scale
    tree = Frame(Spot(TREE_MIDDLE - 0.5 * per_m * (low + high), TREE_TOP + per_m * top), per_m)
    centres = [s.balance_point for s in points.stances]
    span = [points.axis.x_m, *(c.x_m for c in centres)]
    lens_scale = round_scale(max(max(span) - min(span), 0.2), 1.5 * LENS_RADIUS)
    lens_per_m = MM_PER_M / lens_scale
    middle = Place(
        0.5 * (max(span) + min(span)),
        0.5 * (max(c.z_m for c in centres) + min(c.z_m for c in centres)),
    )
    lens = Frame(
        Spot(LENS.x - lens_per_m * middle.x_m, LENS.y + lens_per_m * middle.z_m), lens_per_m
    )
    return TippingFrame(points, shape, tree, scale, lens, lens_scale)


def draw_tipping(plan: Plan, style: Style) -> str:
    """Draw the tree from the side, lay to the right, at start, balance and let-go.

    Parameters
    ----------
    plan : Plan
        The plan.
    style : Style
        Language and units.

    Returns
    -------
    str
        SVG. Without a verdict that lets one cut, it shows the tree and its need, but neither
        hinge, notch nor turns; without figures it says so.
    """
    frame = tipping_frame(plan)
    if frame is None:
        subject = say("pictures.tipping_subject")
        return refusal(plan, style, subject, say("pictures.no_figures"))
    page = Page(
        plan, style, say("pictures.tipping_subject_scale", scale=scale_text(frame.scale, style))
    )
    _draw_ground(page, plan, frame)
    _draw_stances(page, frame)
    _draw_names(page, frame)
    _draw_lens(page.canvas, frame)
    column_end = _draw_legend(page, plan, frame)
    ground_y = frame.tree.at(0.0, -(plan.model.cut_m if plan.model else 0.0)).y
    page.y = max(column_end, ground_y + 11.0) + 2.0
    if plan.may_cut:
        draw_opening(page, plan, frame.points)
    else:
        page.paragraph(say("pictures.no_cut"), bold=True)
        page.reasons()
    page.conditions()
    return page.finish(_description(frame))


def _description(frame: TippingFrame) -> Text:
    points = frame.points
    if points.balance is None or points.let_go is None:
        return say("pictures.tipping_told_no_lift")
    return say(
        "pictures.tipping_told",
        balance=points.balance.lift_m,
        let_go=points.let_go.lift_m,
    )


def _draw_ground(page: Page, plan: Plan, frame: TippingFrame) -> None:
    """Ground, stump, and a bar that tells the scale."""
    canvas, tree = page.canvas, frame.tree
    assert plan.model is not None
    ground = tree.at(0.0, -plan.model.cut_m).y
    half = 0.5 * plan.model.stump_m
    canvas.box(tree.at(-half, 0.0), tree.at(half, -plan.model.cut_m), Pen(0.35, fill="grain"))
    canvas.line(Spot(LEFT, ground), Spot(LEFT + 64.0, ground), HEAVY, name="ground")
    for i in range(26):
        x = LEFT + 1.5 + 2.45 * i
        canvas.line(Spot(x, ground), Spot(x - 1.2, ground + 1.5), HAIR)
    unit = M_PER_FT if page.style.imperial else 1.0
    length = max(n * unit for n in BAR_LENGTHS if n * unit * tree.mm_per_m <= BAR_MOST or n == 1.0)
    words = say("pictures.length", length=length)
    y = ground + 6.4
    end = LEFT + length * tree.mm_per_m
    canvas.box(Spot(LEFT, y), Spot(end, y + 1.2), Pen(0.25, fill="paper"))
    canvas.box(Spot(LEFT, y), Spot(0.5 * (LEFT + end), y + 1.2), Pen(0.25, fill="ink"))
    canvas.text(Spot(end + 2.0, y + 1.9), page.write(words), Letters(LEAST))
    arrow = LEFT + 64.0
    word = page.write(say("pictures.lay_word"))
    canvas.text(Spot(arrow - 11.0, y + 1.9), word, Letters(LEAST, "end"))
    canvas.arrow(Spot(arrow - 9.5, y + 0.7), Spot(arrow, y + 0.7), Pen(0.6), name="lay")


def _draw_stances(page: Page, frame: TippingFrame) -> None:
    """Outlines of stem and crown in each stance, the later ones on top."""
    canvas, points, tree = page.canvas, frame.points, frame.tree
    top = TREE_TOP - 2.0
    axis = tree.spot(points.axis)
    canvas.line(axis, Spot(axis.x, top), Pen(0.18, "3 0.8 0.6 0.8"), name="plumb")
    for name, pen, stance in zip(STANCES, PENS, points.stances, strict=False):
        turn = stance.rotation_rad
        crown = turned_all(frame.outline.crown, points.axis, turn)
        stem = turned_all(frame.outline.stem, points.axis, turn)
        canvas.path(tree.spots(crown), pen, closed=True, name=f"crown {name}")
        canvas.path(tree.spots(stem), pen, closed=True, name=f"stem {name}")
    for name, stance in zip(STANCES, points.stances, strict=False):
        _draw_balance_point(canvas, tree.spot(stance.balance_point), 0.75, name)
    canvas.circle(axis, 0.7, Pen(0.0, fill="ink"), name="axis")


def _draw_balance_point(canvas: Canvas, at: Spot, radius: float, name: str) -> None:
    """Mark a balance point: open at start, quartered at balance, full at let-go."""
    pen = Pen(0.3, fill="ink" if name == "let-go" else "paper")
    canvas.circle(at, radius, pen, name=f"balance-point {name}")
    if name == "balance":
        for start, end in (((-1.0, 0.0), (0.0, -1.0)), ((1.0, 0.0), (0.0, 1.0))):
            corners = [
                at,
                Spot(at.x + radius * start[0], at.y + radius * start[1]),
                Spot(
                    at.x + 0.707 * radius * (start[0] + end[0]),
                    at.y + 0.707 * radius * (start[1] + end[1]),
                ),
                Spot(at.x + radius * end[0], at.y + radius * end[1]),
            ]
            canvas.path(corners, Pen(0.0, fill="ink"), closed=True)


def _stance_names(page: Page, frame: TippingFrame) -> list[str]:
    keys = ("pictures.start", "pictures.balance", "pictures.let_go")
    return [page.write(say(key)) for key, _ in zip(keys, frame.points.stances, strict=False)]


def _draw_names(page: Page, frame: TippingFrame) -> None:
    """Write start, balance and let-go over the tips, kept apart, each with a line to its tip."""
    tips = [frame.tree.spot(stance.tip) for stance in frame.points.stances]
    names = _stance_names(page, frame)
    widths = [text_width_mm(name, BODY) for name in names]
    gap = 2.5
    total = sum(widths) + gap * (len(names) - 1)
    middle = tips[len(tips) // 2].x
    left = middle - (sum(widths[:1]) + gap + 0.5 * widths[1]) if len(names) > 1 else 0.0
    if len(names) == 1:
        left = tips[0].x - 0.5 * widths[0]
    left = max(LEFT, min(left, LEFT + 68.0 - total))
    for name, width, tip in zip(names, widths, tips, strict=True):
        centre = left + 0.5 * width
        page.canvas.text(Spot(centre, NAMES_Y), name, Letters(BODY, "middle"))
        page.canvas.line(Spot(centre, NAMES_Y + 1.2), Spot(tip.x, tip.y - 0.6), HAIR)
        left += width + gap


def _draw_lens(canvas: Canvas, frame: TippingFrame) -> None:
    """Enlarge the balance points, with the plumb line over the hinge axis."""
    points, lens, tree = frame.points, frame.lens, frame.tree
    shown = [tree.spot(stance.balance_point) for stance in points.stances]
    middle = Spot(
        0.5 * (min(s.x for s in shown) + max(s.x for s in shown)),
        0.5 * (min(s.y for s in shown) + max(s.y for s in shown)),
    )
    eye = 0.5 * (max(s.x for s in shown) - min(s.x for s in shown)) + 2.0
    canvas.circle(middle, eye, FINE)
    toward = math.atan2(LENS.y - middle.y, LENS.x - middle.x)
    for aside in (-0.3, 0.3):
        sine, cosine = math.sin(toward + aside), math.cos(toward + aside)
        back_sine, back_cosine = math.sin(toward - aside), math.cos(toward - aside)
        canvas.line(
            Spot(middle.x + eye * cosine, middle.y + eye * sine),
            Spot(LENS.x - LENS_RADIUS * back_cosine, LENS.y - LENS_RADIUS * back_sine),
            HAIR,
        )
    canvas.circle(LENS, LENS_RADIUS, Pen(0.5, fill="paper"), name="lens")
    plumb = lens.spot(points.axis).x
    half = max(0.0, LENS_RADIUS**2 - (plumb - LENS.x) ** 2) ** 0.5
    canvas.line(
        Spot(plumb, LENS.y - half),
        Spot(plumb, LENS.y + half),
        Pen(0.25, "3 0.8 0.6 0.8"),
        name="plumb lens",
    )
    last = points.stances[-1].rotation_rad
    path = [
        turned(points.start.balance_point, points.axis, last * i / ARC_STEPS)
        for i in range(ARC_STEPS + 1)
    ]
    if last > 0.0:
        canvas.path(lens.spots(path), FINE, name="arc")
    for name, stance in zip(STANCES, points.stances, strict=False):
        _draw_balance_point(canvas, lens.spot(stance.balance_point), 1.6, name)


def _draw_legend(page: Page, plan: Plan, frame: TippingFrame) -> float:
    """Say in words what the marks in the lens are; return where the words end."""
    scale = say("pictures.lens", scale=scale_text(frame.lens_scale, page.style))
    y = LENS.y + LENS_RADIUS + 2.5
    y = page.column(scale, Spot(COLUMN, y), RIGHT - COLUMN, size=LEAST) + 1.5
    for name, stance in zip(STANCES, frame.points.stances, strict=False):
        _draw_balance_point(page.canvas, Spot(COLUMN + 1.6, y + 2.4), 1.5, name)
        words = _stance_words(plan, frame.points, name, stance)
        y = page.column(words, Spot(COLUMN + 5.0, y), RIGHT - COLUMN - 5.0) + 1.2
    if frame.points.let_go is None:
        y = page.column(_no_lift_words(plan), Spot(COLUMN, y + 1.0), RIGHT - COLUMN)
    return y


def _stance_words(plan: Plan, points: TippingPoints, name: str, stance: Stance) -> Text:
    if name == "start":
        return _start_words(plan, points)
    is_balance = name == "balance"
    turns = plan.marks.turns if plan.may_cut and plan.marks is not None else None
    if turns is None:
        key = "pictures.balance_lift" if is_balance else "pictures.let_go_lift"
        return say(key, lift=stance.lift_m)
    key = "pictures.balance_turns" if is_balance else "pictures.let_go_turns"
    count = turns.balance[1] if is_balance else turns.let_go[1]
    return say(key, lift=stance.lift_m, turns=count)


def _start_words(plan: Plan, points: TippingPoints) -> Text:
    """Where the balance point stands at the start; from the pith where no hinge may be shown."""
    if not plan.may_cut:
        assert plan.outcome is not None
        back = plan.outcome.figures.back_m.p50
        key = "pictures.start_behind_pith" if back >= 0.0 else "pictures.start_before_pith"
        return say(key, offset=abs(back))
    behind = points.axis.x_m - points.start.balance_point.x_m
    key = "pictures.start_behind" if behind >= 0.0 else "pictures.start_before"
    return say(key, offset=abs(behind))


def _no_lift_words(plan: Plan) -> Text:
    assert plan.outcome is not None
    if plan.may_cut and plan.outcome.hinge_first:
        return say("pictures.goes_early", uncut=plan.outcome.figures.early_go_m.p50)
    return say("pictures.no_lift")
