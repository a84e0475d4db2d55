"""A surface that writes SVG; the one file that knows svgwrite.

Rules of the file: the same drawing gives the same bytes, and stands under a strict Content-Security-Policy. svgwrite
gives the document and what a reader hears of it; its validation is off, since it costs more than the whole drawing.
What is drawn is written as text at once (``svg_text``): a drawing of a hundred parts has five thousand elements, and
as objects they cost as much as finding out where they stand. The tests parse what is written.
Each thing that lies on the sheet itself or in a layer stands in a line of its own, and so do the tags of the layer: a
page that has the drawing before this one compares lines, and reads only those that are new to it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from svgwrite.base import BaseElement
from svgwrite.params import Parameter

from app.drawing.surface.geometry import Box, Point
from app.drawing.surface.svg_text import (
    FAMILIES,
    arch_text,
    attributes_text,
    circle_text,
    escaped,
    line_text,
    rect_text,
    shape_text,
    words_text,
)
from app.drawing.surface.text_width import printable
from app.drawing.surface.verbs import NO_ATTRIBUTES, Attributes, Pen, Text

_UNCHECKED = Parameter(debug=False, profile="full")


class _Element(BaseElement):  # type: ignore[misc]
    """An SVG element whose attributes are text already. ``inside`` is what it holds after its children, as SVG."""

    def __init__(self, name: str, attributes: Mapping[str, str], words: str = "", inside: str = "") -> None:
        self._parameter = _UNCHECKED
        self.elementname = name
        self.attribs = attributes
        self.elements: list[_Element] = []
        self.words = words
        self.inside = inside

    def tostring(self) -> str:
        """Return this element and what it holds as SVG text, attributes sorted."""
        tag = f"<{self.elementname}{attributes_text(self.attribs)}"
        held = escaped(self.words) + "".join([each.tostring() for each in self.elements]) + self.inside
        return f"{tag}>{held}</{self.elementname}>" if held else f"{tag}/>"


class SvgWriter:
    """Collects a drawing; ``document`` gives it as SVG text."""

    def __init__(self) -> None:
        self._out: list[str] = []
        self._open: list[tuple[str, int]] = []
        """The name of each open element, and how much was written when its tag was."""

    def begin(self, attributes: Attributes = NO_ATTRIBUTES, title: str = "") -> None:
        """Open a group."""
        self._begin("g", attributes)
        if title:
            self._put(_titled("title", title))

    def end(self) -> None:
        """Close a group."""
        name, length = self._open.pop()
        if len(self._out) == length:
            self._out[-1] = f"{self._out[-1].rstrip()[:-1]}/>"
        else:
            self._out.append(f"</{name}>")
        self._end_line()

    def line(self, points: Sequence[Point], pen: Pen, attributes: Attributes = NO_ATTRIBUTES) -> None:
        """Draw a line through points."""
        self._put(line_text(points, pen, attributes))

    def rect(self, box: Box, pen: Pen, attributes: Attributes = NO_ATTRIBUTES) -> None:
        """Draw the edges of a box."""
        self._put(rect_text(box, pen, attributes))

    def circle(self, centre: Point, radius: int, pen: Pen | None, attributes: Attributes = NO_ATTRIBUTES) -> None:
        """Draw a ring or a dot."""
        self._put(circle_text(centre, radius, pen, attributes))

    def arch(self, start: Point, end: Point, pen: Pen, attributes: Attributes = NO_ATTRIBUTES) -> None:
        """Draw a half circle."""
        self._put(arch_text(start, end, pen, attributes))

    def shape(self, points: Sequence[Point], attributes: Attributes = NO_ATTRIBUTES) -> None:
        """Fill a polygon."""
        self._put(shape_text(points, attributes))

    def text(self, text: Text, attributes: Attributes = NO_ATTRIBUTES) -> None:
        """Write words."""
        self._put(words_text(text, attributes))

    def begin_window(self, place: Box, window: Box) -> None:
        """Open a group that shows ``window`` of what is drawn in it, and nothing else, at ``place``."""
        view = {"viewBox": f"{window.x} {window.y} {window.w} {window.h}", "overflow": "hidden"}
        at = {"x": str(place.x), "y": str(place.y), "width": str(place.w), "height": str(place.h)}
        self._begin("svg", {**at, **view})

    def document(
        self, view: Box, title: str, description: str, size: tuple[str, str] | None = None, sort: str = "drawing"
    ) -> str:
        """Return the SVG document that shows ``view``; ``title`` and ``description`` are what a reader hears.

        ``size`` is its width and height, with their unit; without it one u is one CSS pixel. ``sort`` is what a reader
        is told that it is, such as "ladder diagram".
        """
        width, height = size or (str(view.w), str(view.h))
        document = _Element(
            "svg",
            {
                "xmlns": "http://www.w3.org/2000/svg",
                "viewBox": f"{view.x} {view.y} {view.w} {view.h}",
                "width": width,
                "height": height,
                "role": "graphics-document document",
                "aria-roledescription": sort or "drawing",
                "fill": "none",
                "stroke-linejoin": "round",
                "font-family": FAMILIES["words"],
            },
            inside="\n" + "".join(self._out),
        )
        document.elements += [
            _Element("title", {}, printable(title)),
            _Element("desc", {}, printable(description)),
        ]
        return document.tostring() + "\n"

    def _begin(self, name: str, attributes: Attributes) -> None:
        self._out.append(f"<{name}{attributes_text(attributes)}>")
        self._open.append((name, len(self._out)))
        if len(self._open) == 1:
            self._end_line()

    def _put(self, text: str) -> None:
        self._out.append(text)
        self._end_line()

    def _end_line(self) -> None:
        if len(self._open) <= 1:
            self._out[-1] += "\n"


def _titled(name: str, words: str) -> str:
    said = printable(words)
    return f"<{name}>{escaped(said)}</{name}>" if said else f"<{name}/>"
