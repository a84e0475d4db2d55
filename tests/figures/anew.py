"""Circuits compiled anew, so that nothing kept from an earlier turn flatters a measurement."""

from __future__ import annotations

from app.catalogue.catalogue import Catalogue
from app.circuit.kept_networks import forget_networks
from app.circuit.network import Circuit, build_circuit
from app.job.model import Layout


def circuit_anew(layout: Layout, catalogue: Catalogue) -> Circuit:
    """Compile a layout with no network kept."""
    forget_networks()
    return build_circuit(layout, catalogue)
