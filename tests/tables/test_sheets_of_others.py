"""Wire lists as people send them: taken as they were meant, or refused by row and column with what would be right."""

from __future__ import annotations

import pytest

from app.job.model import Conductor
from app.job.refusal import Refused
from app.tables.job_from_tables import Tables, job_from_tables
from app.tables.sheet import decoded

KINDS = {"fb": "furnace-board", "tc": "thermostat-heat-cool"}
SUPPLY = ("fb.R", "tc.R")

TAKEN = {
    "semicolons, a mark at the beginning, feet and words": (
        "\ufeffWire;From;To;Colour;Gauge;Length (ft);Notes\r\nW1;fb.R;tc.R;red;18 AWG;10;through; \r\n".replace(
            "through; ", '"through; over"'
        ),
        {"w1": Conductor(ends=SUPPLY, insulation="RD", size_awg=18, length_m=3.048, note="through; over")},
    ),
    "commas and quotation marks in a cell": (
        'conductor,from,to,note\nw1,fb.R,tc.R,"a, b and ""c"""\n',
        {"w1": Conductor(ends=SUPPLY, note='a, b and "c"')},
    ),
    "capitals and blanks everywhere": (
        " CONDUCTOR , FROM , TO \n w1 , FB.R ,\u00a0tc.R \n",
        {"w1": Conductor(ends=SUPPLY)},
    ),
    "numbers for names": ("no,from,to\n1,fb.R,tc.R\n", {"w1": Conductor(ends=SUPPLY)}),
    "tabs, colons and blank rows": ("\nwire\tfrom\tto\n\t\t\nw1\tfb:R\ttc:R\n", {"w1": Conductor(ends=SUPPLY)}),
    "a decimal comma": ("wire;from;to;length m\nw1;fb.R;tc.R;12,5\n", {"w1": Conductor(ends=SUPPLY, length_m=12.5)}),
    "old line ends, and columns without anything": (
        "wire,from,to,,\rw1,fb.R,tc.R,,\r",
        {"w1": Conductor(ends=SUPPLY)},
    ),
    "other words for an end that is landed nowhere": (
        "wire,from,to\nw1,fb.R,Unused\nw2,n/a,tc.R\n",
        {"w1": Conductor(ends=("fb.R", None)), "w2": Conductor(ends=(None, "tc.R"))},
    ),
    "an inch sign": ('wire,from,to,note\nw1,fb.R,tc.R,1/2" pipe\n', {"w1": Conductor(ends=SUPPLY, note='1/2" pipe')}),
}

REFUSED = {
    "no column for the other end": ("wire,from\nw1,fb.R\n", "/wires/1", "a column “to”"),
    "a column of their own": ("wire,from,to,seen by\nw1,fb.R,tc.R,S\n", "/wires/1/seen by", "goes into “note”"),
    "a row that is too long": ("wire,from,to\nw1,fb.R,tc.R,up\n", "/wires/2", "a heading above it"),
    "a name twice": ("wire,from,to\nw1,fb.R,tc.R\nW1,fb.W,tc.W\n", "/wires/3/wire", "each id once"),
    "no name": ("wire,from,to\n,fb.R,tc.R\n", "/wires/2/wire", "a small letter"),
    "a date that was a name": ("wire,from,to\n1-Jan,fb.R,tc.R\n", "/wires/2/wire", "a small letter"),
    "a dash for the dot": ("wire,from,to\nw1,fb-R,tc.R\n", "/wires/2/from", "a terminal such as fb.R"),
    "a colour in short": ("wire,from,to,color\nw1,fb.R,tc.R,wht\n", "/wires/2/color", "a code of IEC 60757"),
    "a screw that is not there": ("wire,from,to\nw1,fb.Q,tc.R\n", "/wires/2/from", "R"),
    "a quotation mark that stays open": (
        'wire,from,to,note\nw1,fb.R,tc.R,"hall\n',
        "/wires/2",
        'each " of it written twice',
    ),
}


@pytest.mark.parametrize(("text", "conductors"), TAKEN.values(), ids=TAKEN)
def test_what_was_meant_is_taken(text: str, conductors: dict[str, Conductor]) -> None:
    wires = decoded(text.encode(), "wires")
    layout = job_from_tables(Tables(wires, kinds=KINDS)).opened.job.layouts["as-found"]
    assert layout.conductors == conductors
    assert set(layout.parts) == {"fb", "tc"}


@pytest.mark.parametrize(("text", "place", "right"), REFUSED.values(), ids=REFUSED)
def test_what_cannot_be_told_is_refused_where_it_stands(text: str, place: str, right: str) -> None:
    with pytest.raises(Refused) as refused:
        job_from_tables(Tables(text, kinds=KINDS))
    assert refused.value.pointer == place
    assert f"Row {place.split('/')[2]}" in refused.value.message
    assert right in (refused.value.would_be_right or "")
