"""The stump plan: the cut from above, front up, with the bark marks counted from the front."""

import math
from typing import NamedTuple

from fellwright.draw.lettering import BODY, LEADING, LEAST, wrap_text
from fellwright.draw.page import LEFT, RIGHT, Page, refusal
from fellwright.draw.scales import round_scale, scale_text
from fellwright.draw.stump_points import (
    SIDE_READ_M,
    Chord,
    StumpPoints,
    half_chord_m,
    stump_points,
)
from fellwright.draw.svg import FINE, HAIR, Canvas, Letters, Pen, Spot
from fellwright.planning.marks import HALF_AND_HALF, HINGE_FIRST, NORMAL
from fellwright.planning.plan import Plan
from fellwright.units import MM_PER_M
from fellwright.words import Style, Text, listed, say

__all__ = ["StumpFrame", "draw_stump", "stump_frame"]

STUMP_ROOM = 84.0
MIDDLE_X = LEFT + 43.0
LABEL_X = 102.0
LABEL_HEAD = 4.6
FRONT = "front"
ARC_STEPS = 40
DIAL = 8.5
METHODS = {
    HALF_AND_HALF: "pictures.method_halves",
    HINGE_FIRST: "pictures.method_hinge_first",
    NORMAL: "pictures.method_normal",
}


class StumpFrame(NamedTuple):
    """Where the middle of the stump lies on the page; x of the lay runs up, y to the left."""

    middle: Spot
    scale: float

    @property
    def mm_per_m(self) -> float:
        """Millimetres on paper for a metre."""
        return MM_PER_M / self.scale

    def at(self, x_m: float, y_m: float) -> Spot:
        """Put a place of the stump on the page."""
        return Spot(
            self.middle.x - self.mm_per_m * y_m,
            self.middle.y - self.mm_per_m * x_m,
        )


def stump_frame(points: StumpPoints, top: float) -> StumpFrame:
    """Choose scale and place.

    Parameters
    ----------
    points : StumpPoints
        The stump.
    top : float
        Upper edge of the stump on the page [mm].

    Returns
    -------
    StumpFrame
        With a round scale.
    """
    scale = round_scale(2.0 * points.radius_m, STUMP_ROOM)
    return StumpFrame(Spot(MIDDLE_X, top + points.radius_m * MM_PER_M / scale), scale)


def draw_stump(plan: Plan, style: Style) -> str:
    """Draw the stump from above with notch, hinge, back cut, wedge, bar room and bark marks.

    Parameters
    ----------
    plan : Plan
        The plan.
    style : Style
        Language and units.

    Returns
    -------
    str
        SVG; a page that says so where nothing may be cut.
    """
    subject = say("pictures.stump_subject")
    points = stump_points(plan) if plan.may_cut else None
    if points is None:
        return refusal(plan, style, subject, say("pictures.no_cut"))
    scale = round_scale(2.0 * points.radius_m, STUMP_ROOM)
    page = Page(plan, style, say("pictures.stump_subject_scale", scale=scale_text(scale, style)))
    frame = stump_frame(points, page.y + 15.0)
    _draw_lay(page, plan, frame, points)
    _draw_wood(page.canvas, frame, points)
    _draw_wedge(page.canvas, frame, points)
    _draw_cavity(page.canvas, frame, points)
    _draw_rims(page.canvas, frame, points)
    _draw_inner_names(page, plan, frame, points)
    _draw_bar_room(page, frame, points)
    labels_end = _draw_marks(page, frame, points)
    page.y = max(labels_end, frame.at(-points.radius_m, 0.0).y + _handle_mm(frame, points) + 5.0)
    _draw_words(page, plan, points)
    page.conditions()
    assert plan.cut is not None
    assert plan.marks is not None
    return page.finish(
        say(
            "pictures.stump_told",
            hinge=plan.cut.hinge_m,
            notch=plan.marks.notch_depth_mm / MM_PER_M,
            stump=2.0 * points.radius_m,
        )
    )


def _segment(
    frame: StumpFrame, radius: float, low_x: float, high_x: float, low_y: float, high_y: float
) -> list[Spot]:
    """Corners of the part of a disc between two lines across and two along the lay."""
    steps = [low_x + (high_x - low_x) * i / ARC_STEPS for i in range(ARC_STEPS + 1)]
    rims = [(x, half_chord_m(radius, x)) for x in steps]
    left = [frame.at(x, min(high_y, max(low_y, rim))) for x, rim in rims]
    right = [frame.at(x, max(low_y, min(high_y, -rim))) for x, rim in rims]
    return [*left, *reversed(right)]


def _draw_lay(page: Page, plan: Plan, frame: StumpFrame, points: StumpPoints) -> None:
    """The lay as an arrow over the front of the stump."""
    assert plan.cut is not None
    front = frame.at(points.radius_m, 0.0)
    start = Spot(front.x, front.y - 2.0)
    page.canvas.arrow(start, Spot(front.x, front.y - 14.0), Pen(1.2), name="lay")
    words = page.write(say("pictures.lay", lay=math.radians(plan.cut.lay_deg)))
    page.canvas.text(Spot(front.x + 5.0, front.y - 8.6), words, Letters(BODY, bold=True))


def _draw_wood(canvas: Canvas, frame: StumpFrame, points: StumpPoints) -> None:
    """Notch, hinge and back cut, each in its own hatch."""
    radius, wide = points.radius_m, 2.0 * points.radius_m
    notch = _segment(frame, radius, points.apex_x_m, radius, -wide, wide)
    canvas.path(notch, Pen(0.25, fill="slope"), closed=True, name="notch")
    back = -radius if points.strap_x_m is None else points.strap_x_m
    if points.first_side == 0.0:
        whole = _segment(frame, radius, back, points.hinge_back_x_m, -wide, wide)
        canvas.path(whole, Pen(0.25), closed=True, name="back-cut")
    else:
        for name, is_first in (("first-half", True), ("second-half", False)):
            left = (points.first_side > 0.0) == is_first
            low, high = (points.divide_y_m, wide) if left else (-wide, points.divide_y_m)
            half = _segment(frame, radius, back, points.hinge_back_x_m, low, high)
            fill = "none" if is_first else "grain"
            canvas.path(half, Pen(0.35, fill=fill), closed=True, name=name)
    if points.strap_x_m is not None:
        strap = _segment(frame, radius, -radius, points.strap_x_m, -wide, wide)
        canvas.path(strap, Pen(0.35, fill="dense"), closed=True, name="strap")
    hinge = _segment(frame, radius, points.hinge_back_x_m, points.apex_x_m, -wide, wide)
    canvas.path(hinge, Pen(0.6, fill="dense"), closed=True, name="hinge")


def _draw_cavity(canvas: Canvas, frame: StumpFrame, points: StumpPoints) -> None:
    if points.cavity_radius_m > 0.0:
        radius = points.cavity_radius_m * frame.mm_per_m
        canvas.circle(frame.middle, radius, Pen(0.6, "1.6 1.0", "paper"), name="cavity")


def _draw_rims(canvas: Canvas, frame: StumpFrame, points: StumpPoints) -> None:
    """Bark and wood, the pith, and a stroke on the bark at each mark."""
    canvas.circle(frame.middle, points.radius_m * frame.mm_per_m, Pen(0.6), name="bark")
    canvas.circle(frame.middle, points.wood_radius_m * frame.mm_per_m, HAIR, name="wood")
    x, y = frame.middle
    canvas.line(Spot(x - 1.5, y), Spot(x + 1.5, y), FINE, name="pith")
    canvas.line(Spot(x, y - 1.5), Spot(x, y + 1.5), FINE)
    for chord in points.marks:
        for side in (-1.0, 1.0):
            rim = frame.at(chord.x_m, side * chord.half_m)
            out = 2.6 if chord.half_m > 0.0 else 0.0
            canvas.line(Spot(rim.x + side * 0.8, rim.y), Spot(rim.x - side * out, rim.y), Pen(0.9))


def _handle_mm(frame: StumpFrame, points: StumpPoints) -> float:
    """How far the device stands out behind the stump on paper; a long one is broken off."""
    if points.wedge is None:
        return 0.0
    inside = points.wedge.seated_x_m + points.radius_m
    return min(9.0, max(0.0, points.wedge.depth_m - inside) * frame.mm_per_m)


def _draw_wedge(canvas: Canvas, frame: StumpFrame, points: StumpPoints) -> None:
    """The plate as seated, and dashed as far as its tip comes at full travel."""
    wedge = points.wedge
    if wedge is None:
        return
    back = frame.at(-points.radius_m, 0.0).y + _handle_mm(frame, points)
    left, right = frame.at(0.0, wedge.left_y_m).x, frame.at(0.0, wedge.right_y_m).x
    tip = frame.at(wedge.full_x_m, 0.0).y
    if wedge.full_x_m > wedge.seated_x_m:
        canvas.box(Spot(left, tip), Spot(right, back), Pen(0.4, "1.8 1.0"), name="wedge-full")
    seated = frame.at(wedge.seated_x_m, 0.0).y
    canvas.box(Spot(left, seated), Spot(right, back), Pen(0.5, fill="paper"))
    canvas.box(Spot(left, seated), Spot(right, back), Pen(0.5, fill="slope-back"), name="wedge")


def _draw_inner_names(page: Page, plan: Plan, frame: StumpFrame, points: StumpPoints) -> None:
    """Names and sizes inside the stump, on white ground."""
    assert plan.marks is not None
    assert plan.cut is not None
    letters = Letters(LEAST, "middle", ground=True)
    notch_y = frame.at(0.5 * (points.apex_x_m + points.radius_m), 0.0).y
    notch = say("pictures.notch", notch=plan.marks.notch_depth_mm / MM_PER_M)
    page.canvas.text(Spot(frame.middle.x, notch_y + 1.6), page.write(notch), letters)
    hinge = say(
        "pictures.hinge_size",
        hinge=plan.cut.hinge_m,
        width=plan.marks.hinge_width_mm / MM_PER_M,
    )
    top, bottom = frame.at(points.apex_x_m, 0.0).y, frame.at(points.hinge_back_x_m, 0.0).y
    hinge_y = 0.5 * (top + bottom) + 1.1 if bottom - top > 5.0 else bottom + 4.2
    page.canvas.text(Spot(frame.middle.x, hinge_y), page.write(hinge), letters)
    if points.first_side != 0.0:
        level = frame.at(points.hinge_back_x_m, 0.0).y
        level += 0.52 * (frame.at(-points.radius_m, 0.0).y - level)
        for digit, side in (("1", points.first_side), ("2", -points.first_side)):
            at = Spot(frame.middle.x - side * 0.62 * points.radius_m * frame.mm_per_m, level)
            page.canvas.circle(at, 3.0, Pen(0.4, fill="paper"))
            page.canvas.text(Spot(at.x, at.y + 1.4), digit, Letters(4.0, "middle", bold=True))
    if points.strap_x_m is not None:
        at_y = frame.at(points.strap_x_m, 0.0).y
        strap = page.write(say("pictures.strap"))
        page.canvas.text(Spot(frame.middle.x, at_y - 2.0), strap, letters)
    if points.cavity_radius_m > 0.0:
        hollow = page.write(say("pictures.hollow"))
        below = 0.5 * points.cavity_radius_m * frame.mm_per_m
        at = Spot(frame.middle.x - 2.0, frame.middle.y + below)
        page.canvas.text(at, hollow, Letters(LEAST, ground=True))


def _draw_bar_room(page: Page, frame: StumpFrame, points: StumpPoints) -> None:
    """The room for the bar behind the hinge, as a dimension where the wedge points."""
    if points.bar_room_m is None or points.bar_room_m <= 0.0 or points.wedge is None:
        return
    # On the side of the first half, away from the line that parts the halves.
    y_m = points.wedge.right_y_m if points.first_side < 0.0 else points.wedge.left_y_m
    start = frame.at(points.hinge_back_x_m, y_m)
    end = frame.at(points.hinge_back_x_m - points.bar_room_m, y_m)
    page.canvas.span(start, end, name="bar-room")
    words = page.write(say("pictures.bar_room_short", room=points.bar_room_m))
    side = 1.6 if start.x >= frame.middle.x else -1.6
    anchor = "start" if side > 0.0 else "end"
    at = Spot(start.x + side, start.y + 0.3 * (end.y - start.y))
    page.canvas.text(at, words, Letters(LEAST, anchor, ground=True))


def _draw_marks(page: Page, frame: StumpFrame, points: StumpPoints) -> float:
    """Each bark mark at the right, its distance bold, with a line to the bark."""
    front = Chord(FRONT, 0.0, points.radius_m, 0.0)
    chords = sorted((front, *points.marks), key=lambda chord: chord.from_front_m)
    wanted = [frame.at(chord.x_m, 0.0).y for chord in chords]
    width = RIGHT + 2.0 - LABEL_X
    lines = [
        0 if chord.key == FRONT else len(wrap_text(page.write(_mark(chord)), width, LEAST))
        for chord in chords
    ]
    ys = spread(wanted, [LABEL_HEAD + LEADING * LEAST * count for count in lines])
    for chord, y in zip(chords, ys, strict=True):
        rim = frame.at(chord.x_m, -chord.half_m)
        reach = rim.x + (2.6 if chord.half_m > 0.0 else 1.0)
        if chord.x_m < 0.0 and chord.half_m == 0.0 and points.wedge is not None:
            reach = frame.at(0.0, points.wedge.right_y_m).x + 0.5
        page.canvas.path([Spot(reach, rim.y), Spot(LABEL_X - 4.0, y), Spot(LABEL_X - 1.0, y)], HAIR)
        if chord.key == FRONT:
            words = page.write(say("pictures.count_from_front"))
            page.canvas.text(Spot(LABEL_X, y + 1.2), words, Letters(LEAST))
            continue
        far = page.write(say("pictures.mark_distance", distance=chord.from_front_m))
        page.canvas.text(Spot(LABEL_X, y), far, Letters(BODY, bold=True), name="mark")
        page.column(_mark(chord), Spot(LABEL_X, y + 0.5), width, size=LEAST)
    return ys[-1] + 0.5 + LEADING * LEAST * lines[-1] + 2.0


def _mark(chord: Chord) -> Text:
    """Name of a bark mark, the same on every face."""
    return say(f"mark.{chord.key}")


def spread(wanted: list[float], rooms: list[float]) -> list[float]:
    """Move places apart, as little as it takes, in their order.

    Parameters
    ----------
    wanted : list of float
        Where each would stand, in rising order [mm].
    rooms : list of float
        Least distance from each to the next [mm].

    Returns
    -------
    list of float
        Places [mm]: the least squares of the moves, by pooling neighbours that are too near.
    """
    before = [sum(rooms[:i]) for i in range(len(wanted))]
    groups: list[tuple[float, int]] = []
    for place, shift in zip(wanted, before, strict=True):
        groups.append((place - shift, 1))
        while len(groups) > 1 and groups[-1][0] < groups[-2][0]:
            (upper, many), (lower, few) = groups[-2:]
            groups[-2:] = [((upper * many + lower * few) / (many + few), many + few)]
    pooled = [place for place, count in groups for _ in range(count)]
    return [place + shift for place, shift in zip(pooled, before, strict=True)]


def _draw_words(page: Page, plan: Plan, points: StumpPoints) -> None:
    """A dial with lay and lean, and beside it what is cut in which order."""
    top = page.y
    middle = Spot(LEFT + DIAL + 1.0, top + DIAL + 1.0)
    page.canvas.circle(middle, DIAL, Pen(0.4), name="dial")
    page.canvas.arrow(middle, Spot(middle.x, middle.y - DIAL), Pen(0.35), name="dial-lay")
    if points.lean_toward_rad is not None:
        end = Spot(
            middle.x - DIAL * math.sin(points.lean_toward_rad),
            middle.y - DIAL * math.cos(points.lean_toward_rad),
        )
        page.canvas.arrow(middle, end, Pen(1.1), name="dial-lean")
    left = LEFT + 2.0 * DIAL + 6.0
    y = top
    for words in _sentences(plan, points):
        y = page.column(words, Spot(left, y), RIGHT - left) + 1.0
    page.y = max(y, top + 2.0 * DIAL + 4.0)


def _sentences(plan: Plan, points: StumpPoints) -> list[Text]:
    assert plan.outcome is not None
    assert plan.marks is not None
    back, side = plan.outcome.figures.back_m.p50, plan.outcome.figures.side_m.p50
    along = "pictures.lean_back" if back >= 0.0 else "pictures.lean_forward"
    across = "pictures.lean_right" if side >= 0.0 else "pictures.lean_left"
    parts = [
        say(key, offset=abs(offset))
        for key, offset in ((along, back), (across, side))
        if abs(offset) > SIDE_READ_M
    ]
    if points.lean_toward_rad is None:
        found = [say("pictures.lean_none")]
    else:
        found = [say("pictures.lean", where=listed(parts))]
    method = plan.marks.method
    found.append(say(METHODS[method]) if method in METHODS else say("pictures.method_other"))
    if method == HALF_AND_HALF:
        key = "pictures.first_from_lean" if abs(side) > SIDE_READ_M else "pictures.first_either"
        found.append(say(key))
    if plan.marks.bar_room_mm is not None:
        found.append(say("pictures.bar_room", room=plan.marks.bar_room_mm / MM_PER_M))
    choice = plan.outcome.choice
    if points.wedge is not None and choice is not None:
        travels = points.wedge.full_x_m > points.wedge.seated_x_m
        key = "pictures.wedge_travels" if travels else "pictures.wedge_seated"
        found.append(say(key, name=choice.name))
    found.append(say("pictures.step", step=plan.marks.step_mm / MM_PER_M))
    return found
