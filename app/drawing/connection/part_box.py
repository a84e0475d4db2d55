"""How large a part is on the sheet and where its screws sit.

Rules of the file: a box depends on the kind, on the words of the part and, for a terminal on which more is landed than
it holds, on that; never on where anything else stands. A screw keeps room for as many conductors as its terminal holds
(``LANES_MOST`` at most), so landing one more moves no screw.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from app.catalogue.catalogue import Catalogue
from app.catalogue.kind import JumperElement, Kind, Side, Terminal
from app.drawing.connection.inside.kept import inside_laid
from app.drawing.connection.inside.laying import LaidInside
from app.drawing.surface.geometry import GRID, PITCH, Box, Point, on_grid, up_to_grid
from app.drawing.surface.text_width import fitted, width_of
from app.drawing.surface.verbs import NAME, SMALL
from app.job.model import Layout, Part

LETTER_COLUMN = 96
"""Room for a terminal letter inside the box, measured from the screw."""
HEADER = 48
FOOTER = 24
LANDING_MOST = 84
"""In front of a side with screws: room for conductors to fan out and for their labels, at most."""
PASSAGE, CLEAR = 24, 36
"""Beyond the longest landing, and in front of a side without screws, so that conductors can pass between two parts."""
MARGIN = 48
"""Beside the columns of letters, so that volts never stand on the far edge."""
LANES_MOST = 4
ACROSS_PITCH = 2 * PITCH
"""Between screws of an upper or lower side, whose letters stand side by side."""
WORDS_MOST = 288
RUNS_MOST = 300
"""The line at the foot for what runs: all that can run at once goes into it, with any kind of the catalogue."""
UNKNOWN_TITLE = "kind not known"


class Screw(NamedTuple):
    """One terminal on the sheet: its screw, the side on which conductors leave, and for how many there is room.

    From a screw with ``both`` they leave to the left and to the right, whichever is nearer to where they go.
    """

    letter: str
    at: Point
    side: Side
    lanes: int
    both: bool = False


@dataclass(frozen=True)
class PartBox:
    """One part on the sheet.

    ``title`` is the kind in words. ``footer`` tells whether there is a line at the foot for what runs. ``inside`` is
    what is shown inside, measured from the upper left corner of the box; None where it is not asked for.
    ``landing_most`` is how long the landings in front of its screws may become.
    """

    part: str
    label: str
    title: str
    box: Box
    screws: Mapping[str, Screw]
    footer: bool
    known: bool
    inside: LaidInside | None = None
    landing_most: int = LANDING_MOST

    def moved(self, to: Point) -> PartBox:
        """Return the same part with its upper left corner at ``to``."""
        dx, dy = to.x - self.box.x, to.y - self.box.y
        if not dx and not dy:
            return self
        return PartBox(
            self.part,
            self.label,
            self.title,
            self.box.moved(dx, dy),
            {
                letter: Screw(letter, Point(at.x + dx, at.y + dy), side, lanes, both)
                for letter, at, side, lanes, both in self.screws.values()
            },
            self.footer,
            self.known,
            self.inside,
            self.landing_most,
        )

    @cached_property
    def sides(self) -> frozenset[Side]:
        """Return the sides on which there are screws."""
        sides = {screw.side for screw in self.screws.values()}
        return frozenset(sides | {"left", "right"} if self.is_splice() else sides)

    def is_splice(self) -> bool:
        """Return whether all there is to it is one join."""
        return any(screw.both for screw in self.screws.values())

    def ground(self) -> Box:
        """Return the box with room for landings in front of its screws: where no other part may come."""
        return self._with_room(self.landing_most + GRID, GRID)

    def wide_ground(self) -> Box:
        """Return the ground with room for conductors that pass: what a part takes that may stand where it likes."""
        return self._with_room(self.landing_most + PASSAGE, CLEAR)

    def _with_room(self, landing: int, clear: int) -> Box:
        sides = self.sides
        left, top, right, bottom = [landing if side in sides else clear for side in ("left", "top", "right", "bottom")]
        return self.box.grown(left, top, right, bottom)


def measure_parts(layout: Layout, catalogue: Catalogue, insides: bool = False) -> dict[str, PartBox]:
    """Return every part of a layout with its upper left corner at (0, 0), in the order of their ids.

    With ``insides`` there is room in the boxes for the elements of their kinds.
    """
    landed: dict[str, int] = {}
    for conductor in layout.conductors.values():
        for terminal in conductor.landed():
            landed[terminal] = landed.get(terminal, 0) + 1
    return {
        name: measure_part(
            name,
            layout.parts[name],
            catalogue.kind_of(layout.parts[name]),
            catalogue.terminals_of(layout, name),
            landed,
            insides,
        )
        for name in sorted(layout.parts)
    }


def measure_part(
    name: str,
    part: Part,
    kind: Kind | None,
    terminals: Mapping[str, Terminal],
    landed: Mapping[str, int],
    insides: bool = False,
) -> PartBox:
    """Return a part with its upper left corner at (0, 0).

    ``landed`` gives how many conductors are landed on each terminal (``part.LETTER``).
    """
    by_side: dict[Side, list[tuple[str, int]]] = {"left": [], "right": [], "top": [], "bottom": []}
    for letter, terminal in terminals.items():
        by_side[terminal.side].append((letter, _lanes(terminal, landed.get(f"{name}.{letter}", 0))))
    if kind is not None and is_join(kind):
        return _measure_splice(name, part, kind, landed)
    label = fitted(part.label or name, NAME, WORDS_MOST)
    title = fitted(kind.title if kind else UNKNOWN_TITLE, SMALL, WORDS_MOST)
    footer = kind is not None and bool(kind.effects)
    first_row = HEADER + (PITCH if by_side["top"] else 0) + GRID
    rows = max(_rows(by_side["left"]), _rows(by_side["right"]), 0)
    inside = _inside(kind, by_side, first_row, rows) if insides and kind is not None else None
    words = max(width_of(label, NAME), width_of(title, SMALL), _runs_width(kind) if footer and kind is not None else 0)
    width = _width(by_side, words, inside.width if inside else 0)
    rows = max(rows, up_to_grid(inside.height + PITCH) // GRID if inside else 0)
    height = first_row + rows * GRID + (PITCH if by_side["bottom"] else 0) + (FOOTER if footer else 0)
    screws = {
        **_upright_screws(by_side["left"], "left", 0, first_row),
        **_upright_screws(by_side["right"], "right", width, first_row),
        **_level_screws(by_side["top"], "top", 0),
        **_level_screws(by_side["bottom"], "bottom", height),
    }
    ordered = {letter: screws[letter] for letter in terminals}
    return PartBox(name, label, title, Box(0, 0, width, height), ordered, footer, kind is not None, inside)


def runs_words(effects: Iterable[str]) -> str:
    """Return what runs in a part, as it stands at its foot."""
    return "Runs: " + ", ".join(effect.replace("-", " ") for effect in effects)


def _runs_width(kind: Kind) -> int:
    return min(RUNS_MOST, width_of(runs_words(kind.effects), SMALL))


def is_join(kind: Kind) -> bool:
    """Return whether a kind is nothing but one point at which conductors are joined."""
    return len(kind.terminals) == 1 and not kind.elements


def _measure_splice(name: str, part: Part, kind: Kind, landed: Mapping[str, int]) -> PartBox:
    label = fitted(part.label or name, NAME, WORDS_MOST)
    letter, terminal = next(iter(kind.terminals.items()))
    lanes = _lanes(terminal, landed.get(f"{name}.{letter}", 0))
    box = Box(0, 0, up_to_grid(max(width_of(label, NAME) + 2 * GRID, 4 * GRID)), 3 * GRID + GRID * lanes)
    screw = Screw(letter, Point(on_grid(box.w // 2), 3 * GRID), terminal.side, lanes, both=True)
    return PartBox(name, label, "", box, {letter: screw}, footer=False, known=True)


def _lanes(terminal: Terminal, landed: int) -> int:
    """Return an even number of lanes, so that every screw sits on a whole pitch."""
    return max(2, 2 * -(-max(landed, min(terminal.holds, LANES_MOST)) // 2))


def _rows(screws: list[tuple[str, int]]) -> int:
    return sum(lanes for _, lanes in screws)


def jumpers_at_screws(kind: Kind) -> Iterator[str]:
    """Yield the elements of a kind that are jumpers between two screws of one upright side: they are drawn there."""
    for name, element in kind.elements.items():
        if isinstance(element, JumperElement) and all(node in kind.terminals for node in element.between):
            first, second = (kind.terminals[node].side for node in element.between)
            if first == second and first in ("left", "right"):
                yield name


def _inside(kind: Kind, by_side: Mapping[Side, list[tuple[str, int]]], first_row: int, rows: int) -> LaidInside | None:
    """Return what is inside a kind, between the columns of its letters and level with its screws."""
    inside = inside_laid(kind, tuple(jumpers_at_screws(kind)), rows * GRID)
    return inside and inside.moved(LETTER_COLUMN + GRID if by_side["left"] else 2 * GRID, first_row)


def _width(by_side: Mapping[Side, list[tuple[str, int]]], words: int, inside: int) -> int:
    columns = sum(LETTER_COLUMN for side in ("left", "right") if by_side[side])
    across = max(sum(max(ACROSS_PITCH, GRID * lanes) for _, lanes in by_side[side]) for side in ("top", "bottom"))
    return up_to_grid(max(columns + MARGIN + (inside + PITCH if inside else 0), words + 2 * GRID, across + GRID))


def _upright_screws(found: list[tuple[str, int]], side: Side, x: int, y: int) -> dict[str, Screw]:
    screws = {}
    for letter, lanes in found:
        screws[letter] = Screw(letter, Point(x, y), side, lanes)
        y += GRID * lanes
    return screws


def _level_screws(found: list[tuple[str, int]], side: Side, y: int) -> dict[str, Screw]:
    screws, x = {}, PITCH
    for letter, lanes in found:
        screws[letter] = Screw(letter, Point(x, y), side, lanes)
        x += max(ACROSS_PITCH, GRID * lanes)
    return screws
