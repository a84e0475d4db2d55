"""The views that a layout can be drawn in, by the name that people ask for; each new view is one entry here.

Rules of the file: it stands above all views and below whoever asks for one. A view says what it needs, so that whoever
asks can work it out or refuse in words; it is never asked to draw without it.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from app.catalogue.catalogue import Catalogue
from app.circuit.network import Circuit
from app.circuit.operating_point import OperatingPoint
from app.drawing.comparing.diagram import changes_drawing
from app.drawing.connection.diagram import connection_drawing
from app.drawing.frame.drawing import Drawing
from app.drawing.ladder.diagram import ladder_drawing
from app.drawing.lists.flags import flags_drawing
from app.drawing.lists.terminal_list import terminal_list_drawing
from app.drawing.lists.wire_list import wire_list_drawing
from app.drawing.timing.diagram import timing_drawing
from app.job.model import Job, Layout
from app.job.temperatures import Units
from app.sequence.run import Run
from app.tables.wire_rows import roles_in, wire_roles


@dataclass(frozen=True)
class Shown:
    """What is to be drawn: a layout, and what it does in a situation or through a run, where that is to be shown.

    ``situation_words`` say the situation as the title block does; they are empty without a ``point``.
    """

    layout: Layout
    catalogue: Catalogue
    circuit: Circuit
    point: OperatingPoint | None = None
    situation_words: str = ""
    run: Run | None = None
    everything: bool = False
    """Whether a run is shown with whatever moves in it."""
    insides: bool = False
    """Whether a connection diagram shows what is inside each part."""
    before: Layout | None = None
    """The layout that this one is compared with."""
    names: tuple[str, str] = ("as found", "as left")
    """What the two are called, the earlier one first."""
    units: Units = "si"
    """Those in which the job measures."""


@dataclass(frozen=True)
class View:
    """One way of drawing a layout. ``words`` say in a few words what it shows.

    One that does not show a situation is the same in all of them, and is not called a picture of one.
    """

    words: str
    draw: Callable[[Shown], Drawing]
    needs_run: bool = False
    shows_situation: bool = True
    shows_insides: bool = False
    needs_before: bool = False
    """Whether it shows what changed since another layout."""


def _timing(shown: Shown) -> Drawing:
    if shown.run is None:
        raise ValueError("a timing chart shows a run")
    return timing_drawing(shown.run, shown.layout, shown.catalogue, everything=shown.everything, units=shown.units)


def _changes(shown: Shown) -> Drawing:
    if shown.before is None:
        raise ValueError("a drawing of changes shows two layouts")
    return changes_drawing(shown.before, shown.layout, shown.catalogue, shown.names, shown.units)


VIEWS: Mapping[str, View] = {
    "connection": View(
        "where everything stands and is landed",
        lambda shown: connection_drawing(
            shown.layout, shown.catalogue, shown.point, shown.situation_words, shown.insides, roles_in(shown.circuit)
        ),
        shows_insides=True,
    ),
    "changes": View(
        "what stays, what is new, what was moved and what came off, from one layout to another",
        _changes,
        shows_situation=False,
        needs_before=True,
    ),
    "ladder": View(
        "what works what, rung by rung",
        lambda shown: ladder_drawing(shown.layout, shown.catalogue, shown.point, shown.situation_words),
    ),
    "timing": View("what happens when, through a run", _timing, needs_run=True),
    "wires": View(
        "what each wire joins and is for",
        lambda shown: wire_list_drawing(shown.layout, shown.catalogue, wire_roles(shown.circuit), units=shown.units),
        shows_situation=False,
    ),
    "terminals": View(
        "what is landed on each screw",
        lambda shown: terminal_list_drawing(
            shown.layout, shown.catalogue, shown.point, shown.situation_words, wire_roles(shown.circuit)
        ),
    ),
    "flags": View(
        "flags to cut out and fold around the wires",
        lambda shown: flags_drawing(shown.layout, shown.catalogue, roles_in(shown.circuit)),
        shows_situation=False,
    ),
}
"""Every view, in the order in which they lie in a packet."""


def compared_with(shown: Shown, job: Job, before: str, after: str) -> Shown:
    """Return what is to be drawn of the layout ``after``, compared with the layout ``before`` of the same job."""
    names = before.replace("-", " "), after.replace("-", " ")
    return replace(shown, before=job.layouts[before], names=names)


def drawable(has_run: bool, has_before: bool) -> tuple[str, ...]:
    """Return the names of the views that can be drawn with a run or without one, with another layout or without."""
    return tuple(
        name
        for name, view in VIEWS.items()
        if (has_run or not view.needs_run) and (has_before or not view.needs_before)
    )
