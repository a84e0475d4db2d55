"""Small drawings on the pages: of the demos, and of the examples of a rule. Each is made once and kept.

Rules of the file: a drawing stands inside the page, so that it takes the colours of the page, and it is hidden from
readers, because the words beside it say the same; what would be an id or a tab stop there is taken off.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from markupsafe import Markup

from app.catalogue.catalogue import Catalogue
from app.catalogue.structure import catalogue_for
from app.checks.registry import rule_named
from app.checks.rule import EXAMPLE_LAYOUT, Bad, Good
from app.drawing.connection import put_connection
from app.drawing.plan import plan_connection
from app.drawing.svg_writer import SvgWriter
from app.job.model import Job, Layout
from app.web.demos import Demos

_DATA = re.compile(r' (?:data-[a-z-]+|role|id|aria-[a-z]+|tabindex)="[^"]*"')
_TEXT = re.compile(r"<text\b[^>]*>.*?</text>", re.DOTALL)
_TITLE = re.compile(r"<(title|desc)\b[^>]*>.*?</\1>", re.DOTALL)
_SIZE = re.compile(r'^(<svg\b[^>]*?) height="[^"]*"([^>]*?) width="[^"]*"')
MARGIN = 24
"""Around what is drawn, in sheet units."""


@dataclass(frozen=True)
class ExampleDrawing:
    """An example of a rule: its name in words, whether the rule speaks there, and the drawing."""

    name: str
    sort: str
    drawing: Markup


def demo_drawings(demos: Demos) -> dict[str, Markup]:
    """Return the drawing of each demo by its name."""
    return {demo.name: _demo_drawing(demos, demo.name) for demo in demos.listed()}


@lru_cache(maxsize=64)
def _demo_drawing(demos: Demos, name: str) -> Markup:
    opened = demos.open(name)
    layout = opened.job.layouts[opened.job.default_layout()]
    # At the size of a thumb nail nobody could read the lettering.
    return Markup(_TEXT.sub("", small(picture_of(layout, opened.catalogue))))


@lru_cache(maxsize=128)
def example_drawings(name: str) -> tuple[ExampleDrawing, ...]:
    """Return the drawings of the examples of a rule, those on which it speaks first.

    Raises:
        KeyError: there is no rule of this name.
    """
    rule = rule_named(name)
    bad = [ExampleDrawing(_plain(one), "bad", _example(one.job())) for one in rule.bad]
    good = [ExampleDrawing(_plain(one), "near" if one.near_miss else "good", _example(one.job())) for one in rule.good]
    return (*bad, *good)


def small(svg: str) -> Markup:
    """Return a drawing of our own as a picture for a page."""
    bare = _TITLE.sub("", _DATA.sub("", svg[svg.index("<svg") :]))
    bare = _SIZE.sub(r"\1\2", bare)
    return Markup(bare.replace("<svg", '<svg aria-hidden="true" focusable="false"', 1))


def _plain(example: Good | Bad) -> str:
    words = example.name.replace("-", " ")
    return words[:1].upper() + words[1:]


def _example(job: Job) -> Markup:
    return small(picture_of(job.layouts[EXAMPLE_LAYOUT], catalogue_for(job)))


def picture_of(layout: Layout, catalogue: Catalogue) -> str:
    """Return the connection diagram of a layout without frame, legend and title block, as SVG text."""
    plan = plan_connection(layout, catalogue)
    writer = SvgWriter()
    put_connection(writer, plan, catalogue)
    return writer.document(plan.content.grown(*4 * (MARGIN,)), "", "")
