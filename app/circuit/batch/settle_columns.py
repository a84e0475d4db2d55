"""Many settles of one network at once: the passes of ``app.circuit.settle``, a column for each.

Rules of the file: only what settles in the plain way is settled here, pass after pass to a state that follows itself,
with fuses that open on the way. A column that comes back to an earlier state (race, chatter), that is among the last
few under way, or in which something judged is in doubt is given back as ``odd``, to be settled by the reference.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from app.circuit.batch.array_types import Flags, Floats, Numbers, Words
from app.circuit.batch.asked import Asked, word_count
from app.circuit.batch.bit_places import fuse_places, judged_places
from app.circuit.batch.questions import Questions
from app.circuit.doubt import HOLDS_UP_TO
from app.circuit.settle import RELATIVE_SLACK

PASSES_FOR_ALL = 6
FEWEST_IN = 100
"""After so many passes less than one column in a hundred is left to the reference: most would come to it anyway."""


@dataclass(frozen=True, slots=True, eq=False)
class Ended:
    """How each column ended. ``odd`` columns have not settled here; what else is said of them means nothing.

    ``bits`` are the judged elements and open fuses of each part (a row for each place), ``memory`` and ``row`` the
    numbers of its memory and of its row in its table, ``question`` the number of the last question, ``blown`` the
    amps of each fuse before it opened, 0 where it did not.
    """

    asked: Asked
    questions: Questions
    bits: Numbers
    memory: Numbers
    row: Numbers
    question: Numbers
    blown: Floats
    odd: Flags


def settle_columns(asked: Asked) -> Ended:
    """Settle all columns from rest."""
    settling = _Settling(asked)
    # No more passes than the reference allows: beyond them it says "undecided", and so must this way.
    for number in range(4 * (len(asked.network.judged_nodes) + len(asked.network.fuse_nodes)) + 8):
        under_way = len(settling.active)
        if not under_way or (number >= PASSES_FOR_ALL and under_way * FEWEST_IN < asked.count):
            break
        settling.one_pass(number)
    return settling.end()


class _Settling:
    """All columns, and the numbers of those that are still under way."""

    def __init__(self, asked: Asked) -> None:
        network = asked.network
        self.asked = asked
        self.questions = Questions(asked)
        self.judged, self.fuses = judged_places(network), fuse_places(network)
        self.active: Numbers = np.arange(asked.count)
        self.bits = asked.opened.copy()
        self.memory = np.zeros_like(self.bits)
        for at, table in enumerate(asked.tables):
            rest = [table.memory(variant.rest_memory()) for variant in table.variants]
            self.memory[at] = np.array(rest, dtype=np.int64)[asked.variant[at]]
        self.row = np.zeros_like(self.bits)
        self.question = np.zeros(asked.count, dtype=np.int64)
        self.blown = np.zeros((len(network.fuse_nodes), asked.count))
        self.odd = np.zeros(asked.count, dtype=bool)
        self.earlier_bits, self.earlier_memory = self.bits.copy(), self.memory.copy()

    def end(self) -> Ended:
        """Return how all columns ended."""
        self.odd[self.active] = True
        return Ended(self.asked, self.questions, self.bits, self.memory, self.row, self.question, self.blown, self.odd)

    def one_pass(self, number: int) -> None:
        """Solve all active columns once, and find the state that follows."""
        active = self.active
        bits, memory = self.bits[:, active], self.memory[:, active]
        on, after_memory = self._contacts(bits, memory)
        question = self.questions.numbers(self.asked.figure[active], self.asked.extra[active], on)
        self.question[active] = question
        after = self._judge(bits, question)
        same = (after == bits).all(axis=0) & (after_memory == memory).all(axis=0)
        doubtful = self.questions.doubtful[question]
        goes_on = self._open_fuses(after, same & ~doubtful, question) | ~same
        back = (after == self.earlier_bits[:, active]).all(axis=0)
        back &= (after_memory == self.earlier_memory[:, active]).all(axis=0)
        odd = doubtful | (goes_on & back)
        self.odd[active[odd]] = True
        goes_on &= ~odd
        self.active = active[goes_on]
        self.bits[:, self.active], self.memory[:, self.active] = after[:, goes_on], after_memory[:, goes_on]
        if number & (number + 1) == 0:
            # The state that a cycle is found by; it is taken anew after 1, 2, 4, 8 ... passes.
            self.earlier_bits, self.earlier_memory = self.bits.copy(), self.memory.copy()

    def _contacts(self, bits: Numbers, memory: Numbers) -> tuple[Words, Numbers]:
        """Return (branches that are on, in words; memories for the next pass)."""
        on = np.zeros((word_count(self.asked.network), bits.shape[1]), dtype=np.uint64)
        after = np.empty_like(memory)
        for at, table in enumerate(self.asked.tables):
            rows = table.rows(self.asked.variant[at, self.active], bits[at], memory[at])
            self.row[at, self.active] = rows
            on |= table.on[rows].T
            after[at] = table.after[rows]
        return on, after

    def _judge(self, bits: Numbers, question: Numbers) -> Numbers:
        """Return the bits with the judged elements as the volts of the questions make them."""
        table, figure = self.questions.table, self.asked.figure[self.active]
        across = self.questions.across[:, question] * self.asked.supply[self.active]
        limit = np.where(self.judged.read(bits), table.falls[:, figure], table.rises[:, figure])
        opened = self.fuses.write(self.fuses.read(bits))
        return self.judged.write(across >= limit - table.slack[figure]) | opened

    def _open_fuses(self, after: Numbers, settled: Flags, question: Numbers) -> Flags:
        """Open the fuses with the greatest overload of columns that have settled; return the columns that have any."""
        opens: Flags = np.zeros(len(settled), dtype=bool)
        if not len(self.blown):
            return opens
        amps = self.questions.amps[:, question] * self.asked.supply[self.active]
        rating = self.questions.table.ratings[:, self.asked.figure[self.active]]
        over = settled & (amps > HOLDS_UP_TO * rating * (1 + RELATIVE_SLACK))
        opens |= over.any(axis=0)
        if opens.any():
            ratio = np.where(over, amps / rating, 0.0)
            opening = over & (ratio >= ratio.max(axis=0) * (1 - RELATIVE_SLACK))
            after |= self.fuses.write(opening)
            self.blown[:, self.active] = np.where(opening, amps, self.blown[:, self.active])
        return opens
