"""Any text is a job or is refused in words by row; what is a job is written and read back without end."""

from __future__ import annotations

from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from app.job.model import Layout
from app.job.refusal import Refused
from app.tables.csv_text import csv_text
from app.tables.job_from_tables import FromTables, Tables, job_from_tables
from app.tables.part_rows import cables_table, parts_table
from app.tables.wire_rows import wire_rows, wires_csv

HEADING_WORDS = """conductor|wire|From|to|TO|cable|insulation|colour|AWG|gauge|length m|length ft|length|role|note|kind
|part|settings||other"""
CELL_WORDS = """w1|w2|W2|3|fb.R|fb.W|tc.R|tc R|xf.C|not landed|?|not seen: x|cb1|1|red|WH/BU|mauve|18|18 AWG|14,5|12 ft
|not said||'|=1|furnace-board|va=50|\""""
HEADINGS = st.sampled_from(HEADING_WORDS.replace("\n", "").split("|"))
CELLS = st.text(max_size=6) | st.sampled_from(CELL_WORDS.replace("\n", "").split("|"))
SEPARATORS = st.sampled_from([",", ";", "\t"])
ENDS = st.sampled_from(["\r\n", "\n", "\r"])


@st.composite
def tables(draw: st.DrawFn) -> str:
    """Draw a text that is nearly a table."""
    width = draw(st.integers(2, 7))
    heads = draw(st.lists(HEADINGS, min_size=width, max_size=width))
    if draw(st.booleans()):
        heads[:3] = ["conductor", "from", "to"]
    rows = draw(st.lists(st.lists(CELLS, min_size=1, max_size=width), max_size=5))
    separator, end = draw(SEPARATORS), draw(ENDS)
    return end.join(separator.join(row) for row in [heads, *rows])


def taken(text: str, parts: str | None = None) -> FromTables | None:
    """Return the job that tables come to, None where they are refused well."""
    try:
        return job_from_tables(Tables(text, parts))
    except Refused as found:
        refused = found
    assert refused.message.endswith(".")
    assert refused.would_be_right
    _, table, row, *_ = (refused.pointer or "").split("/")
    assert table in ("wires", "parts")
    assert refused.message.startswith(f"Row {row}")
    return None


def written(read: FromTables) -> tuple[str, str, str]:
    (layout,) = read.opened.job.layouts.values()
    return wires_csv(wire_rows(layout)), parts_table(layout).csv(), cables_table(layout).csv()


def written_again(read: FromTables) -> None:
    wires, parts, cables = written(read)
    assert written(job_from_tables(Tables(wires, parts, cables))) == (wires, parts, cables)
    assert written(job_from_tables(Tables(wires)))[0] == wires


@given(st.text(max_size=60) | tables(), st.none() | tables())
@settings(max_examples=250)
def test_any_text_is_taken_or_refused_by_row(text: str, parts: str | None) -> None:
    read = taken(text, parts)
    if read is not None:
        written_again(read)


GOOD_ENDS = st.sampled_from(
    ["fb.R", "FB.W", "tc R", "tc.O/B", "not landed", "-", "?", "not seen: the wall", "unknown: x"]
)
ROWS = st.tuples(
    GOOD_ENDS,
    GOOD_ENDS,
    st.sampled_from(["", "cb1", "CB1", "2"]),
    st.sampled_from(["", "red", "WH/BU", "white/blue", "TAN"]),
    st.sampled_from(["18", "20 AWG", "#16"]),
    st.sampled_from(["14,5", "12 ft", "3", "not said"]),
    st.text(alphabet="'=+-@\t\r\n x;\",", max_size=6),
)


@given(st.lists(ROWS, max_size=6))
def test_what_people_write_is_taken_and_comes_back(rows: list[tuple[str, ...]]) -> None:
    heads = ("Wire #", "From", "To", "Bundle", "Color", "Gauge", "Length (m)", "Remarks")
    numbered = [(str(number), *(cell or None for cell in row)) for number, row in enumerate(rows, start=1)]
    read = taken(csv_text(heads, numbered))
    assert read is not None
    (layout,) = read.opened.job.layouts.values()
    assert list(layout.conductors) == [f"w{number}" for number in range(1, len(rows) + 1)]
    assert [each.note for each in layout.conductors.values()] == [row[-1] for row in rows]
    written_again(read)


IDS = st.from_regex(r"[a-z][a-z0-9_-]{0,4}", fullmatch=True)
TEXTS = st.text(alphabet=st.characters(exclude_categories=["Cs", "Cc", "Cn"]), max_size=8) | st.sampled_from(
    ["", "'", "=x", "\r\n"]
)
FIGURES: dict[str, st.SearchStrategy[Any]] = {
    "size_awg": st.integers(10, 30),
    "length_m": st.floats(min_value=1e-6, max_value=1000),
}
FACES = {
    "label": TEXTS,
    "place": TEXTS,
    "air": TEXTS,
    "note": TEXTS,
    "at": st.tuples(*[st.integers(-99999, 99999)] * 2),
}


@st.composite
def layouts(draw: st.DrawFn) -> Layout:
    """Draw a layout of parts that nobody could identify, with everything that a document may say of it."""
    parts = draw(st.dictionaries(IDS, st.fixed_dictionaries({"kind": st.just("unknown")}, optional=FACES), max_size=3))
    cables = draw(
        st.dictionaries(IDS, st.fixed_dictionaries({}, optional={**FIGURES, "note": TEXTS, "label": TEXTS}), max_size=2)
    )
    ends: st.SearchStrategy[str | dict[str, str] | None] = st.none() | TEXTS.map(lambda text: {"unknown": text})
    if parts:
        ends |= st.tuples(st.sampled_from(sorted(parts)), st.sampled_from(["R", "O/B", "7"])).map(".".join)
    said = {
        **FIGURES,
        "note": TEXTS,
        "insulation": st.from_regex(r"[A-Z]{2,4}(/[A-Z]{2})?", fullmatch=True) | st.just("RED"),
    }
    if cables:
        said["cable"] = st.sampled_from(sorted(cables))
    wire = st.fixed_dictionaries({"ends": st.tuples(ends, ends)}, optional=said)
    document = {"parts": parts, "cables": cables, "conductors": draw(st.dictionaries(IDS, wire, max_size=5))}
    return Layout.model_validate(document)


@given(layouts())
def test_the_tables_of_any_layout_are_that_wiring(layout: Layout) -> None:
    wires, parts, cables = wires_csv(wire_rows(layout)), parts_table(layout).csv(), cables_table(layout).csv()
    (back,) = job_from_tables(Tables(wires, parts, cables)).opened.job.layouts.values()
    assert back.parts == layout.parts
    assert back.cables == layout.cables
    assert wire_rows(back) == wire_rows(layout)
    told = [each.length_and_size(layout.cables) for each in layout.conductors.values()]
    assert [back.conductors[name].length_and_size(back.cables) for name in layout.conductors] == told
    written_again(job_from_tables(Tables(wires, parts, cables)))
