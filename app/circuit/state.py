"""What changes from pass to pass, and the question that a pass puts to the linear solver."""

from __future__ import annotations

from typing import NamedTuple

from app.circuit.logic import Memory
from app.circuit.network_figures import NetworkFigures
from app.circuit.scene import Extra


class Question(NamedTuple):
    """A linear network: its figures, the branches that are on (bits), the branches that faults add."""

    figures: NetworkFigures
    on: int
    extras: tuple[Extra, ...]


class State(NamedTuple):
    """Judged elements that are on (bits), fuses that are open (bits), looping states, judged elements in doubt (bits),
    fuses in doubt (bits)."""

    held: int
    opened: int
    memory: tuple[Memory, ...]
    doubt: int
    fuse_doubt: int = 0


def numbers(bits: int) -> list[int]:
    """Return the places of the bits that are set."""
    return [at for at in range(bits.bit_length()) if bits >> at & 1]
