"""What the tests see of a timing chart: rows, edges and words as they were drawn."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from random import Random

from app.circuit.network import Circuit
from app.circuit.situation import Situation
from app.drawing.frame.drawing import Drawing
from app.drawing.surface.geometry import Point
from app.drawing.surface.recorder import Record, Recorder
from app.drawing.surface.text_width import box_of_text
from app.drawing.surface.verbs import HEAVY
from app.drawing.timing.diagram import timing_drawing
from app.sequence.change_text import read_changes
from app.sequence.run import Run, run_sequence
from tests.drawing.seen import inked
from tests.sequence.playing import DEMOS, demo_circuit, script

ON = {"on", "pulled-in", "closed", "whole"}
OFF = {"off", "released", "open"}


@dataclass(frozen=True)
class SeenEdge:
    """An edge as it was drawn, and how the row runs on behind it."""

    number: int
    at_ms: int
    band: int
    x: int
    level: str


class SeenChart:
    """A timing chart on a recorder."""

    def __init__(self, circuit: Circuit, *changes: str, for_s: float = 7200.0, everything: bool = False) -> None:
        layout, catalogue = circuit.layout, circuit.catalogue
        self.run: Run = run_sequence(circuit, read_changes(changes, layout, catalogue, Situation()), for_s)
        self.drawing: Drawing = timing_drawing(self.run, layout, catalogue, everything=everything)
        self.recorder = Recorder()
        self.drawing.put(self.recorder)
        self.rows = self._rows()
        self.texts = [record.text for record in self.recorder.drawn("text") if record.text is not None]

    def subjects(self) -> dict[str, list[SeenEdge]]:
        """Return the edges of each subject that has a row, alone or together with others."""
        return {what: edges for row, edges in self.rows.items() for what in row.split(" ")}

    def words(self) -> str:
        """Return all words that stand on the chart."""
        return "\n".join(text.words for text in self.texts)

    def _rows(self) -> dict[str, list[SeenEdge]]:
        """Return the edges of each row, in the order in which they were drawn."""
        levels: dict[tuple[str, str], list[Record]] = defaultdict(list)
        for record in self.recorder.drawn("line"):
            row, edge = record.within("data-row"), record.within("data-edge")
            if row is not None and edge is None and len({point.y for point in record.points}) == 1:
                levels[row, record.within("data-band") or ""].append(record)
        found: dict[str, list[SeenEdge]] = defaultdict(list)
        for record in self.recorder.drawn("line"):
            number, row, band = (record.within(name) for name in ("data-edge", "data-row", "data-band"))
            if number is not None and row is not None and band is not None:
                level = _level(levels[row, band], record.points)
                at_ms = int(record.within("data-at-ms") or -1)
                found[row].append(SeenEdge(int(number), at_ms, int(band), record.points[0].x, level))
        return found


def _level(lines: list[Record], edge: tuple[Point, ...]) -> str:
    """Return how a row runs on behind an upright edge, by what was drawn there."""
    (x, above), (_, below) = edge
    there = [line for line in lines if line.points[0].x <= x < line.points[1].x]
    high = next((line.pen for line in there if line.points[0].y == above), None)
    low = next((line.pen for line in there if line.points[0].y == below), None)
    if high is not None and low is not None:
        return "unknown" if high.dash else "chatters"
    if high is not None:
        return "on" if high == HEAVY else "?"
    return "off" if low is not None else "?"


def level_in_words(now: str, before: str) -> str:
    """Return how a row should run behind an event that made something ``now``."""
    return "on" if now in ON else "off" if now in OFF else now if now in ("unknown", "chatters") else before


def overlapping(chart: SeenChart) -> list[str]:
    """Return pairs of words that lie on each other, by the whole boxes of their fonts."""
    boxes = sorted((box_of_text(text), text.words) for text in chart.texts)
    found = []
    for number, (box, words) in enumerate(boxes):
        for other, other_words in boxes[number + 1 :]:
            if other.x >= box.right:
                break
            if box.overlaps(other):
                found.append(f"{words!r} on {other_words!r} at {box} {other}")
    return found


def lines_through_words(chart: SeenChart) -> list[str]:
    """Return where a line runs through words; a circle is no line."""
    boxes = [(inked(text), text.words) for text in chart.texts]
    found = []
    for record in chart.recorder.drawn("line"):
        for a, b in pairwise(record.points):
            left, right = sorted((a.x, b.x))
            top, bottom = sorted((a.y, b.y))
            found += [
                f"{words!r} at {box}: {a} {b} of {record.groups[-1:]}"
                for box, words in boxes
                if left < box.right
                and box.x < right + (left == right)
                and top < box.bottom
                and box.y < bottom + (top == bottom)
                and right > box.x
                and bottom > box.y
            ]
    return found


def outside(chart: SeenChart) -> list[str]:
    """Return words and lines that do not lie in the content of the drawing."""
    content = chart.drawing.content
    return [
        str(record)
        for record in chart.recorder.records
        if (box := record.bounds()) is not None
        and not (
            content.x <= box.x and box.right <= content.right and content.y <= box.y and box.bottom <= content.bottom
        )
    ]


def circles_touched(chart: SeenChart) -> list[str]:
    """Return the numbered circles into which words or lines of others reach."""
    found = []
    segments = [
        (min(a.x, b.x), min(a.y, b.y), max(a.x, b.x), max(a.y, b.y), record)
        for record in chart.recorder.drawn("line")
        for a, b in pairwise(record.points)
    ]
    for circle in chart.recorder.drawn("circle"):
        centre, radius = circle.points[0], circle.radius
        for left, top, right, bottom, record in segments:
            dx = max(left - centre.x, 0, centre.x - right)
            dy = max(top - centre.y, 0, centre.y - bottom)
            if dx * dx + dy * dy < radius * radius:
                found.append(f"{circle.groups[-1:]} by {record.points} of {record.groups[-1:]}")
    return found


def by_chance(name: str, count: int, *, most: int = 6) -> Iterator[tuple[Circuit, list[str]]]:
    """Yield a demo with changes by chance, so often; the same ones each time."""
    layout, catalogue = DEMOS[name]
    chance = Random(name)
    for _ in range(count):
        yield demo_circuit(name), script(chance, layout, catalogue, most)
