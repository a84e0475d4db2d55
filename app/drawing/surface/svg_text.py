"""How each thing on a drawing is written in SVG: its attributes sorted, its numbers in one way, no style attribute.

Rules of the file: nothing is kept here. What is drawn may bear a class and ``data-`` attributes, which is why each
element can be written at once with every attribute in its place; only a group takes any attribute.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from app.drawing.surface.geometry import Box, Point
from app.drawing.surface.verbs import Anchor, Attributes, Font, Pen, Text

FAMILIES = {
    "words": "Liberation Sans, Arimo, Arial, Helvetica, sans-serif",
    "letters": "DejaVu Sans Mono, Menlo, Consolas, monospace",
}


def attributes_text(given: Attributes) -> str:
    """Return attributes as they stand in a tag, sorted by name, each with a space before it."""
    written = "".join([f' {name}="{given[name]}"' for name in sorted(given)])
    # Hardly any value needs an escape, so all are looked at together.
    if "&" in written or "<" in written or ">" in written or written.count('"') != 2 * len(given):
        return "".join([f' {name}="{escaped(given[name])}"' for name in sorted(given)])
    return written


def line_text(points: Sequence[Point], pen: Pen, attributes: Attributes) -> str:
    """Return a line through points."""
    klass, data = _borne(attributes)
    return f'<path{klass} d="{_path(points)}"{data}{_stroke(pen)}/>'


def rect_text(box: Box, pen: Pen, attributes: Attributes) -> str:
    """Return the edges of a box."""
    klass, data = _borne(attributes)
    x, y, w, h = box
    return f'<rect{klass}{data} height="{h}"{_stroke(pen)} width="{w}" x="{x}" y="{y}"/>'


def circle_text(centre: Point, radius: int, pen: Pen | None, attributes: Attributes) -> str:
    """Return a ring, or a dot where there is no pen."""
    klass, data = _borne(attributes)
    look = f' fill="currentColor" r="{radius}"' if pen is None else f' r="{radius}"{_stroke(pen)}'
    return f'<circle{klass} cx="{centre.x}" cy="{centre.y}"{data}{look}/>'


def arch_text(start: Point, end: Point, pen: Pen, attributes: Attributes) -> str:
    """Return a half circle."""
    klass, data = _borne(attributes)
    radius = (abs(end.x - start.x) + abs(end.y - start.y)) // 2
    path = f"M{start.x} {start.y}A{radius} {radius} 0 0 1 {end.x} {end.y}"
    return f'<path{klass} d="{path}"{data}{_stroke(pen)}/>'


def shape_text(points: Sequence[Point], attributes: Attributes) -> str:
    """Return a filled polygon."""
    klass, data = _borne(attributes)
    return f'<path{klass} d="{_path(points)}z"{data} fill="currentColor"/>'


def words_text(text: Text, attributes: Attributes) -> str:
    """Return words."""
    klass, data = _borne(attributes)
    (x, y), words, font, width, anchor, upright = text
    turned = "" if upright else f' transform="rotate(-90 {x} {y})"'
    place = f' textLength="{width}"{turned} x="{x}" y="{y}"'
    tag = f"text{klass}{data}{_font(font, anchor)}{place}"
    return f"<{tag}>{escaped(words)}</text>" if words else f"<{tag}/>"


def escaped(words: str) -> str:
    """Return words as they stand in SVG."""
    if "&" in words or "<" in words or ">" in words or '"' in words:
        return words.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;").replace('"', "&quot;")
    return words


def _borne(attributes: Attributes) -> tuple[str, str]:
    """Return the class and the rest as text: every other attribute of an element has its place after one of them."""
    if not attributes:
        return "", ""
    klass = attributes.get("class")
    if klass is None:
        return "", _data(attributes)
    said = f' class="{escaped(klass)}"'
    return (said, "") if len(attributes) == 1 else (said, _data(attributes))


def _data(attributes: Attributes) -> str:
    for name in attributes:
        if not name.startswith("data-") and name != "class":
            raise ValueError(f"what is drawn bears a class and data, and not {name}; a group may bear it")
    return attributes_text({name: value for name, value in attributes.items() if name != "class"})


@lru_cache(maxsize=256)
def _stroke(pen: Pen) -> str:
    dash = f' stroke-dasharray="{pen.dash}"' if pen.dash else ""
    return f' stroke="currentColor"{dash} stroke-width="{pen.width:g}"'


@lru_cache(maxsize=256)
def _font(font: Font, anchor: Anchor) -> str:
    family = f' font-family="{FAMILIES["letters"]}"' if font.family == "letters" else ""
    bold = ' font-weight="bold"' if font.bold else ""
    start = f' text-anchor="{anchor}"' if anchor != "start" else ""
    size = f' font-size="{font.size}"'
    return f' fill="currentColor"{family}{size}{bold} lengthAdjust="spacingAndGlyphs"{start}'


def _path(points: Sequence[Point]) -> str:
    return "M" + "L".join([f"{x} {y}" for x, y in points])
