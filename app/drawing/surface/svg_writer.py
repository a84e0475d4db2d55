"""A surface that writes SVG; the one file that knows svgwrite.

Rules of the file: attributes are sorted, numbers are written in one way, and there is no style attribute, so that the
same drawing gives the same bytes and stands under a strict Content-Security-Policy. svgwrite gives the tree; its
validation is off and the tree is written out here, because its validation and its serializer each cost more than the
whole drawing. The tests parse what is written instead.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from svgwrite.base import BaseElement
from svgwrite.params import Parameter

from app.drawing.surface.geometry import Box, Point
from app.drawing.surface.text_width import printable
from app.drawing.surface.verbs import NO_ATTRIBUTES, Attributes, Pen, Text

FAMILIES = {
    "words": "Liberation Sans, Arimo, Arial, Helvetica, sans-serif",
    "letters": "DejaVu Sans Mono, Menlo, Consolas, monospace",
}
_UNCHECKED = Parameter(debug=False, profile="full")


class _Element(BaseElement):  # type: ignore[misc]
    """An SVG element whose attributes are text already."""

    def __init__(self, name: str, attributes: Mapping[str, str], words: str = "") -> None:
        self._parameter = _UNCHECKED
        self.elementname = name
        self.attribs = attributes
        self.elements: list[_Element] = []
        self.words = words

    def tostring(self) -> str:
        """Return this element and what it holds as SVG text, attributes sorted."""
        out: list[str] = []
        self.write_to(out)
        return "".join(out)

    def write_to(self, out: list[str]) -> None:
        """Append this element as SVG text."""
        given = self.attribs
        attributes = "".join([f' {name}="{given[name]}"' for name in sorted(given)])
        # Hardly any value needs an escape, so all are looked at together.
        if "&" in attributes or "<" in attributes or ">" in attributes or attributes.count('"') != 2 * len(given):
            attributes = "".join([f' {name}="{_escaped(given[name])}"' for name in sorted(given)])
        if not self.elements and not self.words:
            out.append(f"<{self.elementname}{attributes}/>")
            return
        out.append(f"<{self.elementname}{attributes}>{_escaped(self.words)}")
        for child in self.elements:
            child.write_to(out)
        out.append(f"</{self.elementname}>")


class SvgWriter:
    """Collects a drawing; ``document`` gives it as SVG text."""

    def __init__(self) -> None:
        self._root = _Element("g", {})
        self._open = [self._root]

    def begin(self, attributes: Attributes = NO_ATTRIBUTES, title: str = "") -> None:
        """Open a group."""
        group = self._add("g", attributes)
        if title:
            group.elements.append(_Element("title", {}, printable(title)))
        self._open.append(group)

    def end(self) -> None:
        """Close a group."""
        self._open.pop()

    def line(self, points: Sequence[Point], pen: Pen, attributes: Attributes = NO_ATTRIBUTES) -> None:
        """Draw a line through points."""
        self._add("path", {"d": _path(points), **_stroke(pen), **attributes})

    def rect(self, box: Box, pen: Pen, attributes: Attributes = NO_ATTRIBUTES) -> None:
        """Draw the edges of a box."""
        place = {"x": str(box.x), "y": str(box.y), "width": str(box.w), "height": str(box.h)}
        self._add("rect", {**place, **_stroke(pen), **attributes})

    def circle(self, centre: Point, radius: int, pen: Pen | None, attributes: Attributes = NO_ATTRIBUTES) -> None:
        """Draw a ring or a dot."""
        place = {"cx": str(centre.x), "cy": str(centre.y), "r": str(radius)}
        self._add("circle", {**place, **(_stroke(pen) if pen else _FILL), **attributes})

    def arch(self, start: Point, end: Point, pen: Pen, attributes: Attributes = NO_ATTRIBUTES) -> None:
        """Draw a half circle."""
        radius = (abs(end.x - start.x) + abs(end.y - start.y)) // 2
        path = f"M{start.x} {start.y}A{radius} {radius} 0 0 1 {end.x} {end.y}"
        self._add("path", {"d": path, **_stroke(pen), **attributes})

    def shape(self, points: Sequence[Point], attributes: Attributes = NO_ATTRIBUTES) -> None:
        """Fill a polygon."""
        self._add("path", {"d": _path(points) + "z", **_FILL, **attributes})

    def text(self, text: Text, attributes: Attributes = NO_ATTRIBUTES) -> None:
        """Write words."""
        x, y = str(text.at.x), str(text.at.y)
        given = {"x": x, "y": y, "font-size": str(text.font.size), "textLength": str(text.width), **_FILL}
        if text.font.family == "letters":
            given["font-family"] = FAMILIES["letters"]
        if text.font.bold:
            given["font-weight"] = "bold"
        if text.anchor != "start":
            given["text-anchor"] = text.anchor
        if not text.upright:
            given["transform"] = f"rotate(-90 {x} {y})"
        self._add("text", {**given, "lengthAdjust": "spacingAndGlyphs", **attributes}, text.words)

    def begin_window(self, place: Box, window: Box) -> None:
        """Open a group that shows ``window`` of what is drawn in it, and nothing else, at ``place``."""
        view = {"viewBox": f"{window.x} {window.y} {window.w} {window.h}", "overflow": "hidden"}
        at = {"x": str(place.x), "y": str(place.y), "width": str(place.w), "height": str(place.h)}
        self._open.append(self._add("svg", {**at, **view}))

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
        )
        document.elements += [
            _Element("title", {}, printable(title)),
            _Element("desc", {}, printable(description)),
            *self._root.elements,
        ]
        return document.tostring() + "\n"

    def _add(self, name: str, attributes: Mapping[str, str], words: str = "") -> _Element:
        element = _Element(name, attributes, words)
        self._open[-1].elements.append(element)
        return element


_FILL = {"fill": "currentColor"}


def _stroke(pen: Pen) -> dict[str, str]:
    given = {"stroke": "currentColor", "stroke-width": f"{pen.width:g}"}
    if pen.dash:
        given["stroke-dasharray"] = pen.dash
    return given


def _escaped(words: str) -> str:
    if "&" in words or "<" in words or ">" in words or '"' in words:
        return words.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;").replace('"', "&quot;")
    return words


def _path(points: Sequence[Point]) -> str:
    return "M" + "L".join(f"{x} {y}" for x, y in points)
