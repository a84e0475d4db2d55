"""What a wire list may not say: refused whole, by row and column, with what would be right."""

from __future__ import annotations

import pytest

from app.catalogue.builtin import builtin_catalogue
from app.job.refusal import Refused
from app.tables.job_from_tables import Tables, job_from_tables
from app.tables.kinds_asked import Suggestion

HEAD = "conductor,from,to,cable,size,length m,colour\n"
TWO = HEAD + "w1,fb.R,tc.R,cb1,18,14,red\nw2,fb.W,tc.W,cb1,,,white\n"
KINDS = {"fb": "furnace-board", "tc": "thermostat-heat-cool"}


def refused(tables: Tables, layout: str = "as-found") -> Refused:
    with pytest.raises(Refused) as found:
        job_from_tables(tables, layout=layout)
    assert found.value.would_be_right
    return found.value


def test_a_cable_is_filled_in_once_and_holds_for_all_its_conductors() -> None:
    layout = job_from_tables(Tables(TWO, kinds=KINDS)).opened.job.layouts["as-found"]
    assert (layout.cables["cb1"].size_awg, layout.cables["cb1"].length_m) == (18, 14.0)
    assert [each.length_and_size(layout.cables) for each in layout.conductors.values()] == [(14.0, 18)] * 2


def test_the_deviating_conductor_of_a_cable_says_its_own_length() -> None:
    more = TWO.replace("cb1,,,", "cb1,18,15,") + "w3,fb.Y,tc.Y,cb1,18,14,\n"
    layout = job_from_tables(Tables(more, kinds=KINDS)).opened.job.layouts["as-found"]
    assert layout.cables["cb1"].length_m == 14.0
    assert [each.length_m for each in layout.conductors.values()] == [None, 15.0, None]


@pytest.mark.parametrize(
    ("rows", "code", "place", "words"),
    [
        ("w1,fb.R,tc.R,,,,\nW1,fb.W,tc.W,,,,\n", "repeated-id", "/wires/3/conductor", "row 2"),
        ("w1,fb.Q,tc.R,,,,\n", "unknown-terminal", "/wires/2/from", "no terminal Q"),
        ("w1,fb.R,tc.RR,,,,\n", "unknown-terminal", "/wires/2/to", "no terminal RR"),
        ("w1,fb.R,,,,,\n", "bad-end", "/wires/2/to", "nothing is said"),
        ("w1,fb.R,tc.R,,fat,,\n", "bad-number", "/wires/2/size", "“fat”"),
        ("w1,fb.R,tc.R,,,far,\n", "bad-number", "/wires/2/length m", "“far”"),
        ("w1,fb.R,tc.R,,,,mauve\n", "unknown-colour", "/wires/2/colour", "“mauve”"),
        (",fb.R,tc.R,,,,\n", "bad-id", "/wires/2/conductor", "has no id"),
        ("w1,fb.R,tc.R,c b?,,,\n", "bad-id", "/wires/2/cable", "“c b?”"),
        ("w1,fb.R,tc.R,a,,9,\nw2,fb.W,tc.W,a,,8,\nw3,fb.Y,tc.Y,a,,,\n", "undecided", "/wires/4/length m", "8 and 9"),
        ("w1,fb.R,not seen: " + "x" * 201 + ",,,,\n", "bad-end", "/wires/2/to", "201 characters"),
    ],
    ids=lambda each: each if isinstance(each, str) and each.startswith("/") else None,
)
def test_a_row_that_is_not_right(rows: str, code: str, place: str, words: str) -> None:
    found = refused(Tables(HEAD + rows, kinds=KINDS))
    assert (found.code, found.pointer) == (code, place)
    _, table_row, column = place[1:].split("/")
    assert found.message.startswith(f"Row {table_row}, column “{column}”: ")
    assert words in found.message


def test_a_terminal_that_a_kind_does_not_have_is_answered_with_the_near_one() -> None:
    found = refused(Tables(HEAD + "w1,fb.W1,tc.W,,,,\n", kinds=KINDS))
    assert (found.would_be_right or "").startswith("fb.W, if that was meant; one of fb.XF")


@pytest.mark.parametrize(
    ("parts", "code", "place"),
    [
        ("part,kind\nfb,furnace\ntc,unknown\n", "unknown-kind", "/parts/2/kind"),
        ("part,kind\nfb,furnace-board\nfb,furnace-board\n", "repeated-id", "/parts/3/part"),
        ("part,kind\nfb,furnace-board\n", "unknown-part", "/wires/2/to"),
        ("part,kind,settings\nfb,furnace-board,fuse_amps=4\ntc,,\n", "bad-setting", "/parts/2/settings"),
        ("part,kind,settings\nfb,furnace-board,colour=3\ntc,,\n", "unknown-setting", "/parts/2/settings"),
        ("part,kind,x,y\nfb,furnace-board,12,\ntc,,,\n", "half-said", "/parts/2/y"),
        ("part,kind,label\nfb,," + "x" * 201 + "\ntc,,\n", "bad-shape", "/parts/2/label"),
        ("kind\nfurnace-board\n", "missing-column", "/parts/1"),
    ],
)
def test_a_table_of_parts_that_is_not_right(parts: str, code: str, place: str) -> None:
    found = refused(Tables(TWO, parts))
    assert (found.code, found.pointer) == (code, place)


def test_a_table_of_cables_that_lacks_one() -> None:
    found = refused(Tables(TWO, cables="cable,size\ncb2,18\n", kinds=KINDS))
    assert (found.code, found.pointer) == ("unknown-cable", "/wires/2/cable")
    assert "cb2" in (found.would_be_right or "")


def test_kinds_beside_the_tables() -> None:
    assert refused(Tables(TWO, kinds={"fb": "furnace"})).pointer == "/kinds/fb"
    assert refused(Tables(TWO, kinds={"xf": "splice"})).pointer == "/kinds/xf"
    twice = refused(Tables(TWO, "part,kind\nfb,unknown\ntc,\n", kinds={"fb": "furnace-board"}))
    assert (twice.code, twice.pointer) == ("said-twice", "/parts/2/kind")


def test_a_layout_that_cannot_be_called_so() -> None:
    assert refused(Tables(TWO), layout="As Found").code == "bad-shape"


def test_a_kind_may_be_said_by_its_title() -> None:
    title = builtin_catalogue().kind("furnace-board").title
    read = job_from_tables(Tables(TWO, f'part,type\nfb,"{title.upper()}"\ntc,?\n'))
    parts = read.opened.job.layouts["as-found"].parts
    assert [parts["fb"].kind, parts["tc"].kind, read.asked] == ["furnace-board", "unknown", ()]


def test_kinds_are_asked_for_with_those_that_fit_best_first() -> None:
    wires = HEAD + "w1,furnace.R,tc.R,,,,\nw2,furnace.W,tc.W,,,,\n"
    furnace, control = job_from_tables(Tables(wires)).asked
    assert (furnace.part, furnace.letters) == ("furnace", ("R", "W"))
    assert furnace.suggestions[0] == Suggestion("furnace-board", "Furnace control board, one stage")
    assert control.suggestions[0].kind == "thermostat-heat-only"
    kinds = builtin_catalogue().kinds
    for suggestion in (*furnace.suggestions, *control.suggestions):
        assert kinds[suggestion.kind].terminals.keys() >= {"R", "W"}
