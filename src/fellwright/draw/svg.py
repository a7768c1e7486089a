"""SVG as text: a few elements, escaped, with short numbers; millimetres throughout."""

import html
import math
from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import NamedTuple

from fellwright.draw.lettering import BODY, text_width_mm

__all__ = [
    "DASHED",
    "DOTTED",
    "FINE",
    "GRID",
    "HAIR",
    "HEAVY",
    "Canvas",
    "Letters",
    "Pen",
    "Spot",
    "clean",
    "number",
]


class Spot(NamedTuple):
    """A place on the page, from its upper left corner [mm]."""

    x: float
    y: float


@dataclass(frozen=True, slots=True)
class Pen:
    """Weight of a line [mm], its dashes, and what fills the shape: none, paper, ink or a hatch."""

    weight: float = 0.35
    dash: str = ""
    fill: str = "none"


HAIR = Pen(0.18)
FINE = Pen(0.25)
HEAVY = Pen(0.7)
GRID = Pen(0.15, "0.5 1.1")
DASHED = Pen(0.35, "2.4 1.2")
DOTTED = Pen(0.5, "0.1 1.3")


@dataclass(frozen=True, slots=True)
class Letters:
    """Height of letters [mm], where they are held (start, middle, end), bold, on a white ground."""

    size: float = BODY
    anchor: str = "start"
    bold: bool = False
    ground: bool = False


FILLS = {"none": "none", "paper": "#fff", "ink": "#000"}
HATCHES = {
    "slope": (1.8, 0.2, 45.0),
    "slope-back": (1.8, 0.2, -45.0),
    "dense": (0.8, 0.3, 45.0),
    "grain": (2.2, 0.16, 0.0),
    "fibre": (0.8, 0.35, 0.0),
}
"""Spacing [mm], weight [mm] and turn [deg] of the lines of each hatch."""


def number(value: float) -> str:
    """Write a length for SVG: two decimals at most, no minus zero.

    Parameters
    ----------
    value : float
        A finite number.

    Returns
    -------
    str
        For example ``12.5``.

    Raises
    ------
    ValueError
        If the value is not finite: a picture with a hole in it must not be shown.
    """
    if not math.isfinite(value):
        raise ValueError(f"a picture needs finite lengths, got {value}")
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def clean(text: str) -> str:
    """Make a text one line that shows as it reads: no control or direction-turning letters."""
    words = " ".join(text.split())
    return "".join(c if c.isprintable() else "\N{REPLACEMENT CHARACTER}" for c in words)


def element(tag: str, attributes: dict[str, str], content: str | None = None) -> str:
    """Write one element; the content is markup already."""
    written = "".join(
        f' {name}="{html.escape(value, quote=True)}"' for name, value in attributes.items() if value
    )
    return f"<{tag}{written}/>" if content is None else f"<{tag}{written}>{content}</{tag}>"


@dataclass(slots=True)
class Canvas:
    """A page that is drawn on from back to front; its height is known at the end."""

    width: float
    parts: list[str] = field(default_factory=list)
    hatches: set[str] = field(default_factory=set)

    def _paint(self, pen: Pen) -> dict[str, str]:
        if pen.fill in HATCHES:
            self.hatches.add(pen.fill)
            fill = f"url(#fw-{pen.fill})"
        else:
            fill = FILLS[pen.fill]
        paint = {"fill": fill}
        if pen.weight > 0.0:
            paint |= {"stroke": "#000", "stroke-width": number(pen.weight)}
            paint["stroke-dasharray"] = pen.dash
            paint["stroke-linejoin"] = "round"
            if pen.dash.startswith("0.1"):
                paint["stroke-linecap"] = "round"
        return paint

    def line(self, start: Spot, end: Spot, pen: Pen = FINE, *, name: str = "") -> None:
        """Draw a straight line."""
        ends = {
            "class": name,
            "x1": number(start.x),
            "y1": number(start.y),
            "x2": number(end.x),
            "y2": number(end.y),
        }
        self.parts.append(element("line", ends | self._paint(pen)))

    def path(
        self, spots: Iterable[Spot], pen: Pen = FINE, *, closed: bool = False, name: str = ""
    ) -> None:
        """Draw a line through spots, or a shape."""
        steps = " L".join(f"{number(x)} {number(y)}" for x, y in spots)
        self.parts.append(
            element(
                "path", {"class": name, "d": f"M{steps}{'Z' if closed else ''}"} | self._paint(pen)
            )
        )

    def circle(self, centre: Spot, radius: float, pen: Pen = FINE, *, name: str = "") -> None:
        """Draw a circle."""
        place = {"class": name, "cx": number(centre.x), "cy": number(centre.y)}
        self.parts.append(element("circle", place | {"r": number(radius)} | self._paint(pen)))

    def box(self, corner: Spot, opposite: Spot, pen: Pen = FINE, *, name: str = "") -> None:
        """Draw an upright rectangle between two opposite corners."""
        place = {
            "class": name,
            "x": number(min(corner.x, opposite.x)),
            "y": number(min(corner.y, opposite.y)),
            "width": number(abs(opposite.x - corner.x)),
            "height": number(abs(opposite.y - corner.y)),
        }
        self.parts.append(element("rect", place | self._paint(pen)))

    def text(self, at: Spot, text: str, letters: Letters | None = None, *, name: str = "") -> None:
        """Write one line of text on its baseline."""
        letters = letters or Letters()
        text = clean(text)
        if letters.ground:
            self._ground(at, text, letters)
        place = {"class": name, "x": number(at.x), "y": number(at.y)}
        place["font-size"] = number(letters.size)
        place["text-anchor"] = "" if letters.anchor == "start" else letters.anchor
        place["font-weight"] = "bold" if letters.bold else ""
        self.parts.append(element("text", place, html.escape(text)))

    def _ground(self, at: Spot, text: str, letters: Letters) -> None:
        width = text_width_mm(text, letters.size, bold=letters.bold)
        left = at.x - {"start": 0.0, "middle": 0.5, "end": 1.0}[letters.anchor] * width
        self.box(
            Spot(left - 0.6, at.y - 0.82 * letters.size),
            Spot(left + width + 0.6, at.y + 0.28 * letters.size),
            Pen(0.0, fill="paper"),
        )

    def arrow(self, start: Spot, end: Spot, pen: Pen = FINE, *, name: str = "") -> None:
        """Draw a line with a head at its end."""
        length = math.hypot(end.x - start.x, end.y - start.y)
        if length <= 0.0:
            return
        along = Spot((end.x - start.x) / length, (end.y - start.y) / length)
        head = min(1.2 + 2.4 * pen.weight, length)
        neck = Spot(end.x - head * along.x, end.y - head * along.y)
        half = 0.42 * head
        self.line(start, neck, pen, name=name)
        self.path(
            [
                end,
                Spot(neck.x - half * along.y, neck.y + half * along.x),
                Spot(neck.x + half * along.y, neck.y - half * along.x),
            ],
            Pen(0.0, fill="ink"),
            closed=True,
        )

    def span(self, start: Spot, end: Spot, *, name: str = "") -> None:
        """Draw a dimension: a fine line with a stroke across each end."""
        self.line(start, end, FINE, name=name)
        length = math.hypot(end.x - start.x, end.y - start.y)
        if length <= 0.0:
            return
        across = Spot(-(end.y - start.y) / length, (end.x - start.x) / length)
        for at in (start, end):
            self.line(
                Spot(at.x - across.x, at.y - across.y), Spot(at.x + across.x, at.y + across.y), FINE
            )

    def document(self, height: float, title: str, description: str) -> str:
        """Write the whole picture; one user unit is a millimetre."""
        size = f"0 0 {number(self.width)} {number(height)}"
        root = {
            "xmlns": "http://www.w3.org/2000/svg",
            "viewBox": size,
            "width": f"{number(self.width)}mm",
            "height": f"{number(height)}mm",
            "role": "img",
            "font-family": "sans-serif",
            "fill": "#000",
        }
        paper = {"width": number(self.width), "height": number(height), "fill": "#fff"}
        body = [
            element("title", {}, html.escape(clean(title))),
            element("desc", {}, html.escape(clean(description))),
            *([self._definitions()] if self.hatches else []),
            element("rect", paper),
            *self.parts,
        ]
        return element("svg", root, "\n" + "\n".join(body) + "\n") + "\n"

    def _definitions(self) -> str:
        patterns = []
        for name in sorted(self.hatches):
            spacing, weight, turn = HATCHES[name]
            middle = number(0.5 * spacing)
            stroke = {"x1": middle, "y1": "0", "x2": middle, "y2": number(spacing)}
            stroke |= {"stroke": "#000", "stroke-width": number(weight)}
            frame = {
                "id": f"fw-{name}",
                "width": number(spacing),
                "height": number(spacing),
                "patternUnits": "userSpaceOnUse",
                "patternTransform": f"rotate({number(turn)})" if turn else "",
            }
            patterns.append(element("pattern", frame, element("line", stroke)))
        return element("defs", {}, "".join(patterns))
