"""Answers that other programs and theorems give for whole networks."""

from __future__ import annotations

from tests.outside.record import Method, Source

SOURCE = Source(
    title="Theorems and general-purpose libraries for whole networks",
    status="general-purpose library",
    how="the volts and amps of networks by chance, each held against an answer worked out apart from the engine",
    methods=(
        Method(
            "effective ohms of small networks: Kirchhoff's theorem on spanning trees (Annalen der Physik 148, 1847)",
            "tests/outside/test_circuit_spanning_trees.py::test_a_resistive_network_has_its_effective_resistance",
            "1e-7 of it",
            "publication seen, example from memory",
        ),
        Method(
            "effective ohms of networks of up to 60 nodes: networkx.resistance_distance",
            "tests/outside/test_resistance_distance.py::test_a_network_has_the_resistance_distance",
            "1e-7 of it",
        ),
        Method(
            "volts of every node of meshes of 400 nodes with coils and several sources: scipy.sparse",
            "tests/outside/test_sparse_solve.py::test_a_large_mesh_has_the_volts_that_a_sparse_solve_gives",
            "1e-9 of the source",
        ),
        Method(
            "a change and its result: the examples of RFC 6902 (JSON Patch), appendix A",
            "tests/outside/test_rfc6902.py::test_an_example_gives_its_result",
            "exact",
            "from memory, unconfirmed",
        ),
    ),
)
