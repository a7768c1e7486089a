"""Power screws against worked examples of textbooks, and against free bodies solved by numpy."""

import math
from typing import Any

import pytest
from tests.checks.free_bodies import thread_torque_n_m, wedge_thrust_n
from tests.checks.rows import HAND, SECOND_METHOD, WORKED_EXAMPLE, Row

from fellwright.physics import power_screw

pytestmark = pytest.mark.check

INCH_M = 0.0254
POUND_N = 4.4482216152605
INCH_POUND_N_M = INCH_M * POUND_N
TRAPEZOIDAL = math.radians(15.0)
EFFICIENCY_TABLE = ((0.08, 154, 0.14), (0.12, 91, 0.084), (0.16, 60, 0.055), (0.30, 22, 0.020))


def _example(
    function: str, inputs: dict[str, Any], expected: float, source: str, place: str, **more: Any
) -> Row:
    given: dict[str, Any] = {
        "kind": WORKED_EXAMPLE,
        "mark": "SEEN",
        "tolerance": 1e-6,
        "why": "printed digits",
    }
    return Row(
        function=f"power_screw.{function}",
        inputs=inputs,
        expected=expected,
        source=source,
        place=place,
        **(given | more),
    )


def _thread(
    axial_n: float, mean_m: float, lead_m: float, mu: float, flank: float
) -> dict[str, Any]:
    return {
        "axial_n": axial_n,
        "mean_diameter_m": mean_m,
        "lead_m": lead_m,
        "mu": mu,
        "flank_rad": flank,
    }


# Shigley example 8-1: 32 mm, pitch 4, two starts, square; mean 30, lead 8, collar 40, mu .08.
SHIGLEY = _thread(6400.0, 0.030, 0.008, 0.08, 0.0)
# 36 mm by 6 mm, 9 kN: mean 33, lead 6; the friction that gives the printed torque is 0.16.
MM_36 = _thread(9000.0, 0.033, 0.006, 0.16, 0.0)
# Triple-start 50 x 8 at 15 kN; double-start trapezoidal 100 x 12 at 300 kN.
SCILAB_2 = _thread(300e3, 0.094, 0.024, 0.15, TRAPEZOIDAL)
JACK = _thread(10000.0 * POUND_N, 2.0 * INCH_M, 0.5 * INCH_M, 0.2, 0.0)

ROWS = [
    _example(
        "raising_torque_n_m",
        SHIGLEY,
        26.18 - 10.24,
        "[Budynas-2015]",
        "example 8-1, raising, less the collar",
        mark="MEMORY",
        tolerance=5e-4,
        why="printed to 0.01 N.m",
    ),
    _example(
        "lowering_torque_n_m",
        SHIGLEY,
        9.77 - 10.24,
        "[Budynas-2015]",
        "example 8-1, lowering, less the collar: the thread alone runs back",
        mark="MEMORY",
        tolerance=0.0,
        absolute=0.006,
        why="printed to 0.01 N.m",
    ),
    _example(
        "collar_torque_n_m",
        {"axial_n": 6400.0, "collar_diameter_m": 0.040, "mu": 0.08},
        10.24,
        "[Budynas-2015]",
        "example 8-1, collar",
        mark="MEMORY",
        tolerance=5e-4,
        why="printed to 0.01 N.m",
    ),
    _example(
        "screw_efficiency_ratio",
        {"axial_n": 6400.0, "lead_m": 0.008, "torque_n_m": 26.18},
        0.311,
        "[Budynas-2015]",
        "example 8-1, overall efficiency",
        mark="MEMORY",
        tolerance=0.002,
        why="printed to three digits",
    ),
    _example(
        "raising_torque_n_m",
        MM_36,
        32.55,
        "[Wizedu-45857]",
        "36 mm by 6 mm at 9 kN, thread torque raising",
        tolerance=0.005,
        why="the page rounds its angles; friction 0.16 recovered from the printed torque",
    ),
    _example(
        "lowering_torque_n_m",
        MM_36,
        14.97,
        "[Wizedu-45857]",
        "36 mm by 6 mm at 9 kN, thread torque lowering",
        tolerance=0.006,
        why="the page rounds its angles; the friction was fixed by raising, not by this figure",
    ),
    _example(
        "screw_efficiency_ratio",
        {"axial_n": 9000.0, "lead_m": 0.006, "torque_n_m": 32.55},
        0.264,
        "[Wizedu-45857]",
        "efficiency of the thread alone, which the page calls overall",
        tolerance=0.002,
        why="printed to three digits",
    ),
    _example(
        "screw_efficiency_ratio",
        {"axial_n": 9000.0, "lead_m": 0.006, "torque_n_m": 53.61},
        0.160,
        "[Wizedu-45857]",
        "overall: thread 32.55 and collar 21.06 N.m",
        mark="DERIVED",
        tolerance=0.004,
        why="three digits; the page leaves the collar out of its efficiency",
    ),
    _example(
        "raising_torque_n_m",
        JACK,
        2840.0 * INCH_POUND_N_M,
        "[Adaptive-Statics]",
        "problem 5.6.1, 10,000 lb jack; 2 in, lead 0.5 in, friction 0.2 recovered from the answer",
        mark="DERIVED",
        tolerance=0.001,
        why="printed to 10 in.lb; inputs are the round ones that give it, so it tests little",
    ),
    _example(
        "raising_torque_n_m",
        _thread(15e3, 0.046, 0.024, 0.15, 0.0),
        204.644140833 - 15e3 * 0.15 * 0.0825 / 2.0,
        "[Scilab-TBC-764]",
        "example 6.1, triple-start 50 x 8, raising, less the collar of 65 and 100 mm",
        why="printed to nine digits",
    ),
    _example(
        "lowering_torque_n_m",
        _thread(15e3, 0.046, 0.024, 0.15, 0.0),
        87.401514671 - 15e3 * 0.15 * 0.0825 / 2.0,
        "[Scilab-TBC-764]",
        "example 6.1, lowering, less the collar",
        why="printed to nine digits",
    ),
    _example(
        "raising_torque_n_m", SCILAB_2, 3378.159205, "[Scilab-TBC-764]", "example 6.2, raising"
    ),
    _example(
        "lowering_torque_n_m", SCILAB_2, 1030.685630, "[Scilab-TBC-764]", "example 6.2, lowering"
    ),
    _example(
        "screw_efficiency_ratio",
        {"axial_n": 300e3, "lead_m": 0.024, "torque_n_m": 3378.159205},
        0.33921302,
        "[Scilab-TBC-764]",
        "example 6.2, efficiency",
    ),
    _example(
        "raising_torque_n_m",
        _thread(750.0, 0.0195, 0.005, 0.15, 0.0),
        3.402198556 - 750.0 * 0.15 * 0.015,
        "[Scilab-TBC-764]",
        "example 6.9, clamp, less the collar of 15 mm radius",
    ),
    Row(
        function="power_screw.is_self_locking",
        inputs={"mean_diameter_m": 0.030, "lead_m": 0.008, "mu": 0.08, "flank_rad": 0.0},
        expected=0.0,
        kind=WORKED_EXAMPLE,
        source="[Budynas-2015]",
        place="example 8-1: lowering without collar takes negative torque",
        mark="MEMORY",
        tolerance=0.0,
        why="yes or no",
    ),
    Row(
        function="power_screw.is_self_locking",
        inputs={"mean_diameter_m": 0.033, "lead_m": 0.006, "mu": 0.16, "flank_rad": 0.0},
        expected=1.0,
        kind=WORKED_EXAMPLE,
        source="[Wizedu-45857]",
        place="lowering takes 14.97 N.m, so the thread holds",
        mark="SEEN",
        tolerance=0.0,
        why="yes or no",
    ),
    Row(
        function="power_screw.lift_from_efficiency_n",
        inputs={"torque_n_m": 32.55, "efficiency": 0.264, "lift_per_turn_m": 0.006},
        expected=9000.0,
        kind=WORKED_EXAMPLE,
        source="[Wizedu-45857]",
        place="read backwards: torque and printed efficiency give the load",
        mark="SEEN",
        tolerance=0.002,
        why="efficiency printed to three digits",
    ),
    Row(
        function="power_screw.torque_from_efficiency_n_m",
        inputs={"push_n": 2000.0, "efficiency": 0.12937099, "lift_per_turn_m": 0.008},
        expected=61.838e-3 * 1000.0 * 60.0 / (2.0 * math.pi * 30.0),
        kind=WORKED_EXAMPLE,
        source="[Scilab-TBC-764]",
        place="example 6.6, torque from 0.061838 kW at 30 rpm",
        mark="SEEN",
        tolerance=2e-5,
        why="power printed to five digits",
    ),
    Row(
        function="power_screw.turns_count",
        inputs={"lift_m": 0.046, "lift_per_turn_m": 0.0022},
        expected=20.91,
        kind=HAND,
        source="hand",
        place="46/2.2",
        mark="OWN",
        tolerance=3e-4,
        why="46 mm over 2.2 mm a turn is 20.909 turns, a stop mark at 21",
    ),
    Row(
        function="power_screw.drive_energy_j",
        inputs={"work_j": 1200.0, "efficiency": 0.084, "battery_share": 0.4},
        expected=35714.0,
        kind=HAND,
        source="hand",
        place="40 kN x 30 mm at 8.4 % and 40 %",
        mark="OWN",
        tolerance=1e-4,
        why="1200/0.084 = 14286 J at the spindle, over 0.4 = 35714 J from the battery",
    ),
    *(
        Row(
            function="power_screw.lift_from_torque_n",
            inputs={
                "torque_n_m": 150.0,
                "mean_diameter_m": 0.0215,
                "lead_m": 0.005,
                "collar_diameter_m": 0.030,
                "face_tangent": 2.0 * math.tan(math.radians(5.0)),
                "mu": mu,
            },
            expected=150.0
            / (thread_torque_n_m(1.0, 0.0215, 0.005, mu, TRAPEZOIDAL) + mu * 0.015)
            / wedge_thrust_n(1.0, math.radians(5.0), math.radians(5.0), mu, mu),
            kind=SECOND_METHOD,
            source="numpy free bodies",
            place=f"numpy.linalg.solve, screw and wedge, friction {mu}",
            mark="DERIVED",
            tolerance=1e-9,
            why="same statics solved as linear equations",
        )
        for mu, _, _ in EFFICIENCY_TABLE
    ),
]


def test_gate_screw_of_example_6_4_takes_the_printed_forces_on_its_arms() -> None:
    """[Scilab-TBC-764] example 6.4: 40 x 7 square, gate 5 kN, friction 2 kN, washer 40 to 80 mm."""
    mean, lead = 0.0365, 0.007
    washer = (0.080 + 0.040) / 2.0
    raising = power_screw.raising_torque_n_m(
        7000.0, mean, lead, 0.15, 0.0
    ) + power_screw.collar_torque_n_m(7000.0, washer, 0.12)
    lowering = power_screw.lowering_torque_n_m(
        3000.0, mean, lead, 0.15, 0.0
    ) + power_screw.collar_torque_n_m(3000.0, washer, 0.12)
    assert raising / (2.0 * 0.5) == pytest.approx(52.410253, rel=1e-7)
    assert lowering / (2.0 * 0.5) == pytest.approx(15.626055, rel=1e-7)
    efficiency = power_screw.screw_efficiency_ratio(7000.0, lead, raising)
    assert efficiency == pytest.approx(0.14879898, rel=1e-7)


def test_lead_screw_of_example_6_6_takes_the_printed_power_and_efficiency() -> None:
    """[Scilab-TBC-764] example 6.6: trapezoidal 52 x 8, 2 kN, collar 60 to 100 mm, 30 rpm."""
    torque = power_screw.raising_torque_n_m(
        2000.0, 0.048, 0.008, 0.15, TRAPEZOIDAL
    ) + power_screw.collar_torque_n_m(2000.0, 0.080, 0.12)
    assert 2.0 * math.pi * torque * 30.0 / 60.0 / 1000.0 == pytest.approx(0.061838, abs=5e-7)
    efficiency = power_screw.screw_efficiency_ratio(2000.0, 0.008, torque)
    assert efficiency == pytest.approx(0.12937099, rel=1e-7)


@pytest.mark.parametrize("mu", [0.0, 0.05, 0.12, 0.3])
@pytest.mark.parametrize("flank_deg", [0.0, 14.5, 15.0, 30.0])
@pytest.mark.parametrize("lead_m", [0.002, 0.006, 0.020])
def test_thread_torque_is_that_of_the_free_body(mu: float, flank_deg: float, lead_m: float) -> None:
    flank = math.radians(flank_deg)
    # The exact normal tilts with the slope as well; the printed formula leaves that out.
    slope = math.atan(lead_m / (math.pi * 0.022))
    rel = 1e-9 if flank_deg == 0.0 else 2.0 * math.sin(slope) ** 2 * math.tan(flank) ** 2 + 1e-9
    wanted = thread_torque_n_m(8000.0, 0.022, lead_m, mu, flank)
    found = power_screw.raising_torque_n_m(8000.0, 0.022, lead_m, mu, flank)
    assert found == pytest.approx(wanted, rel=rel)
    wanted = thread_torque_n_m(8000.0, 0.022, lead_m, mu, flank, lowering=True)
    found = power_screw.lowering_torque_n_m(8000.0, 0.022, lead_m, mu, flank)
    assert found == pytest.approx(wanted, rel=rel, abs=1e-9)


@pytest.mark.parametrize(("mu", "lift_kn", "efficiency"), EFFICIENCY_TABLE)
def test_friction_enters_twice_so_capacity_falls_as_its_square(
    mu: float, lift_kn: float, efficiency: float
) -> None:
    """Table of a screw of 21.5 mm, lead 5, collar 30, two faces of 5 degrees, 150 N.m."""
    tangent = 2.0 * math.tan(math.radians(5.0))
    lift = power_screw.lift_from_torque_n(150.0, 0.0215, 0.005, 0.030, tangent, mu)
    assert lift / 1000.0 == pytest.approx(lift_kn, abs=0.55)
    work_per_turn = lift * tangent * 0.005
    assert work_per_turn / (2.0 * math.pi * 150.0) == pytest.approx(efficiency, rel=0.03)
