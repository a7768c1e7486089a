"""The line: force and parts that a pull line or a side guy needs on this tree."""

import math
from dataclasses import dataclass, replace

from fellwright.physics.pull_line import (
    doubled_anchor_load_n,
    doubled_pull_n,
    needed_strength_n,
    needed_tension_n,
    redirected_block_load_n,
    rope_length_m,
)
from fellwright.planning.limits import (
    FASTENING_SHARE,
    GUY_ELEVATION_DEG,
    RING_LENGTHS,
    SIDE_USE_MOST,
)
from fellwright.planning.need import GRAVITY_M_PER_S2
from fellwright.planning.reasons import Reason, because
from fellwright.records.kit import Rope
from fellwright.words import Text, listed, say

__all__ = ["LineNeed", "guy_moment_n_m", "line_need", "serve_lines"]

TONNE_N = 1000.0 * GRAVITY_M_PER_S2
LEAST_TENSION_N = 0.1 * TONNE_N
"""PRACTICE: nobody rigs a line for less than 0.1 t."""


@dataclass(frozen=True, slots=True)
class LineNeed:
    """One line: purpose, where to, tension [N], heights and lengths [m], strength of parts [N]."""

    purpose: str
    where: Text
    tension_n: float
    fastening_m: float
    run_m: float
    rope_m: float
    strength_n: float
    is_doubled: bool = False

    @property
    def redirect_block_n(self) -> float | None:
        """Strength of a block at the anchor that turns a pull line by a right angle [N].

        None for a guy, and for a line that is doubled already.
        """
        if self.purpose != "pull line" or self.is_doubled:
            return None
        return needed_strength_n(redirected_block_load_n(self.tension_n, 0.5 * math.pi))

    @property
    def text(self) -> Text:
        """What it takes, in one sentence."""
        doubled = say("line.doubled" if self.is_doubled else "line.single")
        redirect = say("line.single")
        if self.redirect_block_n is not None:
            redirect = say("line.redirect", block=self.redirect_block_n)
        return say(
            "line.pull_line" if self.purpose == "pull line" else "line.side_guy",
            doubled=doubled,
            redirect=redirect,
            tension=self.tension_n,
            fastening=self.fastening_m,
            run=self.run_m,
            where=self.where,
            rope=self.rope_m,
            strength=self.strength_n,
        )


def line_need(
    height_m: float,
    set_back_m: float,
    moment_n_m: float | None,
    side_n_m: float | None,
    *,
    leans_right: bool,
) -> tuple[LineNeed, ...]:
    """Lines that supply a forward moment and take up a side moment.

    Parameters
    ----------
    height_m : float
        Tree height [m].
    set_back_m : float
        Distance of the fastening behind the hinge axis [m].
    moment_n_m : float or None
        Forward moment to supply [N.m]; None where a device supplies it.
    side_n_m : float or None
        Side moment to take up [N.m]; None where the hinge holds it.
    leans_right : bool
        Whether the tree leans to the right of the lay; a guy stands on the other side.

    Returns
    -------
    tuple of LineNeed
        A pull line, a side guy, or both.
    """
    fastening = FASTENING_SHARE.value * height_m
    lines = []
    if moment_n_m is not None:
        run = RING_LENGTHS.value * height_m
        tension = max(
            LEAST_TENSION_N, needed_tension_n(moment_n_m, fastening, run, max(0.0, set_back_m))
        )
        rope = max(rope_length_m(fastening, run), RING_LENGTHS.value * height_m)
        lines.append(
            LineNeed(
                "pull line",
                say("line.ahead"),
                tension,
                fastening,
                run,
                rope,
                needed_strength_n(tension),
            )
        )
    if side_n_m is not None:
        run = fastening / math.tan(math.radians(GUY_ELEVATION_DEG.value))
        tension = max(LEAST_TENSION_N, needed_tension_n(side_n_m, fastening, run))
        lines.append(
            LineNeed(
                "side guy",
                say("line.left" if leans_right else "line.right"),
                tension,
                fastening,
                run,
                rope_length_m(fastening, run),
                needed_strength_n(tension),
            )
        )
    return tuple(lines)


def guy_moment_n_m(side_n_m: float, side_use: float) -> float:
    """Side moment that a guy must take up so that the hinge keeps to its limit, one draw.

    Parameters
    ----------
    side_n_m : float
        Side moment on the hinge [N.m].
    side_use : float
        Side use without a guy.

    Returns
    -------
    float
        Moment [N.m], 0 where the hinge holds.
    """
    if side_use <= SIDE_USE_MOST.value:
        return 0.0
    return side_n_m * (1.0 - SIDE_USE_MOST.value / side_use)


def serve_lines(
    lines: tuple[LineNeed, ...], ropes: tuple[Rope, ...]
) -> tuple[tuple[LineNeed, ...], list[Reason]]:
    """Serve lines from the van, doubled through a block where the puller alone is too weak.

    Parameters
    ----------
    lines : tuple of LineNeed
        Lines wanted.
    ropes : tuple of Rope
        Rope sets in the van; each line takes one of its own.

    Returns
    -------
    tuple
        The lines as they would be rigged, and what the kit lacks; empty where all are served.
    """
    left = list(ropes)
    rigged = []
    missing = []
    for line in sorted(lines, key=lambda need: -need.tension_n):
        faults: list[Text] = []
        for rope in left:
            as_rigged = _rigged(line, rope)
            lack = _lack(as_rigged, rope)
            if lack is None:
                left.remove(rope)
                rigged.append(as_rigged)
                break
            faults.append(lack)
        else:
            why = listed(faults, "; ") if faults else say("line.none_left")
            rigged.append(line)
            missing.append(because("line", line=line.text, why=why))
    return tuple(rigged), missing


def _rigged(line: LineNeed, rope: Rope) -> LineNeed:
    """Double a line through a block at the tree where the puller alone is too weak."""
    pull = rope.puller_t * TONNE_N
    if pull >= line.tension_n or not rope.blocks or doubled_pull_n(pull) < line.tension_n:
        return line
    slant = math.hypot(line.fastening_m, line.run_m)
    return replace(
        line,
        rope_m=line.rope_m + slant,
        strength_n=needed_strength_n(doubled_anchor_load_n(pull)),
        is_doubled=True,
    )


def _lack(line: LineNeed, rope: Rope) -> Text | None:
    """What one rope set lacks for one line; None where it serves."""
    pull = rope.puller_t * TONNE_N
    if not (doubled_pull_n(pull) if line.is_doubled else pull) >= line.tension_n:
        return say("line.pulls", name=rope.name, pull=pull)
    if rope.strength_t is None:
        return say("line.strength_unknown", name=rope.name)
    # Every part holds twice the greatest pull of the puller; block and sling twice both parts.
    least = needed_strength_n(doubled_anchor_load_n(pull) if line.is_doubled else pull)
    if not rope.strength_t * TONNE_N >= least:
        return say("line.weak", name=rope.name, strength=rope.strength_t * TONNE_N)
    if rope.length_m is None:
        return say("line.length_unknown", name=rope.name)
    if not rope.length_m >= line.rope_m:
        return say("line.short", name=rope.name, length=rope.length_m)
    return None
