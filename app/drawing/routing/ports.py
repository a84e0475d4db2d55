"""Where wires start, and what lies straight ahead of them."""

from __future__ import annotations

from typing import NamedTuple

from app.drawing.routing.field import Field, Node, span


class Port(NamedTuple):
    """Where a wire starts: a lattice point and the direction in which it leaves, (1, 0) for to the right."""

    at: Node
    di: int
    dj: int

    @property
    def sideways(self) -> bool:
        """Return whether it leaves along its row."""
        return self.dj == 0


class Window(NamedTuple):
    """The part of the field in which is searched, ends included."""

    left: int
    top: int
    right: int
    bottom: int


def ray(field: Field, port: Port, window: Window) -> int:
    """Return what is reached straight ahead, the port included: a mask of columns, or of rows from an upright port."""
    i, j = port.at
    if port.sideways:
        bit, free = i, field.free_across[j] & span(window.left, window.right) | 1 << i
    else:
        bit, free = j, field.free_column[i] & span(window.top, window.bottom) | 1 << j
    run = run_around(free, bit)
    return run & ~((1 << bit) - 1) if port.di + port.dj > 0 else run & ((1 << bit + 1) - 1)


def run_around(mask: int, bit: int) -> int:
    """Return the unbroken run of ``mask`` that holds ``bit``."""
    gaps = ~mask
    above = gaps >> bit
    last = bit + (above & -above).bit_length() - 2
    below = gaps & ((1 << bit) - 1)
    return span(below.bit_length(), last)


def bits_of(mask: int, most: int) -> list[int]:
    """Return the lowest bits of a mask, ``most`` of them."""
    bits: list[int] = []
    while mask and len(bits) < most:
        lowest = mask & -mask
        bits.append(lowest.bit_length() - 1)
        mask ^= lowest
    return bits
