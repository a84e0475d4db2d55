"""Where a strip is cut: into few pieces, in gaps where there are any, with room for marks only where lines cross."""

from __future__ import annotations

from app.drawing.frame.cutting import Room, Span, Strip
from app.drawing.frame.paper import PAPERS
from app.drawing.frame.sheets import on_paper
from tests.paper.papers import WORDS, drawing_of

ROOM = Room(alone=540, outer=480, inner=420)
HALVES = (Span(0, 480), Span(520, 1000))


def test_a_cut_that_crosses_nothing_needs_no_room_for_marks() -> None:
    one, other = Strip(Span(0, 1000), [], HALVES).pieces(ROOM)
    assert 480 <= one.end == other.start <= 520
    assert max(one.end - one.start, other.end - other.start) > ROOM.outer


def test_a_cut_that_crosses_something_leaves_room_for_marks() -> None:
    pieces = Strip(Span(0, 1000), [], [*HALVES, Span(0, 1000)]).pieces(ROOM)
    assert len(pieces) == 3
    assert [piece.end - piece.start <= most for piece, most in zip(pieces, (480, 420, 480), strict=True)] == [True] * 3


def test_fewer_pieces_that_overlap_are_better_than_more() -> None:
    # Two wide things lie so that no line parts them: the second piece begins before the first one ends.
    strip = Strip(Span(0, 700), [Span(0, 372), Span(300, 700)], [])
    one, other = strip.pieces(ROOM)
    assert one.end >= 372
    assert other.start <= 300


def test_each_house_of_a_row_stands_on_one_sheet() -> None:
    """Of the hundred parts of a job, those that are wired to each other are mostly seen together."""
    sheets = on_paper(drawing_of("school-row-hundred-parts", "as-left"), PAPERS["tabloid"], "auto", WORDS, 1.0)
    crossed = {mark.line for sheet in sheets.sheets for edge in sheet.edges for mark in edge.marks}
    assert len(sheets.sheets) <= 8
    assert len(crossed) <= 10
