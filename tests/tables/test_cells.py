"""What one cell may say: guarded texts, gauges, lengths, colours, ends, ids, settings."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.job.model import End, UnknownEnd
from app.job.refusal import Refused
from app.tables.cell import Cell, Row
from app.tables.colours import insulation, insulation_cell
from app.tables.csv_text import figure_text
from app.tables.ends import NOT_SAID_WHERE, end_of, end_words, id_of
from app.tables.figures import length_m, size_awg, whole_number
from app.tables.guard import FORMULA, guarded, unguarded
from app.tables.settings_text import settings_of_cell, settings_text


def cell(raw: str) -> Cell:
    return Cell("wires", 4, "to", raw)


def row(**cells: str) -> Row:
    return Row("wires", 4, {name: Cell("wires", 4, name, raw) for name, raw in cells.items()})


@given(st.one_of(st.text(max_size=20), st.text(alphabet="'=+-@\t\r\nx", max_size=6)))
def test_a_guarded_text_starts_no_formula_and_is_undone_exactly(text: str) -> None:
    assert not guarded(text).startswith(FORMULA)
    assert unguarded(guarded(text)) == text


def test_an_apostrophe_that_guards_nothing_is_part_of_the_text() -> None:
    assert [unguarded(cell) for cell in ("'tis", "'=1", "''tis", "'", "")] == ["'tis", "=1", "'tis", "", ""]


@pytest.mark.parametrize("said", ["18", "18 AWG", "AWG 18", "awg18", "#18", "18 ga", "18.0", " 18 ", "no. 18"])
def test_a_gauge_as_people_write_it(said: str) -> None:
    assert size_awg(row(size_awg=said)) == 18


@pytest.mark.parametrize("said", ["9", "31", "18.5", "1 8", "thick", "-18", "18/5", "1e1"])
def test_no_gauge(said: str) -> None:
    with pytest.raises(Refused, match="is no gauge") as refused:
        size_awg(row(size_awg=said))
    assert refused.value.pointer == "/wires/4/size_awg"


@pytest.mark.parametrize(
    ("column", "said", "metres"),
    [
        ("length_m", "14.5", 14.5),
        ("length_m", "14,5", 14.5),
        ("length_m", "14 m", 14.0),
        ("length_m", ".5", 0.5),
        ("length_m", "10 ft", 3.048),
        ("length_m", "not said", None),
        ("length_m", "", None),
        ("length_ft", "45", 13.716),
        ("length_ft", "45'", 13.716),
        ("length_ft", "2 m", 2.0),
        ("length", "100 feet", 30.48),
        ("length", "3 metres", 3.0),
    ],
)
def test_a_length_in_its_unit(column: str, said: str, metres: float | None) -> None:
    assert length_m(row(**{column: said})) == metres


@pytest.mark.parametrize(
    ("cells", "code"),
    [
        ({"length_m": "0"}, "bad-number"),
        ({"length_m": "-3"}, "bad-number"),
        ({"length_m": "1e999"}, "bad-number"),
        ({"length_m": "3 yd"}, "bad-number"),
        ({"length_m": "nan"}, "bad-number"),
        ({"length_m": "1001"}, "bad-number"),
        ({"length_m": "1,000"}, "bad-number"),
        ({"length": "14"}, "unit-missing"),
        ({"length_m": "3", "length_ft": "10"}, "said-twice"),
    ],
    ids=lambda each: " ".join(each.values()) if isinstance(each, dict) else each,
)
def test_no_length(cells: dict[str, str], code: str) -> None:
    with pytest.raises(Refused) as refused:
        length_m(row(**cells))
    assert refused.value.code == code
    assert refused.value.would_be_right


@given(st.floats(min_value=1e-9, max_value=1000))
def test_a_figure_comes_back_as_it_was(metres: float) -> None:
    assert length_m(row(length_m=figure_text(metres))) == metres


def test_a_place_on_the_sheet() -> None:
    assert [whole_number(cell(said)) for said in ("480", "-12", "480.0", "")] == [480, -12, 480, None]
    for said in ("4.5", "1e3", "100001", "left"):
        with pytest.raises(Refused):
            whole_number(cell(said))


@pytest.mark.parametrize(
    ("said", "code"),
    [
        ("RD", "RD"),
        ("rd", "RD"),
        ("red", "RD"),
        ("Red", "RD"),
        ("RED", "RD"),
        ("white/blue", "WH/BU"),
        ("White / Blue", "WH/BU"),
        ("wh/bu", "WH/BU"),
        ("white with blue tracer", "WH/BU"),
        ("grey", "GY"),
        ("gray", "GY"),
        ("purple", "VT"),
        ("light  blue", "BU"),
        ("green-yellow", "GNYE"),
        ("green/yellow", "GN/YE"),
        ("gnye", "GNYE"),
        ("TAN", "TAN"),
        ("'RED", "RED"),
        ("", None),
    ],
)
def test_a_colour_becomes_its_letters(said: str, code: str | None) -> None:
    assert insulation(cell(said)) == code


@pytest.mark.parametrize("said", ["tan", "red/", "red/white/blue", "R", "rd?", "clear"])
def test_no_colour(said: str) -> None:
    with pytest.raises(Refused, match="is no colour"):
        insulation(cell(said))


@given(st.from_regex(r"[A-Z]{2,8}(/[A-Z]{2,8})?", fullmatch=True) | st.sampled_from(["RED", "BLACK/RD"]))
def test_a_code_comes_back_as_it_was_even_where_it_spells_a_word(code: str) -> None:
    assert insulation(cell(guarded(insulation_cell(code)))) == code


@pytest.mark.parametrize(
    ("said", "end"),
    [
        ("fb.R", "fb.R"),
        ("FB.R", "fb.R"),
        (" fb : O/B ", "fb.O/B"),
        ("fb R", "fb.R"),
        ("Furnace Board.W2", "furnace-board.W2"),
        ("not landed", None),
        ("Spare", None),
        ("-", None),
        ("?", UnknownEnd(unknown=NOT_SAID_WHERE)),
        ("Unknown: in the wall", UnknownEnd(unknown="in the wall")),
        ("not seen:  two blanks", UnknownEnd(unknown=" two blanks")),
    ],
)
def test_an_end_as_people_write_it(said: str, end: End) -> None:
    assert end_of(cell(said)) == end


@pytest.mark.parametrize("said", ["", "  ", "fb", "fb.", ".R", "fb.r", "fb.R W", "9.R", "x" * 99 + ".R"])
def test_no_end(said: str) -> None:
    with pytest.raises(Refused) as refused:
        end_of(cell(said))
    assert refused.value.code == "bad-end"
    assert refused.value.would_be_right


@given(st.none() | st.text(max_size=30).map(lambda text: UnknownEnd(unknown=text)) | st.just("tc.O/B"))
def test_an_end_comes_back_as_it_was(end: End) -> None:
    assert end_of(cell(guarded(end_words(end)))) == end


def test_ids_are_written_small_and_a_number_alone_gets_a_letter() -> None:
    assert [id_of(cell(said), "conductor", "w") for said in ("w1", "W1", "7", "Red to hall")] == [
        "w1",
        "w1",
        "w7",
        "red-to-hall",
    ]
    for said in ("", "7a", "wé", "x" * 33):
        with pytest.raises(Refused, match="conductor"):
            id_of(cell(said), "conductor", "w")


VALUES = (
    st.booleans()
    | st.integers(-(2**53), 2**53)
    | st.floats(allow_nan=False, allow_infinity=False)
    | st.text(max_size=9)
)


@given(st.dictionaries(st.from_regex(r"[a-z][a-z0-9_]{0,9}", fullmatch=True), VALUES, max_size=4))
def test_settings_come_back_as_they_were_and_of_the_same_sort(settings: dict[str, bool | int | float | str]) -> None:
    back = settings_of_cell(cell(guarded(settings_text(settings))))
    assert back == settings
    assert {name: type(value) for name, value in back.items()} == {name: type(v) for name, v in settings.items()}


def test_settings_read_well() -> None:
    said = settings_text({"va": 50, "equipment": "dual-fuel", "battery": True, "at_c": 2.0, "tap": "240", "odd": "a;b"})
    assert said == 'at_c=2.0; battery=true; equipment=dual-fuel; odd="a;b"; tap="240"; va=50'


@pytest.mark.parametrize("said", ["fuse_amps", "a=", "=3", "a=1;;b=2", 'a="x', "a=[1]", "a=null", "a=1; a=2", "A=1"])
def test_no_settings(said: str) -> None:
    with pytest.raises(Refused) as refused:
        settings_of_cell(cell(said))
    assert refused.value.code == "bad-settings"
