"""One rung on the sheet: its line from rail to rail, symbols in it, words above and under it."""

from __future__ import annotations

from app.catalogue.catalogue import Catalogue
from app.drawing.ladder.graph import LOADS, WIRES, Piece
from app.drawing.ladder.live import Live, Way
from app.drawing.ladder.marks import CHEVRON, DOT, RING, chevron
from app.drawing.ladder.model import End
from app.drawing.ladder.plan import LadderPlan, Row, SectionPlan
from app.drawing.ladder.rows import DEVICE, SCREW, SPARE, WORDS_LINE, under_line
from app.drawing.surface.geometry import Point
from app.drawing.surface.text_width import width_of
from app.drawing.surface.verbs import HEAVY, NAME, NOT_IN_USE, SMALL, THIN, UNKNOWN, Anchor, Font, Pen, Surface, Text
from app.drawing.symbols.choosing import symbol_of
from app.drawing.symbols.registry import symbol_named
from app.drawing.symbols.symbol import HALF, LONG, Symbol
from app.job.model import Layout

HOOKS = {"conductor": "data-conductor", "trace": "data-trace"}
"""Under which attribute the name of a piece stands in its group."""
ABOVE_WIRE = 8
ABOVE_SCREW = 8
LOOSE_RING = 6
HEAD_LONG, HEAD_HALF = 12, 5
HEAD_AHEAD = 6
"""How far behind its symbol an arrowhead begins."""


class RungPen:
    """Draws the rungs of one section."""

    def __init__(
        self, surface: Surface, plan: LadderPlan, section: SectionPlan, catalogue: Catalogue, live: Live | None
    ) -> None:
        self.surface = surface
        self.plan = plan
        self.section = section
        self.layout: Layout = plan.wording.layout
        self.catalogue = catalogue
        self.live = live

    def draw(self, row: Row) -> None:
        """Draw one rung with everything that belongs to it."""
        rung = row.rung
        self.surface.begin({"class": "rung", "data-rung": str(rung.number)})
        self._words(Point(self.section.left - SPARE, row.y + 4), str(rung.number), NAME, "end")
        for number in range(len(rung.pieces)):
            self._piece(row, number)
        for place in range(len(rung.pieces) + 1):
            self._place(row, place)
        for at, (words, font) in enumerate(row.words.said):
            self._words(Point(row.said_at.x, row.said_at.y + at * WORDS_LINE), words, font)
        self.surface.end()

    def _piece(self, row: Row, number: int) -> None:
        piece = row.rung.pieces[number]
        hook = {HOOKS.get(piece.sort, "data-element"): piece.name}
        if piece.sort == "opaque":
            hook["data-behind"] = piece.b if self._is_hidden(piece.a) else piece.a
        self.surface.begin({"class": "piece", **hook})
        left = Point(self._x(row, number) + self._cut(row, number), row.y)
        right = Point(self._x(row, number + 1) - self._cut(row, number + 1), row.y)
        way = self.live.carries(piece) if self.live is not None else ""
        middle = Point(row.middles[number], row.y)
        above = row.words.above[number]
        if piece.sort in WIRES:
            self._wire(left, right, self._wire_pen(piece, way))
            self._words(Point(middle.x, row.y - ABOVE_WIRE), above, SMALL, "middle")
            self._head(Point(middle.x, row.y), way if piece.sort == "conductor" else "")
        else:
            self._symbol(piece, left, right, middle, way)
            self._words(Point(middle.x, row.y - HALF - 2), above, DEVICE, "middle")
            for at, words in enumerate(row.words.under[number], start=1):
                self._words(Point(middle.x, under_line(row.y, at)), words, SMALL, "middle")
        self.surface.end()

    def _symbol(self, piece: Piece, left: Point, right: Point, middle: Point, way: Way) -> None:
        symbol = self._symbol_of(piece)
        state = self.live.state(piece) if self.live is not None else self.plan.wording.as_set(piece)
        start, end = Point(middle.x - LONG // 2, middle.y), Point(middle.x + LONG // 2, middle.y)
        pens = self._pen(piece.a, way), self._pen(piece.b, way)
        if not self._is_hidden(piece.a):
            self._wire(left, start, pens[0])
        if symbol.in_line and not self._is_hidden(piece.b):
            self._wire(end, right, pens[1])
        symbol.draw(self.surface, start, state if symbol.has_states else "", *pens)
        if piece.sort in LOADS and way:
            self._head(Point(end.x + HEAD_AHEAD + HEAD_LONG // 2, middle.y), way)

    def _symbol_of(self, piece: Piece) -> Symbol:
        if piece.sort == "opaque":
            return symbol_named("opaque")
        part, _, inner = piece.name.partition(".")
        kind = self.catalogue.kind_of(self.layout.parts[part])
        assert kind is not None, f"{piece.name} is of no known kind"
        return symbol_of(kind.elements[inner], kind)

    def _place(self, row: Row, place: int) -> None:
        at = Point(self._x(row, place), row.y)
        rung = row.rung
        point = rung.points()[place]
        end = rung.start if place == 0 else rung.end if place == len(rung.pieces) else None
        if self._is_hidden(point):
            return
        self.surface.begin({"class": "place", "data-terminal" if point in self.plan.screws else "data-point": point})
        self._screw_words(row, place, at)
        if end is None or end.ending == "open":
            self._screw(at, point)
        elif end.by_name:
            self.surface.begin({"class": "goes-on", "data-to": end.rail or point})
            chevron(self.surface, at, -1 if place == 0 else 1)
            self.surface.end()
        elif end.ending == "rail":
            self.surface.circle(at, DOT, None)
        self.surface.end()

    def _screw(self, at: Point, point: str) -> None:
        if point in self.plan.ladder.loose:
            self.surface.circle(at, LOOSE_RING, THIN)
        elif ":" in point:
            self._words(Point(at.x, at.y + 4), "?", UNKNOWN, "middle")
        elif point in self.plan.screws:
            self.surface.circle(at, RING, THIN)
        elif point in self.plan.wording.named:
            self.surface.circle(at, DOT, None)

    def _screw_words(self, row: Row, place: int, at: Point) -> None:
        name, beyond = row.words.screw[place]
        edge = self.section.word_edge[row.rung.number, place]
        at_rail = self.section.columns.spots[row.rung.number, place].column == 0
        x, anchor = (self.section.left + SPARE, "start") if at_rail else (edge - SPARE, "end")
        self._words(Point(x, at.y - ABOVE_SCREW), name, SCREW, anchor)  # type: ignore[arg-type]
        self._words(Point(x, at.y + 14), beyond, SMALL, anchor)  # type: ignore[arg-type]

    def _cut(self, row: Row, place: int) -> int:
        """Return how far before a place the line of a rung ends."""
        rung = row.rung
        end: End | None = rung.start if place == 0 else rung.end if place == len(rung.pieces) else None
        point = rung.points()[place]
        if end is not None and end.ending != "open":
            return 0
        if point in self.plan.ladder.loose:
            return LOOSE_RING
        if ":" in point:
            return CHEVRON
        return RING if point in self.plan.screws else 0

    def _is_hidden(self, point: str) -> bool:
        """Return whether a point lies inside something through which nothing is computed."""
        return point in self.plan.ladder.why and ":" in point.partition(".")[2]

    def _x(self, row: Row, place: int) -> int:
        return self.section.x_of[row.rung.number, place]

    def _pen(self, point: str, way: Way) -> Pen:
        hot = self.live is not None and (way != "" or self.live.is_hot(point))
        return HEAVY if hot else THIN

    def _wire_pen(self, piece: Piece, way: Way) -> Pen:
        pen = self._pen(piece.a, way)
        unsure = piece.a in self.plan.ladder.loose or piece.b in self.plan.ladder.loose or ":" in piece.a + piece.b
        return NOT_IN_USE if unsure and pen == THIN else pen

    def _wire(self, a: Point, b: Point, pen: Pen) -> None:
        if a != b:
            self.surface.line((a, b), pen, {"class": "wire"})

    def _head(self, middle: Point, way: Way) -> None:
        if not way:
            return
        half = HEAD_LONG // 2 if way == "right" else -HEAD_LONG // 2
        tip, back = middle.x + half, middle.x - half
        self.surface.shape(
            (Point(tip, middle.y), Point(back, middle.y - HEAD_HALF), Point(back, middle.y + HEAD_HALF)),
            {"class": "flow"},
        )

    def _words(self, at: Point, words: str, font: Font, anchor: Anchor = "start") -> None:
        if words:
            self.surface.text(Text(at, words, font, width_of(words, font), anchor))
