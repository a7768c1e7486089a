"""Cones and rams come out of the compiled twin as they come out of plain Python."""

import tomllib

import pytest
from tests.bulk.drawn import plain_devices, plain_needs, points, random_situation
from tests.plans.cases import EXAMPLES

from fellwright.bulk.draws import draw_devices_compiled, draw_needs_compiled, points_array
from fellwright.planning.device_draw import CONE, RAM, DeviceDraw
from fellwright.planning.device_kinds import fit_device
from fellwright.planning.drive_train import Driven, Setting
from fellwright.records.loader import read_kit
from fellwright.tables import find_species


@pytest.mark.slow
@pytest.mark.parametrize(("name", "drive"), [("Siskin", CONE), ("Dunlin", RAM)])
@pytest.mark.parametrize("iced", [False, True])
def test_compiled_draws_are_the_plain_ones_bit_by_bit(name: str, drive: float, iced: bool) -> None:
    kit = read_kit(tomllib.loads((EXAMPLES / "van-3.toml").read_text(encoding="utf-8")), "van-3")
    beech = find_species("beech")
    assert beech is not None
    device = next(d for d in kit.devices if d.name == name)
    fitted = fit_device(device, Setting(kit, beech, iced=iced, preloaded=True, hammering=True))
    assert isinstance(fitted, Driven)
    assert fitted.figures.drive == drive
    for seed in range(4):
        drawn, situation = points(seed), random_situation(seed)
        needs = draw_needs_compiled(points_array(drawn), situation, 1.0)
        compiled = draw_devices_compiled(points_array(drawn), needs, fitted.figures)
        plain = plain_devices(drawn, plain_needs(drawn, situation, 1.0), fitted.figures)
        assert [DeviceDraw._make(row) for row in compiled.tolist()] == plain
