from typing import Any

import pytest
from tests.records.samples import faults_of_kit, kit_data, only_fault, put

from fellwright.records.kit import Device, Hammer, Kit, Pack, Rope, Saw, Socket, Wrench
from fellwright.records.kit_fields import REQUIRED_BY_KIND
from fellwright.records.loader import read_kit


def test_a_whole_kit_file_is_read_as_written() -> None:
    kit = read_kit(kit_data(), "kit.toml")
    assert kit.devices[0] == Device(
        name="Dipper",
        kind="screw wedge",
        rated_t=9.5,
        lift_mm=46.0,
        plate_width_mm=65.0,
        plate_length_mm=90.0,
        mm_per_turn=2.2,
        turns_to_stop=21.0,
        torque_limit_n_m=850.0,
        hex_mm=(19.0,),
        depth_full_mm=130.0,
        mass_kg=2.9,
        grease="greased",
        outer_angle_deg=8.0,
        state="FIT",
    )
    assert kit.devices[3].thickness_mm == 48.0
    assert kit.devices[3].stacked == 2
    assert kit.hammers == (Hammer(3.0),)
    assert kit.wrenches == (Wrench("W8", 800.0, 12.7), Wrench("W13", 1300.0, 12.7))
    assert kit.sockets == (Socket(19.0, 12.7), Socket(27.0, 12.7))
    assert kit.packs == (Pack(90.0, 2),)
    assert kit.ropes == (Rope("Rope set", 1.6, 6.0, 80.0, 1),)
    assert kit.saw == Saw(45.0, 70.0, 8.0)


def test_an_empty_kit_is_a_kit_with_nothing_in_it() -> None:
    assert read_kit({}, "kit.toml") == Kit()


def test_no_charged_pack_left_is_no_bad_input() -> None:
    data = kit_data()
    put(data, "pack.0.count", 0)
    assert read_kit(data, "kit.toml").packs == (Pack(90.0, 0),)


def test_a_single_hex_may_stand_without_brackets() -> None:
    data = kit_data()
    put(data, "device.0.hex_mm", 19)
    assert read_kit(data, "kit.toml").devices[0].hex_mm == (19.0,)


@pytest.mark.parametrize(
    ("kind", "key"), [(kind, key) for kind, keys in REQUIRED_BY_KIND.items() for key in keys]
)
def test_each_kind_demands_what_it_cannot_be_judged_without(kind: str, key: str) -> None:
    full: dict[str, Any] = {
        "rated_t": 5,
        "lift_mm": 30,
        "plate_mm": [60, 90],
        "thickness_mm": 48,
    }
    device = {"name": "Siskin", "kind": kind} | full
    assert read_kit({"device": [device]}, "kit.toml").devices[0].kind == kind
    del device[key]
    fault = only_fault(faults_of_kit({"device": [device]}))
    assert fault.field == f"device[1].{key}"
    assert fault.code == "missing-key"


@pytest.mark.parametrize(
    ("path", "value", "field"),
    [
        ("device.0.rated_t", 0, "device[1].rated_t"),
        ("device.0.rated_t", 9500, "device[1].rated_t"),
        ("device.1.lift_mm", -25, "device[2].lift_mm"),
        ("device.0.plate_mm", [65, 0], "device[1].plate_mm[2]"),
        ("device.0.hex_mm", [19, 1900], "device[1].hex_mm[2]"),
        ("device.3.thickness_mm", 4800, "device[4].thickness_mm"),
        ("device.3.stacked", 0, "device[4].stacked"),
        ("hammer.0.mass_kg", 3000, "hammer[1].mass_kg"),
        ("wrench.0.torque_n_m", 0, "wrench[1].torque_n_m"),
        ("socket.1.drive_mm", 0.5, "socket[2].drive_mm"),
        ("pack.0.energy_wh", 0, "pack[1].energy_wh"),
        ("rope.0.puller_t", 1600, "rope[1].puller_t"),
        ("saw.kerf_mm", 0, "saw.kerf_mm"),
    ],
)
def test_sizes_no_tool_has_are_refused(path: str, value: Any, field: str) -> None:
    data = kit_data()
    put(data, path, value)
    fault = only_fault(faults_of_kit(data))
    assert fault.field == field
    assert fault.code == "out-of-range"
    assert fault.remedy


@pytest.mark.parametrize("value", [65, [65], [65, 90, 10], "65 x 90", {}])
def test_a_plate_is_two_numbers(value: Any) -> None:
    data = kit_data()
    put(data, "device.0.plate_mm", value)
    assert only_fault(faults_of_kit(data)).code == "not-a-list"


@pytest.mark.parametrize(
    ("path", "value", "hint"),
    [
        ("device.0.kind", "screw wedg", '"screw wedge"'),
        ("device.0.grease", "gresed", '"greased"'),
        ("device.0.state", "FITT", '"FIT"'),
        ("device.0.lift_cm", 4.6, "lift_"),
        ("devices", [], "device"),
        ("kerf_mm", 8, "[saw]"),
        ("tree", {}, "the tree file"),
        ("saw.bar_deep_mm", 70, "bar_depth_mm"),
    ],
)
def test_unknown_words_and_keys_name_the_nearest(path: str, value: Any, hint: str) -> None:
    data = kit_data()
    put(data, path, value)
    fault = next(iter(faults_of_kit(data)))
    assert fault.code in ("unknown-key", "not-a-choice")
    assert hint in fault.remedy


@pytest.mark.parametrize("key", ["device", "wrench"])
def test_the_same_name_twice_is_refused_naming_the_first(key: str) -> None:
    data = kit_data()
    put(data, f"{key}.1.name", data[key][0]["name"].upper())
    fault = only_fault(faults_of_kit(data))
    assert fault.field == f"{key}[2].name"
    assert f"{key}[1]" in fault.rule
    assert fault.code == "duplicate-name"


def test_every_fault_of_a_kit_is_told_at_once() -> None:
    data = kit_data()
    put(data, "device.0.lift_mm", 0)
    put(data, "device.1.rated_t", "strong")
    put(data, "pack.0.count", 1.5)
    put(data, "saw", 3)
    del data["wrench"][0]["torque_n_m"]
    assert {fault.field for fault in faults_of_kit(data)} == {
        "device[1].lift_mm",
        "device[2].rated_t",
        "pack[1].count",
        "saw",
        "wrench[1].torque_n_m",
    }
