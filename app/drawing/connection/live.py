"""What an operating point puts on the drawing: the state of each conductor, volts, what runs.

Rules of the file: weight means hot, an arrowhead means that it carries; a floating terminal never reads 0 V.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import pairwise
from typing import Literal

from app.circuit.operating_point import OperatingPoint, TerminalState
from app.drawing.surface.geometry import GRID, Point, up_to_grid
from app.drawing.surface.text_width import box_of_text
from app.drawing.surface.verbs import HEAVY, NOT_IN_USE, THIN, Pen, Text
from app.job.model import Conductor

State = Literal["cold", "hot", "carrying", "floating", "unknown"]
HOT_ABOVE_VOLTS = 1.0
"""Below this a terminal stands at common but for the drop along it (from memory: a sound return drops far less)."""
HEAD_LENGTH, HEAD_HALF = 12, 5
HEAD_EVERY = 96
HEAD_SEGMENT_LEAST = 40
HEAD_CLEAR = 2
"""Between a head and words beside it."""
KeptFree = Mapping[tuple[bool, int], Sequence[tuple[int, int]]]
"""By whether a line is level and by its lane: from where to where words stand beside it."""
NOTHING_KEPT: KeptFree = {}


def conductor_state(name: str, conductor: Conductor, point: OperatingPoint) -> State:
    """Return what a conductor is in an operating point."""
    flow = point.conductors.get(name)
    if flow is not None and flow.toward is not None:
        return "carrying"
    states = [point.terminals[end] for end in conductor.landed() if end in point.terminals]
    if any(state.unknown for state in states):
        return "unknown"
    volts = [abs(state.volts) for state in states if state.volts is not None]
    if not volts:
        return "floating"
    return "hot" if max(volts) > HOT_ABOVE_VOLTS else "cold"


def pen_of(conductor: Conductor, state: State | None) -> Pen:
    """Return how a conductor is drawn: heavy when hot or carrying, dashed when an end of it is loose."""
    if state in ("hot", "carrying"):
        return HEAVY
    return THIN if len(conductor.landed()) == 2 else NOT_IN_USE


def volts_words(state: TerminalState) -> str:
    """Return what stands at a terminal in words."""
    if state.unknown:
        return "not known"
    if state.volts is None:
        return "floating"
    return f"{abs(state.volts):.1f} V"


def kept_free(texts: Iterable[Text]) -> KeptFree:
    """Return where words between lanes keep arrowheads off: on their own lane, and on the one above or before it."""
    kept: dict[tuple[bool, int], list[tuple[int, int]]] = {}
    for text in texts:
        box = box_of_text(text)
        lane = up_to_grid(text.at.y if text.upright else text.at.x)
        span = (box.x, box.right) if text.upright else (box.y, box.bottom)
        for beside in (lane, lane - GRID):
            kept.setdefault((text.upright, beside), []).append(span)
    return {key: sorted(spans) for key, spans in kept.items()}


def arrowheads(
    path: Sequence[Point], before: int, after: int, kept: KeptFree = NOTHING_KEPT
) -> Iterator[tuple[Point, Point, Point]]:
    """Yield the heads along a path that leads the way the power goes, one at least on each longer segment.

    ``before`` and ``after`` are how much of its start and end lies beside labels and stays free, ``kept`` where other
    words stand.
    """
    length = sum(_long(a, b) for a, b in pairwise(path))
    passed = 0
    for a, b in pairwise(path):
        long = _long(a, b)
        first, last = max(0, before - passed), min(long, length - after - passed)
        if last - first > HEAD_SEGMENT_LEAST:
            spans = kept.get((True, a.y) if a.y == b.y else (False, a.x), ())
            for low, high in _beside_words(a, b, first, last, spans):
                yield from _heads(a, b, long, low, high)
        passed += long


def _beside_words(
    a: Point, b: Point, first: int, last: int, spans: Sequence[tuple[int, int]]
) -> Iterator[tuple[int, int]]:
    """Yield what of a segment from ``a`` to ``b`` is left between words, as lengths from ``a``.

    Where only short pieces are left, the longest of them that holds a head.
    """
    if not spans:
        yield first, last
        return
    start, forward = (a.x, b.x > a.x) if a.y == b.y else (a.y, b.y > a.y)
    taken = sorted((low - start, high - start) if forward else (start - high, start - low) for low, high in spans)
    free, at = [], first
    for low, high in taken:
        free.append((at, min(low - HEAD_CLEAR, last)))
        at = max(at, high + HEAD_CLEAR)
    free.append((at, last))
    longer = [piece for piece in free if piece[1] - piece[0] > HEAD_SEGMENT_LEAST]
    if not longer:
        longer = [max(free, key=lambda piece: piece[1] - piece[0])]
    yield from (piece for piece in longer if piece[1] - piece[0] >= HEAD_LENGTH)


def _heads(a: Point, b: Point, long: int, first: int, last: int) -> Iterator[tuple[Point, Point, Point]]:
    dx, dy = (b.x - a.x) // long, (b.y - a.y) // long
    count = max(1, (last - first) // HEAD_EVERY)
    for number in range(count):
        tip = first + (last - first) * (2 * number + 1) // (2 * count) + HEAD_LENGTH // 2
        x, y = a.x + dx * tip, a.y + dy * tip
        back_x, back_y = x - dx * HEAD_LENGTH, y - dy * HEAD_LENGTH
        side_x, side_y = dy * HEAD_HALF, dx * HEAD_HALF
        yield Point(x, y), Point(back_x + side_x, back_y + side_y), Point(back_x - side_x, back_y - side_y)


def _long(a: Point, b: Point) -> int:
    return abs(a.x - b.x) + abs(a.y - b.y)
