"""Rungs: every piece of the graph once, in rows from hot to common that tie to each other.

Rules of the file: first the sources with what stands in their lead, then a rung for each load, then what is left: a
way beside another becomes a rung that is tied at both ends, what leads nowhere one with an open end. Rows are drawn
from left to right in one order of the points, so that a tie can be an upright line.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, field

from app.circuit.network import EARTH
from app.drawing.ladder.graph import LOADS, Graph, Piece
from app.drawing.ladder.rails import Rails
from app.drawing.ladder.reaching import FAR, Goal, Reach, may_pass, reach_from, turned, way_to


@dataclass(frozen=True, eq=False)
class Row:
    """Pieces in a row, not yet numbered: the rung number of a tie is the place of its row in the list of rows."""

    pieces: tuple[Piece, ...]

    @property
    def points(self) -> tuple[str, ...]:
        """Return its points from left to right."""
        return (self.pieces[0].a, *(piece.b for piece in self.pieces))


@dataclass
class Laid:
    """Rows in the order in which they were laid, and the row and place at which each point stood first."""

    rows: list[Row] = field(default_factory=list)
    home: dict[str, tuple[int, int]] = field(default_factory=dict)


def lay_rows(graph: Graph, rails: Rails) -> Laid:
    """Return the rows of a graph."""
    laying = _Laying(graph, rails)
    for source in [piece for piece in graph.pieces if piece.sort == "source"]:
        laying.lay_source(source)
    for load in laying.loads_in_order():
        laying.lay_load(load)
    laying.lay_rest()
    return laying.laid


class _Laying:
    """What is laid so far."""

    def __init__(self, graph: Graph, rails: Rails) -> None:
        self.graph = graph
        self.rails = rails
        self.laid = Laid()
        joins = {piece for rail in rails.rails.values() for piece in rail.joins}
        self.free = {piece for piece in graph.pieces if piece not in joins and piece.a != piece.b}
        self.after: dict[str, set[str]] = {}
        hot = [point for point, rail in rails.rail_of.items() if rails.rails[rail].side == "hot"]
        common = [point for point, rail in rails.rail_of.items() if rails.rails[rail].side == "common"]
        self.hot, self.common = frozenset(hot), frozenset(common)
        self.stop = {*rails.rail_of, EARTH}
        self.from_hot = reach_from(hot, graph, self.common)
        self.from_common = reach_from(common, graph, self.hot)

    def lay_source(self, source: Piece) -> None:
        rail, home = self.rails.hot_of[source.name], self.laid.home
        self.free.discard(source)
        way = way_to(
            source.a,
            lambda point: point in home or self.rails.rail_of.get(point) == rail,
            self.graph,
            self.free,
            self.stop,
        )
        self._lay((*turned(way or ()), source))

    def loads_in_order(self) -> Sequence[Piece]:
        """Return the loads, hot side first, those that hang on one way together; what is not fed comes last."""
        loads = [self._hot_first(piece) for piece in self.graph.pieces if piece.sort in LOADS and piece in self.free]
        return sorted(loads, key=self._place_of)

    def _hot_first(self, load: Piece) -> Piece:
        a, b = self._lean(load.a), self._lean(load.b)
        return load if a <= b else load.turned()

    def _lean(self, point: str) -> int:
        return self.from_hot.distance(point) - self.from_common.distance(point)

    def _place_of(self, load: Piece) -> tuple[bool, str, bool, tuple[str, ...], str]:
        reach: Reach = self.from_hot
        fed = load.a in reach.ways
        rail = self.rails.rail_of[reach.start_of[load.a]] if fed else ""
        returns = self.from_common.distance(load.b) < FAR
        return (not fed, rail, not returns, reach.ways.get(load.a, ()), load.name)

    def lay_load(self, load: Piece) -> None:
        plain = load if load in self.free else load.turned()
        self.free.discard(plain)
        home = self.laid.home
        start = self._way(load.a, (lambda p: p in self.hot or p in home, lambda p: p in self.common or p == EARTH))
        start = start or self._lead(load)
        on_way = {load.a, *(piece.b for piece in start)}
        end = self._way(
            load.b,
            (lambda p: p in self.common or p == EARTH or p in home or p in on_way, lambda p: p in self.hot),
            on_way - {load.b},
        )
        self._lay((*turned(start), load, *end))

    def _lead(self, load: Piece) -> Sequence[Piece]:
        """Return what stands before a load to which nothing leads, such as a safety with nothing landed before it."""
        ways = [] if self._is_laid(load.a) else self._ways_on(load.a, {load.a, load.b})
        return self._onward(ways[0], load.b) if len(ways) == 1 else ()

    def _way(self, start: str, goals: Sequence[Goal], closed: Collection[str] = ()) -> Sequence[Piece]:
        """Return the way from a side of a load to the best goal, none where nothing leads on."""
        for goal in goals:
            way = way_to(start, goal, self.graph, self.free, self.stop, closed)
            if way is not None:
                return way
        return ()

    def lay_rest(self) -> None:
        """Lay what no load has taken: ways beside others first, then what leads nowhere."""
        while self.free:
            way = self._ear() or self._dead_end() or self._adrift()
            self._lay(way)

    def _ear(self) -> tuple[Piece, ...]:
        """Return a way from a point that is laid to another one, none where there is none."""
        for piece in sorted(self.free):
            for first in (piece, piece.turned()):
                if not self._is_laid(first.a):
                    continue
                goal = self._laid_but(first.a)
                way = way_to(first.b, goal, self.graph, self.free - {piece}, self.stop, (first.a,))
                if way is not None:
                    return (first, *way)
        return ()

    def _laid_but(self, start: str) -> Goal:
        return lambda point: point != start and self._is_laid(point)

    def _dead_end(self) -> tuple[Piece, ...]:
        """Return a way from a point that is laid into what leads nowhere."""
        for piece in sorted(self.free):
            for first in (piece, piece.turned()):
                if self._is_laid(first.a):
                    return self._onward(first)
        return ()

    def _adrift(self) -> tuple[Piece, ...]:
        """Return a way through what nothing else is tied to, from one of its ends where it has any."""
        count: dict[str, int] = {}
        for piece in self.free:
            for point in (piece.a, piece.b):
                count[point] = count.get(point, 0) + 1
        firsts = [first for piece in self.free for first in (piece, piece.turned())]
        return self._onward(min(firsts, key=lambda first: (count[first.a] != 1, first)))

    def _onward(self, first: Piece, *closed: str) -> tuple[Piece, ...]:
        """Return a way that begins with a piece and goes on as far as it can, touching nothing twice."""
        way = [first]
        seen = {first.a, first.b, *closed}
        while way[-1].b != EARTH and not self._is_laid(way[-1].b):
            on = self._ways_on(way[-1].b, seen)
            if not on:
                break
            way.append(min(on, key=lambda piece: (self._is_laid(piece.b), piece.b in self.graph.loose, piece)))
            seen.add(way[-1].b)
        return tuple(way)

    def _ways_on(self, here: str, seen: Collection[str]) -> list[Piece]:
        """Return what is not laid yet and leads from a point to others than those that were seen."""
        own = [piece if piece.a == here else piece.turned() for piece in self.graph.at[here] if piece in self.free]
        return [piece for piece in own if piece.b not in seen and may_pass(piece)]

    def _is_laid(self, point: str) -> bool:
        return point in self.laid.home or point in self.rails.rail_of or point == EARTH

    def _lay(self, way: Sequence[Piece]) -> None:
        row = Row(self._in_order(tuple(way)))
        number = len(self.laid.rows)
        self.laid.rows.append(row)
        for place, point in enumerate(row.points):
            if point not in self.rails.rail_of and point != EARTH:
                self.laid.home.setdefault(point, (number, place))
        for piece in row.pieces:
            self.free.discard(piece)
            self.free.discard(piece.turned())
            if not self._leads_back(piece.a, piece.b):
                self.after.setdefault(piece.a, set()).add(piece.b)

    def _in_order(self, way: tuple[Piece, ...]) -> tuple[Piece, ...]:
        """Return a way from left to right: hot rails left, common rails right, earth last, else as the others run."""
        start, end = self._side(way[0].a), self._side(way[-1].b)
        if start != end:
            return way if start < end else turned(way)
        if start == MIDDLE and self._leads_back(way[0].a, way[-1].b):
            return turned(way)
        return way

    def _side(self, point: str) -> int:
        if point in self.hot:
            return LEFT
        if point in self.common:
            return RIGHT
        return EARTHED if point == EARTH else MIDDLE

    def _leads_back(self, a: str, b: str) -> bool:
        """Return whether the points run from ``b`` to ``a`` already."""
        ahead, seen = [b], {b}
        while ahead:
            here = ahead.pop()
            if here == a:
                return True
            if here in self.hot or here in self.common:
                continue
            for other in self.after.get(here, ()):
                if other not in seen:
                    seen.add(other)
                    ahead.append(other)
        return False


LEFT, MIDDLE, RIGHT, EARTHED = range(4)
