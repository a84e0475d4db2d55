"""What connection diagrams come to, beside the plainest router on the same placings: `python -m tests.drawing.table`.

All demo jobs, and a hundred layouts by chance of 10 to 100 parts. First the hard rules, each of which must come to
nothing; then what should be little. A row tells a figure of ours and, after the bar, that of the plain router, whose
lines may lie on each other: what is hidden under a shared piece is no crossing in its figures.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import astuple, dataclass, fields
from itertools import pairwise

from app.catalogue.catalogue import Catalogue
from app.drawing.connection.landings import EndName, grounds_of
from app.drawing.connection.loose_ends import place_loose_ends
from app.drawing.connection.plan import Plan, plan_connection
from app.drawing.connection.region_routes import route_plot
from app.drawing.routing.course import straightened
from app.drawing.surface.geometry import Box, Point
from app.job.model import Layout
from tests.demo_jobs.demos import demo, layouts
from tests.drawing.generated import CATALOGUE, generated_layout
from tests.drawing.plain_router import plain_courses
from tests.drawing.seen import Seen, overlapping_words, shared_segments, through_boxes, through_words

BY_CHANCE = [(seed, 10 + seed * 9 % 91) for seed in range(100, 200)]
Courses = Mapping[str, Sequence[Point]]
Piece = tuple[int, int, int, str]
"""A straight piece: its row or column, where it begins and ends there, and its conductor."""


@dataclass(frozen=True)
class Lines:
    """What the lines of a drawing come to: how often two share a piece, cross, or bend, and their length in u."""

    shared: int
    crossings: int
    bends: int
    length_u: int


@dataclass(frozen=True)
class Row:
    """One drawing, or several: what breaks a hard rule, the lines of ours and of the plain router, and the time.

    Lines are those of conductors that are landed at both ends and for which both have a way.
    """

    name: str
    shared: int
    through_boxes: int
    through_labels: int
    labels_on_labels: int
    broken: int
    ours: Lines
    plain: Lines
    seconds: float

    def broken_rules(self) -> tuple[int, int, int, int]:
        """Return the counts that must be nothing."""
        return self.shared, self.through_boxes, self.through_labels, self.labels_on_labels


def measured(name: str, layout: Layout, catalogue: Catalogue) -> Row:
    """Return the row of one layout."""
    route_plot.cache_clear()
    start = time.perf_counter()
    plan = plan_connection(layout, catalogue)
    seconds = time.perf_counter() - start
    seen = Seen(layout, catalogue)
    plain = plain_courses(plan, closed_boxes(plan))
    ours = {wire: plan.courses[wire].pieces[0] for wire in plain if not plan.courses[wire].broken}
    return Row(
        name,
        len(shared_segments(seen)),
        len(through_boxes(seen)),
        len(through_words(seen)),
        len(overlapping_words(seen)),
        sum(course.broken for course in plan.courses.values()),
        lines_of(ours, plan),
        lines_of({wire: plain[wire] for wire in ours}, plan),
        seconds,
    )


def closed_boxes(plan: Plan) -> list[Box]:
    """Return the boxes that no conductor may enter: the grounds of the parts, and what is kept for loose ends."""
    grounds = grounds_of(plan.layout, plan.boxes, plan.landings)
    return [*grounds.values(), *place_loose_ends(plan.layout, grounds, plan.landings).kept]


def between_ports(plan: Plan, wire: str, points: Sequence[Point]) -> Sequence[Point]:
    """Return a course without its landings, which are the same whatever way it takes."""
    for number in (0, 1):
        port = plan.landings[EndName(wire, number)].port
        after = next(k for k, (a, b) in enumerate(pairwise(points), start=1) if _on(port, a, b))
        points = [port, *points[after:]][::-1]
    return straightened(points)


def _on(port: Point, a: Point, b: Point) -> bool:
    return min(a.x, b.x) <= port.x <= max(a.x, b.x) and min(a.y, b.y) <= port.y <= max(a.y, b.y)


def lines_of(courses: Courses, plan: Plan) -> Lines:
    """Return what courses come to; crossings and shared pieces are pairs of straight pieces of two conductors."""
    level, upright = _pieces(courses)
    crossings = sum(
        low < x < high and top < y < bottom
        for y, low, high, wire in level
        for x, top, bottom, other in upright
        if wire != other
    )
    return Lines(
        sum(map(_shared, _pieces({wire: between_ports(plan, wire, points) for wire, points in courses.items()}))),
        crossings,
        sum(len(points) - 2 for points in courses.values()),
        sum(abs(a.x - b.x) + abs(a.y - b.y) for points in courses.values() for a, b in pairwise(points)),
    )


def _pieces(courses: Courses) -> tuple[list[Piece], list[Piece]]:
    """Return the level and the upright pieces."""
    level: list[Piece] = []
    upright: list[Piece] = []
    for wire, points in courses.items():
        for a, b in pairwise(points):
            if a.y == b.y:
                level.append((a.y, min(a.x, b.x), max(a.x, b.x), wire))
            else:
                upright.append((a.x, min(a.y, b.y), max(a.y, b.y), wire))
    return level, upright


def _shared(pieces: list[Piece]) -> int:
    """Return how many pairs of pieces lie on each other."""
    pieces.sort()
    count = 0
    for number, (track, _, high, wire) in enumerate(pieces):
        for other_track, low, other_high, other in pieces[number + 1 :]:
            if other_track != track or low >= high:
                break
            count += wire != other and min(high, other_high) > low
    return count


def total(name: str, rows: Sequence[Row]) -> Row:
    """Return the sum of rows."""
    return Row(
        name,
        sum(row.shared for row in rows),
        sum(row.through_boxes for row in rows),
        sum(row.through_labels for row in rows),
        sum(row.labels_on_labels for row in rows),
        sum(row.broken for row in rows),
        _sum([row.ours for row in rows]),
        _sum([row.plain for row in rows]),
        sum(row.seconds for row in rows),
    )


def _sum(lines: Sequence[Lines]) -> Lines:
    return Lines(*(sum(column) for column in zip(*map(astuple, lines), strict=True)))


def written(row: Row) -> str:
    """Return a row as it is printed."""
    rules = " ".join(f"{count:>6}" for count in row.broken_rules())
    pairs = "  ".join(
        f"{getattr(row.ours, field.name):>8} | {getattr(row.plain, field.name):<8}" for field in fields(Lines)
    )
    return f"{row.name:<42}{rules}  {pairs}  {row.broken:>6} {row.seconds * 1e3:>8.0f}"


def demo_rows() -> Iterator[Row]:
    """Yield a row for each layout of each demo."""
    for name, layout in layouts():
        yield measured(f"{name} {layout}", demo(name).job.layouts[layout], demo(name).catalogue)


def chance_rows() -> Iterator[Row]:
    """Yield a row for each layout by chance."""
    for seed, parts in BY_CHANCE:
        yield measured(f"seed {seed}, {parts} parts", generated_layout(seed, parts), CATALOGUE)


def main(wanted: Sequence[str]) -> None:
    """Print the table: of the demos with `demos`, of the layouts by chance with `chance`, of both without a word."""
    rules = " ".join(f"{word:>6}" for word in ("shared", "boxes", "labels", "overl."))
    pairs = "  ".join(f"{word:^19}" for word in ("shared", "crossings", "bends", "length in u"))
    print(f"{'':<42}{rules}  {pairs}  broken       ms")
    for name, rows in (("demos", demo_rows), ("chance", chance_rows)):
        if not wanted or name in wanted:
            found = []
            for row in rows():
                found.append(row)
                print(written(row), flush=True)
            print(written(total(f"all of {name}", found)))


if __name__ == "__main__":
    main(sys.argv[1:])
