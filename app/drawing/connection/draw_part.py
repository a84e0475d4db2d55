"""One part on the sheet: its box, its words, its screws and letters, its jumpers, what runs in it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from app.catalogue.kind import Kind, Opaque
from app.circuit.operating_point import OperatingPoint, TerminalState
from app.drawing.connection.inside.draw_inside import draw_inside
from app.drawing.connection.jumpers import draw_jumper, jumpers_of
from app.drawing.connection.landings import OUTWARD, Landing
from app.drawing.connection.live import volts_words
from app.drawing.connection.part_box import LETTER_COLUMN, PartBox, Screw, runs_words
from app.drawing.frame.legend import draw_not_24_v
from app.drawing.surface.geometry import GRID, Point
from app.drawing.surface.text_width import fitted, width_of
from app.drawing.surface.verbs import LETTER, MARK, NAME, NOT_IN_USE, SMALL, THIN, Pen, Surface, Text
from app.job.model import Part

SCREW = 5
JOINT = 3
LETTER_START = 20
BASELINE = 5
"""From the screw's centre down to the baseline of its letter."""
NO_WORDS: Mapping[str, str] = {}


def draw_part(
    surface: Surface,
    box: PartBox,
    part: Part,
    kind: Kind | None,
    landings: Mapping[str, Sequence[Landing]],
    point: OperatingPoint | None,
    pen: Pen | None = None,
    jumper_words: Mapping[str, str] = NO_WORDS,
) -> None:
    """Draw a part; ``landings`` gives what is landed on each of its screws, by letter.

    ``pen`` draws its box otherwise than usual; ``jumper_words`` stand beside its jumpers, by name.
    """
    place = " ".join(str(value) for value in box.box)
    title = f"{box.label}, {kind.title if kind else box.title}, {part.place}"
    surface.begin({"data-part": box.part, "data-box": place, "class": "part", "role": "group"}, title)
    surface.rect(box.box, pen or (MARK if box.known else NOT_IN_USE))
    _words(surface, box)
    opaque = opaque_screws(kind) if box.inside is None else frozenset[str]()
    for letter, screw in box.screws.items():
        _screw(surface, box, screw, kind, landings.get(letter, ()), point, letter in opaque)
    if kind is not None:
        if box.inside is not None:
            draw_inside(surface, box.part, kind, box.inside.moved(box.box.x, box.box.y), point)
        for jumper in jumpers_of(part, kind, box, point):
            draw_jumper(surface, box.part, jumper, jumper_words.get(jumper.name, ""))
    if point is not None and box.footer:
        _runs(surface, box, point)
    surface.end()


def opaque_screws(kind: Kind | None) -> frozenset[str]:
    """Return the letters of the screws behind which nothing is computed: data, millivolts, diodes."""
    if kind is None:
        return frozenset()
    opaque = (element.nodes for element in kind.elements.values() if isinstance(element, Opaque))
    return frozenset(node for nodes in opaque for node in nodes if node in kind.terminals)


def _words(surface: Surface, box: PartBox) -> None:
    x, y = box.box.x + GRID, box.box.y + (24 if "top" in box.sides else 0)
    surface.text(Text(Point(x, y + 20), box.label, NAME, width_of(box.label, NAME)), {"class": "name"})
    if box.title:
        surface.text(Text(Point(x, y + 36), box.title, SMALL, width_of(box.title, SMALL)), {"class": "kind"})


def _screw(
    surface: Surface,
    box: PartBox,
    screw: Screw,
    kind: Kind | None,
    landings: Sequence[Landing],
    point: OperatingPoint | None,
    opaque: bool,
) -> None:
    terminal = f"{box.part}.{screw.letter}"
    use = kind.terminals[screw.letter].use if kind is not None else "not known"
    place = {"data-x": str(screw.at.x), "data-y": str(screw.at.y), "data-side": screw.side}
    surface.begin({"data-terminal": terminal, "class": "terminal", **place}, f"{screw.letter}, {box.label}. {use}")
    surface.circle(screw.at, SCREW, THIN)
    if screw.both:
        surface.circle(screw.at, JOINT, None)
    else:
        surface.text(_letter(screw), {"class": "letter"})
    if opaque:
        out = OUTWARD[screw.side]
        draw_not_24_v(surface, screw.at, Point(-out.x, -out.y))
    for joint in sorted(joint for landing in landings if (joint := landing.joint()) is not None):
        surface.circle(joint, JOINT, None, {"class": "joint"})
    if point is not None and not screw.both and (landings or not _floats(terminal, point)):
        _volts(surface, terminal, screw, point)
    surface.end()


def _letter(screw: Screw) -> Text:
    out = OUTWARD[screw.side]
    width = width_of(screw.letter, LETTER)
    if out.y == 0:
        at = Point(screw.at.x - LETTER_START * out.x, screw.at.y + BASELINE)
        return Text(at, screw.letter, LETTER, width, "end" if out.x > 0 else "start")
    return Text(Point(screw.at.x, screw.at.y - (20 if out.y > 0 else -28)), screw.letter, LETTER, width, "middle")


def _floats(terminal: str, point: OperatingPoint) -> bool:
    state = point.terminals.get(terminal)
    return state is None or (state.volts is None and not state.unknown)


def _volts(surface: Surface, terminal: str, screw: Screw, point: OperatingPoint) -> None:
    state = point.terminals.get(terminal)
    if state is None:
        return
    out = OUTWARD[screw.side]
    room = LETTER_COLUMN - LETTER_START - width_of(screw.letter, LETTER) - 4
    words = _that_fit(state, room if out.y == 0 else 44)
    width = width_of(words, SMALL)
    if out.y == 0:
        at = Point(screw.at.x - LETTER_COLUMN * out.x, screw.at.y + 4)
        text = Text(at, words, SMALL, width, "start" if out.x > 0 else "end")
    else:
        text = Text(Point(screw.at.x, screw.at.y - (8 if out.y > 0 else -42)), words, SMALL, width, "middle")
    surface.text(text, {"class": "volts", "data-volts": terminal})


def _that_fit(state: TerminalState, room: int) -> str:
    """Return what stands at a terminal, as far as there is room; half a "not known" is said by its mark instead."""
    words = volts_words(state)
    return "?" if state.unknown and width_of(words, SMALL) > room else fitted(words, SMALL, room)


def _runs(surface: Surface, box: PartBox, point: OperatingPoint) -> None:
    running = [effect for part, effect in point.effects if part == box.part]
    if running:
        words = fitted(runs_words(running), SMALL, box.box.w - 2 * GRID)
        at = Point(box.box.x + GRID, box.box.bottom - 9 - (24 if "bottom" in box.sides else 0))
        surface.text(Text(at, words, SMALL, width_of(words, SMALL)), {"class": "runs", "data-runs": box.part})
