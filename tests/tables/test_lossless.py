"""A layout written as tables and read back is the layout; the wire list alone is the same wiring."""

from __future__ import annotations

import json

import pytest

from app.catalogue.catalogue import UNKNOWN_KIND
from app.catalogue.opening import open_job
from app.circuit.netlist import netlist
from app.circuit.network import build_circuit
from app.circuit.situation import Situation
from app.job.model import Layout
from app.tables.job_from_tables import FromTables, Tables, job_from_tables
from app.tables.part_rows import cables_table, parts_table
from app.tables.wire_rows import wire_roles, wire_rows, wires_csv
from tests.catalogue.kinds import packed_text
from tests.demo_jobs.demos import demo, layouts, text_of


def written(layout: Layout) -> Tables:
    return Tables(wires_csv(wire_rows(layout)), parts_table(layout).csv(), cables_table(layout).csv())


def layout_of(read: FromTables) -> Layout:
    (layout,) = read.opened.job.layouts.values()
    return layout


@pytest.mark.parametrize(("name", "layout_name"), layouts())
def test_three_tables_are_the_whole_layout(name: str, layout_name: str) -> None:
    layout = demo(name).job.layouts[layout_name]
    read = job_from_tables(written(layout))
    assert layout_of(read) == layout.model_copy(update={"label": ""})
    assert read.asked == ()
    assert open_job(json.dumps(read.document).encode()).job == read.opened.job


@pytest.mark.parametrize(("name", "layout_name"), layouts())
def test_wires_and_parts_are_the_same_circuit(name: str, layout_name: str) -> None:
    layout, catalogue = demo(name).job.layouts[layout_name], demo(name).catalogue
    tables = written(layout)
    back = layout_of(job_from_tables(Tables(tables.wires, tables.parts)))
    decks = [netlist(build_circuit(each, catalogue), Situation()) for each in (layout, back)]
    assert decks[0] == decks[1]
    assert wires_csv(wire_rows(back)) == tables.wires
    assert parts_table(back).csv() == tables.parts


@pytest.mark.parametrize(("name", "layout_name"), layouts())
def test_wires_alone_are_the_same_wiring_and_the_kinds_are_asked_for(name: str, layout_name: str) -> None:
    layout, catalogue = demo(name).job.layouts[layout_name], demo(name).catalogue
    wires = wires_csv(wire_rows(layout, wire_roles(build_circuit(layout, catalogue))))
    read = job_from_tables(Tables(wires))
    landed_on = sorted(part for part in layout.parts if layout.landed_letters(part))
    assert [each.part for each in read.asked] == landed_on
    assert {part.kind for part in layout_of(read).parts.values()} == {UNKNOWN_KIND}
    assert wires_csv(wire_rows(layout_of(read))) == wires_csv(wire_rows(layout))
    kinds = {part: layout.parts[part].kind for part in landed_on}
    told = layout_of(job_from_tables(Tables(wires, kinds=kinds)))
    assert {part: told.parts[part].kind for part in landed_on} == kinds


def test_the_kind_that_a_part_has_is_among_those_that_fit() -> None:
    for name, layout_name in layouts():
        layout = demo(name).job.layouts[layout_name]
        for each in job_from_tables(Tables(wires_csv(wire_rows(layout)))).asked:
            fitting = [suggestion.kind for suggestion in each.suggestions]
            kind = layout.parts[each.part].kind
            # One or two letters fit many kinds; the list that a person looks through is short.
            assert kind in fitting or kind == UNKNOWN_KIND or len(each.letters) <= 2, (name, each)


def test_kinds_that_a_job_brings_along_are_taken_over() -> None:
    document = json.loads(text_of("bell-loft-heat-only"))
    document["kinds"] = {"my-board": packed_text("furnace-board")}
    document["layouts"]["as-left"]["parts"]["fb"]["kind"] = "my-board"
    job = open_job(json.dumps(document).encode()).job
    tables = written(job.layouts["as-left"])
    read = job_from_tables(Tables(tables.wires, tables.parts, tables.cables, own_kinds=job.kinds))
    assert layout_of(read) == job.layouts["as-left"].model_copy(update={"label": ""})
    assert read.opened.job.kinds == job.kinds


def test_what_is_seldom_said_survives_too() -> None:
    layout = Layout.model_validate(
        {
            "parts": {
                "tc": {
                    "kind": "unknown",
                    "place": "",
                    "air": "",
                    "at": [-120, 0],
                    "note": "'tis\r\nso",
                    "label": "=SUM(A1)",
                },
                "fb": {"kind": "furnace-board", "settings": {"fuse_amps": 5, "limit": "open"}, "note": "'"},
                "xf": {
                    "kind": "control-transformer",
                    "label": " a; b ",
                    "place": "\tattic",
                    "settings": {"va": 50},
                },
            },
            "cables": {
                "cb1": {"size_awg": 20, "length_m": 14.123456789, "note": "+"},
                "cb2": {"label": "nobody uses it"},
                "cb3": {},
            },
            "conductors": {
                "w1": {"ends": ["fb.R", "tc.9"], "cable": "cb1", "insulation": "RED", "note": "@home"},
                "w2": {"ends": [{"unknown": ""}, {"unknown": " not seen: x"}], "cable": "cb1", "size_awg": 22},
                "w3": {"ends": [None, "fb.C"], "cable": "cb3", "length_m": 3},
                "w4": {"ends": [None, "fb.C"], "cable": "cb3", "insulation": "BLACK/TAN"},
                "w5": {"ends": ["tc.O/B", "tc.9"], "insulation": "GNYE", "length_m": 1e-7, "note": "  "},
                "w6": {"ends": [None, None], "size_awg": 12},
            },
        }
    )
    assert layout_of(job_from_tables(written(layout))) == layout
    wires = wires_csv(wire_rows(layout))
    assert wires_csv(wire_rows(layout_of(job_from_tables(Tables(wires))))) == wires
