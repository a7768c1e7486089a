"""Why: the derivation of any figure of an answer, with inputs, sources, marks and sensitivity."""

from collections.abc import Callable
from dataclasses import dataclass

from fellwright.planning import bands, limits
from fellwright.planning.bands import Band
from fellwright.planning.chance import Doubt, Points, doubt, draw_points
from fellwright.planning.device_draw import DeviceFigures, draw_device
from fellwright.planning.judge_device import DeviceOutcome
from fellwright.planning.need import Need, Situation, draw_need
from fellwright.planning.plan import Plan
from fellwright.tables import Species
from fellwright.words import Text, say

__all__ = ["FIGURES", "Input", "Sensitivity", "Source", "Why", "explain"]

MIDDLE = Points(*(0.0 if name.startswith("z_") else 0.5 for name in Points._fields))
LOW_SHARE, HIGH_SHARE = 0.16, 0.84
"""One sigma to either side, for a quantity that is drawn evenly."""


@dataclass(frozen=True, slots=True)
class _Figure:
    """How a figure is worked out: formula, functions, unit kind, how to read it off a draw."""

    formula: str
    functions: tuple[str, ...]
    kind: str
    of: Callable[[Need], float] | None
    tables: tuple[str, ...]


_BODY = ("density", "moisture", "heart_sap", "green_stem", "bark", "crown", "crown_share", "form")
FIGURES: dict[str, _Figure] = {
    "mass": _Figure(
        "m = V f (1 + e_d)^2 (1 + e_H) + m_crown",
        ("stem_form", "green_mass", "crown"),
        "mass",
        lambda n: n.mass_kg,
        _BODY,
    ),
    "back_offset": _Figure(
        "back = -(E sin lay + N cos lay), readings weighted by 1/sigma^2",
        ("lean.combine_readings", "lean.back_and_side_m"),
        "offset",
        lambda n: n.back_m,
        (),
    ),
    "side_offset": _Figure(
        "side = E cos lay - N sin lay, readings weighted by 1/sigma^2",
        ("lean.combine_readings", "lean.back_and_side_m"),
        "offset",
        lambda n: n.side_m,
        (),
    ),
    "balance_lift": _Figure(
        "2 a sin(q/2), q = atan(x/h), x = D/2 - n - t/2 + back, a = D - n - t/2 - rim",
        ("balance.set_back_m", "balance.lever_m", "balance.lift_m"),
        "lift",
        lambda n: n.balance_lift_m,
        (*_BODY, "height"),
    ),
    "let_go_lift": _Figure(
        "2 a sin(q/2) at the last q where W (x cos q - h sin q) + M_hinge(q) - M_wind = 0",
        ("hinge.hinge_law", "tipping.solve_tipping", "balance.lift_m"),
        "lift",
        lambda n: n.let_go_lift_m,
        (*_BODY, "strength", "height", "drag"),
    ),
    "push": _Figure(
        "max over q of [W (x cos q - h sin q) + M_hinge(q) - M_wind] / a",
        ("hinge.hinge_law", "tipping.solve_tipping", "balance.lever_m"),
        "force",
        lambda n: n.push_n,
        (*_BODY, "strength", "height", "drag"),
    ),
    "side_use": _Figure(
        "M_side (cos q/(MOR t c^2/6) + sin q/T) / (whole depth/t) at let-go",
        ("side_load.side_use_ratio", "side_load.twist_capacity_n_m"),
        "n2",
        lambda n: n.side_use,
        (*_BODY, "strength", "drag"),
    ),
    "early_go": _Figure(
        "t where MOR c t^2/6 = W (forward - (D/2 - n - t/2)) + M_wind, back lean as none",
        ("early_go.early_go_thickness_m",),
        "lift",
        lambda n: n.early_go_m,
        (*_BODY, "strength", "drag"),
    ),
    "splitting": _Figure(
        "M^2/(2 E b) (1/I_front - 1/I_full) / G_f at the end of the cut",
        ("splitting.energy_release_j_per_m2",),
        "n2",
        lambda n: n.splitting,
        (*_BODY, "strength", "splitting_prone"),
    ),
    "splitting_hinge_first": _Figure(
        "M^2/(2 E b) (1/I_front - 1/I_full) / G_f with M at most the hinge's own",
        ("splitting.energy_release_j_per_m2", "hinge.peak_moment_n_m"),
        "n2",
        lambda n: n.splitting_hinge_first,
        (*_BODY, "strength", "splitting_prone"),
    ),
    "hinge_tension": _Figure(
        "(push - W)/A, 0 where the tree outweighs the push",
        ("hinge.hinge_area_m2",),
        "stress",
        lambda n: n.hinge_tension_pa,
        (*_BODY, "strength"),
    ),
    "usable_lift": _Figure(
        "lift to the stop - bedding-in - l tan(angle - opening) [- kerf], l = F/(f_c w share)",
        ("seat.contact_length_m", "seat.crush_loss_m"),
        "lift",
        None,
        ("strength",),
    ),
    "available_push": _Figure(
        "min(rated, 2 pi T eta/s or blows, f_c w l share)",
        (
            "power_screw.lift_from_efficiency_n",
            "hammer_blow.stall_thrust_n",
            "seat.bearing_force_n",
        ),
        "force",
        None,
        ("strength",),
    ),
}


@dataclass(frozen=True, slots=True)
class Input:
    """One input as it entered: name, value in SI, unit kind, one sigma (None where none)."""

    name: Text
    value: float
    kind: str
    sigma: float | None


@dataclass(frozen=True, slots=True)
class Source:
    """One table group or band behind a figure, with its mark and source."""

    name: Text | str
    value: str
    mark: str
    source: Text | str


@dataclass(frozen=True, slots=True)
class Sensitivity:
    """The figure with one quantity a sigma below and above its middle, all others at theirs."""

    name: Text
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Why:
    """The derivation of one figure."""

    figure: str
    device: str | None
    kind: str
    value: Doubt
    middle: float
    formula: str
    functions: tuple[str, ...]
    inputs: tuple[Input, ...]
    sources: tuple[Source, ...]
    sensitivity: tuple[Sensitivity, ...]


def explain(plan: Plan, figure: str, device: str | None = None) -> Why | None:
    """Derive one figure of a plan.

    Parameters
    ----------
    plan : Plan
        The plan.
    figure : str
        One of ``FIGURES``.
    device : str or None
        Device for ``usable_lift`` and ``available_push``; the chosen one where None.

    Returns
    -------
    Why or None
        None where the plan has no such figure.
    """
    if plan.outcome is None or plan.situation is None or plan.model is None:
        return None
    how = FIGURES[figure]
    situation = plan.situation
    gust = 1.0 if plan.tree.day.gust_m_s else 0.0
    driven = None
    if how.of is None:
        outcome = _device(plan, device)
        if outcome is None or outcome.driven is None:
            return None
        driven = outcome.driven
        device = outcome.name
    else:
        device = None
    read = _reader(figure, None if driven is None else driven.figures)

    def at(u: Points) -> float:
        return read(u, draw_need(u, situation, gust))

    points = draw_points(plan.options.draws, plan.options.seed)
    middle = at(MIDDLE)
    found = []
    for name in Points._fields:
        low, high = (-1.0, 1.0) if name.startswith("z_") else (LOW_SHARE, HIGH_SHARE)
        below = at(MIDDLE._replace(**{name: low}))
        above = at(MIDDLE._replace(**{name: high}))
        if max(abs(below - middle), abs(above - middle)) > 1e-6 * max(1e-9, abs(middle)):
            found.append((name, Sensitivity(say(f"why.{name}"), below, above)))
    found.sort(key=lambda pair: -abs(pair[1].high - pair[1].low))
    moved = {name for name, _ in found}
    grease = None if driven is None else driven.grease
    return Why(
        figure=figure,
        device=device,
        kind=how.kind,
        value=doubt([at(u) for u in points]),
        middle=middle,
        formula=how.formula,
        functions=how.functions,
        inputs=tuple(_inputs(situation)),
        sources=(*_tables(plan.model.species, how.tables), *_bands(moved, grease)),
        sensitivity=tuple(sensitivity for _, sensitivity in found),
    )


def _device(plan: Plan, name: str | None) -> DeviceOutcome | None:
    assert plan.outcome is not None
    if name is None:
        return plan.outcome.choice
    return next((d for d in plan.outcome.devices if d.name == name), None)


def _reader(figure: str, device: DeviceFigures | None) -> Callable[[Points, Need], float]:
    """How to read the figure off one draw."""
    of = FIGURES[figure].of
    if of is not None:
        return lambda _, need: of(need)
    assert device is not None
    if figure == "usable_lift":
        return lambda u, need: draw_device(u, need, device).usable_lift_m
    return lambda u, need: draw_device(u, need, device).available_n


def _inputs(s: Situation) -> list[Input]:
    """Readings and medians as they entered the draws."""
    rows = [
        ("stem_mass", s.stem_kg, "mass", s.stem_kg * s.mass_ratio),
        ("crown_mass", s.crown_kg, "mass", s.crown_kg * s.crown_ratio),
        ("stem_centre", s.stem_centre_m, "offset", None),
        ("crown_centre", s.crown_centre_m, "offset", None),
        ("back", s.back_m, "offset", s.offset_sigma_m),
        ("side", s.side_m, "offset", s.offset_sigma_m),
        ("stump", s.stump_m, "width", s.stump_sigma_m),
        ("notch", s.notch_share * s.stump_m, "lift", s.notch_sigma_share * s.stump_m),
        ("hinge", s.hinge_m, "lift", s.hinge_sigma_m),
        ("bending", s.bending_pa, "stress", s.bending_pa * s.bending_cv),
        ("modulus", s.modulus_pa, "stress", None),
        ("crushing", s.crushing_pa, "stress", s.crushing_pa * s.crushing_cv),
        ("shear", s.shear_pa, "stress", s.shear_pa * s.shear_cv),
    ]
    return [Input(say(f"why.{name}"), value, kind, sigma) for name, value, kind, sigma in rows]


def _tables(species: Species, groups: tuple[str, ...]) -> list[Source]:
    return [
        Source(
            say("assumed.species", species=species.name, group=origin.group),
            origin.note,
            origin.mark,
            origin.source,
        )
        for origin in species.origins
        if origin.group in groups
    ]


def _bands(moved: set[str], grease: str | None) -> list[Source]:
    """Bands of the quantities that move the figure."""
    by_point: dict[str, Band] = {
        "u_residual": bands.RESIDUAL,
        "u_fibre": bands.FIBRE,
        "u_contact": bands.CONTACT,
        "u_friction": bands.PLATE_FRICTION,
        "u_drag": bands.DRAG,
        "u_wrench": bands.WRENCH,
        "u_blow": bands.BLOW_SPEED,
        "u_stiffness": bands.WEDGE_STIFFNESS,
        "z_toughness": bands.TOUGHNESS,
    }
    if grease is not None:
        by_point["u_drive"] = bands.EFFICIENCY[grease]
    found = [
        Source(
            say(f"assumed.{band.key}"),
            f"{band.low:g} - {band.high:g} {band.unit}".strip(),
            band.mark,
            say(f"assumed.{band.key}_why"),
        )
        for point, band in by_point.items()
        if point in moved
    ]
    fixed = (limits.RIM_MM, limits.STEP_MM, limits.BEDDING_IN_MM)
    return found + [
        Source(
            say(f"assumed.{limit.key}"),
            f"{limit.value:g} {limit.unit}",
            limit.mark,
            say(f"assumed.{limit.key}_why"),
        )
        for limit in fixed
    ]
