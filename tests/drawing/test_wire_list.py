"""The wire list as rows and as CSV that any spreadsheet reads back."""

from __future__ import annotations

import csv
import io

from app.drawing.lists.wire_list import HEADINGS, WireRow, wire_list, wire_list_csv
from app.job.model import Layout

LAYOUT = Layout.model_validate(
    {
        "parts": {"fb": {"kind": "furnace-board"}, "tc": {"kind": "thermostat-heat-cool"}},
        "cables": {"cb1": {"size_awg": 20, "length_m": 14.5}},
        "conductors": {
            "w2": {"ends": ["fb.C", None], "cable": "cb1", "insulation": "WH/BU", "note": 'spare, folded "back"'},
            "w1": {"ends": ["fb.R", "tc.R"], "note": "=1+1"},
            "w3": {"ends": [{"unknown": "in the wall"}, "tc.W"], "size_awg": 18, "length_m": 3},
        },
    }
)


def test_each_conductor_has_a_row_in_the_order_of_ids() -> None:
    assert wire_list(LAYOUT) == (
        WireRow("w1", "fb.R", "tc.R", "", "", None, None, "=1+1"),
        WireRow("w2", "fb.C", "not landed", "cb1", "WH/BU", 20, 14.5, 'spare, folded "back"'),
        WireRow("w3", "not seen: in the wall", "tc.W", "", "", 18, 3.0, ""),
    )


def test_csv_reads_back_as_it_was_but_for_what_a_spreadsheet_would_run() -> None:
    rows = list(csv.reader(io.StringIO(wire_list_csv(wire_list(LAYOUT)))))
    assert rows[0] == list(HEADINGS)
    assert rows[1] == ["w1", "fb.R", "tc.R", "", "", "", "", "'=1+1"]
    assert rows[2] == ["w2", "fb.C", "not landed", "cb1", "WH/BU", "20", "14.5", 'spare, folded "back"']
    assert rows[3][5:7] == ["18", "3"]


def test_an_empty_layout_has_only_headings() -> None:
    assert wire_list_csv(wire_list(Layout())) == ",".join(HEADINGS) + "\r\n"
