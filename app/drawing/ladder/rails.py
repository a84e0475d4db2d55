"""Rails: from the two sides of each source, the screws that wires alone join with it.

Rules of the file: a side is hot or common because of the winding, never because of a letter. Every screw goes to the
nearest source side; a wire between two rails belongs to neither and becomes a rung, so that a short from hot to common
is seen as one. The common rails of sources that wires join are one rail; hot rails never are.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from app.circuit.union import Union
from app.drawing.ladder.graph import WIRES, Graph, Piece
from app.drawing.ladder.model import Rail


@dataclass(frozen=True)
class Rails:
    """The rails by name, the rail of each screw that lies on one, and the two rails of each source."""

    rails: Mapping[str, Rail]
    rail_of: Mapping[str, str]
    hot_of: Mapping[str, str]
    common_of: Mapping[str, str]


def rails_of(graph: Graph) -> Rails:
    """Return the rails of a graph."""
    sources = [piece for piece in graph.pieces if piece.sort == "source"]
    nets = _nets(graph)
    start: dict[str, str] = {}
    for source in sources:
        start.setdefault(source.b, f"common of {source.name}")
    for source in sources:
        start.setdefault(_hub(source, graph, nets), f"hot of {source.name}")
    claimed = _claimed(start, graph)
    merged = _merged(sorted(set(start.values())), claimed, graph)
    rail_of = {point: merged[rail] for point, rail in claimed.items()}
    hot_of = {source.name: rail_of[_hub(source, graph, nets)] for source in sources}
    common_of = {source.name: rail_of[source.b] for source in sources}
    rails = {}
    for name in sorted(set(rail_of.values())):
        side: Literal["hot", "common"] = "hot" if name.startswith("hot") else "common"
        own = hot_of if side == "hot" else common_of
        rails[name] = Rail(
            name=name,
            side=side,
            sources=tuple(source for source, rail in sorted(own.items()) if rail == name),
            screws=tuple(sorted(point for point, rail in rail_of.items() if rail == name)),
            joins=tuple(
                piece
                for piece in graph.pieces
                if piece.sort in WIRES and piece.a != piece.b and rail_of.get(piece.a) == name == rail_of.get(piece.b)
            ),
        )
    return Rails(rails, rail_of, hot_of, common_of)


def _nets(graph: Graph) -> Mapping[str, int]:
    """Return the number of the net of each point: what wires join."""
    points = sorted(graph.at)
    number = {point: at for at, point in enumerate(points)}
    union = Union(len(points))
    for piece in graph.pieces:
        if piece.sort in WIRES:
            union.join(number[piece.a], number[piece.b])
    return {point: union.find(at) for at, point in enumerate(points)}


def _hub(source: Piece, graph: Graph, nets: Mapping[str, int]) -> str:
    """Return the point from which a source feeds everything: behind the fuse, where the ways part.

    One way on is followed as long as it is a fuse; through a contact too where ways part behind it.
    """
    members: dict[int, list[str]] = {}
    for point, net in nets.items():
        members.setdefault(net, []).append(point)
    hub = here = source.a
    walked = {source}
    # Where another winding lies, its own way begins.
    passed = {nets[point] for each in graph.pieces if each.sort == "source" and each != source for point in each[2:]}
    behind_fuses_only = True
    while nets[here] not in passed:
        passed.add(nets[here])
        ways = _ways_on(members[nets[here]], graph, nets, walked)
        if len(ways) > 1:
            return here
        if not ways or not _may_head(ways[0][0], graph):
            break
        piece, here = ways[0]
        walked.add(piece)
        behind_fuses_only = behind_fuses_only and piece.sort == "fuse"
        if behind_fuses_only and nets[here] not in passed:
            hub = here
        elif nets[here] == nets[source.b] and here != source.b:
            # A wire takes it straight back to common: then that wire is seen as a rung.
            return here
    return hub


def _may_head(piece: Piece, graph: Graph) -> bool:
    """Return whether a piece may stand in the one way from a source to all that it feeds: a fuse, a safety."""
    return piece.sort == "fuse" or piece.name in graph.switched


def _ways_on(
    points: Iterable[str], graph: Graph, nets: Mapping[str, int], walked: Collection[Piece]
) -> Sequence[tuple[Piece, str]]:
    """Return what leads on from a net and was not walked yet, each with the point behind it."""
    return [
        (piece, piece.other(point))
        for point in sorted(points)
        for piece in graph.at[point]
        if piece.sort not in WIRES | {"source"} and piece not in walked
        if nets[piece.other(point)] != nets[point]
    ]


def _claimed(start: Mapping[str, str], graph: Graph) -> dict[str, str]:
    """Return the rail of each point that wires join with a start, the nearest one.

    Where wires join hot and common, what a terminal is made for decides first, so that the wire at fault is a rung.
    """
    claimed = dict(sorted(start.items()))
    for heeds in (True, False):
        ahead = deque(claimed)
        while ahead:
            here = ahead.popleft()
            for piece in graph.at.get(here, ()):
                other = piece.other(here)
                if piece.sort not in WIRES or other in claimed or other in graph.loose or other in graph.why:
                    continue
                if heeds and not claimed[here].startswith(graph.meant.get(other, "")):
                    continue
                claimed[other] = claimed[here]
                ahead.append(other)
    return claimed


def _merged(names: Sequence[str], claimed: Mapping[str, str], graph: Graph) -> Mapping[str, str]:
    """Return for each rail the one that it is part of: commons that a wire joins are one."""
    number = {name: at for at, name in enumerate(names)}
    union = Union(len(names))
    for piece in graph.pieces:
        a, b = claimed.get(piece.a), claimed.get(piece.b)
        if piece.sort in WIRES and a and b and a.startswith("common") and b.startswith("common"):
            union.join(number[a], number[b])
    first: dict[int, str] = {}
    return {name: first.setdefault(union.find(number[name]), name) for name in names}
