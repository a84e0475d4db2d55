"""The connection diagram: every part where it stands, every conductor from screw to screw.

Rules of the file: what is drawn is decided in ``plan``; here it is only put on a surface, in keyed groups with absolute
coordinates, so that a page can replace exactly what has changed.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from app.catalogue.catalogue import Catalogue
from app.catalogue.spoken import counted
from app.circuit.operating_point import OperatingPoint
from app.drawing.connection.draw_conductor import draw_conductor
from app.drawing.connection.draw_part import draw_part, opaque_screws
from app.drawing.connection.inside.marks import inside_marks
from app.drawing.connection.jumpers import jumpers_of
from app.drawing.connection.landings import Landing
from app.drawing.connection.live import conductor_state
from app.drawing.connection.loose_ends import ends_with_words
from app.drawing.connection.plan import Plan, plan_connection
from app.drawing.connection.written import NO_ROLES, Roles, Written, written_on
from app.drawing.frame.drawing import Drawing
from app.drawing.frame.legend import Mark, marks_named
from app.drawing.frame.one_sheet import one_sheet
from app.drawing.frame.title_block import sheet_words
from app.drawing.surface.verbs import Surface
from app.job.model import Job, Layout
from app.job.names import letter_of, part_of

VIEW = "Connection diagram"


def draw_connection(
    job: Job,
    layout_name: str,
    catalogue: Catalogue,
    *,
    point: OperatingPoint | None = None,
    dated: str = "",
    situation_words: str = "",
    insides: bool = False,
    roles: Roles = NO_ROLES,
) -> str:
    """Return the connection diagram of a layout as SVG text; the same input gives the same bytes.

    With an operating ``point`` it shows what is hot, what carries, the volts and what runs. ``dated`` and
    ``situation_words`` go into the title block as they are. ``insides`` shows what is inside each part. ``roles`` say
    what each conductor is for.

    Raises:
        KeyError: the job has no such layout.
    """
    drawing = connection_drawing(job.layouts[layout_name], catalogue, point, situation_words, insides, roles)
    return one_sheet(drawing, sheet_words(job, layout_name, VIEW, dated, situation_words))


def connection_drawing(
    layout: Layout,
    catalogue: Catalogue,
    point: OperatingPoint | None = None,
    situation_words: str = "",
    insides: bool = False,
    roles: Roles = NO_ROLES,
) -> Drawing:
    """Return the connection diagram of a layout, to be put on a sheet; ``roles`` say what each conductor is for."""
    plan = plan_connection(layout, catalogue, insides)
    written = written_on(plan, roles)
    return Drawing(
        view=VIEW,
        content=plan.content,
        marks=marks_on(plan, catalogue, point, bool(written.purposes)),
        description=described(plan, situation_words),
        put=lambda surface: put_connection(surface, plan, catalogue, point, written),
        whole=(*(box.box for box in plan.boxes.values()), *ends_with_words(plan.loose)),
        names={box.box: box.label for box in plan.boxes.values()},
        called=plan.called,
    )


def put_connection(
    surface: Surface,
    plan: Plan,
    catalogue: Catalogue,
    point: OperatingPoint | None = None,
    written: Written | None = None,
) -> None:
    """Draw the parts and conductors of a plan, with what is ``written`` beside them; without it their labels alone."""
    landed = _by_screw(plan)
    written = written or written_on(plan)
    surface.begin({"data-layer": "parts"})
    for name, box in plan.boxes.items():
        part = plan.layout.parts[name]
        draw_part(surface, box, part, catalogue.kind_of(part), landed.get(name, {}), point)
    surface.end()
    surface.begin({"data-layer": "conductors"})
    for name in sorted(plan.courses):
        draw_conductor(surface, name, plan, written, point)
    surface.end()


def described(plan: Plan, situation_words: str) -> str:
    """Return what a reader hears about the whole drawing."""
    parts = ", ".join(box.label for box in plan.boxes.values())
    shown = f" Shown: {situation_words}." if situation_words else ""
    return f"{counted(len(plan.boxes), 'part')}: {parts}. {counted(len(plan.courses), 'conductor')}.{shown}"


def marks_on(
    plan: Plan, catalogue: Catalogue, point: OperatingPoint | None, purposes: bool = False
) -> tuple[Mark, ...]:
    """Return the marks that stand on the drawing, in the order of the legend; ``purposes`` stand there in words."""
    insides = [box.inside for box in plan.boxes.values() if box.inside is not None]
    standing = standing_marks(plan, catalogue, point)
    if purposes and "conductor" in standing:
        standing = standing - {"conductor"} | {"conductor-for"}
    return (*marks_named(standing), *inside_marks(insides, point is not None))


def standing_marks(plan: Plan, catalogue: Catalogue, point: OperatingPoint | None = None) -> set[str]:
    """Return the names of the marks that stand on a diagram, but those of what is inside parts."""
    return set(_mark_names(plan, catalogue, point))


def _mark_names(plan: Plan, catalogue: Catalogue, point: OperatingPoint | None) -> Iterator[str]:
    for name, course in plan.courses.items():
        conductor = plan.layout.conductors[name]
        if conductor.ends == (None, None):
            yield "spare"
            continue
        yield "conductor" if len(conductor.landed()) == 2 else "not-in-use"
        yield from ("not-landed" if end is None else "not-seen" for end in conductor.ends if not isinstance(end, str))
        if course.broken:
            yield "continued"
        state = conductor_state(name, conductor, point) if point is not None else ""
        if state in ("hot", "carrying"):
            yield state
    if any(landing.shared > 1 for landing in plan.landings.values()):
        yield "joint"
    if plan.crossings:
        yield "crossing"
    if point is not None and any(box.screws for box in plan.boxes.values()):
        yield "volts"
    for name in plan.boxes:
        yield from _marks_of_part(name, plan, catalogue, point)


def _marks_of_part(name: str, plan: Plan, catalogue: Catalogue, point: OperatingPoint | None) -> Iterator[str]:
    box, part = plan.boxes[name], plan.layout.parts[name]
    kind = catalogue.kind_of(part)
    if kind is None:
        yield "part-unknown"
        return
    if box.is_splice():
        yield "splice"
    if opaque_screws(kind) and box.inside is None:
        yield "opaque"
    for jumper in jumpers_of(part, kind, box, point):
        yield "jumper-fitted" if jumper.fitted else "jumper-removed"


def _by_screw(plan: Plan) -> Mapping[str, Mapping[str, Sequence[Landing]]]:
    found: dict[str, dict[str, list[Landing]]] = {}
    for end, landing in plan.landings.items():
        terminal = plan.layout.conductors[end.conductor].ends[end.number]
        if isinstance(terminal, str):
            found.setdefault(part_of(terminal), {}).setdefault(letter_of(terminal), []).append(landing)
    return found
