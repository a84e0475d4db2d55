"""The terminal list: every screw once, with what is landed, jumpers, and volts where a situation is given."""

from __future__ import annotations

import csv
import io

from app.catalogue.builtin import builtin_catalogue
from app.circuit.network import build_circuit
from app.circuit.situation import Situation
from app.circuit.solve import solve
from app.job.model import Layout
from app.job.sketch import sketch
from app.tables.terminal_rows import HEADINGS, NOT_RECORDED, NOTHING_LANDED, TerminalRow, terminal_rows, terminals_csv
from app.tables.wire_rows import wire_roles
from tests.demo_jobs.demos import demo, layouts

CATALOGUE = builtin_catalogue()
PARTS = {"xf": "control-transformer", "fb": "furnace-board", "tc": "thermostat-heat-cool-split", "odd": "unknown"}
WIRES = ("xf.R fb.XF", "xf.C fb.XC", "fb.R tc.RH", "tc.W fb.W", "fb.C -", "fb.C -", "fb.G odd.7")


def rows_of(layout: Layout, situation: Situation | None = None) -> dict[str, TerminalRow]:
    point = None if situation is None else solve(build_circuit(layout, CATALOGUE), situation)
    return {row.terminal: row for row in terminal_rows(layout, CATALOGUE, point)}


def test_every_screw_of_every_demo_stands_once_with_every_end_that_is_landed_there() -> None:
    for name, layout_name in layouts():
        layout, catalogue = demo(name).job.layouts[layout_name], demo(name).catalogue
        rows = terminal_rows(layout, catalogue)
        every = [f"{part}.{letter}" for part in layout.parts for letter in catalogue.terminals_of(layout, part)]
        assert sorted(row.terminal for row in rows) == sorted(every)
        ends = [(each.conductor, row.terminal) for row in rows for each in row.landed]
        landed = [(wire, end) for wire, conductor in layout.conductors.items() for end in conductor.landed()]
        assert sorted(ends) == sorted(landed)


def test_a_screw_says_what_it_is_for_and_what_is_landed() -> None:
    rows = rows_of(sketch(PARTS, *WIRES))
    common = rows["fb.C"]
    assert (common.function, common.use) == ("common", "common")
    assert common.lines() == (("w5", "", "not landed"), ("w6", "", "not landed"))
    assert rows["fb.HUM"].lines() == ((NOTHING_LANDED, "", ""),)
    assert rows["fb.L1"].lines() == ((NOT_RECORDED, "", ""),)
    assert rows["odd.7"].lines() == (("w7", "", "fb.G"),)


def test_jumpers_stand_at_both_of_their_screws_as_they_are_set() -> None:
    (jumper,) = CATALOGUE.kind("thermostat-heat-cool-split").jumpers
    fitted = rows_of(sketch(PARTS, *WIRES))
    removed = rows_of(sketch({**PARTS, "tc": {"kind": PARTS["tc"], "settings": {jumper: "removed"}}}, *WIRES))
    assert fitted["tc.RH"].jumpers == ("to RC: fitted",)
    assert fitted["tc.RC"].jumpers == ("to RH: fitted",)
    assert removed["tc.RC"].jumpers == ("to RH: removed",)
    assert fitted["tc.W"].jumpers == ()
    taken_off = Situation(set={f"tc.{jumper}": "removed"})
    assert rows_of(sketch(PARTS, *WIRES), taken_off)["tc.RC"].jumpers == ("to RH: removed",)


def test_a_screw_that_only_passes_on_is_told_by_what_is_landed_there() -> None:
    parts = {**PARTS, "ts": "terminal-strip", "fs": "float-switch"}
    layout = sketch(parts, *WIRES[:3], "tc.W ts.1", "ts.1 fs.A", "fs.B fb.W", "fb.C -")
    circuit = build_circuit(layout, CATALOGUE)
    rows = {row.terminal: row for row in terminal_rows(layout, CATALOGUE, roles=wire_roles(circuit))}
    assert rows["ts.1"].use == "point 1, call for furnace heat"
    assert rows["fs.B"].use == "switch, the other side, call for furnace heat"
    assert rows["ts.2"].use == "point 2"
    # What a board does with a call stands on its screw already.
    assert rows["fb.W"].use == "call for heat"


def test_volts_are_those_of_the_situation_and_nothing_where_none_is_given() -> None:
    layout = sketch({**PARTS, "lone": "float-switch"}, *WIRES)
    idle, calling = rows_of(layout, Situation()), rows_of(layout, Situation(calls={"tc": ("heat-1",)}))
    assert {row.volts for row in rows_of(layout).values()} == {""}
    # 24 V rated, at most 10 % above it with little drawn.
    assert 24 < float(calling["fb.W"].volts.removesuffix(" V to xf.C")) < 26.5
    assert idle["fb.W"].volts == "0.0 V to xf.C"
    assert idle["lone.A"].volts == "floating"
    assert idle["odd.7"].volts == "not known"


def test_as_csv_conductors_of_one_screw_share_a_cell() -> None:
    layout = Layout.model_validate(
        {
            "parts": {"fb": {"kind": "furnace-board"}},
            "conductors": {"w1": {"ends": ["fb.C", None]}, "w2": {"ends": ["fb.C", None], "insulation": "BU"}},
        }
    )
    rows = terminal_rows(layout, CATALOGUE)
    cells = {row[0]: row for row in csv.reader(io.StringIO(terminals_csv(rows)))}
    assert cells["terminal"] == list(HEADINGS)
    assert cells["fb.C"] == ["fb.C", "common", "common", "w1; w2", "; BU", "not landed; not landed", ""]
    assert terminals_csv(rows, with_volts=True).splitlines()[0].endswith(",volts")
