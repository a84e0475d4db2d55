"""A surface that writes SVG; the one file that knows svgwrite.

Rules of the file: attributes stand in one order, first those that are given and then those of the shape; numbers are
written in one way; there is no style attribute. So the same drawing gives the same bytes and stands under a strict
Content-Security-Policy. svgwrite gives the document; what lies in it is written as text at once, because a tree of
elements costs more than the whole drawing. The tests parse what is written.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from svgwrite.base import BaseElement, Desc, Title

from app.drawing.geometry import Box, Point
from app.drawing.surface import NO_ATTRIBUTES, Attributes, Font, Pen, Text
from app.drawing.text_width import printable

FAMILIES = {
    "words": "Liberation Sans, Arial, Helvetica, sans-serif",
    "letters": "DejaVu Sans Mono, Menlo, Consolas, monospace",
}


class _Document(BaseElement):  # type: ignore[misc]
    """The outermost element."""

    elementname = "svg"


class SvgWriter:
    """Collects a drawing; ``document`` gives it as SVG text."""

    def __init__(self) -> None:
        self._written: list[str] = []

    def begin(self, attributes: Attributes = NO_ATTRIBUTES, title: str = "") -> None:
        """Open a group."""
        self._written.append(f"<g{_given(attributes)}>")
        if title:
            self._written.append(f"<title>{_escaped(printable(title))}</title>")

    def end(self) -> None:
        """Close a group."""
        self._written.append("</g>")

    def line(self, points: Sequence[Point], pen: Pen, attributes: Attributes = NO_ATTRIBUTES) -> None:
        """Draw a line through points."""
        self._written.append(f'<path{_given(attributes)} d="{_path(points)}"{_stroke(pen)}/>')

    def rect(self, box: Box, pen: Pen, attributes: Attributes = NO_ATTRIBUTES) -> None:
        """Draw the edges of a box."""
        x, y, width, height = box
        place = f'width="{width}" x="{x}" y="{y}"'
        self._written.append(f'<rect{_given(attributes)} height="{height}"{_stroke(pen)} {place}/>')

    def circle(self, centre: Point, radius: int, pen: Pen | None, attributes: Attributes = NO_ATTRIBUTES) -> None:
        """Draw a ring or a dot."""
        x, y = centre
        look = f' r="{radius}"{_stroke(pen)}' if pen else f' fill="currentColor" r="{radius}"'
        self._written.append(f'<circle{_given(attributes)} cx="{x}" cy="{y}"{look}/>')

    def shape(self, points: Sequence[Point], attributes: Attributes = NO_ATTRIBUTES) -> None:
        """Fill a polygon."""
        self._written.append(f'<path{_given(attributes)} d="{_path(points)}z" fill="currentColor"/>')

    def text(self, text: Text, attributes: Attributes = NO_ATTRIBUTES) -> None:
        """Write words."""
        x, y = text.at
        anchor = f' text-anchor="{text.anchor}"' if text.anchor != "start" else ""
        turned = f' transform="rotate(-90 {x} {y})"' if not text.upright else ""
        self._written.append(
            f'<text{_given(attributes)}{_look(text.font)}{anchor} textLength="{text.width}"{turned} x="{x}" y="{y}">'
            f"{_escaped(text.words)}</text>"
        )

    def document(self, view: Box, title: str, description: str) -> str:
        """Return the SVG document that shows ``view``; ``title`` and ``description`` are what a reader hears."""
        document = _Document(
            debug=False,
            **{
                "xmlns": "http://www.w3.org/2000/svg",
                "viewBox": f"{view.x} {view.y} {view.w} {view.h}",
                "width": str(view.w),
                "height": str(view.h),
                "role": "graphics-document document",
                "aria-roledescription": "wiring diagram",
                "fill": "none",
                "stroke-linejoin": "round",
                "font-family": FAMILIES["words"],
            },
        )
        document.add(Title(printable(title)))
        document.add(Desc(printable(description)))
        around = document.tostring()
        end = len(around) - len("</svg>")
        return "".join((around[:end], *self._written, around[end:], "\n"))


def _given(attributes: Attributes) -> str:
    if not attributes:
        return ""
    # Hardly any value needs an escape, so all are looked at together.
    written = "".join([f' {name}="{attributes[name]}"' for name in sorted(attributes)])
    if "&" in written or "<" in written or ">" in written or written.count('"') != 2 * len(attributes):
        return "".join([f' {name}="{_escaped(attributes[name])}"' for name in sorted(attributes)])
    return written


@lru_cache(maxsize=16)
def _stroke(pen: Pen) -> str:
    dash = f' stroke-dasharray="{pen.dash}"' if pen.dash else ""
    return f' stroke="currentColor"{dash} stroke-width="{pen.width:g}"'


@lru_cache(maxsize=16)
def _look(font: Font) -> str:
    family = f' font-family="{FAMILIES[font.family]}"' if font.family == "letters" else ""
    weight = ' font-weight="bold"' if font.bold else ""
    return f' fill="currentColor"{family} font-size="{font.size}"{weight} lengthAdjust="spacingAndGlyphs"'


def _escaped(words: str) -> str:
    if "&" in words or "<" in words or ">" in words or '"' in words:
        return words.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;").replace('"', "&quot;")
    return words


def _path(points: Sequence[Point]) -> str:
    return "M" + "L".join([f"{x} {y}" for x, y in points])
