"""The ladder of a layout: from its graph to numbered rungs with their rails, ties and references."""

from __future__ import annotations

from collections.abc import Mapping

from app.catalogue.catalogue import Catalogue
from app.circuit.network import EARTH
from app.drawing.ladder.graph import graph_of, without_dead_ends
from app.drawing.ladder.model import End, Ladder, Rung, Section
from app.drawing.ladder.ordering import Key, ordered
from app.drawing.ladder.rails import Rails, rails_of
from app.drawing.ladder.references import movers_in, turned_round
from app.drawing.ladder.rungs import Laid, Row, lay_rows
from app.drawing.ladder.series import bridges
from app.job.model import Layout


def ladder_of(layout: Layout, catalogue: Catalogue) -> Ladder:
    """Return the ladder of a layout that fits the catalogue; the same layout gives the same ladder."""
    graph, unused = without_dead_ends(graph_of(layout, catalogue))
    rails = rails_of(graph)
    laid = lay_rows(graph, rails)
    sections = _numbered(laid, rails)
    movers = movers_in(layout, catalogue)
    return Ladder(
        sections=sections,
        rails=rails.rails,
        unused=unused,
        loops=tuple(piece for piece in graph.pieces if piece.a == piece.b),
        why=graph.why,
        loose=graph.loose,
        movers=movers,
        moved=turned_round(movers),
        rung_of={piece.name: rung.number for section in sections for rung in section.rungs for piece in rung.pieces},
    )


def _numbered(laid: Laid, rails: Rails) -> tuple[Section, ...]:
    order = ordered(laid, rails)
    number_of = {at: number for number, at in enumerate((at for _, own in order.sections for at in own), start=1)}
    section_of = {at: key for key, own in order.sections for at in own}
    bridging = set(bridges((piece for row in laid.rows for piece in row.pieces), rails.rail_of))
    bridging |= {piece.turned() for piece in bridging}
    found = []
    for key, own in order.sections:
        ending = _Ending(key, laid, rails, number_of, section_of)
        rungs = tuple(ending.rung(at) for at in own)
        found.append(
            Section(
                hot=key[1],
                common=key[0],
                rungs=rungs,
                bridges=tuple(piece for rung in rungs for piece in rung.pieces if piece in bridging),
            )
        )
    return tuple(found)


class _Ending:
    """Says where the rungs of one section begin and end."""

    def __init__(
        self, key: Key, laid: Laid, rails: Rails, number_of: Mapping[int, int], section_of: Mapping[int, Key]
    ) -> None:
        self.key = key
        self.laid = laid
        self.rails = rails
        self.number_of = number_of
        self.section_of = section_of

    def rung(self, at: int) -> Rung:
        row = self.laid.rows[at]
        return Rung(self.number_of[at], row.pieces, self._end(at, row, 0), self._end(at, row, len(row.pieces)))

    def _end(self, at: int, row: Row, place: int) -> End:
        point = row.points[place]
        if point == EARTH:
            return End("earth", point)
        rail = self.rails.rail_of.get(point)
        if rail is not None:
            own = self.key[1] if place == 0 else self.key[0]
            return End("rail", point, rail=rail, screw=point, by_name=rail != own)
        home = self.laid.home[point]
        if home == (at, place):
            return End("open", point)
        # A rung that comes back to where it began, or to itself, could not be drawn from left to right.
        comes_back = home[0] == at or (place > 0 and point == row.points[0])
        by_name = comes_back or self.section_of[home[0]] != self.key
        return End("tie", point, rung=self.number_of[home[0]], place=home[1], by_name=by_name)
