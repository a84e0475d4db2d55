"""A ladder as data: rails, rungs, and where each rung begins and ends. All that is drawn stands here.

Rules of the file: the ladder alone says what is joined. Neighbouring pieces of a rung share a place; a tie says at
which place of another rung this one begins or ends; a rail says which screws it holds. Names of points are for reading
only, so that a circuit can be rebuilt from rungs and ties and held against the one that it came from.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Literal

from app.drawing.ladder.graph import LOADS, Piece

Ending = Literal["rail", "tie", "open", "earth"]


@dataclass(frozen=True, slots=True)
class End:
    """Where a rung begins or ends.

    ``rail`` and ``screw`` are set for a rail, ``rung`` and ``place`` (0 is the left end of that rung) for a tie.
    ``by_name`` tells that no line leads there: the place is written beside an arrowhead.
    """

    ending: Ending
    point: str
    rail: str = ""
    screw: str = ""
    rung: int = 0
    place: int = 0
    by_name: bool = False


@dataclass(frozen=True, slots=True)
class Rung:
    """Pieces in a row, from left to right. ``number`` counts over the whole ladder, from 1 and from above."""

    number: int
    pieces: tuple[Piece, ...]
    start: End
    end: End

    def points(self) -> tuple[str, ...]:
        """Return the points between which the pieces lie, from left to right."""
        return (self.pieces[0].a, *(piece.b for piece in self.pieces))

    def loads(self) -> Iterator[Piece]:
        """Yield what works or notices volts on this rung."""
        return (piece for piece in self.pieces if piece.sort in LOADS)


@dataclass(frozen=True, slots=True)
class Rail:
    """Screws that wires alone join with one side of a source. ``joins`` are those wires."""

    name: str
    side: Literal["hot", "common"]
    sources: tuple[str, ...]
    screws: tuple[str, ...]
    joins: tuple[Piece, ...]


@dataclass(frozen=True, slots=True)
class Section:
    """Rungs between one hot and one common rail; both are empty where no source feeds what is drawn.

    ``bridges`` are the pieces that lie neither in series nor in parallel with others and touch no rail: current may
    pass them either way.
    """

    hot: str
    common: str
    rungs: tuple[Rung, ...]
    bridges: tuple[Piece, ...] = ()


@dataclass(frozen=True)
class Ladder:
    """The whole ladder.

    ``unused`` leads nowhere and stands on no rung, ``loops`` begin and end on one screw. ``movers`` gives for each
    contact the coils, inputs and loads that have a say in it, ``moved`` the other way round.
    """

    sections: tuple[Section, ...]
    rails: Mapping[str, Rail]
    unused: tuple[Piece, ...]
    loops: tuple[Piece, ...]
    why: Mapping[str, str]
    loose: frozenset[str]
    movers: Mapping[str, tuple[str, ...]]
    moved: Mapping[str, tuple[str, ...]]
    rung_of: Mapping[str, int]
    """The rung of each piece that stands on one."""

    def rungs(self) -> Iterator[Rung]:
        """Yield every rung from above to below."""
        for section in self.sections:
            yield from section.rungs
