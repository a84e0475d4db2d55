"""The drawing of two layouts: one connection diagram over both, and below it a list of what is different.

Rules of the file: what became of everything is found in ``changes``, told in ``telling`` and placed by the connection
diagram; here it is put on a surface, in keyed groups.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cached_property

from app.catalogue.catalogue import Catalogue, settings_of
from app.drawing.comparing.changes import Changes, PartFate, changes_between
from app.drawing.comparing.draw_line import draw_line, landed_anew
from app.drawing.comparing.listing import groups_of, plan_list
from app.drawing.comparing.marks import MARKS, WAS, put_gone
from app.drawing.comparing.telling import Told, cables_told, parts_told, sentence, wires_told
from app.drawing.comparing.together import Together, put_together
from app.drawing.connection.diagram import standing_marks
from app.drawing.connection.draw_conductor import spoken
from app.drawing.connection.draw_part import draw_part
from app.drawing.connection.labels import end_labels
from app.drawing.connection.landings import EndName, Landing, screw_of
from app.drawing.connection.plan import Plan, plan_connection
from app.drawing.frame.drawing import Drawing
from app.drawing.frame.legend import Mark, marks_named
from app.drawing.lists.marks import INSULATION_CODE, TERMINAL_NAME
from app.drawing.lists.table import Table, drawing_of, put_table
from app.drawing.surface.geometry import Point, box_around, up_to_grid
from app.drawing.surface.text_width import box_of_text, width_of
from app.drawing.surface.verbs import HEAVY, NAME, Pen, Surface, Text
from app.job.model import Layout
from app.job.names import letter_of, part_of
from app.job.temperatures import Units

VIEW = "Changes"
LIST_GAP = 36
NOTHING = "Nothing is different."
PENS: Mapping[PartFate, Pen] = {"new": HEAVY, "replaced": HEAVY, "taken out": WAS}


@dataclass(frozen=True)
class Compared:
    """Two layouts, planned on one sheet. ``names`` say what they are called."""

    changes: Changes
    catalogue: Catalogue
    names: tuple[str, str] = ("as found", "as left")
    units: Units = "si"

    @cached_property
    def together(self) -> Together:
        """Return both as one layout."""
        return put_together(self.changes, self.catalogue)

    @cached_property
    def plan(self) -> Plan:
        """Return where everything lies."""
        return plan_connection(self.together.layout, self.together.catalogue, said=self.together.said)

    @cached_property
    def told(self) -> tuple[tuple[Told, ...], tuple[Told, ...], tuple[Told, ...]]:
        """Return what is different about parts, wires and cables."""
        parts = tuple(parts_told(self.changes, self.catalogue, self.units))
        return parts, tuple(wires_told(self.changes, self.units)), tuple(cables_told(self.changes, self.units))

    @cached_property
    def list_at(self) -> Point:
        """Return where the list begins, below all that is drawn."""
        return Point(up_to_grid(self.plan.content.x), up_to_grid(self.plan.content.bottom + LIST_GAP))

    @cached_property
    def tables(self) -> tuple[Table, ...]:
        """Return the list of changes: wires, and beside them parts and cables."""
        wires, *others = groups_of(self.told, self.changes)
        return plan_list([[wires], others], self.names, self.list_at)

    @cached_property
    def listed(self) -> Drawing:
        """Return the list by itself, as it is put on paper: one table below the other, as wide as a sheet."""
        tables = plan_list([groups_of(self.told, self.changes)], self.names, Point(0, 0))
        return drawing_of(VIEW, tables, (TERMINAL_NAME, INSULATION_CODE), described(self))

    @cached_property
    def lanes(self) -> Mapping[str, Mapping[str, list[Landing]]]:
        """Return, by part and letter, the landings beside which a dot tells that wires are joined now."""
        return _joined(self.plan, self.together)


def compared(
    before: Layout,
    after: Layout,
    catalogue: Catalogue,
    names: tuple[str, str] = ("as found", "as left"),
    units: Units = "si",
) -> Compared:
    """Return two layouts of one job, planned on one sheet; ``names`` say what they are called."""
    return Compared(changes_between(before, after, catalogue), catalogue, names, units)


def changes_drawing(
    before: Layout,
    after: Layout,
    catalogue: Catalogue,
    names: tuple[str, str] = ("as found", "as left"),
    units: Units = "si",
) -> Drawing:
    """Return what changed between two layouts, to be put on a sheet."""
    both = compared(before, after, catalogue, names, units)
    diagram = Drawing(
        view=VIEW,
        content=both.plan.content,
        marks=tuple(marks_on(both)),
        description=described(both),
        put=lambda surface: put_diagram(surface, both),
        whole=tuple(box.box for box in both.plan.boxes.values()),
        names={box.box: box.label for box in both.plan.boxes.values()},
        called=both.plan.called,
    )
    below = [table.box for table in both.tables] or [box_of_text(_nothing(both))]
    return replace(
        diagram,
        content=box_around([both.plan.content, *below]) or both.plan.content,
        put=lambda surface: put_compared(surface, both),
        whole=(*diagram.whole, *(block.box for table in both.tables for block in table.blocks)),
        # Whoever takes up the packet first reads what is different, then looks where.
        apart=(both.listed, diagram) if both.tables else (),
    )


def put_compared(surface: Surface, both: Compared) -> None:
    """Draw the parts and the wires, and the list below them."""
    put_diagram(surface, both)
    surface.begin({"data-layer": "changes"})
    for table in both.tables:
        put_table(surface, table)
    if not both.tables:
        surface.text(_nothing(both))
    surface.end()


def put_diagram(surface: Surface, both: Compared) -> None:
    """Draw the parts and the wires."""
    surface.begin({"data-layer": "parts"})
    for name in both.plan.boxes:
        _put_part(surface, name, both)
    surface.end()
    surface.begin({"data-layer": "conductors"})
    labels = dict(end_labels(both.plan))
    titles = {told.id: sentence(told) for told in both.told[1]}
    for key in sorted(both.plan.courses):
        line = both.together.lines[key]
        title = titles.get(line.wire) or spoken(both.plan.called[key], both.plan.layout.conductors[key])
        draw_line(surface, key, line, both.plan, labels, both.changes.ends.get(line.wire, ()), title)
    surface.end()


def _nothing(both: Compared) -> Text:
    return Text(both.list_at, NOTHING, NAME, width_of(NOTHING, NAME))


def described(both: Compared) -> str:
    """Return what a reader hears about the whole: every change in a sentence."""
    told = " ".join(sentence(one) for group in both.told for one in group) or NOTHING
    return f"From {both.names[0]} to {both.names[1]}. {told}"


def marks_on(both: Compared) -> Iterator[Mark]:
    """Yield the marks that stand on the drawing, in the order of the legend."""
    names = set(_mark_names(both))
    yield from (mark for mark in MARKS if mark.name in names)
    standing = standing_marks(both.plan, both.together.catalogue)
    names |= standing - {"conductor", "not-in-use", "spare", "not-landed", "not-seen", "joint"}
    yield from marks_named(names)


def _mark_names(both: Compared) -> Iterator[str]:
    plan, together = both.plan, both.together
    for key, line in together.lines.items():
        moved = landed_anew(line, both.changes.ends.get(line.wire, ()))
        if line.was:
            yield "came-off"
        elif line.fate == "new":
            yield "wire-new"
        else:
            yield "stays" if len(plan.layout.conductors[key].landed()) == 2 else "not-in-use"
        if line.fate == "moved" and any(EndName(key, end) in plan.landings for end in moved):
            yield "end-moved"
    for end, loose in plan.loose.items():
        if together.lines[end.conductor].end is None:
            yield "not-landed" if loose.known else "not-seen"
    if any(found for letters in both.lanes.values() for found in letters.values()):
        yield "joint"
    yield from (
        "part-gone" if fate == "taken out" else "part-new" for fate in both.changes.parts.values() if fate in PENS
    )
    if together.gone:
        yield "screw-gone"


def _put_part(surface: Surface, name: str, both: Compared) -> None:
    part, box = both.plan.layout.parts[name], both.plan.boxes[name]
    fate = both.changes.parts.get(name)
    surface.begin({"data-change": fate} if fate is not None else {})
    pen = PENS.get(fate) if fate is not None else None
    kind = both.together.catalogue.kind_of(part)
    draw_part(surface, box, part, kind, both.lanes.get(name, {}), None, pen, _jumper_words(name, both))
    for screw in sorted(both.together.gone):
        if part_of(screw) == name:
            put_gone(surface, screw_of(screw, both.plan.boxes))
    surface.end()


def _jumper_words(name: str, both: Compared) -> dict[str, str]:
    """Return what became of the jumpers of a part that was not replaced."""
    if both.changes.parts.get(name) != "changed":
        return {}
    before, after = both.changes.before.parts[name], both.changes.after.parts[name]
    kind = both.catalogue.kind_of(after)
    if kind is None:
        return {}
    was, now = settings_of(kind, before), settings_of(kind, after)
    return {
        jumper: "put in" if now[jumper] == "fitted" else "taken out"
        for jumper in kind.jumpers
        if was[jumper] != now[jumper]
    }


def _joined(plan: Plan, together: Together) -> dict[str, dict[str, list[Landing]]]:
    """Return the landings beside which a dot stands: of a wire that is there, with another that is beyond its lane."""
    on_screw: dict[tuple[str, str], list[Landing]] = {}
    for end, landing in plan.landings.items():
        terminal = plan.layout.conductors[end.conductor].ends[end.number]
        if isinstance(terminal, str) and not together.lines[end.conductor].was:
            on_screw.setdefault((terminal, landing.side), []).append(landing)
    found: dict[str, dict[str, list[Landing]]] = {}
    for (terminal, _side), landings in on_screw.items():
        ordered = sorted(landings, key=lambda landing: landing.lane)
        found.setdefault(part_of(terminal), {}).setdefault(letter_of(terminal), []).extend(ordered[:-1])
    return found
