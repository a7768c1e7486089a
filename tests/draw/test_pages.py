"""Every picture is sound SVG, readable on paper, in every language, whatever the tree is called."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.draw.pages import (
    DRAWERS,
    ENGLISH,
    EXAMPLES,
    GERMAN,
    IMPERIAL,
    STYLES,
    SVG,
    Box,
    boxes,
    example,
    kit,
    planned,
    read,
    texts,
    tree,
    varied,
    words,
)

from fellwright.draw.lettering import LEAST, shorten, text_width_mm, wrap_text
from fellwright.draw.scales import axis_to, force_unit, lift_unit, round_scale, tick_text
from fellwright.draw.svg import clean, number
from fellwright.planning.plan import Plan
from fellwright.words import Style, render, say

CASES = [*EXAMPLES, *varied()]
COLOURS = {"#000", "#fff", "none", ""}
TAGS = {"svg", "title", "desc", "defs", "pattern", "rect", "line", "path", "circle", "text"}
HOSTILE = "<script>alert(\"x\")</script> & '<b>' ]]> \x00\x1b\u202e\ud800"


def plan_of(case: str) -> Plan:
    return example(case) if case in EXAMPLES else planned(varied()[case])


def assert_clear(svg: str) -> None:
    """No text over another, none over the edge."""
    placed = boxes(svg)
    height = float(read(svg).attrib["viewBox"].split()[3])
    for i, box in enumerate(placed):
        assert box.left >= 3.0, box
        assert box.right <= 146.0, box
        assert box.top >= 2.0, box
        assert box.bottom <= height - 1.0, box
        for other in placed[i + 1 :]:
            assert not box.meets(other), (box, other)


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("picture", DRAWERS)
@pytest.mark.parametrize("case", CASES)
def test_picture_is_readable(case: str, picture: str, style: str) -> None:
    svg = DRAWERS[picture](plan_of(case), STYLES[style])
    root = read(svg)
    assert root.tag == f"{SVG}svg"
    assert root.attrib["role"] == "img"
    assert root.attrib["font-family"] == "sans-serif"
    assert root.attrib["viewBox"].startswith("0 0 148 ")
    assert [child.tag for child in root][:2] == [f"{SVG}title", f"{SVG}desc"]
    assert all((root[i].text or "").strip() for i in (0, 1))
    assert min(float(node.attrib["font-size"]) for node in texts(svg)) >= LEAST >= 3.2
    assert_clear(svg)


@pytest.mark.parametrize("picture", DRAWERS)
@pytest.mark.parametrize("case", CASES)
def test_picture_holds_only_black_shapes_and_text(case: str, picture: str) -> None:
    svg = DRAWERS[picture](plan_of(case), ENGLISH)
    defined = {f"url(#{node.attrib['id']})" for node in read(svg).iter(f"{SVG}pattern")}
    for node in read(svg).iter():
        assert node.tag.removeprefix(SVG) in TAGS
        assert {node.get("fill", ""), node.get("stroke", "")} <= COLOURS | defined
        assert not [name for name in node.attrib if name.startswith("on") or "href" in name]
        assert "nan" not in "".join(node.attrib.values())


@pytest.mark.parametrize("picture", DRAWERS)
def test_names_are_escaped(picture: str) -> None:
    first, *others = kit().devices
    renamed = replace(kit(), devices=(replace(first, name=HOSTILE), *others))
    plan = planned(replace(tree("harrowlees-11"), name=HOSTILE), renamed)
    svg = DRAWERS[picture](plan, ENGLISH)
    svg.encode("utf-8")
    assert "<script" not in svg
    assert "<b>" not in svg
    assert not re.search("[\x00-\x08\x0b-\x1f\u202e]", svg)
    title = read(svg)[0].text or ""
    assert title.startswith("<script>alert(\"x\")</script> & '<b>' ]]> ")
    assert_clear(svg)


@pytest.mark.parametrize("picture", DRAWERS)
def test_verdict_stands_in_word_and_shape(picture: str) -> None:
    shapes = set()
    for case in ("harrowlees-11", "quernholt-17", "tarnshaw-9", "leans far back", "look open"):
        plan = plan_of(case)
        svg = DRAWERS[picture](plan, ENGLISH)
        assert plan.verdict in [node.text for node in texts(svg) if node.get("class") == "verdict"]
        root = read(svg)
        at = [i for i, node in enumerate(root) if node.get("class") == "shape"]
        assert len(at) == 1
        drawn = root[at[0]], root[at[0] + 1], root[at[0] + 2]
        slopes = [node.get("y1") == node.get("y2") for node in drawn]
        shapes.add((*(node.tag for node in drawn), *slopes))
    assert len(shapes) == 5


@pytest.mark.parametrize("picture", DRAWERS)
def test_german_picture_speaks_german(picture: str) -> None:
    told = words(DRAWERS[picture](example("harrowlees-11"), GERMAN))
    assert re.search("Fällkerb|Bruchleiste|Hub", told)
    assert "GEHT AUF" in told
    for english in ("hinge", "notch", "lift", "push", "balance", "need", "lean", "stump"):
        assert not re.search(rf"\b{english}\b", told)
    assert not re.search(r"\d\.\d", told), "German writes a decimal comma"


@pytest.mark.parametrize("picture", DRAWERS)
def test_imperial_picture_holds_no_metric_unit(picture: str) -> None:
    told = words(DRAWERS[picture](example("harrowlees-11"), IMPERIAL))
    assert re.search(r"\b(in|ft|lbf)\b", told)
    assert not re.search(r"\b(mm|cm|m|kN|t|kg)\b", told)


@pytest.mark.parametrize("style", [*STYLES.values(), Style(force="t")])
def test_axes_use_the_units_of_the_words(style: Style) -> None:
    for unit, kind in ((lift_unit(style), "lift"), (force_unit(style), "force")):
        key = {"lift": "pictures.lift", "force": "pictures.push_band"}[kind]
        value = 123456789.0
        if kind == "lift":
            text = render(say(key, lift=value), style)
        else:
            text = render(say(key, p10=value, p50=value, p90=value), style).split("\u2013")[-1]
        amount, sign = text.rsplit(" ", 1)
        assert sign == unit.sign
        shown = float(amount.strip().replace(",", "."))
        assert shown == pytest.approx(value * unit.per_si, abs=0.51)


@pytest.mark.slow
@settings(max_examples=25, deadline=None)
@given(st.data())
def test_no_text_meets_another_whatever_the_tree(data: st.DataObject) -> None:
    base = tree("harrowlees-11")
    dbh_cm = data.draw(st.floats(12.0, 110.0))
    height_m = min(44.0, max(6.0, dbh_cm * data.draw(st.floats(0.35, 0.9))))
    drawn = replace(
        base,
        species=data.draw(st.sampled_from(["Norway spruce", "beech", "Scots pine", "birch"])),
        dbh_cm=dbh_cm,
        height_m=height_m,
        crown_base_m=height_m * data.draw(st.floats(0.1, 0.7)),
        crown_radius_m=data.draw(st.floats(0.8, 7.0)),
        stump_diameter_cm=dbh_cm * data.draw(st.floats(1.05, 1.3)),
        lean=(
            replace(
                base.lean[0],
                offset_m=height_m * data.draw(st.floats(0.0, 0.08)),
                toward_deg=data.draw(st.floats(0.0, 359.0)),
            ),
        ),
        cut=replace(
            base.cut,
            hinge_mm=None,
            notch_share=data.draw(st.sampled_from([None, 0.2, 0.3])),
            method=data.draw(
                st.sampled_from([None, "half and half", "hinge first", "normal back cut"])
            ),
        ),
    )
    plan = planned(drawn)
    for style in STYLES.values():
        for draw in DRAWERS.values():
            assert_clear(draw(plan, style))


@given(st.text(max_size=60), st.floats(5.0, 60.0))
def test_shortened_text_fits(text: str, width: float) -> None:
    assert text_width_mm(shorten(text, width, 3.6), 3.6) <= width


@given(st.text(alphabet="abc W.-", max_size=80), st.floats(20.0, 60.0))
def test_wrapped_lines_fit_and_keep_every_word_that_fits(text: str, width: float) -> None:
    lines = wrap_text(text, width, 3.6)
    assert all(text_width_mm(line, 3.6) <= width for line in lines)
    if all(text_width_mm(word, 3.6) <= width for word in text.split()):
        assert " ".join(lines).split() == text.split()


def test_a_wide_face_is_not_wider_than_the_estimate() -> None:
    # Advance widths of DejaVu Sans, a wide face, in thousandths of the letter height.
    advances = {"a": 613, "e": 615, "i": 278, "m": 974, "n": 634, "r": 411, "t": 392, "W": 989}
    advances |= {"A": 684, "G": 775, "0": 636, " ": 318, ".": 318, "-": 361, "\u00e4": 613}
    for letter, advance in advances.items():
        assert text_width_mm(letter, 1000.0) >= advance - 1


@given(st.text())
def test_clean_text_is_printable_and_one_line(text: str) -> None:
    assert clean(text).isprintable()
    clean(text).encode("utf-8")


@pytest.mark.parametrize("value", [float("nan"), float("inf")])
def test_hole_in_a_picture_is_refused(value: float) -> None:
    with pytest.raises(ValueError, match="finite"):
        number(value)


def test_numbers_are_short() -> None:
    assert [number(x) for x in (-0.001, 0.0, 12.5, 3.14159)] == ["0", "0", "12.5", "3.14"]


@given(st.floats(0.01, 60.0), st.floats(10.0, 120.0))
def test_round_scale_fits_and_wastes_little(size_m: float, room_mm: float) -> None:
    on_paper = 1000.0 * size_m / round_scale(size_m, room_mm)
    assert room_mm * 0.74 <= on_paper <= room_mm * 1.000001


@given(st.floats(1e-3, 1e6), st.integers(3, 8))
def test_axis_has_few_round_ticks(most: float, ticks: int) -> None:
    axis = axis_to(most, lift_unit(ENGLISH), ticks)
    assert 1 <= len(axis.ticks) - 1 <= ticks
    assert axis.ticks[-1] <= axis.top * (1.0 + 1e-9)
    assert len(tick_text(axis.ticks[1], ENGLISH).strip("0.").rstrip("0")) <= 1 or axis.step < 1e-3


def test_boxes_that_share_room_meet() -> None:
    box = Box("", 0.0, 0.0, 2.0, 2.0)
    assert box.meets(Box("", 1.0, 1.0, 3.0, 3.0))
    assert not box.meets(Box("", 2.1, 0.0, 3.0, 2.0))
