"""Large meshes with coils and several sources, against a sparse solve of equations written down from the mesh."""

from __future__ import annotations

import cmath
import math
from random import Random

import numpy as np
import pytest
from scipy.sparse import coo_array
from scipy.sparse.linalg import spsolve

from app.circuit.network import build_circuit
from app.circuit.situation import Situation
from app.circuit.solve import solve
from app.job.model import Conductor, Layout, Part
from tests.circuit.bench import CATALOGUE

SIDE = 20
OPEN_VOLTS, SERIES_OHMS = 26.4, 1.44


def size_of_coil(va: float) -> complex:
    """Return the ohms of a coil at 24 V whose volts stay too low to pull it in: power factor 0.7."""
    return cmath.rect(24.0**2 / va, math.acos(0.7))


def mesh_by_chance(chance: Random) -> tuple[Layout, list[tuple[int, int, complex]], list[tuple[int, int, bool]]]:
    """Return a layout, its branches (node, node, ohms) and its sources (hot, common, reversed)."""
    parts = {f"n{node}": Part(kind="joint") for node in range(SIDE * SIDE)}
    wires: dict[str, Conductor] = {}
    branches: list[tuple[int, int, complex]] = []
    sources = []

    def land(name: str, a: int, b: int, letters: str = "AB") -> None:
        wires[f"{name}-a"] = Conductor(ends=(f"n{a}.A", f"{name}.{letters[0]}"))
        wires[f"{name}-b"] = Conductor(ends=(f"n{b}.A", f"{name}.{letters[1]}"))

    for node in range(SIDE * SIDE):
        for other in ([node + 1] if (node + 1) % SIDE else []) + [node + SIDE] * (node + SIDE < SIDE * SIDE):
            ohms = chance.uniform(1.0, 200.0)
            parts[f"r{len(branches)}"] = Part(kind="resistor", settings={"ohms": ohms})
            land(f"r{len(branches)}", node, other)
            branches.append((node, other, complex(ohms)))
    for at in range(30):
        node = chance.randrange(SIDE * SIDE - 1)
        va = chance.uniform(1.0, 10.0)
        parts[f"k{at}"] = Part(kind="stiff-relay", settings={"va": va})
        land(f"k{at}", node, node + 1)
        branches.append((node, node + 1, size_of_coil(va)))
    for at in range(5):
        hot, common = chance.sample(range(SIDE * SIDE), 2)
        reversed_ = chance.random() < 0.5
        parts[f"xf{at}"] = Part(kind="supply", settings={"phase_deg": 180 if reversed_ else 0})
        land(f"xf{at}", hot, common, "RC")
        sources.append((hot, common, reversed_))
    return Layout(parts=parts, conductors=wires), branches, sources


def sparse_volts(
    branches: list[tuple[int, int, complex]], sources: list[tuple[int, int, bool]]
) -> np.ndarray[tuple[int], np.dtype[np.complex128]]:
    """Return the volts of every node against node 0, from Kirchhoff's law at all the others."""
    rows: list[tuple[int, int, complex]] = []
    amps = np.zeros(SIDE * SIDE, dtype=complex)
    for a, b, ohms in [*branches, *((hot, common, complex(SERIES_OHMS)) for hot, common, _ in sources)]:
        rows += [(a, a, 1 / ohms), (b, b, 1 / ohms), (a, b, -1 / ohms), (b, a, -1 / ohms)]
    for hot, common, reversed_ in sources:
        driven = (-1 if reversed_ else 1) * OPEN_VOLTS / SERIES_OHMS
        amps[hot] += driven
        amps[common] -= driven
    at, to, siemens = zip(*rows, strict=True)
    matrix = coo_array((siemens, (at, to)), shape=(SIDE * SIDE, SIDE * SIDE)).tocsc()
    return np.concatenate([[0], spsolve(matrix[1:, 1:], amps[1:])])


STIFF = CATALOGUE.kinds["relay"].model_copy(
    update={
        "elements": {
            "coil": CATALOGUE.kinds["relay"]
            .elements["coil"]
            .model_copy(update={"pull_in": 40.0, "pull_in_guaranteed": 40.0, "drop_out": 0.5})
        }
    }
)


@pytest.mark.parametrize("seed", ["heath", "moor"])
def test_a_large_mesh_has_the_volts_that_a_sparse_solve_gives(seed: str) -> None:
    layout, branches, sources = mesh_by_chance(Random(seed))
    point = solve(build_circuit(layout, CATALOGUE.with_kinds({"stiff-relay": STIFF})), Situation())
    assert point.settled
    volts = sparse_volts(branches, sources)
    first = point.terminals["n0.A"].volts
    assert first is not None
    for node in range(SIDE * SIDE):
        ours = point.terminals[f"n{node}.A"].volts
        assert ours is not None
        assert cmath.isclose(ours - first, volts[node], rel_tol=0, abs_tol=1e-9 * OPEN_VOLTS), node
