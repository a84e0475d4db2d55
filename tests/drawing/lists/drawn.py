"""What the tests of the lists share: every list of a layout as it was drawn, and layouts that ask much of it."""

from __future__ import annotations

from collections.abc import Iterator

from app.catalogue.builtin import builtin_catalogue
from app.catalogue.catalogue import Catalogue
from app.circuit.network import build_circuit
from app.circuit.situations import situations_of
from app.circuit.solve import solve
from app.drawing.frame.drawing import Drawing
from app.drawing.lists.flags import flags_drawing
from app.drawing.lists.terminal_list import terminal_list_drawing
from app.drawing.lists.wire_list import wire_list_drawing
from app.drawing.surface.geometry import Box
from app.drawing.surface.recorder import Recorder
from app.drawing.surface.verbs import Text
from app.job.model import Layout
from app.tables.wire_rows import BY, roles_in, wire_roles
from tests.demo_jobs.demos import demo, layouts

CATALOGUE = builtin_catalogue()
LONG = "a-part-with-a-name-of-32-letters"
DEMANDING = Layout.model_validate(
    {
        "parts": {
            LONG: {"kind": "terminal-strip", "label": "label " * 33, "place": "x" * 200},
            "tc": {"kind": "unknown", "place": "behind\nthe <door>"},
        },
        "cables": {"cb1": {"label": "through " * 25, "length_m": 123.456}, LONG: {}},
        "conductors": {
            f"w{number}": {
                "ends": [f"{LONG}.1", {"unknown": "somewhere behind the drywall of the second floor " * 4}],
                "cable": "cb1" if number % 2 else LONG,
                "insulation": "AAAAAAAA/BBBBBBBB",
                "note": f"{'long ' * 60}{'x' * 90}",
            }
            for number in range(1, 11)
        }
        | {"w-7kq2x": {"ends": ["tc.ABCDEFGHIJKL", "tc.R"]}, "w9-7kq2x": {"ends": [None, f"{LONG}.2"]}},
    }
)
"""Names as long as a document allows, many conductors on one screw."""


def every_layout() -> Iterator[tuple[str, Layout, Catalogue]]:
    """Yield each demo's layouts, an empty one and a demanding one, by name."""
    yield "empty", Layout(), CATALOGUE
    yield "demanding", DEMANDING, CATALOGUE
    for name, layout_name in layouts():
        yield f"{name} {layout_name}", demo(name).job.layouts[layout_name], demo(name).catalogue


def lists_of(layout: Layout, catalogue: Catalogue) -> dict[str, Drawing]:
    """Return every list of a layout by name."""
    circuit = build_circuit(layout, catalogue)
    point = solve(circuit, situations_of(layout, catalogue)[-1])
    roles = wire_roles(circuit)
    wires = {f"wires by {by}": wire_list_drawing(layout, catalogue, roles, by) for by in BY}
    terminals = {
        "terminals": terminal_list_drawing(layout, catalogue),
        "terminals live": terminal_list_drawing(layout, catalogue, point, "a call"),
    }
    return {**wires, **terminals, "flags": flags_drawing(layout, catalogue, roles_in(circuit))}


def recorded(drawing: Drawing) -> Recorder:
    """Return a drawing as it was drawn."""
    recorder = Recorder()
    drawing.put(recorder)
    return recorder


def texts_of(recorder: Recorder) -> list[Text]:
    """Return all words of a drawing."""
    return [record.text for record in recorder.drawn("text") if record.text is not None]


def inside(box: Box, other: Box) -> bool:
    """Return whether a box lies in another, edges counted."""
    return other.x <= box.x and box.right <= other.right and other.y <= box.y and box.bottom <= other.bottom
