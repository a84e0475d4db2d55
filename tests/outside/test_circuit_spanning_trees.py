"""Any purely resistive network against Kirchhoff's theorem on spanning trees (Annalen der Physik 148, 1847).

The effective resistance between two nodes is the sum over all spanning trees of the graph with the two made one,
divided by the same sum over the graph itself, each tree counted with the product of its conductances.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations
from math import prod

import networkx as nx
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from app.circuit.meter import read
from app.circuit.network import build_circuit
from app.circuit.situation import Situation
from app.circuit.solve import solve
from app.job.model import Conductor, Layout, Part
from tests.circuit.bench import CATALOGUE

SERIES_OHMS = 1.44
OPEN_VOLTS = 26.4
Edge = tuple[int, int, float]


def weighted_trees(edges: Sequence[Edge], nodes: int) -> float:
    found = 0.0
    for chosen in combinations(edges, nodes - 1):
        graph = nx.Graph((a, b) for a, b, _ in chosen)
        if graph.number_of_nodes() == nodes and graph.number_of_edges() == nodes - 1 and nx.is_connected(graph):
            found += prod(1 / ohms for _, _, ohms in chosen)
    return found


def effective_ohms(edges: Sequence[Edge], nodes: int) -> float:
    """Return the ohms between node 0 and the last one."""
    if nodes == 2:
        return 1 / sum(1 / ohms for _, _, ohms in edges)
    last = nodes - 1
    merged = [(a % last, b % last, ohms) for a, b, ohms in edges]
    return weighted_trees([edge for edge in merged if edge[0] != edge[1]], last) / weighted_trees(edges, nodes)


@st.composite
def graphs(draw: st.DrawFn) -> tuple[int, list[Edge]]:
    size = draw(st.integers(3, 5))
    ohms = st.floats(0.1, 1e5)
    ends = st.integers(0, size - 1)
    edges = [(at, at + 1, draw(ohms)) for at in range(size - 1)]
    more = draw(st.lists(st.tuples(ends, ends, ohms), max_size=5))
    return size, edges + [edge for edge in more if edge[0] != edge[1]]


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(graphs())
def test_a_resistive_network_has_its_effective_resistance(case: tuple[int, list[Edge]]) -> None:
    size, edges = case
    parts = {f"n{node}": Part(kind="joint") for node in range(size)}
    parts["xf"] = Part(kind="supply")
    wires = {"w-hot": Conductor(ends=("xf.R", "n0.A")), "w-common": Conductor(ends=("xf.C", f"n{size - 1}.A"))}
    for at, (a, b, ohms) in enumerate(edges):
        parts[f"r{at}"] = Part(kind="resistor", settings={"ohms": ohms})
        wires[f"w{at}-a"] = Conductor(ends=(f"n{a}.A", f"r{at}.A"))
        wires[f"w{at}-b"] = Conductor(ends=(f"n{b}.A", f"r{at}.B"))
    point = solve(build_circuit(Layout(parts=parts, conductors=wires), CATALOGUE), Situation())
    ohms = effective_ohms(edges, size)
    assert read(point, "xf.R", "xf.C").volts == pytest.approx(OPEN_VOLTS * ohms / (ohms + SERIES_OHMS), rel=1e-7)
    assert point.sources["xf.secondary"].amps == pytest.approx(OPEN_VOLTS / (ohms + SERIES_OHMS), rel=1e-7)
