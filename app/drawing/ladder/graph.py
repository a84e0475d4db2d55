"""What a ladder is made from: every conductor and every element as a piece between two points.

Rules of the file: a point is a terminal or an inner node of a part (``part.NODE``), earth, or a loose end. Nothing is
merged here: a conductor and a trace are pieces like a contact, so that a rung can be walked from screw to screw.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Literal, NamedTuple

from app.catalogue.catalogue import Catalogue
from app.catalogue.kind import Contact, Element, Function, Ground, Opaque
from app.circuit.network import EARTH
from app.job.model import Layout, UnknownEnd

Sort = Literal["conductor", "trace", "source", "fuse", "jumper", "contact", "coil", "load", "input", "opaque", "ground"]
Side = Literal["hot", "common"]
SUPPLIES: frozenset[Function] = frozenset({"supply", "supply-heating", "supply-cooling"})
LOADS: frozenset[Sort] = frozenset({"coil", "load", "input"})
"""What a rung is drawn for: something that works, or that notices volts."""
WIRES: frozenset[Sort] = frozenset({"conductor", "trace"})
"""What joins two points whatever happens."""
STAYING: frozenset[Sort] = LOADS | {"source", "conductor"}
"""What is never a dead end."""


class Piece(NamedTuple):
    """Something between two points; ``name`` is ``part.element`` or the id of a conductor."""

    name: str
    sort: Sort
    a: str
    b: str

    def other(self, point: str) -> str:
        """Return the point at the other end."""
        return self.b if point == self.a else self.a

    def turned(self) -> Piece:
        """Return this piece the other way round."""
        return Piece(self.name, self.sort, self.b, self.a)


@dataclass(frozen=True)
class Graph:
    """The pieces of a layout by name, and those at each point.

    ``why`` tells for a point why nothing is known of what else may lie there. Loose ends are points of their own:
    ``loose`` are those that are landed nowhere. ``meant`` is the side for which a terminal is made, where it has one.
    ``switched`` are the contacts that a switch of their part moves: a safety, a float, a door. ``sided`` are the
    contacts that a state or a coil closes: a board has a say in what they feed.
    """

    pieces: tuple[Piece, ...]
    at: Mapping[str, tuple[Piece, ...]]
    why: Mapping[str, str]
    loose: frozenset[str]
    meant: Mapping[str, Side]
    switched: frozenset[str]
    sided: frozenset[str]


def graph_of(layout: Layout, catalogue: Catalogue) -> Graph:
    """Return everything between two points of a layout.

    Conductors that are landed on no terminal at all are not in it.
    """
    why: dict[str, str] = {}
    loose: set[str] = set()
    switched: set[str] = set()
    sided: set[str] = set()
    pieces = [*_conductors(layout, why, loose)]
    for part in sorted(layout.parts):
        kind = catalogue.kind_of(layout.parts[part])
        if kind is None:
            unknown = f"nobody knows what kind of part {part} is"
            why.update({f"{part}.{letter}": unknown for letter in layout.landed_letters(part)})
            continue
        for name, element in sorted(kind.elements.items()):
            pieces += _of_element(part, name, element, why)
            if isinstance(element, Contact) and element.by in kind.switches:
                switched.add(f"{part}.{name}")
            elif isinstance(element, Contact) and element.by != "calls" and element.rest == "open":
                sided.add(f"{part}.{name}")
    return graph_from(
        Graph((), {}, why, frozenset(loose), _meant(layout, catalogue), frozenset(switched), frozenset(sided)), pieces
    )


def graph_from(graph: Graph, pieces: Iterable[Piece]) -> Graph:
    """Return a graph of other pieces, indexed by point."""
    ordered = tuple(sorted(pieces))
    at: dict[str, list[Piece]] = {}
    for piece in ordered:
        at.setdefault(piece.a, []).append(piece)
        if piece.b != piece.a:
            at.setdefault(piece.b, []).append(piece)
    return replace(graph, pieces=ordered, at={point: tuple(found) for point, found in at.items()})


def _meant(layout: Layout, catalogue: Catalogue) -> Mapping[str, Side]:
    found: dict[str, Side] = {}
    for part in sorted(layout.parts):
        for letter, terminal in catalogue.terminals_of(layout, part).items():
            if terminal.function == "common":
                found[f"{part}.{letter}"] = "common"
            elif terminal.function in SUPPLIES:
                found[f"{part}.{letter}"] = "hot"
    return found


def _conductors(layout: Layout, why: dict[str, str], loose: set[str]) -> Iterator[Piece]:
    for name, conductor in sorted(layout.conductors.items()):
        if not conductor.landed():
            continue
        points = []
        for number, end in enumerate(conductor.ends):
            if isinstance(end, str):
                points.append(end)
                continue
            point = f"{name}:{number}"
            points.append(point)
            if isinstance(end, UnknownEnd):
                why[point] = f"the other end of conductor {name} was not seen ({end.unknown})"
            else:
                loose.add(point)
        yield Piece(name, "conductor", points[0], points[1])


def _of_element(part: str, name: str, element: Element, why: dict[str, str]) -> Iterator[Piece]:
    whole = f"{part}.{name}"
    match element:
        case Ground():
            yield Piece(whole, "ground", f"{part}.{element.at}", EARTH)
        case Opaque():
            for node in element.nodes:
                behind = f"{whole}:{node}"
                why[behind] = element.why
                yield Piece(whole, "opaque", f"{part}.{node}", behind)
        case _:
            yield Piece(whole, element.is_, *(f"{part}.{node}" for node in element.between))


def without_dead_ends(graph: Graph) -> tuple[Graph, tuple[Piece, ...]]:
    """Return a graph without what leads nowhere inside a part, and what was taken away.

    Contacts, fuses, jumpers and traces with nothing behind them can do nothing. A conductor stays, because somebody
    has put it there, and so does what feeds it; a device stays, because it must stand on a rung, with the safeties in
    its lead even where nothing is landed on their other side.
    """
    left = set(graph.pieces)
    gone: list[Piece] = []
    for point in sorted(graph.at):
        # What is not seen, and earth, may be more than a dead end.
        while point and point != EARTH and point not in graph.why:
            chain, point = _chain_from(point, graph, left)
            left.difference_update(chain)
            gone += chain
    return graph_from(graph, left), tuple(sorted(gone))


def _chain_from(start: str, graph: Graph, left: Collection[Piece]) -> tuple[list[Piece], str]:
    """Return the pieces from a loose point to where something else leads on, and that point.

    None, and no point, where the point is not loose or where the chain leads to what must stay.
    """
    chain: list[Piece] = []
    here = start
    while True:
        ways = [piece for piece in graph.at[here] if piece in left and piece not in chain]
        if here == EARTH or here in graph.why or len(ways) != 1:
            return (chain, here) if chain else ([], "")
        if ways[0].sort in STAYING:
            return [], ""
        chain.append(ways[0])
        here = ways[0].other(here)
