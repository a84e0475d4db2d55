"""Many scenes of one network settled: as arrays where that pays, else all their passes side by side.

What comes of them is told by place: a key that tells ends apart at once, and the end itself when it is asked for.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Sequence
from functools import lru_cache
from importlib import import_module
from typing import Protocol

from app.circuit.ends import end_of
from app.circuit.linear import Solution
from app.circuit.network import Network
from app.circuit.pure import solve_each
from app.circuit.scene import Scene
from app.circuit.settle import Run, Settled, settle
from app.circuit.state import Question

Solver = Callable[[Network, Sequence[Question]], list[Solution]]
FEWEST_FOR_ARRAYS = 32
"""Below so many questions of one network the pure way is the faster one."""
FEWEST_TO_SETTLE_AS_ARRAYS = 200
"""The same for scenes that are settled from rest: where both ways took equally long on networks of 60 nodes."""


class Together(Protocol):
    """Ends of scenes that arrays have found; ``left`` are the places of those that they leave to the reference."""

    left: list[int]
    keys: list[Hashable]

    def settled(self, at: int) -> Settled | None:
        """Return the end of a scene; None where the reference has to settle it."""

    def solve(self, network: Network, questions: Sequence[Question]) -> list[Solution]:
        """Answer linear questions about what was asked; those that came up already are not solved again."""


class Ends:
    """The ends of many scenes of one network, by their places in what was asked."""

    def __init__(self, network: Network, scenes: Sequence[Scene], solver: Solver) -> None:
        self.network = network
        self.scenes = scenes
        self.solver = solver
        self.found: dict[int, Settled] = {}
        settler = best_settler() if solver is not solve_each and len(scenes) >= FEWEST_TO_SETTLE_AS_ARRAYS else None
        self.together = None if settler is None else settler(network, scenes)
        left = list(range(len(scenes))) if self.together is None else self.together.left
        self._settle_by_reference(left)

    def key(self, at: int) -> Hashable:
        """Return what tells ends apart, whatever the supply and the calls that led there."""
        found = self.found.get(at)
        if found is not None or self.together is None:
            return end_of(self.settled(at))
        return self.together.keys[at]

    def settles(self, at: int) -> bool:
        """Return whether a scene has one end; arrays leave what races, chatters or is undecided to the reference."""
        found = self.found.get(at)
        return found is None or found.unsettled is None

    def settled(self, at: int) -> Settled:
        """Return the end of a scene."""
        if at not in self.found:
            end = None if self.together is None else self.together.settled(at)
            if end is None:
                self._settle_by_reference([at])
            else:
                self.found[at] = end
        return self.found[at]

    def _settle_by_reference(self, places: Sequence[int]) -> None:
        solver = self.solver if self.together is None else self.together.solve
        ends = settle_in_rounds(self.network, [self.scenes[at] for at in places], solver)
        self.found.update(zip(places, ends, strict=True))


def settle_in_rounds(network: Network, scenes: Sequence[Scene], solver: Solver) -> list[Settled]:
    """Settle scenes by the reference; each round answers the questions of all that are still under way."""
    runs: list[Run] = [settle(scene) for scene in scenes]
    ended: list[Settled | None] = [None] * len(runs)
    waiting: dict[int, Question] = {}
    for at, run in enumerate(runs):
        try:
            waiting[at] = next(run)
        except StopIteration as end:
            ended[at] = end.value
    while waiting:
        new = list(dict.fromkeys(question for question in waiting.values() if question not in network.known))
        network.known.update(zip(new, solver(network, new), strict=True))
        for at, question in list(waiting.items()):
            try:
                waiting[at] = runs[at].send(network.known[question])
            except StopIteration as end:
                ended[at] = end.value
                del waiting[at]
    return [settled for settled in ended if settled is not None]


def solve_best(network: Network, questions: Sequence[Question]) -> list[Solution]:
    """Answer many linear questions as arrays where numpy is to be had, few of them or without it in pure Python."""
    solver = best_solver() if len(questions) >= FEWEST_FOR_ARRAYS else solve_each
    return solver(network, questions)


@lru_cache(maxsize=1)
def best_settler() -> Callable[[Network, Sequence[Scene]], Together] | None:
    """Return what settles many scenes as arrays; None without numpy."""
    try:
        together = import_module("app.circuit.batch.together")
    except ImportError:
        return None
    settler: Callable[[Network, Sequence[Scene]], Together] = together.SettledTogether
    return settler


@lru_cache(maxsize=1)
def best_solver() -> Solver:
    """Return the way for large batches: arrays, imported at the first need, or the pure way where numpy is not."""
    try:
        arrays = import_module("app.circuit.batch.arrays")
    except ImportError:
        return solve_each
    solver: Solver = arrays.solve_together
    return solver
