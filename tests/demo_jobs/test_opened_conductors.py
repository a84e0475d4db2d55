"""Every conductor of the dual-fuel job is there for something: open one, and a finding or a lost effect tells."""

from __future__ import annotations

import pytest

from app.checks.check import check_layout
from app.circuit.network import build_circuit
from app.circuit.situation import Situation
from app.circuit.situations import situations_of
from app.circuit.solve import solve
from app.job.model import Job, Layout
from tests.demo_jobs.demos import demo, grave

NAME, LAYOUT = "post-office-dual-fuel", "as-left"
CONDUCTORS = demo(NAME).job.layouts[LAYOUT].conductors
USED = [name for name, conductor in CONDUCTORS.items() if conductor.landed()]
SPARES = [name for name, conductor in CONDUCTORS.items() if not conductor.landed()]

WEATHER = (
    Situation(calls={"tc": ("heat-1",)}, outdoor_c=-12),
    Situation(calls={"tc": ("heat-2",)}, outdoor_c=-12),
    Situation(calls={"tc": ("heat-1",)}, outdoor_c=3, set={"ou.coil_cold": "closed"}),
)
"""Bitter cold on both stages, and a frosted outdoor coil."""


def without(name: str) -> tuple[Job, Layout]:
    """Return the job and its layout with one conductor taken away."""
    job = demo(NAME).job
    left = {key: conductor for key, conductor in CONDUCTORS.items() if key != name}
    layout = job.layouts[LAYOUT].model_copy(update={"conductors": left})
    return job.model_copy(update={"layouts": {LAYOUT: layout}}), layout


def effects_by_situation(layout: Layout) -> list[tuple[tuple[str, str], ...]]:
    """Return what runs in every call and weather."""
    catalogue = demo(NAME).catalogue
    circuit = build_circuit(layout, catalogue)
    asked = [*situations_of(demo(NAME).job.layouts[LAYOUT], catalogue), *WEATHER]
    return [solve(circuit, situation).effects for situation in asked]


WHOLE = effects_by_situation(demo(NAME).job.layouts[LAYOUT])


@pytest.mark.parametrize("name", USED)
def test_opening_a_conductor_tells(name: str) -> None:
    job, layout = without(name)
    lost = effects_by_situation(layout) != WHOLE
    found = grave(check_layout(job, LAYOUT, demo(NAME).catalogue))
    assert lost or found


@pytest.mark.parametrize("name", SPARES)
def test_taking_away_a_spare_tells_nothing(name: str) -> None:
    job, layout = without(name)
    assert effects_by_situation(layout) == WHOLE
    assert grave(check_layout(job, LAYOUT, demo(NAME).catalogue)) == []


def test_most_of_the_conductors_are_in_use() -> None:
    assert len(USED) >= 18
    assert len(SPARES) == 4
