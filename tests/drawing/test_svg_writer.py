"""What is written: SVG that an XML parser reads, attributes sorted, nothing lost on the way from the recorder."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest

from app.drawing.connection.diagram import draw_connection
from app.drawing.surface.geometry import Box, Point
from app.drawing.surface.recorder import Recorder
from app.drawing.surface.svg_writer import SvgWriter
from app.drawing.surface.verbs import HEAVY, LETTER, NAME, NOT_IN_USE, SMALL, Surface, Text
from app.job.model import Conductor, Job, Layout, Part
from tests.demo_jobs.demos import NAMES, demo
from tests.drawing.generated import CATALOGUE, generated_layout, job_of

SVG = "{http://www.w3.org/2000/svg}"


def a_drawing(surface: Surface) -> None:
    """Draw one thing with each verb."""
    surface.begin({"data-part": "fb", "class": "part"}, 'Board <1> & "two"')
    surface.line((Point(0, 0), Point(12, 0), Point(12, 24)), NOT_IN_USE, {"class": "wire"})
    surface.rect(Box(1, 2, 3, 4), HEAVY)
    surface.circle(Point(5, 6), 5, HEAVY)
    surface.circle(Point(7, 8), 3, None)
    surface.arch(Point(0, 8), Point(10, 8), HEAVY)
    surface.shape((Point(0, 0), Point(1, 1), Point(0, 2)))
    surface.text(Text(Point(9, 9), "O/B", LETTER, 26, "end"))
    surface.text(Text(Point(9, 9), "a < b & c", NAME, 40, upright=False), {"class": "name"})
    surface.end()
    surface.text(Text(Point(1, 1), "after", SMALL, 20, "middle"))


def document_of(surface: SvgWriter) -> ElementTree.Element:
    return ElementTree.fromstring(surface.document(Box(-10, -20, 300, 200), "A title", "What it is"))


def test_each_verb_is_written() -> None:
    writer = SvgWriter()
    a_drawing(writer)
    root = document_of(writer)
    group = root.find(f"{SVG}g")
    assert group is not None
    assert group.attrib == {"data-part": "fb", "class": "part"}
    assert [child.tag.removeprefix(SVG) for child in group] == [
        "title", "path", "rect", "circle", "circle", "path", "path", "text", "text",
    ]  # fmt: skip
    title, line, rect, ring, dot, arch, shape, letter, name = group
    assert title.text == 'Board <1> & "two"'
    assert (line.get("d"), line.get("stroke-dasharray"), line.get("fill")) == ("M0 0L12 0L12 24", "12 6", None)
    assert (rect.get("x"), rect.get("y"), rect.get("width"), rect.get("height")) == ("1", "2", "3", "4")
    assert (rect.get("stroke-width"), ring.get("stroke")) == ("3.5", "currentColor")
    assert (dot.get("fill"), dot.get("stroke")) == ("currentColor", None)
    assert (arch.get("d"), arch.get("fill")) == ("M0 8A5 5 0 0 1 10 8", None)
    assert shape.get("d") == "M0 0L1 1L0 2z"
    assert (letter.get("text-anchor"), letter.get("textLength")) == ("end", "26")
    assert "DejaVu Sans Mono" in (letter.get("font-family") or "")
    assert (name.text, name.get("transform"), name.get("font-weight")) == ("a < b & c", "rotate(-90 9 9)", "bold")


def test_a_reader_hears_what_the_document_is() -> None:
    root = document_of(SvgWriter())
    assert root.get("role") == "graphics-document document"
    assert root.get("viewBox") == "-10 -20 300 200"
    assert [root.findtext(f"{SVG}title"), root.findtext(f"{SVG}desc")] == ["A title", "What it is"]


def test_attributes_are_sorted() -> None:
    writer = SvgWriter()
    a_drawing(writer)
    for tag in re.findall(r"<[a-z]+( [^>]*?)/?>", writer.document(Box(0, 0, 1, 1), "t", "d")):
        names = re.findall(r' ([a-zA-Z-]+)="', tag)
        assert names == sorted(names)


def test_an_element_bears_its_class_and_data_in_order() -> None:
    writer = SvgWriter()
    borne = {"data-volts": 'a "b"', "class": "x & y"}
    writer.line((Point(0, 0), Point(1, 0)), NOT_IN_USE, borne)
    writer.rect(Box(1, 2, 3, 4), HEAVY, borne)
    writer.circle(Point(5, 6), 5, HEAVY, borne)
    writer.circle(Point(7, 8), 3, None, borne)
    writer.arch(Point(0, 8), Point(10, 8), HEAVY, borne)
    writer.shape((Point(0, 0), Point(1, 1)), borne)
    writer.text(Text(Point(9, 9), "a", NAME, 40, "end", upright=False), borne)
    elements = list(document_of(writer))[2:]
    assert len(elements) == 7
    for element in elements:
        assert (element.get("class"), element.get("data-volts")) == ("x & y", 'a "b"')
        assert list(element.attrib) == sorted(element.attrib)


def test_an_element_takes_no_attribute_that_has_no_place_in_it() -> None:
    with pytest.raises(ValueError, match="style"):
        SvgWriter().rect(Box(1, 2, 3, 4), HEAVY, {"style": "fill:red"})


def test_a_group_with_nothing_in_it_is_one_tag() -> None:
    writer = SvgWriter()
    writer.begin({"data-layer": "parts"})
    writer.begin({"class": "inner"})
    writer.end()
    writer.end()
    assert '<g class="inner"/>' in writer.document(Box(0, 0, 1, 1), "t", "d")


def test_what_lies_in_a_layer_stands_in_a_line_of_its_own() -> None:
    writer = SvgWriter()
    writer.begin({"data-layer": "parts"}, title="Parts\nof it")
    writer.begin({"data-part": "fb"}, title="Furnace")
    writer.circle(Point(5, 6), 5, HEAVY)
    writer.end()
    writer.end()
    writer.begin({"data-layer": "none"})
    writer.end()
    writer.line((Point(0, 0), Point(1, 0)), NOT_IN_USE, {"class": "alone"})
    head, *lines = writer.document(Box(0, 0, 1, 1), "t", "d").splitlines()
    starts = ["<g data-layer", "<title>Parts of it</title>", "<g data-part", "</g>", "<g data-layer", "<path", "</svg>"]
    assert [line.startswith(start) for line, start in zip(lines, starts, strict=True)] == [True] * len(starts)
    assert head.endswith("</desc>")
    assert lines[2].endswith("</g>")
    assert lines[4] == '<g data-layer="none"/>'


def test_what_a_recorder_kept_is_written_the_same() -> None:
    recorder, direct, replayed = Recorder(), SvgWriter(), SvgWriter()
    a_drawing(recorder)
    a_drawing(direct)
    recorder.replay(replayed)
    view = Box(0, 0, 10, 10)
    assert replayed.document(view, "t", "d") == direct.document(view, "t", "d")


@pytest.mark.parametrize("name", NAMES)
def test_demos_are_read_by_a_parser_with_every_hook_once(name: str) -> None:
    opened = demo(name)
    layout = opened.job.default_layout()
    root = ElementTree.fromstring(draw_connection(opened.job, layout, opened.catalogue, dated="1 May"))
    for attribute, count in (
        ("data-part", len(opened.job.layouts[layout].parts)),
        ("data-conductor", len(opened.job.layouts[layout].conductors)),
        ("data-end", 2 * len(opened.job.layouts[layout].conductors)),
    ):
        found = [element.get(attribute) for element in root.iter() if element.get(attribute) is not None]
        assert len(found) == len(set(found)) == count


def test_any_words_of_a_document_make_a_drawing_that_can_be_read() -> None:
    layout = Layout(
        label="<&>\"'\x07",
        parts={"a": Part(kind="splice", label="\x00 & ]]> <script>"), "b": Part(kind="unknown", place="\x1f<")},
        conductors={"w1": Conductor.model_validate({"ends": ["a.1", {"unknown": "\x0b<b>"}]})},
    )
    job = Job(title="\ufffe T & <t>", layouts={"as-left": layout})
    root = ElementTree.fromstring(draw_connection(job, "as-left", CATALOGUE, dated="\x02", situation_words="<\x03>"))
    assert not root.findall(".//script")


def test_layouts_by_chance_are_read_by_a_parser() -> None:
    ElementTree.fromstring(draw_connection(job_of(generated_layout(11, 25)), "as-left", CATALOGUE))
