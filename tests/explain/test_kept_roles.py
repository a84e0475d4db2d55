"""What each conductor is for, kept with its network, is what it is for in a layout that is seen for the first time."""

from __future__ import annotations

import random
from collections.abc import Mapping

import pytest

from app.catalogue.catalogue import Catalogue
from app.circuit.kept_networks import forget_networks
from app.circuit.network import build_circuit
from app.circuit.situations import situations_of
from app.explain.kept_roles import kept_roles
from app.explain.role import Role
from app.job.model import Layout
from tests.circuit.bench import CATALOGUE, sketch
from tests.circuit.chance import layout_by_chance
from tests.circuit.test_kept_networks import changed_a_little
from tests.demo_jobs.demos import NAMES, demo
from tests.explain.roles_bench import roles

PUMP_AND_BANK = {
    "xf": "control-transformer",
    "ah": "air-handler-board",
    "tc": "thermostat-heat-pump",
    "xo": "control-transformer",
    "ou": "heat-pump-unit",
}
APART = ("xf.R ah.XF", "xf.C ah.XC", "ah.R tc.R", "ah.C tc.C", "w: tc.W ah.W1", "xo.R ou.R", "xo.C ou.C")


def kept(layout: Layout, catalogue: Catalogue = CATALOGUE) -> Mapping[str, Role]:
    return dict(kept_roles(build_circuit(layout, catalogue), situations_of(layout, catalogue)))


@pytest.mark.parametrize("name", NAMES)
def test_what_is_kept_after_little_changes_is_what_the_whole_layout_tells(name: str) -> None:
    opened = demo(name)
    chance = random.Random(f"roles {name}")
    layout = opened.job.layouts[opened.job.default_layout()]
    assert kept(layout, opened.catalogue) == roles(layout, opened.catalogue)
    for _ in range(3):
        layout = changed_a_little(layout, opened.catalogue, chance)
        assert kept(layout, opened.catalogue) == roles(layout, opened.catalogue)


def test_networks_judged_apart_tell_what_the_whole_layout_tells() -> None:
    for seed in range(60):
        layout = layout_by_chance(random.Random(f"roles {seed}"), CATALOGUE, fewest=3, most=9, unknown=0.05)
        assert kept(layout) == roles(layout), seed


def test_a_heat_pump_that_comes_to_serve_the_same_air_shows_in_a_network_that_stays_as_it_was() -> None:
    here = sketch(PUMP_AND_BANK, *APART)
    elsewhere = sketch({**PUMP_AND_BANK, "ou": {"kind": "heat-pump-unit", "air": "upstairs"}}, *APART)
    assert len(build_circuit(here, CATALOGUE).networks) == 2
    forget_networks()
    assert [kept(layout)["w"].name for layout in (elsewhere, here, elsewhere)] == [
        "electric-heat",
        "auxiliary-heat",
        "electric-heat",
    ]
