import dataclasses
from typing import Any

import pytest
from tests.records.samples import faults_of_tree, only_fault

from fellwright.records.kit import Device
from fellwright.records.kit_fields import KIT_SECTIONS
from fellwright.records.loader import read_kit, read_tree
from fellwright.records.number_fields import Number
from fellwright.records.tree_fields import TREE_SECTIONS

IN, FT, LB, MPH = 2.54, 0.3048, 0.45359237, 0.44704


def test_a_tree_in_imperial_equals_the_same_tree_in_metric() -> None:
    imperial = read_tree(
        {
            "tree": {
                "dbh_in": 15.75,
                "height_ft": 82,
                "crown_base_ft": 36,
                "crown_radius_ft": 8.5,
                "stump_diameter_in": 18,
                "cut_height_in": 12,
                "cavity_wall_in": 5,
                "lean": [
                    {"offset_ft": 1.6, "toward_deg": 220, "sighted_at": "top", "error_ft": 0.7}
                ],
                "crown_shift": {"offset_ft": 1.2, "toward_deg": 10},
                "conductor": [{"distance_ft": 70, "height_ft": 36}],
            },
            "cut": {"hinge_in": 1.8},
            "day": {"gust_mph": 12, "temperature_degf": 50},
        },
        "tree.toml",
    )
    metric = read_tree(
        {
            "tree": {
                "dbh_cm": 15.75 * IN,
                "height_m": 82 * FT,
                "crown_base_m": 36 * FT,
                "crown_radius_m": 8.5 * FT,
                "stump_diameter_cm": 18 * IN,
                "cut_height_cm": 12 * IN,
                "cavity_wall_cm": 5 * IN,
                "lean": [
                    {
                        "offset_m": 1.6 * FT,
                        "toward_deg": 220,
                        "sighted_at": "top",
                        "error_m": 0.7 * FT,
                    }
                ],
                "crown_shift": {"offset_m": 1.2 * FT, "toward_deg": 10},
                "conductor": [{"distance_m": 70 * FT, "height_m": 36 * FT}],
            },
            "cut": {"hinge_mm": 1.8 * IN * 10},
            "day": {"gust_m_s": 12 * MPH, "temperature_degc": 10},
        },
        "tree.toml",
    )
    assert numbers(imperial) == pytest.approx(numbers(metric), abs=1e-9)
    assert dict(metric.as_read) == {}
    assert imperial.as_read["tree.dbh_cm"] == (15.75, "in")
    assert imperial.as_read["tree.lean[1].error_m"] == (0.7, "ft")
    assert imperial.as_read["tree.crown_shift.offset_m"] == (1.2, "ft")
    assert imperial.as_read["tree.conductor[1].height_m"] == (36.0, "ft")
    assert imperial.as_read["day.temperature_degc"] == (50.0, "degF")


def test_a_kit_in_imperial_equals_the_same_kit_in_metric() -> None:
    device: dict[str, Any] = {"name": "Dipper", "kind": "screw wedge", "rated_t": 9.5}
    kit = read_kit(
        {
            "device": [
                device
                | {
                    "lift_in": 1.8,
                    "plate_in": [2.5, 3.5],
                    "hex_in": [0.75, 1],
                    "mass_lb": 6.4,
                    "torque_limit_ft_lbf": 627,
                }
            ],
            "hammer": [{"mass_lb": 6}],
            "wrench": [{"name": "W8", "torque_ft_lbf": 590, "drive_in": 0.5}],
            "rope": [{"name": "Rope set", "puller_t": 1.6, "length_ft": 260}],
        },
        "kit.toml",
    )
    foot_pound = 1.3558179483314004
    assert numbers(kit.devices[0]) == pytest.approx(
        numbers(
            Device(
                **device,
                lift_mm=45.72,
                plate_width_mm=63.5,
                plate_length_mm=88.9,
                hex_mm=(19.05, 25.4),
                mass_kg=6.4 * LB,
                torque_limit_n_m=627 * foot_pound,
            )
        ),
        abs=1e-9,
    )
    assert kit.hammers[0].mass_kg == pytest.approx(6 * LB, abs=1e-9)
    assert kit.wrenches[0].torque_n_m == pytest.approx(590 * foot_pound, abs=1e-9)
    assert kit.wrenches[0].drive_mm == pytest.approx(12.7, abs=1e-9)
    assert kit.ropes[0].length_m == pytest.approx(260 * FT, abs=1e-9)
    assert kit.as_read["device[1].plate_length_mm"] == (3.5, "in")
    assert kit.as_read["device[1].hex_mm[2]"] == (1.0, "in")


def test_the_same_quantity_in_both_units_is_refused() -> None:
    fault = only_fault(faults_of_tree({"tree": {"dbh_cm": 40, "dbh_in": 15.75}}))
    assert fault.code == "given-twice"
    assert "dbh_in = 15.75" in fault.value


def test_an_imperial_value_out_of_range_is_told_in_its_own_unit() -> None:
    fault = only_fault(faults_of_tree({"tree": {"dbh_in": 1600}}))
    assert fault.field == "tree.dbh_in"
    assert fault.value == "1600"
    assert fault.rule == "must be between 0.394 and 394 in"


def test_every_length_mass_torque_speed_and_temperature_has_an_imperial_key() -> None:
    sections = TREE_SECTIONS | KIT_SECTIONS
    numbers_with_units = [
        field
        for fields in sections.values()
        for field in fields
        if isinstance(field, Number) and field.unit in ("mm", "cm", "m", "kg", "n_m", "m_s", "degc")
    ]
    assert len(numbers_with_units) > 30
    for field in numbers_with_units:
        assert field.key.endswith(f"_{field.unit}")
        assert field.imperial_key not in (None, field.key)


def numbers(record: Any) -> list[float]:
    """Return every number of a record and of the records in it, in order."""
    if isinstance(record, bool):
        return []
    if isinstance(record, (int, float)):
        return [float(record)]
    if isinstance(record, tuple):
        return [number for item in record for number in numbers(item)]
    if dataclasses.is_dataclass(record):
        names = [field.name for field in dataclasses.fields(record) if field.name != "as_read"]
        return [number for name in names for number in numbers(getattr(record, name))]
    return []
