"""Explanations of every effect in every call of the demo jobs, and of random layouts, held against the circuit."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from hypothesis import given, settings

from app.catalogue.catalogue import Catalogue
from app.circuit.network import Circuit, build_circuit
from app.circuit.operating_point import OperatingPoint
from app.circuit.situation import Situation
from app.circuit.situations import situations_of
from app.circuit.solve import solve, solve_all
from app.explain.answer import Explanation
from app.explain.ways import ways_of
from app.explain.why import why
from app.job.model import Layout
from tests.circuit.bench import CATALOGUE, demo_layouts
from tests.circuit.random_layouts import layouts_and_situations

DEMOS = {name: case for name, case in demo_layouts().items() if len(case[0].parts) < 20}


def subjects(layout: Layout, catalogue: Catalogue) -> list[str]:
    kinds = {part: catalogue.kind_of(found) for part, found in layout.parts.items()}
    return [f"{part}:{effect}" for part, kind in kinds.items() if kind is not None for effect in kind.effects]


def all_of(found: Explanation) -> Iterator[Explanation]:
    yield found
    for reason in found.reasons:
        if reason.behind is not None:
            yield from all_of(reason.behind)


def assert_follows(found: Explanation, circuit: Circuit, point: OperatingPoint) -> None:
    """Each step begins where the one before it ended, and what conducts is as the operating point has it."""
    ends = {way.subject: (way.a, way.b) for way in ways_of(circuit).ways}
    at: str | None = None
    for index, step in enumerate(found.steps):
        if step.subject.startswith("fault:"):
            at = step.reaches
            continue
        a, b = ends[step.subject]
        assert step.reaches in (a, b)
        if at is not None:
            assert at in (a, b), step
        at = step.reaches
        before = found.stops_at is None or index < found.stops_at
        if before and found.verdict == "runs":
            assert step.state not in ("open", "removed", "cut", "off"), step


@pytest.mark.parametrize("name", DEMOS)
def test_every_effect_in_every_call_of_a_demo_job(name: str) -> None:
    layout, catalogue = DEMOS[name]
    circuit = build_circuit(layout, catalogue)
    for point in solve_all(circuit, situations_of(layout, catalogue)):
        for subject in subjects(layout, catalogue):
            found = why(circuit, point, subject)[0]
            part, _, effect = subject.partition(":")
            if (part, effect) not in point.effects_in_doubt:
                runs = (part, effect) in point.effects
                assert found.verdict in (("runs",) if runs else ("does-not-run", "unknown", "unsettled")), subject
            for each in all_of(found):
                assert each.words
                assert_follows(each, circuit, point)


def test_doing_what_the_root_asks_for_gets_further() -> None:
    """Where a call is what lacks, calling brings the effect, or the answer changes to something else."""
    layout, catalogue = DEMOS["post-office-dual-fuel:as-left"]
    circuit = build_circuit(layout, catalogue)
    idle = solve(circuit, Situation())
    root = why(circuit, idle, "ou:compressor")[0].root
    assert root is not None
    assert root.sort == "call"
    calls = [call for call in ("cool-1", "cool-2", "heat-1", "heat-2") if call.replace("-", " ") in root.words]
    assert calls
    for call in calls:
        called = solve(circuit, Situation.model_validate({"calls": {"tc": [call]}}))
        assert ("ou", "compressor") in called.effects


@settings(max_examples=40, deadline=None)
@given(case=layouts_and_situations())
def test_random_layouts_are_explained_without_contradiction(case: tuple[Layout, Situation]) -> None:
    layout, situation = case
    circuit = build_circuit(layout, CATALOGUE)
    point = solve(circuit, situation)
    for subject in subjects(layout, CATALOGUE):
        part, _, effect = subject.partition(":")
        found = why(circuit, point, subject)[0]
        again: Any = why(circuit, point, subject)[0]
        assert found == again
        assert (found.verdict == "runs") == ((part, effect) in point.effects and found.verdict != "unknown")
        for each in all_of(found):
            assert_follows(each, circuit, point)
