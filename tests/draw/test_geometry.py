"""What is drawn measures what is said: lengths on paper times the scale are the plan's figures."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import pytest
from tests.draw.pages import (
    ENGLISH,
    EXAMPLES,
    classed,
    corners,
    example,
    number,
    only,
    planned,
    tree,
    varied,
    words,
)

from fellwright.draw import draw_need_have, draw_push_lift, draw_stump, draw_tipping
from fellwright.draw.body import (
    MEDIAN,
    median_need,
    outline,
    stem_diameter_m,
    tipping_points,
    turned,
)
from fellwright.draw.need_have import panels
from fellwright.draw.opening import opening_frame
from fellwright.draw.push_lift import plot, push_curve
from fellwright.draw.stump import spread, stump_frame
from fellwright.draw.stump_points import stump_points
from fellwright.draw.tipping import tipping_frame
from fellwright.physics.stem_form import sections_volume_m3
from fellwright.physics.tipping import tipping_work_j
from fellwright.planning.need import draw_body, draw_hinge, draw_wood
from fellwright.planning.plan import Plan

WEDGED = ["harrowlees-11", "harrowlees-11-straight", "harrowlees-26", "pikeless-moss-33"]
PAPER = 0.011
"""Coordinates are written to hundredths of a millimetre."""


def wedged(name: str) -> Plan:
    plan = example(name)
    assert plan.may_cut
    return plan


@pytest.mark.parametrize("name", [*WEDGED, "tarnshaw-9"])
def test_tree_turns_by_the_lift_over_the_lever(name: str) -> None:
    plan = wedged(name)
    points = tipping_points(plan)
    assert points is not None
    assert plan.outcome is not None
    assert plan.situation is not None
    figures, need = plan.outcome.figures, median_need(plan.situation)
    assert points.lever_m == need.lever_m
    assert points.balance is not None
    assert points.let_go is not None
    for stance, lift in (
        (points.balance, figures.balance_lift_m.p50),
        (points.let_go, figures.let_go_lift_m.p50),
    ):
        assert stance.lift_m == lift
        moved = turned(points.contact, points.axis, stance.rotation_rad)
        chord = math.dist(moved, points.contact)
        assert chord == pytest.approx(lift, rel=1e-9)
        # The tree turns as one: every point keeps its distance from the axis.
        for now, then in (
            (stance.balance_point, points.start.balance_point),
            (stance.tip, points.start.tip),
        ):
            assert math.dist(now, points.axis) == pytest.approx(math.dist(then, points.axis))
    assert moved.z_m > 0.0


@pytest.mark.parametrize("name", [*WEDGED, "tarnshaw-9"])
def test_balance_point_stands_over_the_axis_at_balance(name: str) -> None:
    points = tipping_points(wedged(name))
    assert points is not None
    assert points.balance is not None
    assert points.let_go is not None
    assert points.balance.balance_point.x_m == pytest.approx(points.axis.x_m, abs=1e-12)
    assert points.start.balance_point.x_m < points.axis.x_m < points.let_go.balance_point.x_m


@pytest.mark.parametrize("name", EXAMPLES)
def test_balance_point_starts_where_the_readings_put_it(name: str) -> None:
    plan = example(name)
    points = tipping_points(plan)
    assert points is not None
    assert plan.situation is not None
    need = median_need(plan.situation)
    assert points.start.balance_point.z_m == pytest.approx(need.height_m)
    assert points.start.balance_point.x_m == pytest.approx(-need.back_m, abs=0.03)
    axis = 0.5 * need.wood_m - need.notch_m - 0.5 * need.hinge_m
    assert points.axis.x_m == pytest.approx(axis)
    assert points.axis.z_m == 0.0


def test_forward_leaner_has_no_balance_and_no_let_go() -> None:
    points = tipping_points(example("quernholt-17"))
    assert points is not None
    assert points.balance is None
    assert points.let_go is None
    assert points.start.balance_point.x_m > points.axis.x_m
    svg = draw_tipping(example("quernholt-17"), ENGLISH)
    assert not classed(svg, "balance-point balance")
    assert "start by itself" in words(svg)


@pytest.mark.parametrize("name", WEDGED)
def test_tipping_picture_is_to_scale(name: str) -> None:
    plan = wedged(name)
    frame = tipping_frame(plan)
    assert frame is not None
    assert plan.model is not None
    svg = draw_tipping(plan, ENGLISH)
    assert f"1:{frame.scale:g}" in words(svg)
    ground = number(only(svg, "ground"), "y1")
    tip = corners(only(svg, "crown start"))[0]
    assert (ground - tip[1]) * frame.scale / 1000.0 == pytest.approx(
        plan.model.cut_m + frame.points.start.tip.z_m, abs=2 * PAPER * frame.scale / 1000.0
    )
    # Tree and lens show each balance point, and at balance it is plumb over the axis.
    plumb = number(only(svg, "plumb"), "x1"), number(only(svg, "plumb lens"), "x1")
    shown = [number(node, "cx") for node in classed(svg, "balance-point balance")]
    assert shown[:2] == [pytest.approx(x, abs=PAPER) for x in plumb]
    lens = frame.lens_scale / 1000.0
    behind = frame.points.axis.x_m - frame.points.start.balance_point.x_m
    start = number(classed(svg, "balance-point start")[1], "cx")
    assert (plumb[1] - start) * lens == pytest.approx(behind, abs=2 * PAPER * lens)
    assert f"{behind:.2f} m behind the hinge axis" in words(svg)


@pytest.mark.parametrize("name", WEDGED)
def test_opening_is_to_scale_and_says_millimetres_and_turns(name: str) -> None:
    plan = wedged(name)
    points = tipping_points(plan)
    assert points is not None
    assert plan.marks is not None
    svg = draw_tipping(plan, ENGLISH)
    scale = opening_frame(plan, 0.0).scale
    places = {
        stance: (number(node, "cx"), number(node, "cy"))
        for stance in ("start", "balance", "let-go")
        for node in classed(svg, f"contact {stance}")
    }
    turns = plan.marks.turns
    for stance, drawn, counted in (
        (points.balance, "balance", None if turns is None else turns.balance[1]),
        (points.let_go, "let-go", None if turns is None else turns.let_go[1]),
    ):
        assert stance is not None
        opened_mm = math.dist(places[drawn], places["start"]) * scale
        assert opened_mm == pytest.approx(1000.0 * stance.lift_m, abs=2 * PAPER * scale)
        said = f"{1000 * stance.lift_m:.0f} mm"
        assert (said if counted is None else f"{said}, {counted:.0f} turns") in words(svg)
    axis = only(svg, "axis opening")
    lever_mm = (number(axis, "cx") - places["start"][0]) * scale
    assert lever_mm == pytest.approx(1000.0 * points.lever_m, abs=2 * PAPER * scale)


@pytest.mark.parametrize("name", EXAMPLES)
def test_outline_has_the_volume_of_the_model(name: str) -> None:
    plan = example(name)
    points = tipping_points(plan)
    assert points is not None
    assert plan.model is not None
    assert plan.tree.dbh_cm is not None
    model, dbh_cm = plan.model, plan.tree.dbh_cm
    step = (model.height_m - model.cut_m) / 48
    heights = [model.cut_m + step * i for i in range(49)]
    widths = [stem_diameter_m(model.species, dbh_cm, model.height_m, z) for z in heights]
    assert sections_volume_m3(widths, step) == pytest.approx(model.stem_volume_m3, rel=2e-3)
    shape = outline(model, dbh_cm, points)
    foot = shape.stem[0], shape.stem[-1]
    assert foot[1].x_m - foot[0].x_m == pytest.approx(model.stump_m)
    assert plan.tree.crown_radius_m is not None
    crown_m = 2.0 * plan.tree.crown_radius_m
    assert shape.crown[1].x_m - shape.crown[3].x_m == pytest.approx(crown_m)


@pytest.mark.parametrize("name", EXAMPLES)
def test_stump_plan_measures_its_marks(name: str) -> None:
    plan = example(name)
    points = stump_points(plan)
    assert points is not None
    assert plan.marks is not None
    assert plan.cut is not None
    svg = draw_stump(plan, ENGLISH)
    scale = stump_frame(points, 0.0).scale
    close = 2 * PAPER * scale
    bark = only(svg, "bark")
    front = number(bark, "cy") - number(bark, "r")
    assert 2 * number(bark, "r") * scale == pytest.approx(2000.0 * points.radius_m, abs=close)
    hinge = [y for _, y in corners(only(svg, "hinge"))]
    apex, edge = ((y - front) * scale for y in (min(hinge), max(hinge)))
    assert edge - apex == pytest.approx(1000.0 * plan.cut.hinge_m, abs=close)
    marks = {mark.key: mark.from_front_mm for mark in plan.marks.marks}
    assert apex == pytest.approx(marks["notch_apex"], abs=close)
    assert edge == pytest.approx(marks["hinge_back_edge"], abs=close)
    for key, drawn in (("tip_seated", "wedge"), ("tip_full", "wedge-full")):
        if key in marks:
            tip = (number(only(svg, drawn), "y") - front) * scale
            assert tip == pytest.approx(marks[key], abs=close)
    if "strap_front" in marks:
        strap = min(y for _, y in corners(only(svg, "strap")))
        assert (strap - front) * scale == pytest.approx(marks["strap_front"], abs=close)
    if plan.marks.bar_room_mm is not None:
        room = only(svg, "bar-room")
        drawn_mm = abs(number(room, "y2") - number(room, "y1")) * scale
        assert drawn_mm == pytest.approx(plan.marks.bar_room_mm, abs=close)
    for mark in plan.marks.marks:
        assert f"{mark.from_front_mm / 10:.1f} cm" in words(svg)


@pytest.mark.parametrize("name", [*WEDGED, "tarnshaw-9"])
def test_plate_stands_in_the_half_that_is_cut_first(name: str) -> None:
    points = stump_points(wedged(name))
    assert points is not None
    assert points.wedge is not None
    assert points.first_side in (-1.0, 1.0)
    share = 0.5 + abs(points.divide_y_m) / (2.0 * points.radius_m)
    assert 0.55 <= share <= 0.60 + 1e-12
    for y in (points.wedge.left_y_m, points.wedge.right_y_m):
        assert (y - points.divide_y_m) * points.first_side >= 0.005 - 1e-12


def test_hollow_is_drawn_inside_its_sound_wall() -> None:
    plan = planned(varied()["hollow"])
    assert plan.model is not None
    points = stump_points(plan)
    assert points is not None
    assert points.cavity_radius_m == pytest.approx(0.5 * plan.model.wood_m - 0.12)
    svg = draw_stump(plan, ENGLISH)
    scale = stump_frame(points, 0.0).scale
    drawn = number(only(svg, "cavity"), "r") * scale / 1000.0
    assert drawn == pytest.approx(points.cavity_radius_m, abs=1e-3)


def test_mirrored_tree_is_drawn_mirrored() -> None:
    base = tree("harrowlees-11")
    lay = base.cut.lay_deg
    assert lay is not None

    def leaning(turn_deg: float) -> Plan:
        toward = (lay + 180.0 + turn_deg) % 360.0
        return planned(replace(base, lean=(replace(base.lean[0], toward_deg=toward),)))

    right, left = leaning(-20.0), leaning(20.0)
    one, other = stump_points(right), stump_points(left)
    assert one is not None
    assert other is not None
    assert one.first_side == -other.first_side == -1.0
    assert one.divide_y_m == pytest.approx(-other.divide_y_m)
    assert one.lean_toward_rad is not None
    assert other.lean_toward_rad is not None
    assert one.lean_toward_rad == pytest.approx(-other.lean_toward_rad)
    assert one.wedge is not None
    assert other.wedge is not None
    assert one.wedge.left_y_m == pytest.approx(-other.wedge.right_y_m)
    assert one.marks == other.marks
    for draw in (draw_tipping, draw_need_have, draw_push_lift):
        assert draw(right, ENGLISH) == draw(left, ENGLISH)
    middle = number(only(draw_stump(right, ENGLISH), "bark"), "cx")
    first, second = (
        sum(x for x, _ in corners(only(draw_stump(plan, ENGLISH), "first-half"))) / 82.0 - middle
        for plan in (right, left)
    )
    assert first > 5.0
    assert first == pytest.approx(-second, abs=PAPER)


def test_side_lean_points_the_way_it_leans() -> None:
    points = stump_points(example("tarnshaw-9"))
    assert points is not None
    assert points.lean_toward_rad is not None
    # 0.3 m back and 1.9 m right of the lay: a little more than square to it, to the right.
    assert math.degrees(points.lean_toward_rad) == pytest.approx(-99.0, abs=1.0)
    svg = draw_stump(example("tarnshaw-9"), ENGLISH)
    lean, middle = only(svg, "dial-lean"), only(svg, "dial")
    assert number(lean, "x2") > number(middle, "cx")
    assert "1.90 m to the right" in words(svg)


@pytest.mark.parametrize("name", [*WEDGED, "tarnshaw-9"])
def test_bars_stand_at_their_figures(name: str) -> None:
    plan = wedged(name)
    assert plan.outcome is not None
    lift, push = panels(plan, ENGLISH)
    svg = draw_need_have(plan, ENGLISH)
    needs = classed(svg, "need")
    figures = plan.outcome.figures
    for panel, node, need in (
        (lift, needs[0], figures.let_go_lift_m),
        (push, needs[1], figures.push_n),
    ):
        per_mm = 1.0 / (panel.x(1.0) - panel.x(0.0))
        low = (number(node, "x") - panel.x(0.0)) * per_mm
        high = low + number(node, "width") * per_mm
        assert low == pytest.approx(need.p10, abs=2 * PAPER * per_mm)
        assert high == pytest.approx(need.p90, abs=2 * PAPER * per_mm)
    marks = [0.5 * (corners(node)[0][0] + corners(node)[2][0]) for node in classed(svg, "have")]
    gives = [d.usable_lift_m.p50 for d in plan.outcome.devices if d.usable_lift_m]
    pushes = [d.available_n.p50 for d in plan.outcome.devices if d.available_n]
    wanted = [lift.x(value) for value in gives] + [push.x(value) for value in pushes]
    assert marks == [pytest.approx(x, abs=PAPER) for x in wanted]
    black = [node for node in classed(svg, "have") if node.get("fill") == "#000"]
    assert len(black) == (0 if plan.outcome.choice is None else 2)
    told = words(svg)
    for device in plan.outcome.devices:
        assert device.name in told
    assert "the tree asks" in told


@pytest.mark.parametrize("name", [*WEDGED, "tarnshaw-9"])
def test_curve_gives_the_work_of_the_wedge(name: str) -> None:
    plan = wedged(name)
    assert plan.situation is not None
    curve = push_curve(plan.situation)
    assert curve is not None
    s = plan.situation
    body, hinge = draw_body(MEDIAN, s), draw_hinge(MEDIAN, s)
    law = draw_wood(MEDIAN, s, hinge).law
    behind = 0.5 * hinge.wood_m - hinge.notch_m - 0.5 * hinge.thickness_m + body.back_m
    turns = [2.0 * math.asin(x / (2.0 * hinge.lever_m)) for x in curve.lifts_m]
    work = sum(
        0.5 * (curve.pushes_n[i] + curve.pushes_n[i + 1]) * (turns[i + 1] - turns[i])
        for i in range(len(turns) - 1)
    )
    wanted = tipping_work_j(
        turns[-1], body.weight_n, behind, body.height_m, s.wind_forward_n_m, law
    )
    assert work * hinge.lever_m == pytest.approx(wanted, rel=2e-3)
    assert curve.pushes_n[0] == pytest.approx(body.weight_n * behind / hinge.lever_m)
    assert curve.pushes_n[-1] == pytest.approx(0.0, abs=1e-3 * curve.peak_n)
    assert max(curve.pushes_n) == pytest.approx(curve.peak_n)
    assert list(curve.lifts_m) == sorted(curve.lifts_m)
    assert curve.lifts_m[0] == 0.0 < curve.balance_m < curve.let_go_m == curve.lifts_m[-1]


@pytest.mark.parametrize("name", [*WEDGED, "tarnshaw-9"])
def test_curve_agrees_with_the_quantiles_of_the_draws(name: str) -> None:
    plan = wedged(name)
    assert plan.situation is not None
    assert plan.outcome is not None
    curve = push_curve(plan.situation)
    assert curve is not None
    figures = plan.outcome.figures
    assert figures.let_go_lift_m.p10 < curve.let_go_m < figures.let_go_lift_m.p90
    assert figures.push_n.p10 < curve.peak_n < figures.push_n.p90
    assert curve.balance_m == pytest.approx(figures.balance_lift_m.p50, abs=0.001)


@pytest.mark.parametrize("name", [*WEDGED, "tarnshaw-9"])
def test_push_picture_ends_each_device_at_its_figures(name: str) -> None:
    plan = wedged(name)
    assert plan.situation is not None
    assert plan.outcome is not None
    curve = push_curve(plan.situation)
    assert curve is not None
    svg = draw_push_lift(plan, ENGLISH)
    let_go = only(svg, "curve")
    # Where the plot stands is read off the picture, its axes off the plan.
    area = plot(plan, ENGLISH, curve, 0.0)
    down = corners(let_go)[-1][1] - area.bottom
    assert corners(let_go)[-1][0] == pytest.approx(area.spot(curve.let_go_m, 0.0).x, abs=PAPER)
    ends = sorted(number(node, "x1") for node in classed(svg, "device"))
    wanted = sorted(
        area.spot(d.usable_lift_m.p50, 0.0).x for d in plan.outcome.devices if d.usable_lift_m
    )
    assert ends == [pytest.approx(x, abs=PAPER) for x in wanted]
    within = [
        area.spot(d.usable_lift_m.p50, d.available_n.p50).y + down
        for d in plan.outcome.devices
        if d.usable_lift_m and d.available_n and area.push.share(d.available_n.p50) <= 1.0
    ]
    drawn = [number(n, "y") + 0.5 * number(n, "height") for n in classed(svg, "device-end")]
    assert sorted(drawn) == [pytest.approx(y, abs=2 * PAPER) for y in sorted(within)]
    for device in plan.outcome.devices:
        if device.usable_lift_m and device.available_n:
            lift = f"{1000 * device.usable_lift_m.p50:.0f} mm"
            push = f"{device.available_n.p50 / 1000:.0f} kN"
            assert f"{device.name} {lift}, {push}" in words(svg)


def test_labels_keep_their_order_and_their_room() -> None:
    wanted, rooms = [0.0, 1.0, 2.0, 30.0], [8.0, 12.0, 8.0, 8.0]
    placed = spread(wanted, rooms)
    gaps = [b - a for a, b in pairwise(placed)]
    assert all(gap >= room - 1e-9 for gap, room in zip(gaps, rooms, strict=False))
    assert spread([0.0, 50.0], [8.0, 8.0]) == [0.0, 50.0]
