"""The tipping solved by roots, against marching it in 600 steps with the same moment function."""

from typing import NamedTuple

from bench.example_trees import example_trees, van_of_five
from bench.timing import Timing, best_of_both
from fellwright.physics.balance import balance_rotation_rad, lift_m, set_back_m
from fellwright.physics.hinge import HingeLaw
from fellwright.physics.tipping import resisting_moment_n_m, solve_tipping
from fellwright.planning.chance import draw_points
from fellwright.planning.need import Situation, draw_body, draw_hinge, draw_wood
from fellwright.planning.plan import Options
from fellwright.planning.tip import plan_tip

STEPS = 600
HALVINGS = 8
MOST_LIFT_ERROR_M = 1e-4
MOST_PUSH_ERROR = 5e-3
LEAST_PUSH_N = 100.0
"""Pushes below this, a hand's worth, are held to 0.5 % of it."""


class Case(NamedTuple):
    """One draw of one tree, ready to be tipped, and the lever of its wedge."""

    weight_n: float
    set_back_m: float
    height_m: float
    law: HingeLaw
    closing_rad: float
    lever_m: float


def march(case: Case) -> tuple[float, float]:
    """Largest moment [N.m] and let-go rotation [rad], step by step until the tree lies.

    Top and last zero are then narrowed by halving the step: as sampled, they miss by up to 0.1 mm
    and, where the push is all but nil, by more than half a per cent.
    """

    def moment(rotation: float) -> float:
        return resisting_moment_n_m(
            rotation, case.weight_n, case.set_back_m, case.height_m, 0.0, case.law
        )

    reach = max(case.closing_rad, balance_rotation_rad(case.set_back_m, case.height_m))
    step = reach / STEPS
    moments = [moment(i * step) for i in range(STEPS + 1)]
    top = max(range(STEPS + 1), key=moments.__getitem__)
    push, best, half = moments[top], top * step, step
    for _ in range(HALVINGS):
        half *= 0.5
        push, best = max((moment(max(0.0, x)), x) for x in (best - half, best, best + half))
    if push <= 0.0:
        return 0.0, 0.0
    if moments[STEPS] > 0.0:
        return push, reach
    low = max((i * step for i, value in enumerate(moments) if value > 0.0), default=best)
    high = low + step
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        if moment(middle) > 0.0:
            low = middle
        else:
            high = middle
    return push, 0.5 * (low + high)


def solve(case: Case) -> tuple[float, float]:
    """Largest moment [N.m] and let-go rotation [rad], by roots."""
    tipping = solve_tipping(
        case.weight_n, case.set_back_m, case.height_m, 0.0, case.law, case.closing_rad
    )
    return tipping.push_moment_n_m, tipping.let_go_rad


def cases(draws: int) -> list[Case]:
    """Draws of every example tree."""
    kit = van_of_five()
    options = Options(draws=64, bare=True)
    plans = [plan_tip(tree, kit, options) for tree in example_trees()]
    situations = [plan.situation for plan in plans if plan.situation is not None]
    return [case for situation in situations for case in _drawn(situation, draws)]


def _drawn(s: Situation, draws: int) -> list[Case]:
    found = []
    for u in draw_points(draws):
        body, hinge = draw_body(u, s), draw_hinge(u, s)
        law = draw_wood(u, s, hinge).law
        behind = set_back_m(hinge.wood_m, hinge.notch_m, hinge.thickness_m, body.back_m)
        found.append(Case(body.weight_n, behind, body.height_m, law, s.closing_rad, hinge.lever_m))
    return found


def differences(drawn: list[Case]) -> tuple[float, float]:
    """Largest difference of lift [m], and of push as a share of it."""
    lift_error = push_error = 0.0
    for case in drawn:
        (push, let_go), (marched_push, marched_let_go) = solve(case), march(case)
        lifts = lift_m(case.lever_m, let_go), lift_m(case.lever_m, marched_let_go)
        lift_error = max(lift_error, abs(lifts[0] - lifts[1]))
        least = LEAST_PUSH_N * case.lever_m
        push_error = max(push_error, abs(push - marched_push) / max(marched_push, least))
    return lift_error, push_error


def run(small: bool) -> list[Timing]:
    """Compare, then time."""
    drawn = cases(64 if small else 256)
    lift_error_m, push_error = differences(drawn)
    assert lift_error_m <= MOST_LIFT_ERROR_M, f"lifts differ by {1000 * lift_error_m:.3f} mm"
    assert push_error <= MOST_PUSH_ERROR, f"pushes differ by {100 * push_error:.2f} %"
    some = drawn[:: max(1, len(drawn) // 64)]
    repeats = 1 if small else 15
    solved, marched = best_of_both(
        lambda: [solve(case) for case in some], lambda: [march(case) for case in some], repeats
    )
    one = len(some)
    return [
        Timing("tipping solved by roots", solved / one, f"{STEPS} steps marched", marched / one)
    ]
