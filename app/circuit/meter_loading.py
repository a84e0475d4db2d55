"""A voltmeter that draws something: its own resistance, and what a floating conductor picks up in a cable.

A conductor that nothing holds to a potential lies beside live ones in the same cable. Between each two conductors of
a cable we take the same capacitance, 50 pF for each metre that they run together (calculated from memory, as the
handbook has it): where a conductor lies in its cable is nothing that a drawing tells. With one live neighbour this is
V = Vs·Zm / √(Zm² + Xc²), Xc = 1 / 2πfC; grounded neighbours pull the volts down, several live ones add up. Shields,
conduit and what the drawing does not show are left out, so that a real meter may show less or more; it is a figure to
know a phantom by, not to measure one with.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from itertools import combinations

from app.circuit.dead_windings import dead_windings, joined_by
from app.circuit.frozen import Frozen, frozen_around
from app.circuit.network import Circuit
from app.circuit.operating_point import OperatingPoint
from app.circuit.reading import Reading
from app.circuit.situation import Fault, Situation
from app.circuit.solve import solve
from app.job.model import Conductor, Layout

IMPEDANCE_OHMS: Mapping[str, float] = {"high": 10e6, "low": 3e3}
"""A usual digital meter (10 MΩ) and one with a low input resistance (3 kΩ): common practice, no source."""
FARADS_PER_METRE = 50e-12
"""Between two conductors of one cable; from memory."""
SEEN_FROM_VOLTS = 0.005
"""What a meter with two decimals still shows."""


def read_loaded(circuit: Circuit, point: OperatingPoint, a: str, b: str, meter_ohms: float) -> Reading:
    """Return what a voltmeter of ``meter_ohms`` shows; both terminals are known.

    Where the meter itself moves a coil or an input, the circuit is settled again with the meter in it.
    """
    frozen = frozen_around(circuit, point, (a, b), with_cables=True)
    first, second = frozen.node_of[a], frozen.node_of[b]
    branches = [(held.a, held.b, held.siemens) for held in frozen.held]
    coupled = _couplings(frozen, circuit.layout, circuit.frequency_hz, point.situation)
    amps = [(low, high, source.emf * source.siemens * frozen.supply) for high, low, source in frozen.sources]
    floats = point.volts_between(a, b) is None
    # A dead winding that something else feeds is not what it is at rest: there the point stands as it was worked out.
    dead = dead_windings(frozen, point) if floats else []
    windings = [(each.a, each.b, each.siemens) for each in dead]
    with_meter = [*branches, *windings, *coupled, (first, second, complex(1 / meter_ohms))]
    solution = frozen.solved(with_meter, amps)
    volts = abs(solution.volts[first] - solution.volts[second])
    unseen = [why for node, why in frozen.touched.items() if solution.root[node] == solution.root[first]]
    if floats:
        if unseen:
            return Reading(unknown=True, why=unseen[0])
        return Reading(volts=volts, why=joined_by(frozen, dead, a, b) or _phantom_words(volts, bool(coupled)))
    return _after_moving(circuit, point, a, b, meter_ohms) or Reading(volts=volts)


def _phantom_words(volts: float, coupled: bool) -> str:
    if volts < SEEN_FROM_VOLTS or not coupled:
        return "nothing joins the two: the meter itself brings them together"
    return (
        "nothing joins the two: these volts come through the insulation of the cable and can work nothing; "
        "a meter with low input resistance shows next to none"
    )


def _couplings(
    frozen: Frozen, layout: Layout, frequency_hz: int, situation: Situation
) -> list[tuple[int, int, complex]]:
    """Return the capacitances between the conductors of each cable as branches."""
    cut = {
        fault.at.partition(":")[2]
        for fault in situation.faults
        if fault.is_ == "conductor-open" and isinstance(fault.at, str)
    }
    by_cable: dict[str, list[tuple[float, tuple[int, ...]]]] = {}
    for name, conductor in sorted(layout.conductors.items()):
        found = conductor.length_and_size(layout.cables)
        if conductor.cable is not None and found is not None:
            nodes = _nodes_of(frozen, name, conductor, is_cut=name in cut)
            if nodes:
                by_cable.setdefault(conductor.cable, []).append((found[0], nodes))
    branches: list[tuple[int, int, complex]] = []
    for conductors in by_cable.values():
        for (length_m, one), (other_m, other) in combinations(conductors, 2):
            farads = FARADS_PER_METRE * min(length_m, other_m) / (len(one) * len(other))
            siemens = 1j * 2 * math.pi * frequency_hz * farads
            branches += ((x, y, siemens) for x in one for y in other if x != y)
    return branches


def _nodes_of(frozen: Frozen, name: str, conductor: Conductor, *, is_cut: bool) -> tuple[int, ...]:
    """Return the nodes with which a conductor lies beside others: both halves of one that is cut."""
    landed = [frozen.node_of.get(end) for end in conductor.landed()]
    known = [node for node in landed if node is not None]
    if len(known) < len(landed):
        return ()
    if not known:
        return (frozen.node(f"conductor:{name}"),)
    return tuple(known) if is_cut else (known[0],)


def _after_moving(circuit: Circuit, point: OperatingPoint, a: str, b: str, meter_ohms: float) -> Reading | None:
    """Return the reading with the meter in the circuit from the start, where the meter moves something."""
    situation = point.situation
    places = (f"terminal:{a}", f"terminal:{b}")
    meter = Fault.model_validate({"is": "short", "at": places, "ohms": meter_ohms})
    loaded = solve(circuit, situation.model_copy(update={"faults": (*situation.faults, meter)}))
    moved = _moved(point, loaded)
    if not moved or _moved(point, solve(circuit, situation)):
        return None
    volts = loaded.volts_between(a, b)
    said = ", ".join(moved)
    if volts is None:
        return Reading(unknown=True, why=f"with this meter in it the circuit does not settle: {said}")
    return Reading(volts=volts, why=f"the meter itself moves {said}")


def _moved(before: OperatingPoint, after: OperatingPoint) -> list[str]:
    return [name for name, state in before.elements.items() if after.elements[name].state != state.state]
