"""Where bits of a network stand in the bits of its parts: its judged elements, or its fuses above them."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from app.circuit.batch.array_types import Numbers
from app.circuit.network import Network


class BitPlaces:
    """Bits of a network (rows) in the bits of its parts (rows)."""

    def __init__(self, spans: Sequence[tuple[int, int]]) -> None:
        """``spans`` gives for each part its first bit and how many there are, in the order of the network."""
        places = [(part, first + at) for part, (first, count) in enumerate(spans) for at in range(count)]
        self.part = np.array([part for part, _ in places], dtype=np.intp)
        self.shift = np.array([shift for _, shift in places], dtype=np.int64)[:, None]
        self.parts = len(spans)
        rows: dict[int, list[int]] = {}
        for row, (_, shift) in enumerate(places):
            rows.setdefault(shift, []).append(row)
        self._by_shift = [(shift, np.array(each, dtype=np.intp)) for shift, each in sorted(rows.items())]

    def read(self, bits: Numbers) -> NDArray[np.bool_]:
        """Return these bits, a row for each."""
        found: NDArray[np.bool_] = (bits[self.part] >> self.shift) & 1 != 0
        return found

    def write(self, is_on: NDArray[np.bool_]) -> Numbers:
        """Return bits of the parts in which exactly these are set."""
        bits = np.zeros((self.parts, is_on.shape[1]), dtype=np.int64)
        for shift, rows in self._by_shift:
            bits[self.part[rows]] |= is_on[rows].astype(np.int64) << shift
        return bits


def judged_places(network: Network) -> BitPlaces:
    """Return where the judged elements stand."""
    return BitPlaces([(0, len(place.template.judged)) for place in network.places])


def fuse_places(network: Network) -> BitPlaces:
    """Return where the fuses stand; a bit says that the fuse is open."""
    return BitPlaces([(len(place.template.judged), len(place.template.fuses)) for place in network.places])
