"""The plainest router, to be measured beside ours: for each conductor by itself a shortest way at right angles.

Dijkstra with a goal (A*) over the visibility lines of the boxes: the lines just outside their edges, and those through
the ports. The shortest way wins, of several the one with the fewest bends. It takes no notice of other conductors, so
that its crossings come of themselves and its lines may lie on each other.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Iterator, Mapping
from heapq import heappop, heappush

from app.drawing.connection.landings import OUTWARD, EndName, Landing
from app.drawing.connection.plan import Plan
from app.drawing.routing.course import straightened
from app.drawing.surface.geometry import GRID, Box, Point

RIM = 5 * GRID
"""Around everything, so that a way can go around the outermost boxes."""
LEFT, UP, RIGHT, DOWN = range(4)
FACING = {(-1, 0): LEFT, (0, -1): UP, (1, 0): RIGHT, (0, 1): DOWN}


class Lines:
    """The visibility lines around boxes, as columns and rows.

    Where two of them cross is a number: the column, times how many rows there are, and the row. ``taken`` tells for
    each whether it lies in a box.
    """

    def __init__(self, closed: Iterable[Box], ports: Iterable[Point]) -> None:
        boxes, points = list(closed), list(ports)
        # The edges of a box are lines too, though none may be used, so that none goes through unseen.
        xs = {x for b in boxes for x in (_below(b.x), b.x, _above(b.right))} | {p.x for p in points}
        ys = {y for b in boxes for y in (_below(b.y), b.y, _above(b.bottom))} | {p.y for p in points}
        self.xs, self.ys = sorted(xs), sorted(ys)
        # No line goes along the rim of the field, so that one step from any point is a point.
        self.xs = [self.xs[0] - 2 * RIM, self.xs[0] - RIM, *self.xs, self.xs[-1] + RIM, self.xs[-1] + 2 * RIM]
        self.ys = [self.ys[0] - 2 * RIM, self.ys[0] - RIM, *self.ys, self.ys[-1] + RIM, self.ys[-1] + 2 * RIM]
        self.rows = len(self.ys)
        self.taken = bytearray(len(self.xs) * self.rows)
        for box in (*boxes, *self._rims()):
            for i in range(bisect_left(self.xs, box.x), bisect_left(self.xs, box.right + 1)):
                for j in range(bisect_left(self.ys, box.y), bisect_left(self.ys, box.bottom + 1)):
                    self.taken[i * self.rows + j] = 1

    def place(self, point: Point) -> int:
        """Return the number of a point at which two lines cross."""
        return bisect_left(self.xs, point.x) * self.rows + bisect_left(self.ys, point.y)

    def point(self, place: int) -> Point:
        """Return the point by its number."""
        return Point(self.xs[place // self.rows], self.ys[place % self.rows])

    def steps(self) -> tuple[int, int, int, int]:
        """Return what to add to a number to go to the left, up, to the right and down."""
        return -self.rows, -1, self.rows, 1

    def _rims(self) -> Iterator[Box]:
        width, height = self.xs[-1] - self.xs[0], self.ys[-1] - self.ys[0]
        yield from (Box(self.xs[0], y, width, 0) for y in (self.ys[0], self.ys[-1]))
        yield from (Box(x, self.ys[0], 0, height) for x in (self.xs[0], self.xs[-1]))


def plain_courses(plan: Plan, closed: Iterable[Box]) -> dict[str, tuple[Point, ...]]:
    """Return a way from screw to screw for each conductor that is landed at both ends, on the placing of a plan."""
    lines = Lines(closed, (landing.port for landing in plan.landings.values()))
    courses = {}
    for name, conductor in plan.layout.conductors.items():
        if len(conductor.landed()) == 2:
            start, end = plan.landings[EndName(name, 0)], plan.landings[EndName(name, 1)]
            way = _shortest(lines, start, end)
            if way is not None:
                courses[name] = straightened([*start.path(), *way, *reversed(end.path())])
    return courses


def _shortest(lines: Lines, start: Landing, end: Landing) -> list[Point] | None:
    """Return the shortest way between two ports, with the fewest bends among those of its length.

    A state is four times the number of a point, and the direction in which a way comes to it. The queue holds lengths
    as negative numbers, so that of equals the one nearest to the goal comes first.
    """
    xs, ys, rows, taken, steps = lines.xs, lines.ys, lines.rows, lines.taken, lines.steps()
    goal_x, goal_y = end.port
    out, into = OUTWARD[start.side], OUTWARD[end.side]
    begin = 4 * lines.place(start.port) + FACING[out.x, out.y]
    goal = 4 * lines.place(end.port) + FACING[-into.x, -into.y]

    def least(length: int, bends: int, state: int) -> tuple[int, int, int, int]:
        """Return what a way through a state comes to at least."""
        place, facing = divmod(state, 4)
        x, y = xs[place // rows], ys[place % rows]
        off = y != goal_y if facing in (LEFT, RIGHT) else x != goal_x
        turns = 1 if (goal - facing) % 2 else 2 * (off or facing != goal % 4)
        return length + abs(x - goal_x) + abs(y - goal_y), bends + turns, -length, state

    best = {begin: (0, 0)}
    came_from: dict[int, int] = {}
    waiting = [least(0, 0, begin)]
    done: set[int] = set()
    while waiting:
        state = heappop(waiting)[3]
        if state in done:
            continue
        done.add(state)
        if state == goal:
            return _points(lines, state, came_from)
        length, bends = best[state]
        place, facing = divmod(state, 4)
        found = [
            (state - facing + (facing + 1) % 4, length, bends + 1),
            (state - facing + (facing + 3) % 4, length, bends + 1),
        ]
        ahead = place + steps[facing]
        if not taken[ahead]:
            far = abs(xs[ahead // rows] - xs[place // rows]) + abs(ys[ahead % rows] - ys[place % rows])
            found.append((4 * ahead + facing, length + far, bends))
        for new, new_length, new_bends in found:
            if new not in best or (new_length, new_bends) < best[new]:
                best[new], came_from[new] = (new_length, new_bends), state
                heappush(waiting, least(new_length, new_bends, new))
    return None


def _points(lines: Lines, state: int, came_from: Mapping[int, int]) -> list[Point]:
    points = [lines.point(state // 4)]
    while state in came_from:
        state = came_from[state]
        points.append(lines.point(state // 4))
    return points[::-1]


def _below(value: int) -> int:
    """Return the last lattice line before a value."""
    return (value - 1) // GRID * GRID


def _above(value: int) -> int:
    """Return the first lattice line after a value."""
    return (value // GRID + 1) * GRID
