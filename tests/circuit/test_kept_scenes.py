"""What is kept of one situation of a network never shows in the answer to another."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest

from app.circuit.answers import solution_document
from app.circuit.kept_networks import forget_networks
from app.circuit.network import Circuit, build_circuit
from app.circuit.situation import Situation
from app.circuit.situations import situations_of
from app.circuit.solve import solve
from app.circuit.supplies import supplies_of
from tests.circuit.to_the_last_digits import same
from tests.demo_jobs.demos import demo

DUAL_FUEL = "post-office-dual-fuel"


def circuit_of(name: str) -> Circuit:
    opened = demo(name)
    return build_circuit(opened.job.layouts["as-left"], opened.catalogue)


def otherwise(circuit: Circuit) -> Iterator[Situation]:
    """Yield each call, and each with one thing otherwise that no call says."""
    switches = [
        (f"{part}.{name}", position)
        for part, said in circuit.layout.parts.items()
        for name, switch in circuit.catalogue.kinds[said.kind].switches.items()
        for position in switch.positions
    ]
    changes: list[dict[str, Any]] = [{}, {"supply_percent": 80.0}, {"outdoor_c": -20.0}]
    changes += [{"mains": {supply: "off"}} for supply in supplies_of(circuit.layout, circuit.catalogue)]
    changes += [{"set": {name: position}} for name, position in switches[:6]]
    for situation in situations_of(circuit.layout, circuit.catalogue):
        yield from (situation.model_copy(update=change) for change in changes)


@pytest.mark.parametrize("name", [DUAL_FUEL, "chapel-two-supplies", "mill-house-two-zones"])
def test_situations_asked_one_after_the_other_are_answered_as_each_alone(name: str) -> None:
    forget_networks()
    circuit = circuit_of(name)
    asked = list(otherwise(circuit))
    together = [solution_document(solve(circuit, situation)) for situation in [*asked, *asked]]
    assert same(together[: len(asked)], together[len(asked) :])
    seen = set()
    for situation, found in list(zip(asked, together[len(asked) :], strict=True))[::3]:
        forget_networks()
        assert same(solution_document(solve(circuit_of(name), situation)), found), situation
        seen.add(str(found))
    assert len(seen) > 5
