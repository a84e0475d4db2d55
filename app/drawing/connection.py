"""The connection diagram: every part where it stands, every conductor from screw to screw.

Rules of the file: what is drawn is decided in ``plan``; here it is only put on a surface, in keyed groups with absolute
coordinates, so that a page can replace exactly what has changed.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from app.catalogue.catalogue import Catalogue
from app.circuit.operating_point import OperatingPoint
from app.drawing.draw_conductor import draw_conductor
from app.drawing.draw_part import draw_part
from app.drawing.jumpers import jumpers_of
from app.drawing.labels import end_labels
from app.drawing.landings import Landing
from app.drawing.legend import Mark, marks_named
from app.drawing.live import conductor_state
from app.drawing.plan import Plan, plan_connection
from app.drawing.surface import Surface
from app.drawing.svg_writer import SvgWriter
from app.drawing.title_block import SheetWords, draw_frame, sheet_around
from app.job.model import Job
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
) -> str:
    """Return the connection diagram of a layout as SVG text; the same input gives the same bytes.

    With an operating ``point`` it shows what is hot, what carries, the volts and what runs. ``dated`` and
    ``situation_words`` go into the title block as they are.

    Raises:
        KeyError: the job has no such layout.
    """
    plan = plan_connection(job.layouts[layout_name], catalogue)
    words = _words(job, layout_name, dated, situation_words)
    marks = marks_on(plan, catalogue, point)
    sheet = sheet_around(plan.content, marks)
    writer = SvgWriter()
    put_connection(writer, plan, catalogue, point)
    writer.begin({"data-layer": "sheet"})
    draw_frame(writer, sheet, marks, words)
    writer.end()
    return writer.document(sheet, f"{words.job}, {words.layout}: {VIEW.lower()}", described(plan, situation_words))


def put_connection(surface: Surface, plan: Plan, catalogue: Catalogue, point: OperatingPoint | None = None) -> None:
    """Draw the parts and conductors of a plan."""
    landed = _by_screw(plan)
    labels = dict(end_labels(plan))
    surface.begin({"data-layer": "parts"})
    for name, box in plan.boxes.items():
        part = plan.layout.parts[name]
        draw_part(surface, box, part, catalogue.kind_of(part), landed.get(name, {}), point)
    surface.end()
    surface.begin({"data-layer": "conductors"})
    for name in sorted(plan.courses):
        draw_conductor(surface, name, plan, labels, point)
    surface.end()


def described(plan: Plan, situation_words: str) -> str:
    """Return what a reader hears about the whole drawing."""
    parts = ", ".join(box.label for box in plan.boxes.values())
    shown = f" Shown: {situation_words}." if situation_words else ""
    return f"{len(plan.boxes)} parts: {parts}. {len(plan.courses)} conductors.{shown}"


def marks_on(plan: Plan, catalogue: Catalogue, point: OperatingPoint | None) -> tuple[Mark, ...]:
    """Return the marks that stand on the drawing, in the order of the legend."""
    return marks_named(set(_mark_names(plan, catalogue, point)))


def _mark_names(plan: Plan, catalogue: Catalogue, point: OperatingPoint | None) -> Iterator[str]:
    for name, course in plan.courses.items():
        conductor = plan.layout.conductors[name]
        yield "conductor" if len(conductor.landed()) == 2 else "not-in-use"
        if course.broken:
            yield "continued"
        state = conductor_state(name, conductor, point) if point is not None else ""
        if state in ("hot", "carrying"):
            yield state
    yield from ("not-landed" if end.known else "not-seen" for end in plan.loose.values())
    if any(landing.shared > 1 for landing in plan.landings.values()):
        yield "joint"
    if plan.crossings:
        yield "crossing"
    for name, box in plan.boxes.items():
        part = plan.layout.parts[name]
        kind = catalogue.kind_of(part)
        if kind is not None:
            for jumper in jumpers_of(part, kind, box, point):
                yield "jumper-fitted" if jumper.fitted else "jumper-removed"


def _by_screw(plan: Plan) -> Mapping[str, Mapping[str, Sequence[Landing]]]:
    found: dict[str, dict[str, list[Landing]]] = {}
    for end, landing in plan.landings.items():
        terminal = plan.layout.conductors[end.conductor].ends[end.number]
        if isinstance(terminal, str):
            found.setdefault(part_of(terminal), {}).setdefault(letter_of(terminal), []).append(landing)
    return found


def _words(job: Job, layout_name: str, dated: str, situation_words: str) -> SheetWords:
    layout = job.layouts[layout_name].label or layout_name.replace("-", " ")
    return SheetWords(job.title, layout, VIEW, dated, situation_words)
