"""A settled circuit as a SPICE deck, so that anybody can hold it against a general-purpose simulator.

The deck is written from the layout's points and elements, not from the solver's matrices: it shares with the solver
only the states that were settled. Magnitudes are RMS. Node 0 is the simulator's own; each part of the circuit that
has a source is tied to it by 1 Ω at its reference, which carries no current.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from app.circuit.network import Circuit, Network
from app.circuit.seen import Seen
from app.circuit.situation import Situation
from app.circuit.solve import views_of
from app.circuit.union import Union


def netlist(circuit: Circuit, situation: Situation) -> str:
    """Return the deck of a situation.

    Lines ``* map 12 fb.R tc.R`` give the terminals of each numbered node. What floats or is unknown stands in
    comments. Where a circuit does not settle, the deck is the first state of its cycle and says so.

    Raises:
        Refused: code ``bad-fault``, when a fault names what the layout does not have.
    """
    circuit, views = views_of(circuit, situation)
    lines = ["* 24-volt control circuit: volts are RMS, node 0 is the simulator's own"]
    written = 0
    is_earth_live = any(_earth_root(view.seen[0]) in view.seen[0].references for view in views)
    for view in views:
        if view.unsettled is not None:
            lines.append(
                f"* this part does not settle ({view.unsettled.why}); what follows is the first state of its cycle"
            )
        deck = _Deck(view.seen[0], circuit, written + 1, is_earth_live)
        lines += deck.lines()
        written += deck.count
    lines += [f".ac lin 1 {circuit.frequency_hz} {circuit.frequency_hz}", ".end"]
    return "\n".join(lines) + "\n"


def _earth_root(seen: Seen) -> int:
    return seen.snapshot.solution.root[seen.network.earth]


class _Deck:
    """The lines of one network. ``count`` is how many node numbers it used.

    What is joined to earth is at 0 V without a source of its own where a source of another network reaches earth.
    """

    def __init__(self, seen: Seen, circuit: Circuit, first: int, is_earth_live: bool) -> None:
        self.seen = seen
        self.network: Network = seen.network
        self.circuit = circuit
        self.first = first
        union = Union(len(self.network.points))
        joins = [join.points for join in self.network.joins]
        for a, b in [*joins, *((a, b) for a, b, ohms in seen.snapshot.scene.joins if not ohms)]:
            union.join(a, b)
        self.set_of, self.count = union.numbered()
        earth = _earth_root(seen)
        self.earthed = {earth} - seen.references.keys() if is_earth_live and seen.has_ground else set[int]()

    def lines(self) -> Iterator[str]:
        """Yield the map, what is in the deck, and comments about what is not."""
        yield from self._map()
        yield from self._elements()
        for root, reference in sorted(self.seen.references.items()):
            yield f"rtie{root}n{self.first} {self._node(self._reference_point(reference.name))} 0 1"
        for root in self.earthed:
            yield f"rtie{root}n{self.first} {self._node(len(self.network.points) - 1)} 0 1"

    def _node(self, point: int) -> int:
        return self.first + self.set_of[point]

    def _reference_point(self, name: str) -> int:
        return self.network.number_of.get(name, len(self.network.points) - 1)

    def _is_live(self, point: int) -> bool:
        root = self.seen.snapshot.solution.root[self.network.node_of[point]]
        return root in self.seen.references or root in self.earthed

    def _map(self) -> Iterator[str]:
        terminals: dict[int, list[str]] = {}
        for point, name in enumerate(self.network.points):
            if name in self.circuit.terminals:
                terminals.setdefault(self.set_of[point], []).append(name)
        first_point = {self.set_of[point]: point for point in reversed(range(len(self.network.points)))}
        for number, names in sorted(terminals.items()):
            joined = " ".join(sorted(names))
            if self.seen.snapshot.doubt.hides(self.network.node_of[first_point[number]]):
                yield f"* unknown: {joined}"
            elif self._is_live(first_point[number]):
                yield f"* map {self.first + number} {joined}"
            else:
                yield f"* floating: {joined}"

    def _elements(self) -> Iterator[str]:
        snapshot = self.seen.snapshot
        figures = snapshot.scene.figures
        emf = {source.slot: source.emf * snapshot.scene.supply for source in figures.sources}
        for at, branch in enumerate(self.network.branches):
            siemens = figures.on[at] if snapshot.on >> at & 1 else figures.off[at]
            a, b = branch.points
            if not siemens or not self._is_live(a) or not self._is_live(b):
                yield f"* {branch.name}: " + ("open" if not siemens else "floating or unknown")
                continue
            yield f"* {branch.name}"
            name = f"{at}n{self.first}"
            if at in emf:
                inner = f"s{name}"
                yield f"v{name} {inner} {self._node(b)} ac {abs(emf[at])!r} {180 if emf[at] < 0 else 0}"
                yield f"r{name} {inner} {self._node(a)} {1 / siemens.real!r}"
            else:
                yield from self._impedance(name, self._node(a), self._node(b), 1 / siemens)
        for at, (a, b, ohms) in enumerate(snapshot.scene.joins):
            if ohms and self._is_live(a):
                yield f"rfault{at}n{self.first} {self._node(a)} {self._node(b)} {ohms!r}"

    def _impedance(self, name: str, a: int, b: int, ohms: complex) -> Iterable[str]:
        if not ohms.imag:
            return [f"r{name} {a} {b} {ohms.real!r}"]
        henry = ohms.imag / (2 * math.pi * self.circuit.frequency_hz)
        if not ohms.real:
            return [f"l{name} {a} {b} {henry!r}"]
        return [f"r{name} {a} i{name} {ohms.real!r}", f"l{name} i{name} {b} {henry!r}"]
