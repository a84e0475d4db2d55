"""Small drawings on the pages. Those of the demos are made once and kept.

Rules of the file: a drawing stands inside the page, so that it takes the colours of the page, and it is hidden from
readers, because the words beside it say the same; what would be an id or a tab stop there is taken off.
"""

from __future__ import annotations

import re
from functools import lru_cache

from markupsafe import Markup

from app.catalogue.catalogue import Catalogue
from app.drawing.connection.diagram import put_connection
from app.drawing.connection.plan import plan_connection
from app.drawing.surface.svg_writer import SvgWriter
from app.job.model import Layout
from app.web.demos import Demos

_DATA = re.compile(r' (?:data-[a-z-]+|role|id|aria-[a-z]+|tabindex)="[^"]*"')
_TEXT = re.compile(r"<text\b[^>]*>.*?</text>", re.DOTALL)
_TITLE = re.compile(r"<(title|desc)\b[^>]*?(?:/>|>.*?</\1>)", re.DOTALL)
_SIZE = re.compile(r'^(<svg\b[^>]*?) height="[^"]*"([^>]*?) width="[^"]*"')
MARGIN = 24
"""Around what is drawn, in sheet units."""


def demo_drawings(demos: Demos) -> dict[str, Markup]:
    """Return the drawing of each demo by its name."""
    return {demo.name: _demo_drawing(demos, demo.name) for demo in demos.listed()}


@lru_cache(maxsize=64)
def _demo_drawing(demos: Demos, name: str) -> Markup:
    opened = demos.open(name)
    return thumb_nail(opened.job.layouts[opened.job.default_layout()], opened.catalogue)


def thumb_nail(layout: Layout, catalogue: Catalogue) -> Markup:
    """Return the drawing of a layout for a list; at such a size nobody could read the lettering."""
    return Markup(_TEXT.sub("", small(picture_of(layout, catalogue))))


def small(svg: str) -> Markup:
    """Return a drawing of our own as a picture for a page."""
    bare = _TITLE.sub("", _DATA.sub("", svg[svg.index("<svg") :]))
    bare = _SIZE.sub(r"\1\2", bare)
    return Markup(bare.replace("<svg", '<svg aria-hidden="true" focusable="false"', 1))


def picture_of(layout: Layout, catalogue: Catalogue) -> str:
    """Return the connection diagram of a layout without frame, legend and title block, as SVG text."""
    plan = plan_connection(layout, catalogue)
    writer = SvgWriter()
    put_connection(writer, plan, catalogue)
    return writer.document(plan.content.grown(*4 * (MARGIN,)), "", "")
