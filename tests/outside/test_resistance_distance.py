"""Networks of resistors against networkx, which knows the resistance distance of a graph."""

from __future__ import annotations

from random import Random

import networkx as nx
import pytest

from app.circuit.meter import read
from app.circuit.network import build_circuit
from app.circuit.situation import Situation
from app.circuit.solve import solve
from app.job.model import Conductor, Layout, Part
from tests.circuit.bench import CATALOGUE

SERIES_OHMS = 1.44
OPEN_VOLTS = 26.4


def graph_by_chance(chance: Random) -> nx.Graph[int]:
    """Return a connected graph with ohms on its edges."""
    size = chance.randint(2, 60)
    graph = nx.random_labeled_tree(size, seed=chance.randrange(10**6))
    for _ in range(chance.randint(0, 2 * size)):
        a, b = chance.choices(range(size), k=2)
        if a != b:
            graph.add_edge(a, b)
    for _, _, said in graph.edges(data=True):
        said["ohms"] = 10 ** chance.uniform(-1, 5)
    return graph


def layout_of(graph: nx.Graph[int], hot: int, common: int) -> Layout:
    parts = {"xf": Part(kind="supply"), **{f"n{node}": Part(kind="joint") for node in graph}}
    wires = {"hot": Conductor(ends=("xf.R", f"n{hot}.A")), "common": Conductor(ends=("xf.C", f"n{common}.A"))}
    for at, (a, b, said) in enumerate(graph.edges(data=True)):
        parts[f"r{at}"] = Part(kind="resistor", settings={"ohms": said["ohms"]})
        wires[f"w{at}-a"] = Conductor(ends=(f"n{a}.A", f"r{at}.A"))
        wires[f"w{at}-b"] = Conductor(ends=(f"n{b}.D", f"r{at}.B"))
    return Layout(parts=parts, conductors=wires)


@pytest.mark.parametrize("seed", ["oak", "elm", "ash", "yew", "fir", "bay", "box", "sloe"])
def test_a_network_has_the_resistance_distance(seed: str) -> None:
    chance = Random(seed)
    for _ in range(5):
        graph = graph_by_chance(chance)
        hot, common = chance.sample(sorted(graph), 2)
        ohms = nx.resistance_distance(graph, hot, common, weight="ohms", invert_weight=True)
        assert isinstance(ohms, float)
        point = solve(build_circuit(layout_of(graph, hot, common), CATALOGUE), Situation())
        amps = OPEN_VOLTS / (ohms + SERIES_OHMS)
        assert point.sources["xf.secondary"].amps == pytest.approx(amps, rel=1e-7)
        assert read(point, "xf.R", "xf.C").volts == pytest.approx(amps * ohms, rel=1e-7)
