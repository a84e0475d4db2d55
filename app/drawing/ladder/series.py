"""What of a circuit is in series and parallel, and what is tangled: a bridge, a way round.

Rules of the file: wires are contracted first, since a screw more or less makes no bridge. Then ways in series become
one, ways in parallel become one, until nothing changes; a circuit of ways in series and in parallel leaves only ways
from rail to rail. A way that is left otherwise, and that touches no rail, is a bridge.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

import networkx as nx

from app.circuit.network import EARTH
from app.circuit.union import Union
from app.drawing.ladder.graph import WIRES, Piece

Strand = tuple[Piece, ...]


def bridges(pieces: Iterable[Piece], rail_of: Mapping[str, str]) -> tuple[Piece, ...]:
    """Return the pieces that current may pass either way, because they join two others beside a rail, sorted.

    Args:
        pieces: what is drawn on rungs, wires too.
        rail_of: the rail of each point that lies on one; rails and earth are where ways begin and end.
    """
    drawn = sorted(pieces)
    net = _nets(drawn, rail_of)
    ends = {net[rail] for rail in {*rail_of.values(), EARTH} if rail in net}
    graph: nx.MultiGraph[int] = nx.MultiGraph()
    for piece in drawn:
        a, b = net[rail_of.get(piece.a, piece.a)], net[rail_of.get(piece.b, piece.b)]
        if a != b and piece.sort not in WIRES:
            graph.add_edge(a, b, strand=(piece,))
    while _reduce(graph, ends):
        pass
    left = {piece for a, b, data in graph.edges(data=True) if not {a, b} & ends for piece in data["strand"]}
    return tuple(sorted(left))


def _nets(drawn: Iterable[Piece], rail_of: Mapping[str, str]) -> Mapping[str, int]:
    drawn = list(drawn)
    names = sorted({rail_of.get(point, point) for piece in drawn for point in (piece.a, piece.b)})
    number = {name: at for at, name in enumerate(names)}
    union = Union(len(names))
    rails = {*rail_of.values(), EARTH}
    for piece in drawn:
        a, b = rail_of.get(piece.a, piece.a), rail_of.get(piece.b, piece.b)
        # A wire from rail to rail is a rung of its own; contracted, it would hide everything between them.
        if piece.sort in WIRES and not (a in rails and b in rails):
            union.join(number[a], number[b])
    return {name: union.find(at) for name, at in number.items()}


def _reduce(graph: nx.MultiGraph[int], ends: set[int]) -> bool:
    """Take one step: a dead end off, two ways in parallel or in series to one. Return whether there was any."""
    for node in sorted(graph.nodes):
        if node in ends:
            continue
        around = list(graph.edges(node, keys=True, data=True))
        others = sorted({b for _, b, _, _ in around})
        if (len(others) == 1 and len(around) > 1) or len(around) == 1:
            graph.remove_node(node)
            return True
        if len(others) == 2:
            # All ways to one neighbour are in parallel, and those in series with all to the other.
            strand = tuple(piece for _, _, _, data in around for piece in data["strand"])
            graph.remove_node(node)
            graph.add_edge(others[0], others[1], strand=strand)
            return True
    return False
