"""The chain of small parts: every broken link is named, and only what is joined is compared."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.plans.cases import CLEAR, Case, altered, example, only, van, with_lean

from fellwright.planning.device_kinds import fit_device
from fellwright.planning.drive_train import Driven, Setting
from fellwright.planning.plan import Options
from fellwright.planning.reasons import Reason
from fellwright.records.kit import Device, Grease, Kit, Pack, Socket, Wrench
from fellwright.tables import find_species

SPRUCE = find_species("Norway spruce")


def fit(device: Device, kit: Kit, *, preloaded: bool = True, iced: bool = False) -> Driven | Reason:
    assert SPRUCE is not None
    return fit_device(device, Setting(kit, SPRUCE, iced=iced, preloaded=preloaded, hammering=True))


def named(kit: Kit, name: str) -> Device:
    return next(device for device in kit.devices if device.name == name)


def broken(name: str, kit: Kit) -> Reason:
    result = fit(named(van(), name), kit)
    assert isinstance(result, Reason), f"{name} is driven"
    return result


def whole(name: str, kit: Kit) -> Driven:
    result = fit(named(van(), name), kit)
    assert isinstance(result, Driven), str(result.text)
    return result


def test_every_device_of_the_full_van_can_be_driven() -> None:
    for device in van().devices:
        whole(device.name, van())


def test_a_missing_socket_is_named_with_its_size_and_the_device() -> None:
    kit = replace(van(), sockets=(Socket(19.0, 12.7),))
    reason = broken("Bittern", kit)
    assert reason.code == "socket"
    assert "27 mm" in str(reason.text)
    assert "Bittern" in str(reason.text)
    whole("Dipper", kit)


def test_no_wrench_at_all_is_named() -> None:
    assert broken("Dipper", replace(van(), wrenches=())).code == "wrench"


def test_a_wrench_whose_square_does_not_fit_the_socket_is_no_wrench() -> None:
    kit = replace(van(), wrenches=(Wrench("W8", 800.0, 19.05),))
    assert broken("Dipper", kit).code == "wrench"


def test_only_a_wrench_above_the_limit_is_refused_by_name_with_both_torques() -> None:
    kit = replace(van(), wrenches=(Wrench("W13", 1300.0, 12.7),))
    reason = broken("Dipper", kit)
    assert reason.code == "torque_limit"
    said = str(reason.text)
    assert "W13" in said
    assert "1300" in said.replace(",", "").replace(" ", "")
    assert "850" in said
    whole("Bittern", kit)


def test_a_wrench_exactly_at_the_limit_may_be_used() -> None:
    kit = replace(van(), wrenches=(Wrench("W8.5", 850.0, 12.7),))
    assert whole("Dipper", kit).drive.wrench == Wrench("W8.5", 850.0, 12.7)
    over = replace(van(), wrenches=(Wrench("W8.5", 850.1, 12.7),))
    assert broken("Dipper", over).code == "torque_limit"


def test_the_strongest_wrench_within_the_limit_is_taken() -> None:
    wrenches = (
        Wrench("W4", 400.0, 12.7),
        Wrench("W8", 800.0, 12.7),
        Wrench("W13", 1300.0, 12.7),
    )
    kit = replace(van(), wrenches=wrenches)
    assert whole("Dipper", kit).drive.wrench == wrenches[1]
    assert whole("Bittern", kit).drive.wrench == wrenches[2]


def test_a_strong_wrench_that_no_socket_joins_to_the_device_is_not_held_against_it() -> None:
    """The 1,300 N m wrench has another square: only the weak one reaches the Dipper."""
    kit = replace(
        van(),
        wrenches=(Wrench("W13", 1300.0, 19.05), Wrench("W4", 400.0, 12.7)),
        sockets=(Socket(19.0, 12.7), Socket(27.0, 19.05)),
    )
    drive = whole("Dipper", kit).drive
    assert drive.wrench is not None
    assert drive.wrench.name == "W4"
    drive = whole("Bittern", kit).drive
    assert drive.wrench is not None
    assert drive.wrench.name == "W13"


def test_a_wrench_above_the_limit_that_no_socket_joins_is_no_refusal_of_the_wrench() -> None:
    kit = replace(van(), wrenches=(Wrench("W13", 1300.0, 19.05),))
    assert broken("Dipper", kit).code == "wrench"


def test_a_second_hex_takes_a_second_socket() -> None:
    dipper = replace(named(van(), "Dipper"), hex_mm=(19.0, 24.0))
    kit = replace(van(), sockets=(Socket(24.0, 12.7),))
    result = fit(dipper, kit)
    assert isinstance(result, Driven)
    assert result.drive.socket_hex_mm == 24.0


@pytest.mark.parametrize("packs", [(), (Pack(90.0, 0),), (Pack(0.0, 2),)])
def test_no_charge_is_named(packs: tuple[Pack, ...]) -> None:
    reason = broken("Dipper", replace(van(), packs=packs))
    assert reason.code == "charge"


def test_charge_is_the_sum_of_all_packs() -> None:
    kit = replace(van(), packs=(Pack(90.0, 2), Pack(45.0, 1)))
    assert whole("Dipper", kit).drive.charge_wh == 225.0


def test_too_little_charge_for_the_tree_is_named_with_both_figures() -> None:
    kit = replace(van(), packs=(Pack(0.5, 1),), ropes=())
    plan = Case(example("harrowlees-11"), kit).plan()
    assert plan.outcome is not None
    dipper = plan.outcome.devices[0]
    assert dipper.limit == "charge"
    assert dipper.verdict == "LEAVE"


def test_no_hammer_rules_the_hand_wedge_out() -> None:
    assert broken("Hand pair", replace(van(), hammers=())).code == "hammer"


def test_no_hammering_under_dead_wood() -> None:
    assert SPRUCE is not None
    setting = Setting(van(), SPRUCE, iced=False, preloaded=True, hammering=False)
    result = fit_device(named(van(), "Hand pair"), setting)
    assert isinstance(result, Reason)
    assert result.code == "hammering"


@pytest.mark.parametrize("state", ["OUT", "PART", "LOOK"])
@pytest.mark.parametrize("name", ["Dipper", "Bittern", "Hand pair"])
def test_an_item_marked_out_stays_in_the_van(name: str, state: str) -> None:
    device = replace(named(van(), name), state=state)  # type: ignore[arg-type]
    result = fit(device, van())
    assert isinstance(result, Reason)
    assert result.code == "out"
    assert name in str(result.text)


@pytest.mark.parametrize("grease", [None, "greased", "half", "dry"])
def test_a_device_due_for_grease_is_taken_as_dry_whatever_its_book_says(
    grease: Grease | None,
) -> None:
    dry = fit(altered(named(van(), "Dipper"), grease="dry"), van())
    due = fit(altered(named(van(), "Dipper"), grease=grease, state="GREASE"), van())
    assert isinstance(dry, Driven)
    assert isinstance(due, Driven)
    assert due.figures == dry.figures
    assert due.grease == "dry"
    assert any("dry" in str(said) for said in due.said) == (grease != "dry")


def test_a_chosen_device_whose_state_is_not_given_is_to_be_looked_over() -> None:
    tree = example("harrowlees-11")
    whole_van, unknown = only(van(), "Dipper"), only(van(), "Dipper")
    unknown = replace(unknown, devices=tuple(replace(d, state=None) for d in unknown.devices))
    told = [
        {caution.code for caution in Case(tree, kit).plan(Options(draws=128)).cautions}
        for kit in (whole_van, unknown)
    ]
    assert "state" not in told[0]
    assert "state" in told[1]


@pytest.mark.parametrize(
    "name", ["hex_mm", "torque_limit_n_m", "depth_full_mm", "mm_per_turn", "rated_t", "lift_mm"]
)
def test_no_figure_of_a_steel_device_is_assumed(name: str) -> None:
    gap = altered(named(van(), "Dipper"), **{name: () if name == "hex_mm" else None})
    result = fit(gap, van())
    assert isinstance(result, Reason)
    assert result.code == "kit_book"
    assert "Dipper" in str(result.text)


def test_lift_counts_to_the_stop_mark_only() -> None:
    dipper = named(van(), "Dipper")
    early = fit(replace(dipper, turns_to_stop=10.0), van())
    assert isinstance(early, Driven)
    assert early.figures.lift_m == pytest.approx(0.022)
    late = fit(replace(dipper, turns_to_stop=100.0), van())
    assert isinstance(late, Driven)
    assert late.figures.lift_m == pytest.approx(0.046)


def test_one_kerf_is_lost_without_preload_and_none_with_it() -> None:
    with_load = fit(named(van(), "Dipper"), van(), preloaded=True)
    without = fit(named(van(), "Dipper"), van(), preloaded=False)
    assert isinstance(with_load, Driven)
    assert isinstance(without, Driven)
    lost = without.figures.lost_m - with_load.figures.lost_m
    assert lost == pytest.approx(0.008)


# --- removing any one part ----------------------------------------------------------------------

PARTS = [
    *(("sockets", index) for index in range(2)),
    *(("packs", index) for index in range(1)),
    *(("hammers", index) for index in range(1)),
]


@given(st.sampled_from(PARTS))
def test_removing_any_single_part_names_it_for_every_device_that_needs_it(
    part: tuple[str, int],
) -> None:
    name, index = part
    kit = van()
    items = getattr(kit, name)
    less = replace(kit, **{name: items[:index] + items[index + 1 :]})
    for device in kit.devices:
        by_hand = device.kind == "hand wedge"
        needs = {
            "sockets": not by_hand and kit.sockets[index % 2].hex_mm in device.hex_mm,
            "packs": not by_hand,
            "hammers": by_hand,
        }[name]
        result = fit(device, less)
        if needs:
            assert isinstance(result, Reason), device.name
            assert (
                result.code == {"sockets": "socket", "packs": "charge", "hammers": "hammer"}[name]
            )
        else:
            assert isinstance(result, Driven), device.name


def test_removing_the_wrench_that_is_within_the_limit_names_the_one_that_is_over_it() -> None:
    less = replace(van(), wrenches=tuple(w for w in van().wrenches if w.name != "W8"))
    for name in ("Dipper", "Plover"):
        reason = broken(name, less)
        assert reason.code == "torque_limit"
        assert "W13" in str(reason.text)
    whole("Bittern", less)


def test_removing_the_strong_wrench_leaves_every_device_with_the_weak_one() -> None:
    less = replace(van(), wrenches=tuple(w for w in van().wrenches if w.name != "W13"))
    for name in ("Dipper", "Plover", "Bittern"):
        drive = whole(name, less).drive
        assert drive.wrench is not None
        assert drive.wrench.name == "W8"


def test_removing_the_rope_is_named_where_a_line_is_needed() -> None:
    tree = replace(with_lean(example("tarnshaw-9"), 1.92, 189.0), look=CLEAR)
    plan = Case(tree, replace(van(), ropes=())).plan()
    assert plan.verdict == "LEAVE"
    assert "line" in [reason.code for reason in plan.reasons]
