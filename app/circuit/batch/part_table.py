"""What one part does, as a table: from its variant, what is on in it and its memory to contacts, memory and effects.

Every row is worked out by the part's own logic when it is first met, so that the table can say nothing else.
"""

from __future__ import annotations

import numpy as np

from app.circuit.batch.array_types import Numbers
from app.circuit.logic import Memory, PartScene
from app.circuit.network import Place

DENSE_BITS = 16
"""Codes with at most so many bits are looked up in one array, longer ones by search."""
WORD = 64


def words_of(bits: int, count: int) -> list[int]:
    """Return a number as words of 64 bits, lowest first."""
    return [bits >> WORD * at & (1 << WORD) - 1 for at in range(count)]


class PartTable:
    """The table of one place. ``words`` is how many words the branches of the network take.

    Rows by number: ``on`` (branches that are on, in words) and ``after`` (number of the memory for the next pass).
    """

    def __init__(self, place: Place, words: int) -> None:
        self.place = place
        self.words = words
        self.width = len(place.template.judged) + len(place.template.fuses)
        self.variants: list[PartScene] = []
        self.memories: list[Memory] = []
        self.on = np.zeros((0, words), dtype=np.uint64)
        self.after = np.zeros(0, dtype=np.int64)
        self._codes: list[int] = []
        self._on: list[list[int]] = []
        self._after: list[int] = []
        self._number_of_variant: dict[int, int] = {}
        self._number_of_memory: dict[Memory, int] = {}
        self._row_of: dict[int, int] = {}
        self._dense = np.zeros(0, dtype=np.int64)

    def variant(self, scene: PartScene) -> int:
        """Return the number of a way in which the part may be asked to be."""
        found = self._number_of_variant.get(id(scene))
        if found is None:
            found = self._number_of_variant[id(scene)] = len(self.variants)
            self.variants.append(scene)
        return found

    def memory(self, memory: Memory) -> int:
        """Return the number of a memory."""
        found = self._number_of_memory.get(memory)
        if found is None:
            found = self._number_of_memory[memory] = len(self.memories)
            self.memories.append(memory)
        return found

    def rows(self, variant: Numbers, bits: Numbers, memory: Numbers) -> Numbers:
        """Return the number of the row for each column; all variants must have their numbers by now."""
        # Variants are fixed while columns are settled, memories are not: they come last.
        codes = ((memory * len(self.variants) + variant) << self.width) | bits
        highest = int(codes.max()) if len(codes) else 0
        if highest < 1 << DENSE_BITS:
            rows = self._rows_dense(codes, highest)
        else:
            distinct, inverse = np.unique(codes, return_inverse=True)
            rows = np.array([self._row(code) for code in distinct.tolist()], dtype=np.int64)[inverse]
        if len(self._after) > len(self.after):
            self.on = np.array(self._on, dtype=np.uint64)
            self.after = np.array(self._after, dtype=np.int64)
        return rows

    def effects(self, rows: Numbers) -> Numbers:
        """Return the effects that hold in each row, as bits in the order of the template's effects."""
        if not self.place.template.effects:
            return np.zeros_like(rows)
        distinct, inverse = np.unique(rows, return_inverse=True)
        return np.array([self._effects(row) for row in distinct.tolist()], dtype=np.int64)[inverse]

    def _rows_dense(self, codes: Numbers, highest: int) -> Numbers:
        if highest >= len(self._dense):
            more = np.full(1 << highest.bit_length(), -1, dtype=np.int64)
            more[: len(self._dense)] = self._dense
            self._dense = more
        rows = self._dense[codes]
        missing = rows < 0
        if missing.any():
            for code in np.unique(codes[missing]).tolist():
                self._dense[code] = self._row(code)
            rows = self._dense[codes]
        return rows

    def _row(self, code: int) -> int:
        found = self._row_of.get(code)
        if found is None:
            found = self._row_of[code] = len(self._codes)
            scene, bits, before = self._said_by(code)
            outcome = scene.outcome(bits, before)
            self._codes.append(code)
            self._on.append(words_of(outcome.on << self.place.branch, self.words))
            self._after.append(self.memory(outcome.memory))
        return found

    def _said_by(self, code: int) -> tuple[PartScene, int, Memory]:
        memory, variant = divmod(code >> self.width, len(self.variants))
        return self.variants[variant], code & (1 << self.width) - 1, self.memories[memory]

    def _effects(self, row: int) -> int:
        scene, bits, before = self._said_by(self._codes[row])
        shown = scene.effects(bits, before)
        return sum(1 << at for at, (name, _) in enumerate(self.place.template.effects) if name in shown)
