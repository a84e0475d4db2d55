"""A circuit built from a ladder alone: from its rungs, ties and rails, as a technician would who has only the paper.

What the kinds say of an element (figures, states, calls) is looked up by the element's name, which stands on the rung;
what is joined with what is never looked up. Every element gets two screws of its own, every place of the ladder a post,
and an ideal wire leads from each screw to its post.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

import networkx as nx

from app.catalogue.builtin import builtin_catalogue
from app.catalogue.catalogue import Catalogue
from app.catalogue.kind import Kind
from app.drawing.ladder.graph import Piece
from app.drawing.ladder.model import End, Ladder
from app.job.model import Conductor, Layout, Part, UnknownEnd

POST = Kind.model_validate(
    {"title": "Post", "summary": "", "terminals": {"N": {"function": "through", "use": "", "holds": 40}}}
)
Place = tuple[object, ...]
"""A place of the ladder: ("rung", number, place), ("screw", rail, screw), ("earth",)."""


def places_joined(ladder: Ladder) -> dict[Place, int]:
    """Return the number of the post of each place of a ladder: places that ties and rails make one share it."""
    joined: nx.Graph[Place] = nx.Graph()
    for rung in ladder.rungs():
        joined.add_nodes_from(("rung", rung.number, place) for place in range(len(rung.pieces) + 1))
        for place, end in ((0, rung.start), (len(rung.pieces), rung.end)):
            here: Place = ("rung", rung.number, place)
            joined.add_edge(here, _there(end, here))
    for rail in ladder.rails.values():
        joined.add_nodes_from(("screw", rail.name, screw) for screw in rail.screws)
    return {place: post for post, group in enumerate(nx.connected_components(joined)) for place in group}


def _there(end: End, here: Place) -> Place:
    match end.ending:
        case "rail":
            return ("screw", end.rail, end.screw)
        case "tie":
            return ("rung", end.rung, end.place)
        case "earth":
            return ("earth",)
        case _:
            return here


def pieces_placed(ladder: Ladder) -> Iterator[tuple[Piece, Place, Place]]:
    """Yield each piece that is drawn, with the places on its left and right."""
    for rung in ladder.rungs():
        for number, piece in enumerate(rung.pieces):
            yield piece, ("rung", rung.number, number), ("rung", rung.number, number + 1)
    for rail in ladder.rails.values():
        for piece in rail.joins:
            yield piece, ("screw", rail.name, piece.a), ("screw", rail.name, piece.b)


@dataclass
class Rebuilt:
    """The layout and the catalogue that come of a ladder."""

    layout: Layout
    catalogue: Catalogue


@dataclass
class _Building:
    posts: dict[Place, int]
    at_screw: dict[str, list[tuple[str, int]]] = field(default_factory=lambda: defaultdict(list))
    wires: dict[str, Conductor] = field(default_factory=dict)
    seen: set[str] = field(default_factory=set)


def rebuilt(ladder: Ladder, layout: Layout, catalogue: Catalogue) -> Rebuilt:
    """Return the circuit of a ladder; ``layout`` gives settings of parts and the length of conductors, no more."""
    building = _Building(places_joined(ladder))
    for piece, left, right in pieces_placed(ladder):
        _place(piece, building.posts[left], building.posts[right], building, ladder, layout, catalogue)
    parts = {f"n{post}": Part(kind="post") for post in set(building.posts.values())}
    kinds = {"post": POST}
    for name, part in layout.parts.items():
        kind = catalogue.kind_of(part)
        if kind is None:
            parts[name] = Part(kind="unknown")
            continue
        kinds[f"{name}-taken-apart"] = taken_apart(kind)
        parts[name] = Part(kind=f"{name}-taken-apart", air=part.air, settings=part.settings)
    _meet_the_unknown(building, ladder, layout, catalogue)
    joins = {
        f"j{number}": Conductor(ends=(screw, f"n{post}.N"))
        for number, (screw, post) in enumerate(
            (screw, post) for screws in building.at_screw.values() for screw, post in screws
        )
    }
    remade = Layout(parts=parts, cables=layout.cables, conductors={**building.wires, **joins})
    return Rebuilt(remade, Catalogue(kinds))


def _place(
    piece: Piece, left: int, right: int, building: _Building, ladder: Ladder, layout: Layout, catalogue: Catalogue
) -> None:
    if piece.sort == "conductor":
        wire = layout.conductors[piece.name]
        ends = [_wire_end(point, post, ladder) for point, post in ((piece.a, left), (piece.b, right))]
        if piece.a not in (wire.ends[0], f"{piece.name}:0"):
            # Which end is which is written beside the rung.
            ends.reverse()
        assert piece.name not in building.wires, f"{piece.name} is drawn twice"
        building.wires[piece.name] = wire.model_copy(update={"ends": tuple(ends)})
        return
    part, _, inner = piece.name.partition(".")
    kind = catalogue.kind_of(layout.parts[part])
    assert kind is not None
    element: Any = kind.elements[inner]
    number = sorted(kind.elements).index(inner)
    if piece.sort == "opaque":
        shown, post = (piece.b, left) if ":" in piece.a else (piece.a, left)
        shown, post = (piece.b, right) if ":" in piece.a else (piece.a, left)
        key = f"{piece.name}:{shown}"
        screws = [(f"{part}.O{number}X{element.nodes.index(shown.partition('.')[2])}", post)]
    elif piece.sort == "ground":
        key = piece.name
        screws = [(f"{part}.A{number}", right if piece.a == "earth" else left)]
    else:
        key = piece.name
        first, second = (left, right) if piece.a == f"{part}.{element.between[0]}" else (right, left)
        screws = [(f"{part}.A{number}", first), (f"{part}.B{number}", second)]
    assert key not in building.seen, f"{key} is drawn twice"
    building.seen.add(key)
    building.at_screw[key] = screws


def _wire_end(point: str, post: int, ladder: Ladder) -> Any:
    if point in ladder.loose:
        return None
    if ":" in point:
        return UnknownEnd(unknown=ladder.why[point])
    return f"n{post}.N"


def _meet_the_unknown(building: _Building, ladder: Ladder, layout: Layout, catalogue: Catalogue) -> None:
    """Land the posts on the screws of parts of which nobody knows the kind."""
    for point, place in _points_placed(ladder):
        part = point.partition(".")[0]
        if part in layout.parts and catalogue.kind_of(layout.parts[part]) is None:
            building.at_screw[f"unknown {point}"] = [(point, building.posts[place])]


def _points_placed(ladder: Ladder) -> Iterator[tuple[str, Place]]:
    for rung in ladder.rungs():
        for place, point in enumerate(rung.points()):
            yield point, ("rung", rung.number, place)
    for rail in ladder.rails.values():
        for screw in rail.screws:
            yield screw, ("screw", rail.name, screw)


def taken_apart(kind: Kind) -> Kind:
    """Return a kind of the same elements, states and calls in which no two elements share a node."""
    elements: dict[str, Any] = {}
    letters: list[str] = []
    for number, name in enumerate(sorted(kind.elements)):
        element: Any = kind.elements[name]
        if element.is_ == "opaque":
            own = [f"O{number}X{at}" for at in range(len(element.nodes))]
            elements[name] = element.model_copy(update={"nodes": tuple(own)})
        elif element.is_ == "ground":
            own = [f"A{number}"]
            elements[name] = element.model_copy(update={"at": own[0]})
        else:
            own = [f"A{number}", f"B{number}"]
            elements[name] = element.model_copy(update={"between": tuple(own)})
        letters += own
    through = POST.terminals["N"]
    return kind.model_copy(update={"elements": elements, "terminals": dict.fromkeys(letters, through)})


CATALOGUE = builtin_catalogue()
