"""Explanations and meters at a moment of a sequence: what waits for a timer, and what stands there meanwhile."""

from __future__ import annotations

import pytest

from app.circuit.meter import read_with
from app.circuit.network import build_circuit
from app.circuit.operating_point import OperatingPoint
from app.explain.why import why
from app.sequence.change import Change
from app.sequence.run import run_sequence
from tests.circuit.bench import demo_layouts

LAYOUT, KINDS = demo_layouts()["post-office-dual-fuel:as-left"]
CIRCUIT = build_circuit(LAYOUT, KINDS)
HEAT = Change(0.0, "tc=emergency-heat", calls={"tc": ("emergency-heat",)})


@pytest.fixture(scope="module", name="start")
def the_start() -> OperatingPoint:
    """The furnace a second after its call: the inducer draws, the gas valve has to wait."""
    return run_sequence(CIRCUIT, [HEAT], for_s=300.0).point_at(1.0)


def test_a_gas_valve_that_waits_is_said_to_wait(start: OperatingPoint) -> None:
    (found,) = why(CIRCUIT, start, "fb:furnace-heat")
    assert (found.verdict, found.root and found.root.sort) == ("does-not-run", "timer")
    assert "has not run out yet" in " ".join(found.words)


def test_the_call_is_there_meanwhile(start: OperatingPoint) -> None:
    (found,) = why(CIRCUIT, start, "element:fb.heat_call")
    assert found.verdict == "runs"


@pytest.mark.parametrize("meter", ["ideal", "high", "low"])
def test_a_meter_reads_the_moment(start: OperatingPoint, meter: str) -> None:
    settled = run_sequence(CIRCUIT, [HEAT], for_s=300.0).point_at(299.0)
    a, b = "fb.W1", "fb.C"
    now = read_with(meter, CIRCUIT, start, a, b).volts  # type: ignore[arg-type]
    later = read_with(meter, CIRCUIT, settled, a, b).volts  # type: ignore[arg-type]
    assert now is not None
    assert later is not None
    # The gas valves are not on yet, so that the source sags less.
    assert now > later + 0.1
