"""Measure next: the reading whose better taking narrows the deciding figure most."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from fellwright.planning import bands
from fellwright.planning.chance import Points, doubt
from fellwright.planning.need import Need, Situation, draw_need

__all__ = ["MeasureNext", "best_reading", "deciding_figure"]


@dataclass(frozen=True, slots=True)
class MeasureNext:
    """What to measure, how, and what it gains: width of the doubt band now and then."""

    reading: str
    how: str
    figure: str
    unit: str
    width_now: float | None
    width_then: float | None

    @property
    def text(self) -> str:
        """One sentence."""
        if self.width_now is None or self.width_then is None:
            return f"{self.reading}: {self.how}"
        digits = 0 if self.unit in ("mm", "kN") else 2
        gain = self.width_now - self.width_then
        unit = f" {self.unit}" if self.unit else ""
        return (
            f"{self.reading}: {self.how}; narrows {self.figure} by {gain:.{digits}f}{unit} "
            f"(band {self.width_now:.{digits}f} to {self.width_then:.{digits}f})"
        )


@dataclass(frozen=True, slots=True)
class _Figure:
    """A deciding figure: name, unit, scale from SI, and how to read it off a draw."""

    name: str
    unit: str
    scale: float
    of: Callable[[Need], float]


_LIFT = _Figure("lift", "mm", 1000.0, lambda n: n.checked_let_go_lift_m)
_PUSH = _Figure("push", "kN", 1e-3, lambda n: n.checked_push_n)
_SIDE = _Figure("side use", "", 1.0, lambda n: n.side_use)
_EARLY = _Figure("early-go ratio", "", 1.0, lambda n: n.early_go_ratio)
_SPLIT = _Figure("splitting index", "", 1.0, lambda n: n.splitting_hinge_first)
_TENSION = _Figure("hinge tension", "MPa", 1e-6, lambda n: n.hinge_tension_pa)
_ROOM = _Figure("room", "mm", 1000.0, lambda n: n.wood_m - n.notch_m - n.hinge_m)

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


def _better(situation: Situation, lean_best_sigma_m: float) -> list[tuple[str, str, Situation]]:
    """Every reading taken at its best practical error, one at a time."""
    found = [
        (
            "back offset" if abs(situation.back_m) >= abs(situation.side_m) else "side offset",
            "plumb line from two sides, a second time",
            situation._replace(offset_sigma_m=min(situation.offset_sigma_m, lean_best_sigma_m)),
        ),
        (
            "hinge as cut",
            bands.HINGE.best_how,
            situation._replace(hinge_sigma_m=bands.HINGE.best),
        ),
        (
            "notch depth",
            bands.NOTCH.best_how,
            situation._replace(notch_sigma_share=bands.NOTCH.best),
        ),
        (
            "height",
            bands.HEIGHT.best_how,
            situation._replace(height_ratio=min(situation.height_ratio, bands.HEIGHT.best)),
        ),
        (
            "stump width",
            bands.STUMP.best_how,
            situation._replace(stump_sigma_m=min(situation.stump_sigma_m, bands.STUMP.best)),
        ),
        (
            "dbh",
            bands.DBH.best_how,
            situation._replace(dbh_ratio=situation.dbh_ratio * bands.DBH.best / bands.DBH.usual),
        ),
        (
            "crown",
            bands.CROWN.best_how,
            situation._replace(crown_ratio=min(situation.crown_ratio, bands.CROWN.best)),
        ),
    ]
    if situation.wall_m > 0.0:
        found.append(
            (
                "sound wall",
                bands.WALL.best_how,
                situation._replace(wall_sigma_m=bands.WALL.best),
            )
        )
    return found


def best_reading(
    points: Sequence[Points],
    situation: Situation,
    gust_share: float,
    codes: Sequence[str],
    lean_best_sigma_m: float,
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

    Returns
    -------
    MeasureNext
        The reading with the largest gain on the deciding figure.
    """
    figure = _figure(codes)

    def width(trial: Situation) -> float:
        band = doubt([figure.of(draw_need(u, trial, gust_share)) for u in points])
        return figure.scale * (band.p90 - band.p10)

    now = width(situation)
    trials = [
        (width(trial), name, how) for name, how, trial in _better(situation, lean_best_sigma_m)
    ]
    then, name, how = min(trials)
    return MeasureNext(name, how, figure.name, figure.unit, now, then)
