"""Sound systems with one or two wires moved, added or taken off at random: near to what people really get wrong. No
rule fails, every finding can be pointed at, and every fix is valid and mends."""

from __future__ import annotations

from random import Random

import pytest

from app.catalogue.builtin import builtin_catalogue
from app.checks.samples import boiler_zone, dual_fuel, electric_heat, gas_and_cooling, heat_pump, two_transformers
from app.job.model import Conductor, Layout
from tests.checks.test_by_chance import assert_findings_stand

SOUND = {
    "gas": gas_and_cooling(),
    "heat-pump": heat_pump(),
    "dual-fuel": dual_fuel(),
    "two-transformers": two_transformers(),
    "boiler": boiler_zone(),
    "electric-heat": electric_heat(),
    "float": gas_and_cooling({"w7": "fb.Y fl.A", "w9": "fl.B ou.Y"}, {"fl": "float-switch"}),
}


def with_a_wire_astray(layout: Layout, chance: Random) -> Layout:
    """Return a layout with one wire more, one less, or one end of a wire on another terminal."""
    catalogue = builtin_catalogue()
    terminals = [f"{part}.{letter}" for part in layout.parts for letter in catalogue.terminals_of(layout, part)]
    low_volts = [terminal for terminal in terminals if not terminal.endswith((".L1", ".L2"))]
    conductors = dict(layout.conductors)
    name, sort = chance.choice(sorted(conductors)), chance.choice(["added", "moved", "taken off"])
    first, other = chance.sample(low_volts, 2)
    if sort == "added":
        conductors[f"x{len(conductors)}"] = Conductor(ends=(first, other))
    elif sort == "moved":
        stays = conductors[name].ends[1]
        conductors[name] = Conductor(ends=(first if first != stays else other, stays))
    else:
        del conductors[name]
    return layout.model_copy(update={"conductors": conductors})


@pytest.mark.parametrize("system", SOUND)
def test_a_wire_astray_is_borne(system: str) -> None:
    chance = Random(system)
    for _ in range(8):
        assert_findings_stand(with_a_wire_astray(SOUND[system], chance))


@pytest.mark.slow
@pytest.mark.parametrize("system", SOUND)
def test_many_wires_astray_are_borne(system: str) -> None:
    chance = Random(f"many {system}")
    for _ in range(200):
        assert_findings_stand(with_a_wire_astray(with_a_wire_astray(SOUND[system], chance), chance))
