"""What spreadsheets do to a table is tolerated; what cannot be told is refused by row and column."""

from __future__ import annotations

import pytest

from app.job.refusal import Refused
from app.tables.columns import CABLE_COLUMNS, PART_COLUMNS, WIRE_COLUMNS, plain_heading
from app.tables.sheet import decoded, read_sheet

PLAIN = 'conductor,from,to,note\r\nw1,fb.R,tc.R,\r\nw2,fb.C,not landed,"spare, folded"\r\n'
SEMICOLONS = PLAIN.replace("spare, folded", "spare~ folded").replace(",", ";").replace("~", ",")


def said(text: str) -> list[tuple[int, dict[str, str]]]:
    rows = read_sheet(text, "wires", WIRE_COLUMNS)
    return [(row.number, {name: cell.text for name, cell in row.cells.items() if cell.text}) for row in rows]


WIRES = [
    {"conductor": "w1", "from_": "fb.R", "to": "tc.R"},
    {"conductor": "w2", "from_": "fb.C", "to": "not landed", "note": "spare, folded"},
]


@pytest.mark.parametrize(
    "text",
    [
        PLAIN,
        "\ufeff" + PLAIN,
        PLAIN.replace("\r\n", "\n"),
        PLAIN.replace("\r\n", "\r"),
        PLAIN.rstrip(),
        PLAIN + ",,,\r\n\r\n,,,\r\n",
        SEMICOLONS,
        SEMICOLONS.replace(";", "\t"),
        PLAIN.replace("conductor,from,to,note", " Wire ,FROM,To,Remarks"),
        PLAIN.replace("\r\n", ",,\r\n"),
        'to,"conductor","note",from\ntc.R,w1,,fb.R\nnot landed,w2,"spare, folded",fb.C\n',
    ],
    ids=[
        "plain",
        "mark",
        "lf",
        "cr",
        "no-end",
        "empty-rows",
        "semicolons",
        "tabs",
        "other-names",
        "empty-columns",
        "order",
    ],
)
def test_the_same_rows_are_read(text: str) -> None:
    assert [row for _, row in said(text)] == WIRES


def test_a_line_that_tells_the_separator_is_row_1() -> None:
    for mark in ("", "\ufeff"):
        assert said(mark + "sep=;\r\n" + SEMICOLONS) == [(3, WIRES[0]), (4, WIRES[1])]


def test_rows_are_counted_as_a_spreadsheet_shows_them() -> None:
    text = 'conductor,from,to,note\n\nw1,fb.R,tc.R,"two\nlines"\n,,,\nw2,fb.C,tc.C,\n'
    assert [number for number, _ in said(text)] == [3, 5]


def test_no_two_columns_of_a_table_have_a_name_in_common() -> None:
    for columns in (WIRE_COLUMNS, PART_COLUMNS, CABLE_COLUMNS):
        names = [name for column in columns for name in column.names()]
        assert len(names) == len(set(names))


def test_headings_are_compared_without_case_and_signs() -> None:
    assert [plain_heading(each) for each in ("Length (m)", "length_m", "WIRE #", "Wire-Number")] == [
        "length m",
        "length m",
        "wire number",
        "wire number",
    ]


@pytest.mark.parametrize(
    ("text", "code", "words"),
    [
        ("", "no-headings", "Row 1"),
        ("\n\n", "no-headings", "Row 1"),
        ("w1,fb.R,tc.R\n", "no-headings", "Row 1"),
        ("conductor,from\nw1,fb.R\n", "missing-column", "“to”"),
        ("conductor,from,to,checked by\nw1,fb.R,tc.R,Sam\n", "unknown-heading", "column “checked by”"),
        ("conductor,from,to,To\nw1,fb.R,tc.R,tc.R\n", "repeated-heading", "column “To”"),
        ("conductor,wire,from,to\nw1,w1,fb.R,tc.R\n", "repeated-heading", "column “wire”"),
        ("conductor,from,to\nw1,fb.R,tc.R,and more\n", "no-heading-here", "Row 2: “and more” is the 4th cell"),
        ('conductor,from,to\nw1,fb.R,"tc.R\n', "not-csv", "Row 2"),
        ('conductor,from,to\nw1,fb.R,"tc.R"x\n', "not-csv", "Row 2"),
        ("conductor,from,to\nw1,fb.R,tc.\x00R\n", "bad-character", "Row 2, column “to”"),
        ("conductor,from,to,note\nw1,fb.R,tc.R," + "x" * 6000, "too-large", "Row 2, column “note”"),
        ("conductor,from,to,note\nw1,fb.R,tc.R," + "x" * 200_000, "not-csv", "Row 2"),
        ("conductor,from,to\n" + "w,a.A,b.B\n" * 6000, "too-large", "Row 5001"),
        ("x" * 3_000_000, "too-large", "3,000,000"),
    ],
    ids=lambda each: each[:12].strip() if isinstance(each, str) else None,
)
def test_a_table_that_cannot_be_told_is_refused_whole(text: str, code: str, words: str) -> None:
    with pytest.raises(Refused) as refused:
        said(text)
    assert refused.value.code == code
    assert words in refused.value.message
    assert refused.value.would_be_right


def test_files_of_the_usual_encodings_are_read() -> None:
    text = "conductor,from,to,note\nw1,fb.R,tc.R,21 °C\n"
    for encoding in ("utf-8", "utf-8-sig", "utf-16"):
        assert decoded(text.encode(encoding), "wires") == text
    with pytest.raises(Refused, match="not UTF-8") as refused:
        decoded(text.encode("latin-1"), "wires")
    assert refused.value.pointer == "/wires"
