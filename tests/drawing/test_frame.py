"""What frames a drawing: title block, caution, a description for readers."""

from __future__ import annotations

from xml.etree import ElementTree

from app.drawing.connection.diagram import draw_connection
from app.drawing.frame.legend import Mark
from app.drawing.frame.title_block import CAUTION, CAUTION_WIDTH, SheetWords, draw_frame, sheet_around, wrapped
from app.drawing.surface.geometry import Box
from app.drawing.surface.recorder import Recorder
from app.drawing.surface.text_width import width_of
from app.drawing.surface.verbs import SMALL
from app.job.model import Job
from app.job.sketch import sketch
from tests.drawing.generated import CATALOGUE

SVG = "{http://www.w3.org/2000/svg}"
LAYOUT = sketch({"fb": "furnace-board", "tc": "thermostat-heat-cool"}, "fb.R tc.R", "fb.G tc.G")
JOB = Job(title="Mill house", layouts={"as-left": LAYOUT.model_copy(update={"label": "After the flood"})})


def words_in(drawing: str, group: str) -> list[str]:
    root = ElementTree.fromstring(drawing)
    (found,) = [element for element in root.iter() if element.get("class") == group]
    return [text.text or "" for text in found.iter(f"{SVG}text")]


def test_the_title_block_says_job_layout_view_date_and_situation() -> None:
    drawing = draw_connection(JOB, "as-left", CATALOGUE, dated="3 May", situation_words="Thermostat: cool-1")
    assert words_in(drawing, "title-block") == [
        "Mill house",
        "After the flood",
        "Connection diagram, sheet 1 of 1",
        "Date: 3 May",
        "Shown: Thermostat: cool-1",
    ]


def test_what_is_shown_is_written_whole_beside_a_legend_that_is_high() -> None:
    marks = [Mark(f"mark-{number}", "something", lambda surface, at: None) for number in range(12)]
    situation = ", ".join(f"tc calls heat 1 at {minute}:00, tc idle at {minute}:30" for minute in range(5))
    words = SheetWords("Mill house", "as left", "Timing chart", "", situation)
    for count, whole in ((12, True), (2, False)):
        sheet = sheet_around(Box(0, 0, 900, 300), marks[:count])
        recorder = Recorder()
        draw_frame(recorder, sheet, marks[:count], words)
        said = [record for record in recorder.drawn("text") if record.groups[-1].get("class") == "title-block"]
        told = " ".join(record.text.words for record in said if record.text is not None)
        assert told.endswith(situation) == whole
        assert told.endswith("…") != whole
        (edge,) = [record.box for record in recorder.drawn("rect") if record.groups[-1].get("class") == "title-block"]
        assert edge is not None
        assert edge.bottom < sheet.bottom
        assert all(edge.y < box.y and box.bottom < edge.bottom for record in said if (box := record.bounds()))


def test_a_layout_without_a_label_is_called_by_its_id() -> None:
    job = Job(title="Mill house", layouts={"as-left": LAYOUT})
    assert words_in(draw_connection(job, "as-left", CATALOGUE), "title-block")[1] == "as left"


def test_the_date_is_the_callers_and_stays_open_without_one() -> None:
    assert "Date:" in words_in(draw_connection(JOB, "as-left", CATALOGUE), "title-block")


def test_the_whole_caution_stands_on_every_sheet() -> None:
    assert " ".join(words_in(draw_connection(JOB, "as-left", CATALOGUE), "caution")) == f"Caution {CAUTION}"


def test_rows_are_no_wider_than_asked() -> None:
    rows = wrapped(CAUTION, SMALL, CAUTION_WIDTH)
    assert max(width_of(row, SMALL) for row in rows) <= CAUTION_WIDTH
    assert len(rows) > 1


def test_a_reader_hears_parts_conductors_and_situation() -> None:
    root = ElementTree.fromstring(draw_connection(JOB, "as-left", CATALOGUE, situation_words="idle"))
    assert root.findtext(f"{SVG}title") == "Mill house, After the flood: connection diagram"
    assert root.findtext(f"{SVG}desc") == "2 parts: fb, tc. 2 conductors. Shown: idle."
    spoken = [e.findtext(f"{SVG}title") for e in root.iter() if e.get("data-conductor")]
    assert spoken == ["w1: fb.R to tc.R", "w2: fb.G to tc.G"]
