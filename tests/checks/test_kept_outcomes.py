"""What is kept of a group from one check to the next never shows in its outcomes."""

from __future__ import annotations

import random

import pytest

from app.catalogue.catalogue import Catalogue
from app.checks.outcome import groups_of, outcomes_of
from app.circuit.answers import solution_document
from app.circuit.kept_networks import forget_networks
from app.circuit.network import build_circuit
from app.job.model import Layout
from tests.circuit.test_kept_networks import changed_a_little
from tests.circuit.to_the_last_digits import same
from tests.demo_jobs.demos import NAMES, SCHOOL_ROW, demo


def told(layout: Layout, catalogue: Catalogue) -> list[object]:
    circuit = build_circuit(layout, catalogue)
    return [
        (outcome.group, outcome.networks, outcome.settles, set(outcome.deviations), solution_document(outcome.point))
        for outcome in outcomes_of(circuit, groups_of(circuit))
    ]


def told_anew(layout: Layout, catalogue: Catalogue) -> list[object]:
    forget_networks()
    return told(layout, catalogue)


SOME = {
    "assembly-rooms-zone-panel",
    "ferry-cottage-four-wires",
    "ice-store-data-bus",
    "mill-house-two-zones",
    "net-loft-electric-heat",
    "post-office-dual-fuel",
}
"""One of each sort of demo; `make test-all` asks them all."""
EVERY = [pytest.param(name, marks=[] if name in SOME else [pytest.mark.slow]) for name in NAMES if name != SCHOOL_ROW]


@pytest.mark.parametrize("name", EVERY)
def test_outcomes_after_a_little_change_are_those_of_a_layout_seen_for_the_first_time(name: str) -> None:
    opened = demo(name)
    chance = random.Random(name)
    layout = opened.job.layouts[opened.job.default_layout()]
    told(layout, opened.catalogue)
    for _ in range(2):
        changed = changed_a_little(layout, opened.catalogue, chance)
        found = told(changed, opened.catalogue)
        assert same(told(changed, opened.catalogue), found)
        assert same(told_anew(changed, opened.catalogue), found)
        told(layout, opened.catalogue)


def test_parts_that_no_longer_share_air_are_no_longer_one_group() -> None:
    opened = demo(NAMES[0])
    layout = opened.job.layouts[opened.job.default_layout()]
    told(layout, opened.catalogue)
    parts = {name: part.model_copy(update={"air": f"air-{name}"}) for name, part in layout.parts.items()}
    apart = layout.model_copy(update={"parts": parts})
    assert same(told(apart, opened.catalogue), told_anew(apart, opened.catalogue))


def test_a_change_in_one_of_two_networks_that_share_air_shows_in_their_outcomes() -> None:
    opened = demo(SCHOOL_ROW)
    layout = opened.job.layouts[opened.job.default_layout()]
    circuit = build_circuit(layout, opened.catalogue)
    first, second = circuit.networks[:2]
    parts = {name: layout.parts[name].model_copy(update={"air": "one"}) for name in (*first.parts, *second.parts)}
    wires = {
        name: wire
        for name, wire in layout.conductors.items()
        if {end.split(".")[0] for end in wire.landed()} <= set(parts)
    }
    before = layout.model_copy(update={"parts": parts, "conductors": wires})
    (group,) = groups_of(build_circuit(before, opened.catalogue))
    assert len(group.networks) == 2
    for network in (first, second):
        (transformer,) = (part for part in network.parts if parts[part].kind == "control-transformer")
        name = next(name for name, wire in sorted(wires.items()) if f"{transformer}.R" in wire.landed())
        off = wires[name].model_copy(update={"ends": (None, None)})
        # Without its supply, more situations of a network come to the same than with it.
        told(before.model_copy(update={"conductors": {**wires, name: off}}), opened.catalogue)
        assert same(told(before, opened.catalogue), told_anew(before, opened.catalogue))
