"""Roles of a layout in one word, for the tests of what conductors are for."""

from __future__ import annotations

from collections.abc import Mapping

from app.catalogue.catalogue import Catalogue
from app.circuit.network import build_circuit
from app.circuit.situations import situations_of
from app.circuit.solve import solve_all
from app.explain.roles import Role, roles_of
from app.job.model import Layout
from tests.circuit.bench import CATALOGUE


def roles(layout: Layout, catalogue: Catalogue = CATALOGUE) -> Mapping[str, Role]:
    """Return the roles of the conductors, with idle and every call as the points."""
    circuit = build_circuit(layout, catalogue)
    points = solve_all(circuit, situations_of(layout, catalogue))
    return roles_of(layout, catalogue, circuit, points)


def said(role: Role) -> str:
    """Return a role in short: ``reversing-valve (cooling) + indoor-fan``."""
    return role.name + (f" ({role.mode})" if role.mode else "") + "".join(f" + {name}" for name in role.also)
