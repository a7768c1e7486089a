"""What every picture shares: an A5-wide page with name, verdict in word and shape, and notes."""

from dataclasses import dataclass, field

from fellwright.draw.lettering import BODY, LEADING, LEAST, shorten, text_width_mm, wrap_text
from fellwright.draw.svg import FINE, HEAVY, Canvas, Letters, Pen, Spot
from fellwright.planning.plan import Plan
from fellwright.planning.reasons import ADDS_UP, LEAVE, LINE, MEASURE, TIGHT, say_verdict
from fellwright.words import Style, Text, render, say

__all__ = ["LEFT", "RIGHT", "WIDTH", "Page", "draw_shape", "refusal"]

WIDTH = 148.0
"""Width of an A5 page [mm]."""
LEFT = 6.0
RIGHT = WIDTH - LEFT
RULE_Y = 19.0
TOP = 23.0
MOST_REASONS = 3
SHAPE_MM = 10.0


@dataclass(slots=True)
class Page:
    """A page with its head drawn; ``y`` is where the next thing may start [mm]."""

    plan: Plan
    style: Style
    subject: Text
    canvas: Canvas = field(default_factory=lambda: Canvas(WIDTH))
    y: float = TOP

    def __post_init__(self) -> None:
        """Draw name, subject and verdict."""
        canvas = self.canvas
        word = self.write(say_verdict(self.plan.verdict))
        size = 5.0
        word_left = RIGHT - text_width_mm(word, size, bold=True)
        shape_left = word_left - 8.5
        letters = Letters(size, "end", bold=True)
        canvas.text(Spot(RIGHT, 11.4), word, letters, name="verdict")
        draw_verdict_shape(canvas, self.plan.verdict, Spot(shape_left, 5.6), 7.6)
        name = shorten(self.name, shape_left - LEFT - 3.0, size, bold=True)
        canvas.text(Spot(LEFT, 11.4), name, Letters(size, bold=True), name="tree")
        canvas.text(Spot(LEFT, 16.8), self.write(self.subject), Letters(BODY))
        canvas.line(Spot(LEFT, RULE_Y), Spot(RIGHT, RULE_Y), HEAVY)

    @property
    def name(self) -> str:
        """Name of the tree on one line."""
        return " ".join((self.plan.tree.name or "").split()) or self.write(say("show.name_missing"))

    def write(self, text: Text | str) -> str:
        """Render a sentence in the page's style."""
        return render(text, self.style)

    def paragraph(self, text: Text | str, *, bold: bool = False, size: float = BODY) -> None:
        """Write a sentence over the whole width and move down."""
        self.y = self.column(text, Spot(LEFT, self.y), RIGHT - LEFT, bold=bold, size=size)

    def column(
        self,
        text: Text | str,
        corner: Spot,
        width: float,
        *,
        bold: bool = False,
        size: float = BODY,
    ) -> float:
        """Write a sentence in a column from its upper left corner; return where it ends."""
        y = corner.y
        for line in wrap_text(self.write(text), width, size, bold=bold):
            self.canvas.text(Spot(corner.x, y + size), line, Letters(size, bold=bold))
            y += LEADING * size
        return y

    def conditions(self) -> None:
        """Write under which conditions the figures hold, if any."""
        if self.plan.conditions:
            listed = ", ".join(self.write(one) for one in self.plan.conditions)
            self.paragraph(say("pictures.conditions", listed=listed), size=LEAST)

    def reasons(self) -> None:
        """Write the reasons of the verdict, the limiting one first."""
        for reason in self.plan.reasons[:MOST_REASONS]:
            self.canvas.circle(Spot(LEFT + 1.0, self.y + 2.4), 0.6, Pen(0.0, fill="ink"))
            self.y = self.column(reason.text, Spot(LEFT + 4.0, self.y), RIGHT - LEFT - 4.0) + 0.8

    def finish(self, description: Text) -> str:
        """Close the page under what was drawn last."""
        title = self.write(say("pictures.title", tree=self.name, subject=self.subject))
        word = self.write(say_verdict(self.plan.verdict))
        told = self.write(say("pictures.told", verdict=word, text=self.write(description)))
        return self.canvas.document(self.y + 4.0, title, told)


def refusal(plan: Plan, style: Style, subject: Text, sentence: Text) -> str:
    """Draw a page that says why there is no picture, with the verdict and its reasons.

    Parameters
    ----------
    plan : Plan
        The plan.
    style : Style
        Language and units.
    subject : Text
        What the picture would have shown.
    sentence : Text
        Why it is not shown.

    Returns
    -------
    str
        SVG.
    """
    page = Page(plan, style, subject)
    page.paragraph(sentence, bold=True)
    page.y += 2.0
    page.reasons()
    if plan.outcome is not None:
        page.conditions()
    return page.finish(sentence)


def draw_shape(verdict: str) -> str:
    """Draw the shape of a verdict alone.

    Parameters
    ----------
    verdict : str
        One of the five words.

    Returns
    -------
    str
        SVG, square.
    """
    canvas = Canvas(SHAPE_MM)
    draw_verdict_shape(canvas, verdict, Spot(1.0, 1.0), SHAPE_MM - 2.0)
    return canvas.document(SHAPE_MM, verdict, verdict)


def draw_verdict_shape(canvas: Canvas, verdict: str, corner: Spot, size: float) -> None:
    """Draw the shape that goes with a verdict word, so that it never hangs on colour."""
    x, y = corner
    middle = Spot(x + 0.5 * size, y + 0.5 * size)
    stroke = Pen(0.9)
    if verdict == TIGHT:
        corners = [Spot(middle.x, y), Spot(x + size, y + size), Spot(x, y + size)]
        canvas.path(corners, stroke, closed=True, name="shape")
        return
    if verdict == MEASURE:
        canvas.circle(middle, 0.5 * size, stroke, name="shape")
        mark = Letters(5.2, "middle", bold=True)
        canvas.text(Spot(middle.x, middle.y + 1.9), "?", mark)
        return
    canvas.box(corner, Spot(x + size, y + size), stroke, name="shape")
    inset = 0.22 * size
    if verdict == ADDS_UP:
        for share in (0.38, 0.62):
            level = y + share * size
            canvas.line(Spot(x + inset, level), Spot(x + size - inset, level), stroke)
    elif verdict == LINE:
        canvas.line(Spot(x, middle.y), Spot(x + size, middle.y), stroke)
        canvas.circle(middle, 0.16 * size, Pen(0.9, fill="paper"))
    elif verdict == LEAVE:
        canvas.line(Spot(x + inset, y + inset), Spot(x + size - inset, y + size - inset), stroke)
        canvas.line(Spot(x + inset, y + size - inset), Spot(x + size - inset, y + inset), stroke)
    else:
        canvas.line(Spot(x + inset, middle.y), Spot(x + size - inset, middle.y), FINE)
