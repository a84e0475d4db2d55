"""What unseen ends could do to the volts of one linear network; the law is told in ``app.circuit.doubt``.

Every volt is the one with the unseen ends open, plus a share of each unknown: ``shift`` is what the middle of all
unknowns adds, and each ``Swing`` how far one of them can move it either way. The bounds hold for any number of
unknowns at once, because the network is linear. A voltage between hot and common through resistances and inductances
lies in the circle over the two (Thales), so an unknown voltage is a middle and a radius.
Volts and amps are those at 100 % supply.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cached_property
from itertools import combinations, starmap
from operator import sub
from typing import NamedTuple, cast

from app.circuit.figures import SourceFigures
from app.circuit.linear import Eliminated, Solution
from app.circuit.network import Network
from app.circuit.pure import eliminated, injected_by_sources
from app.circuit.scene import Extra
from app.circuit.small_matrix import inverse
from app.circuit.state import Question

MOST_FOREIGN_VOLTS = 30.0
"""What may stand between two unseen ends of a component without a source: the limit of Class 2 (handbook 2.2)."""


STIFF_WITHIN = 0.2
"""Of the volts between hot and common: a node that no load within the rating moves by more is stiff. A coil of 80 VA
inrush on a source of 40 VA is far from it."""
RUN_OF_WIRE = 1.05
"""What a fuse and a short run of wire between the source and an unseen load add to the sag (common practice)."""


class Swing(NamedTuple):
    """Volts of each node for a volt at a soft end, and how far that end goes either way."""

    volts: Sequence[complex]
    most: float


class Loads(NamedTuple):
    """The stiff nodes of a component between which unseen loads may lie, and the amps of all of them together.

    ``volts`` are those of each node for an ampere that enters at one of the stiff nodes and leaves at the reference,
    which is one of them too: a load there moves nothing.
    """

    volts: Sequence[Sequence[complex]]
    most: float

    def swing(self, a: int, b: int) -> float:
        """Return how far the volts between two nodes can move: as far as one load between the worst two moves them."""
        moved = [change for volts in self.volts if (change := volts[a] - volts[b])]
        return self.most * max(map(abs, [*moved, *starmap(sub, combinations(moved, 2))]), default=0.0)


def ports_of(network: Network, extras: Sequence[Extra]) -> tuple[tuple[int, ...], frozenset[int]]:
    """Return the nodes with something unseen behind them: those to which branches lead, and those alone."""
    key = ("ports", extras)
    found = network.made.get(key)
    if found is None:
        ends = {node for branch in network.branches for node in branch.nodes if branch.nodes[0] != branch.nodes[1]}
        ends.update(node for a, b, _ in extras for node in (a, b))
        lone = frozenset(node for node in network.touched if node not in ends)
        found = network.made[key] = (tuple(sorted(set(network.touched) - lone)), lone)
    return cast("tuple[tuple[int, ...], frozenset[int]]", found)


def leads_somewhere(network: Network) -> bool:
    """Return whether anything of a network depends on what was not seen: a spare screw with nothing on it does not."""
    return bool(network.touched) and bool(ports_of(network, ())[0])


def reach_of(network: Network, question: Question, ports: Sequence[int]) -> Reach:
    """Return what the unseen ends could do while the branches of a question are on; worked out once."""
    key = ("reach", question)
    found = network.made.get(key)
    if found is None:
        whole = eliminated(network, question)
        solution = network.known.get(question)
        if solution is None:
            solution = network.known[question] = whole.solution(injected_by_sources(network, question))
        found = network.made[key] = Reach(network, question, solution, ports, whole)
    return cast(Reach, found)


class Reach:
    """The volts of a network with its unseen ends open, and how far these could move them.

    ``sources`` are the live sources by component, ``ports`` the unseen ends by component. A component without unseen
    ends has neither swings nor loads: nothing moves it.
    """

    def __init__(
        self, network: Network, question: Question, solution: Solution, ports: Sequence[int], whole: Eliminated
    ) -> None:
        self.network = network
        self.question = question
        self.solution = solution
        self.shift = [0j] * network.size
        self.sources = _live_by_root(network, question, solution)
        self.ports: dict[int, list[int]] = {}
        self._swings: dict[int, list[Swing]] = {}
        self._loads: dict[int, Loads] = {}
        for port in ports:
            self.ports.setdefault(solution.root[port], []).append(port)
        for root, own in self.ports.items():
            if root in self.sources:
                self._add_live(root, own, self.sources[root], whole)
            elif len(own) > 1:
                self._add_floating(root, own, whole)

    def swing(self, a: int, b: int, *, loads: bool = True) -> float:
        """Return how far the volts between two nodes of a component can move either way; without ``loads`` by unknown
        volts alone."""
        root = self.solution.root[a]
        found = sum([each.most * abs(each.volts[a] - each.volts[b]) for each in self._swings.get(root, ())])
        if loads and root in self._loads:
            found += self._loads[root].swing(a, b)
        return found

    @cached_property
    def judged_spans(self) -> list[tuple[float, float]]:
        """The least and the most volts that can stand across each judged element, 0 where it lies in two components."""
        root, volts = self.solution.root, [a + b for a, b in zip(self.solution.volts, self.shift, strict=True)]
        spans = []
        for a, b in self.network.judged_nodes:
            if root[a] != root[b]:
                spans.append((0.0, 0.0))
                continue
            middle = abs(volts[a] - volts[b])
            swing = self.swing(a, b) if root[a] in self.ports else 0.0
            spans.append((max(0.0, middle - swing), middle + swing))
        return spans

    def fuse_amps(self, branch: int) -> tuple[float, float]:
        """Return the least and the most amps through a fuse, with no load behind any unseen end that is stiff."""
        if not self.question.on >> branch & 1:
            return 0.0, 0.0
        a, b = self.network.branches[branch].nodes
        siemens = abs(self.question.figures.on[branch])
        middle = abs(self.solution.volts[a] - self.solution.volts[b] + self.shift[a] - self.shift[b])
        swing = self.swing(a, b, loads=False)
        return max(0.0, middle - swing) * siemens, (middle + swing) * siemens

    def _add_live(self, root: int, ports: Sequence[int], sources: Sequence[SourceFigures], whole: Eliminated) -> None:
        volts, branches = self.solution.volts, self.network.branches
        sides = [node for source in sources for node in branches[source.slot].nodes]
        middle, radius = _circle_over([volts[node] for node in sides])
        amps = RUN_OF_WIRE * sum(source.va / abs(source.emf) for source in sources)
        answers = {node: whole.volts(node, root) for node in dict.fromkeys([*ports, *sides]) if node != root}
        most = STIFF_WITHIN * 2 * radius
        soft = [port for port in ports if port != root and abs(answers[port][port]) * amps > most]
        by_volts = self._add_soft(root, soft, answers, middle, radius)
        stiff = [_apart(answers[node], by_volts) for node in answers if node not in soft]
        self._loads[root] = Loads(stiff, amps)

    def _add_floating(self, root: int, ports: Sequence[int], whole: Eliminated) -> None:
        """Only the volts against the first unseen end mean anything here."""
        first, *others = ports
        answers = {}
        for port in others:
            volts = whole.volts(port, first)
            answers[port] = [each - volts[first] for each in volts]
        self._add_soft(root, others, answers, 0j, MOST_FOREIGN_VOLTS)

    def _add_soft(
        self,
        root: int,
        soft: Sequence[int],
        answers: Mapping[int, Sequence[complex]],
        middle: complex,
        radius: float,
    ) -> Mapping[int, Sequence[complex]]:
        """Add soft ends as unknown volts; return the volts of each node for a volt at each of them."""
        volts = self.solution.volts
        by_volts = self._by_volts(soft, answers)
        for port, share in by_volts.items():
            swing = Swing(share, max(radius, abs(volts[port] - middle)))
            self._swings.setdefault(root, []).append(swing)
            self.shift = [was + each * (middle - volts[port]) for was, each in zip(self.shift, share, strict=True)]
        return by_volts

    def _by_volts(self, soft: Sequence[int], answers: Mapping[int, Sequence[complex]]) -> dict[int, Sequence[complex]]:
        """Return the volts of each node for a volt at one soft end while the others stand at none."""
        back = inverse([[answers[other][port] for other in soft] for port in soft])
        columns = [answers[port] for port in soft]
        found: dict[int, Sequence[complex]] = {}
        for port, weights in zip(soft, zip(*back, strict=True), strict=True):
            volts: list[complex] = []
            for weight, column in zip(weights, columns, strict=True):
                if not volts:
                    volts = [part * weight for part in column]
                elif weight:
                    volts = [each + part * weight for each, part in zip(volts, column, strict=True)]
            found[port] = volts
        return found


def _apart(load: Sequence[complex], by_volts: Mapping[int, Sequence[complex]]) -> Sequence[complex]:
    """Return the volts that a load brings while the soft ends stand where they stand."""
    rest = list(load)
    for port, share in by_volts.items():
        rest = [each - load[port] * part for each, part in zip(rest, share, strict=True)]
    return rest


def _live_by_root(network: Network, question: Question, solution: Solution) -> dict[int, list[SourceFigures]]:
    found: dict[int, list[SourceFigures]] = {}
    for source in question.figures.sources:
        if question.on >> source.slot & 1:
            found.setdefault(solution.root[network.branches[source.slot].nodes[1]], []).append(source)
    return found


def _circle_over(points: Sequence[complex]) -> tuple[complex, float]:
    """Return a middle and a radius that hold all points, with the two that lie furthest apart on the circle."""
    one, other = max(combinations(points, 2), key=lambda pair: abs(pair[0] - pair[1]))
    middle = (one + other) / 2
    return middle, max(abs(point - middle) for point in points)
