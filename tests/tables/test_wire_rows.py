"""The wire list as rows: order, groups, roles, and CSV that any spreadsheet reads."""

from __future__ import annotations

import csv
import io

from app.catalogue.builtin import builtin_catalogue
from app.circuit.network import build_circuit
from app.job.model import Layout
from app.job.sketch import sketch
from app.tables.natural_order import natural_key
from app.tables.wire_rows import HEADINGS, WireGroup, WireRow, grouped, wire_roles, wire_rows, wires_csv

CATALOGUE = builtin_catalogue()
LAYOUT = Layout.model_validate(
    {
        "parts": {"fb": {"kind": "furnace-board"}, "tc": {"kind": "thermostat-heat-cool"}},
        "cables": {"cb1": {"size_awg": 20, "length_m": 14.5}},
        "conductors": {
            "w10": {"ends": ["fb.C", None], "cable": "cb1", "insulation": "WH/BU", "note": 'spare, folded "back"'},
            "w2": {"ends": ["fb.R", "tc.R"], "note": "=1+1"},
            "w3": {"ends": [{"unknown": "in the wall"}, "tc.W"], "size_awg": 18, "length_m": 3},
        },
    }
)


def test_each_conductor_has_a_row_in_the_order_in_which_people_count() -> None:
    assert wire_rows(LAYOUT, {"w2": "24 V supply"}) == (
        WireRow("w2", "fb.R", "tc.R", "", "", None, None, "24 V supply", "=1+1"),
        WireRow("w3", "not seen: in the wall", "tc.W", "", "", 18, 3.0, "", ""),
        WireRow("w10", "fb.C", "not landed", "cb1", "WH/BU", 20, 14.5, "", 'spare, folded "back"'),
    )


def test_names_are_counted_and_never_taken_for_equal() -> None:
    names = ["x1", "w10", "w2", "w1-7kq2x", "w1", "w01", "w"]
    assert sorted(names, key=natural_key) == ["w", "w01", "w1", "w1-7kq2x", "w2", "w10", "x1"]


def test_csv_is_what_a_spreadsheet_reads_and_never_runs() -> None:
    rows = list(csv.reader(io.StringIO(wires_csv(wire_rows(LAYOUT)))))
    assert rows[0] == list(HEADINGS)
    assert rows[1] == ["w2", "fb.R", "tc.R", "", "", "", "", "", "'=1+1"]
    assert rows[3] == ["w10", "fb.C", "not landed", "cb1", "WH/BU", "20", "14.5", "", 'spare, folded "back"']
    assert rows[2][5:7] == ["18", "3"]


def test_an_empty_layout_has_only_headings() -> None:
    assert wires_csv(wire_rows(Layout())) == ",".join(HEADINGS) + "\r\n"


def test_a_conductor_without_length_says_so_where_others_of_its_cable_have_one() -> None:
    conductors = {
        "w1": {"ends": ["fb.R", None], "cable": "cb1", "length_m": 3},
        "w2": {"ends": [None, None], "cable": "cb1"},
    }
    layout = Layout.model_validate({"parts": LAYOUT.parts, "cables": {"cb1": {}}, "conductors": conductors})
    assert [row.length_words() for row in wire_rows(layout)] == ["3", "not said"]


def test_by_cable_those_in_none_come_last() -> None:
    rows = wire_rows(LAYOUT)
    assert grouped(rows, "cable", LAYOUT, CATALOGUE) == (WireGroup("cb1", rows[2:]), WireGroup("", rows[:2]))


def test_by_part_each_row_stands_from_that_side_screw_by_screw() -> None:
    layout = sketch({"fb": "furnace-board", "tc": "thermostat-heat-cool"}, "tc.W fb.W", "fb.R tc.R", "fb.C -", "? -")
    groups = grouped(wire_rows(layout), "part", layout, CATALOGUE)
    seen = {group.of: [(row.conductor, row.from_, row.to) for row in group.rows] for group in groups}
    assert list(CATALOGUE.kind("furnace-board").terminals)[2:7] == ["R", "C", "Y", "G", "W"]
    assert seen == {
        "fb": [("w2", "fb.R", "tc.R"), ("w3", "fb.C", "not landed"), ("w1", "fb.W", "tc.W")],
        "tc": [("w2", "tc.R", "fb.R"), ("w1", "tc.W", "fb.W")],
        "": [("w4", "not seen: not seen", "not landed")],
    }


def test_a_conductor_with_both_ends_on_one_part_stands_there_twice_and_on_one_screw_once() -> None:
    layout = sketch({"fb": "furnace-board"}, "fb.R fb.W", "fb.C fb.C")
    (group,) = grouped(wire_rows(layout), "part", layout, CATALOGUE)
    ends = [(row.from_, row.to) for row in group.rows]
    assert ends == [("fb.R", "fb.W"), ("fb.C", "fb.C"), ("fb.W", "fb.R")]


def test_roles_come_from_the_circuit_in_words() -> None:
    parts = {"xf": "control-transformer", "fb": "furnace-board", "tc": "thermostat-heat-cool"}
    layout = sketch(parts, "xf.R fb.XF", "xf.C fb.XC", "fb.R tc.R", "tc.W fb.W", "fb.C -")
    roles = wire_roles(build_circuit(layout, CATALOGUE))
    assert roles["w3"] == "24 V supply"
    assert roles["w4"] == "call for furnace heat"
    assert roles["w5"].startswith("spare")
