"""Measure next: the reading whose better taking narrows the deciding figure most."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from fellwright.planning import bands
from fellwright.planning.chance import Points, doubt
from fellwright.planning.need import Need, Situation, draw_need
from fellwright.words import Text, say

__all__ = ["JSON_UNITS", "MeasureNext", "best_reading", "deciding_figure"]


@dataclass(frozen=True, slots=True)
class MeasureNext:
    """What to measure, how, and what it gains: width of the doubt band now and then, in SI."""

    reading: str
    how: Text
    figure: str | None = None
    width_now: float | None = None
    width_then: float | None = None

    @property
    def text(self) -> Text:
        """One sentence."""
        reading = say(f"measure.{self.reading}")
        if self.figure is None or self.width_now is None or self.width_then is None:
            return say("measure.plain", reading=reading, how=self.how)
        now, then = self.width_now, self.width_then
        return say(
            "measure.gain",
            reading=reading,
            how=self.how,
            figure=say(f"figure.{self.figure}"),
            gain=say(f"measure.of_{self.figure}", value=now - then),
            now=say(f"measure.of_{self.figure}", value=now),
            then=say(f"measure.of_{self.figure}", value=then),
        )


@dataclass(frozen=True, slots=True)
class _Figure:
    """A deciding figure: name, unit and scale for JSON, and how to read it off a draw."""

    name: str
    unit: str
    scale: float
    of: Callable[[Need], float]


_LIFT = _Figure("lift", "mm", 1000.0, lambda n: n.checked_let_go_lift_m)
_PUSH = _Figure("push", "kN", 1e-3, lambda n: n.checked_push_n)
_SIDE = _Figure("side_use", "", 1.0, lambda n: n.side_use)
_EARLY = _Figure("early_go_ratio", "", 1.0, lambda n: n.early_go_ratio)
_SPLIT = _Figure("splitting_index", "", 1.0, lambda n: n.splitting_hinge_first)
_TENSION = _Figure("hinge_tension", "MPa", 1e-6, lambda n: n.hinge_tension_pa)
_ROOM = _Figure("room", "mm", 1000.0, lambda n: n.wood_m - n.notch_m - n.hinge_m)

JSON_UNITS = {
    f.name: (f.unit, f.scale) for f in (_LIFT, _PUSH, _SIDE, _EARLY, _SPLIT, _TENSION, _ROOM)
}

_BY_CODE = {
    "push": _PUSH,
    "seat": _PUSH,
    "side_use": _SIDE,
    "early_go": _EARLY,
    "splitting": _SPLIT,
    "hinge_tension": _TENSION,
    "room": _ROOM,
}


def deciding_figure(codes: Sequence[str]) -> str:
    """Name of the figure that decides, from the codes of the reasons, the limiting one first."""
    return _figure(codes).name


def _figure(codes: Sequence[str]) -> _Figure:
    return next((_BY_CODE[code] for code in codes if code in _BY_CODE), _LIFT)


def _better(
    situation: Situation, lean_best_sigma_m: float, dbh_best_ratio: float
) -> list[tuple[str, Situation]]:
    """Every reading taken at its best practical error, one at a time."""
    s = situation
    lean = "back_offset" if abs(s.back_m) >= abs(s.side_m) else "side_offset"
    found = [
        (lean, s._replace(offset_sigma_m=min(s.offset_sigma_m, lean_best_sigma_m))),
        ("hinge", s._replace(hinge_sigma_m=bands.HINGE.best)),
        ("notch", s._replace(notch_sigma_share=bands.NOTCH.best)),
        ("height", s._replace(height_ratio=min(s.height_ratio, bands.HEIGHT.best))),
        ("stump", s._replace(stump_sigma_m=min(s.stump_sigma_m, bands.STUMP.best))),
        ("dbh", s._replace(dbh_ratio=min(s.dbh_ratio, dbh_best_ratio))),
        ("crown", s._replace(crown_ratio=min(s.crown_ratio, bands.CROWN.best))),
    ]
    if s.wall_m > 0.0:
        found.append(("wall", s._replace(wall_sigma_m=bands.WALL.best)))
    return found


def best_reading(
    points: Sequence[Points],
    situation: Situation,
    gust_share: float,
    codes: Sequence[str],
    lean_best_sigma_m: float,
    dbh_best_ratio: float,
) -> MeasureNext:
    """Find the reading to take next.

    Parameters
    ----------
    points : sequence of Points
        Draws, common to every trial.
    situation : Situation
        The tree.
    gust_share : float
        1 with the gust, 0 in calm.
    codes : sequence of str
        Codes of the reasons, the limiting one first.
    lean_best_sigma_m : float
        Sigma of the lean after one more good reading [m].
    dbh_best_ratio : float
        Relative sigma of the dbh, taped well.

    Returns
    -------
    MeasureNext
        The reading with the largest gain on the deciding figure.
    """
    figure = _figure(codes)

    def width(trial: Situation) -> float:
        band = doubt([figure.of(draw_need(u, trial, gust_share)) for u in points])
        return band.p90 - band.p10

    better = _better(situation, lean_best_sigma_m, dbh_best_ratio)
    trials = [(width(trial), name) for name, trial in better]
    then, name = min(trials)
    return MeasureNext(name, say(f"measure.{name}_how"), figure.name, width(situation), then)
