"""Many linear questions of one network answered together: the elimination of ``app.circuit.linear`` in columns."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from app.circuit.batch.array_types import Numbers, Words
from app.circuit.batch.asked import word_count
from app.circuit.batch.figure_table import FigureTable
from app.circuit.batch.part_table import words_of
from app.circuit.linear import Solution
from app.circuit.network import Network
from app.circuit.network_figures import NetworkFigures
from app.circuit.scene import Extra
from app.circuit.state import Question


def solve_together(network: Network, questions: Sequence[Question]) -> list[Solution]:
    """Return the solution of each question of one network."""
    figures: dict[int, NetworkFigures] = {id(question.figures): question.figures for question in questions}
    figure_of = {key: at for at, key in enumerate(figures)}
    extra_of: dict[tuple[Extra, ...], int] = {}
    figure: Numbers = np.array([figure_of[id(question.figures)] for question in questions], dtype=np.int64)
    extra: Numbers = np.array([extra_of.setdefault(q.extras, len(extra_of)) for q in questions], dtype=np.int64)
    words = word_count(network)
    on: Words = np.array([words_of(question.on, words) for question in questions], dtype=np.uint64).T
    volts, root = FigureTable(network, tuple(figures.values()), tuple(extra_of)).solve(figure, extra, on)
    return [Solution(v, r) for v, r in zip(volts.T.tolist(), root.T.tolist(), strict=True)]
