"""Networks that are kept from one layout to the next never show in an answer."""

from __future__ import annotations

import random

import pytest

from app.catalogue.catalogue import Catalogue
from app.circuit.answers import solution_document
from app.circuit.kept_networks import forget_networks
from app.circuit.network import build_circuit
from app.circuit.situations import situations_of
from app.circuit.solve import solve_all
from app.job.model import Cable, Layout, UnknownEnd
from tests.circuit.to_the_last_digits import same
from tests.demo_jobs.demos import NAMES, SCHOOL_ROW, demo


def answers(layout: Layout, catalogue: Catalogue) -> list[object]:
    circuit = build_circuit(layout, catalogue)
    assert [network.number for network in circuit.networks] == list(range(len(circuit.networks)))
    return [solution_document(point) for point in solve_all(circuit, situations_of(layout, catalogue))]


def answers_anew(layout: Layout, catalogue: Catalogue) -> list[object]:
    forget_networks()
    return answers(layout, catalogue)


def changed_a_little(layout: Layout, catalogue: Catalogue, chance: random.Random) -> Layout:
    """Change one thing that a network is compiled from, or the order in which networks stand."""
    name = chance.choice(sorted(layout.conductors))
    wire = layout.conductors[name]
    part = chance.choice(sorted(layout.parts))
    kind = catalogue.kind_of(layout.parts[part])
    match chance.randrange(6):
        case 0:
            wire = wire.model_copy(update={"length_m": (wire.length_m or 0.0) + 40.0})
        case 1:
            wire = wire.model_copy(update={"ends": (wire.ends[0], None)})
        case 2:
            wire = wire.model_copy(update={"ends": (wire.ends[0], UnknownEnd(unknown="behind the wall"))})
        case 3 if wire.cable is not None:
            longer = Cable(length_m=90.0, size_awg=24)
            return layout.model_copy(update={"cables": {**layout.cables, wire.cable: longer}})
        case 4 if kind is not None and any(setting.choices for setting in kind.settings.values()):
            names = [name for name, setting in kind.settings.items() if setting.choices]
            setting = chance.choice(names)
            values = {**layout.parts[part].settings, setting: chance.choice(kind.settings[setting].choices)}
            changed = layout.parts[part].model_copy(update={"settings": values})
            return layout.model_copy(update={"parts": {**layout.parts, part: changed}})
        case _:
            # A part that comes first moves the number of every network by one.
            splice = layout.parts[part].model_copy(update={"kind": "splice", "settings": {}})
            return layout.model_copy(update={"parts": {"a-first": splice, **layout.parts}})
    return layout.model_copy(update={"conductors": {**layout.conductors, name: wire}})


@pytest.mark.parametrize("name", [name for name in NAMES if name != SCHOOL_ROW])
def test_a_little_change_gives_the_answers_of_a_circuit_compiled_anew(name: str) -> None:
    job = demo(name)
    chance = random.Random(f"kept {name}")
    layout = job.job.layouts[job.job.default_layout()]
    answers(layout, job.catalogue)
    for _ in range(3):
        layout = changed_a_little(layout, job.catalogue, chance)
        kept = answers(layout, job.catalogue)
        assert same(kept, answers_anew(layout, job.catalogue))
