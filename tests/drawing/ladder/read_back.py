"""A circuit read back from the drawing of a ladder: from lines, dots, rings and heads, as an eye reads it.

The plan and the ladder are not asked. Lines that meet at their ends are joined, a line that ends on another one is
joined where a dot stands, lines that only cross are not; a head goes on at the rail or the place that it names.
"""

from __future__ import annotations

from collections.abc import Iterator

import networkx as nx

from app.drawing.ladder.model import Ladder
from app.drawing.surface.geometry import Point
from app.drawing.symbols.symbol import HALF
from tests.drawing.ladder.rebuilt import pieces_placed, places_joined
from tests.drawing.ladder.seen import Line, SeenLadder

Side = tuple[str, int]
"""A piece, and its left (0) or right (1) side."""
Place = Point | tuple[str, str]
"""A point of the sheet, a rail by its name, or earth."""
EARTH = ("earth", "")


def read_from_drawing(seen: SeenLadder) -> set[frozenset[Side]]:
    """Return which sides of pieces the drawing joins with each other."""
    joined: nx.Graph[Place] = nx.Graph()
    sides = list(_sides(seen))
    joined.add_nodes_from(place for _, place in sides)
    for line in seen.lines:
        rail = line.record.within("data-rail")
        if rail is not None:
            nx.add_path(joined, [line.a, ("rail", rail), line.b])
        elif _piece(line) is None:
            joined.add_edge(line.a, line.b)
    _join_rings(seen, joined)
    _join_dots(seen, joined)
    _join_heads(seen, joined)
    number = {place: at for at, group in enumerate(nx.connected_components(joined)) for place in group}
    found: dict[int, set[Side]] = {}
    for side, place in sides:
        found.setdefault(number[place], set()).add(side)
    return {frozenset(own) for own in found.values()}


def read_from_ladder(ladder: Ladder) -> set[frozenset[Side]]:
    """Return the same of the ladder: what its ties join, each rail as one."""
    posts = places_joined(ladder)
    whole: nx.Graph[object] = nx.Graph()
    for place, post in posts.items():
        whole.add_edge(post, ("rail", place[1]) if place[0] == "screw" else post)
    number = {node: at for at, group in enumerate(nx.connected_components(whole)) for node in group}
    found: dict[int, set[Side]] = {}
    for piece, *places in pieces_placed(ladder):
        if places[0][0] == "rung":
            for side, (place, point) in enumerate(zip(places, piece[2:], strict=True)):
                if piece.sort != "opaque" or point not in ladder.why:
                    own = f"{piece.name}:{point}" if piece.sort == "opaque" else piece.name
                    found.setdefault(number[posts[place]], set()).add((own, 0 if piece.sort == "opaque" else side))
    return {frozenset(own) for own in found.values()}


def _piece(line: Line) -> str | None:
    """Return the piece that a line itself is: a conductor, or a trace inside a part."""
    return line.record.within("data-conductor") or line.record.within("data-trace")


def _sides(seen: SeenLadder) -> Iterator[tuple[Side, Place]]:
    for element, symbol, box in seen.symbols:
        left, right = Point(box.x, box.y + HALF), Point(box.right, box.y + HALF)
        if symbol == "opaque":
            # Of what is opaque only one side is joined with anything: that at which a line arrives.
            ends = {end for line in seen.rows.get(left.y, ()) for end in (line.a, line.b)}
            side = left if left in ends else right
            yield (element, 0), side
            continue
        yield (element, 0), left
        yield (element, 1), EARTH if symbol == "ground" else right
    for line in seen.lines:
        piece = _piece(line)
        if piece is not None:
            for number, end in enumerate(sorted((line.a, line.b))):
                yield (piece, number), end


def _join_rings(seen: SeenLadder, joined: nx.Graph[Place]) -> None:
    for centre, radius in seen.rings:
        for dx, dy in ((-radius, 0), (radius, 0), (0, -radius), (0, radius)):
            end = Point(centre.x + dx, centre.y + dy)
            if end in joined:
                joined.add_edge(centre, end)


def _join_dots(seen: SeenLadder, joined: nx.Graph[Place]) -> None:
    for dot in seen.dots:
        for line in (*seen.rows.get(dot.y, ()), *seen.columns.get(dot.x, ())):
            if line.meets_inside(dot) and _piece(line) is None:
                joined.add_edge(dot, line.a)


def _join_heads(seen: SeenLadder, joined: nx.Graph[Place]) -> None:
    rails = {rail for line in seen.lines if (rail := line.record.within("data-rail")) is not None}
    heads = [record for record in seen.recorder.drawn("line") if record.within("data-to") is not None]
    tips = {record.points[1] for record in heads}
    for record in heads:
        goal, tip = record.within("data-to"), record.points[1]
        assert goal is not None
        if goal in rails:
            joined.add_edge(tip, ("rail", goal))
            continue
        there = [at for at, name in seen.named() if name == goal and at not in tips]
        assert len(there) == 1, f"{goal} is not one place: {there}"
        joined.add_edge(tip, there[0])
