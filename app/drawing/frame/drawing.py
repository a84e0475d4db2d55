"""What a view hands to the frame: something that can be put on a surface, with what the frame must know of it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from app.drawing.frame.legend import Mark
from app.drawing.surface.geometry import Box
from app.drawing.surface.verbs import Surface

CONDUCTOR = "data-conductor"
"""The attribute of the group in which a conductor is drawn."""
WIRE = "wire"
"""The class of lines through which current goes."""
GIVES_WAY = "purpose"
"""The class of words that may be left out where a sheet of paper is cut, because a list tells the same."""


@dataclass(frozen=True)
class Drawing:
    """One view of a layout, not yet on a sheet. Coordinates are absolute and stay what they are on every sheet."""

    view: str
    """What the title block calls it, such as "Connection diagram"."""
    content: Box
    """All that is drawn lies in it."""
    marks: tuple[Mark, ...]
    """The marks that stand on it, in the order in which the legend lists them."""
    description: str
    """What a reader hears about the whole."""
    put: Callable[[Surface], None]
    """Draws it."""
    whole: tuple[Box, ...] = ()
    """What should not be cut where one sheet is not enough: the boxes of parts, or the rungs of a ladder."""
    names: Mapping[Box, str] = field(default_factory=dict)
    """What people call what stands in some of these boxes."""
    heads: Mapping[Box, str] = field(default_factory=dict)
    """By what something is looked up in some of these boxes, where it fills several sheets: a sheet says from which to
    which it leads."""
    goes_on: tuple[str, ...] = (CONDUCTOR,)
    """The attributes by whose value lines in a group are told where a sheet ends; the first that is found counts."""
    called: Mapping[str, str] = field(default_factory=dict)
    """What people call each of these, where that is not its name."""
    level_marks: bool = False
    """Whether what crosses the upper or lower end of a sheet is told in level words: where few lines do, far apart."""
    from_above: bool = False
    """Whether it begins at the upper end of a sheet, as lists do, and does not stand in the middle."""
    scale: float | None = None
    """Tenths of a millimetre to one u on paper where what is drawn has a size of its own, else None."""
    apart: tuple[Drawing, ...] = ()
    """What it is made up of, where each of that has sheets of its own if not all of it fits onto one.

    Of a part of another drawing: what is put in its place, where something of it would be whole on no sheet.
    """
