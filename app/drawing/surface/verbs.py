"""What a drawing is drawn on: a few verbs, and the pens and fonts that they take.

Rules of the file: only ``currentColor`` and ``none`` exist, so a pen has no colour. Coordinates are sheet units. Every
text states its width, so that what is placed here is what any browser shows.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Literal, NamedTuple, Protocol

from app.drawing.surface.geometry import Box, Point

Anchor = Literal["start", "middle", "end"]
Attributes = Mapping[str, str]
NO_ATTRIBUTES: Attributes = {}


class Pen(NamedTuple):
    """How a line looks: its width in u and its dashes."""

    width: float
    dash: str = ""


THIN = Pen(1.25)
HEAVY = Pen(3.5)
MARK = Pen(2)
NOT_IN_USE = Pen(1.25, "12 6")


class Font(NamedTuple):
    """A typeface and size. ``words`` is for words, ``letters`` for terminal letters."""

    family: Literal["words", "letters"]
    size: int
    bold: bool = False


NAME = Font("words", 13, bold=True)
SMALL = Font("words", 10)
LETTER = Font("letters", 14)
UNKNOWN = Font("words", 10, bold=True)
"""For the question mark of an end that could not be seen: two of them fit into neighbouring lanes."""


class Text(NamedTuple):
    """Words at a place: ``at`` is on the baseline, ``width`` the room they fill.

    ``upright`` is False for words that run from below to above.
    """

    at: Point
    words: str
    font: Font
    width: int
    anchor: Anchor = "start"
    upright: bool = True


class Surface(Protocol):
    """Something to draw on."""

    def begin(self, attributes: Attributes = NO_ATTRIBUTES, title: str = "") -> None:
        """Open a group; what is drawn until ``end`` lies in it. ``title`` is what a reader hears."""

    def end(self) -> None:
        """Close the group that was opened last."""

    def line(self, points: Sequence[Point], pen: Pen, attributes: Attributes = NO_ATTRIBUTES) -> None:
        """Draw a line through points."""

    def rect(self, box: Box, pen: Pen, attributes: Attributes = NO_ATTRIBUTES) -> None:
        """Draw the edges of a box."""

    def circle(self, centre: Point, radius: int, pen: Pen | None, attributes: Attributes = NO_ATTRIBUTES) -> None:
        """Draw a ring, or a dot where ``pen`` is None."""

    def arch(self, start: Point, end: Point, pen: Pen, attributes: Attributes = NO_ATTRIBUTES) -> None:
        """Draw the half circle from ``start`` to ``end``, level or upright of each other and an even way apart.

        It bulges to the left of who walks that way: upward where ``end`` lies to the right.
        """

    def shape(self, points: Sequence[Point], attributes: Attributes = NO_ATTRIBUTES) -> None:
        """Fill the polygon through points."""

    def text(self, text: Text, attributes: Attributes = NO_ATTRIBUTES) -> None:
        """Write words."""
