"""What can be reached from a port with no bend, one bend, two bends …, one mask a row.

Rules of the file: a flood is a list of levels, one for each number of bends; a level holds the whole unbroken runs that
the level before can turn into, so a level is all that is reachable with that many bends inside the window.
"""

from __future__ import annotations

from app.drawing.routing.field import Field, Node, span
from app.drawing.routing.ports import Port, Window, ray, run_around

Mask = list[int]


class Flood:
    """What is reached from one port: a level for each number of bends, its rows counted from the top of the window.

    ``sideways`` tells for each level whether it was reached along rows.
    """

    def __init__(self, field: Field, port: Port, window: Window) -> None:
        self.field, self.port, self.window = field, port, window
        self.across = span(window.left, window.right)
        self.levels: list[Mask] = [_first_level(field, port, window)]
        self.sideways = [port.sideways]

    def spread(self) -> bool:
        """Add one bend; return whether anything new was reached."""
        sideways = not self.sideways[-1]
        reach = self._level_across() if sideways else self._level_down()
        known = self.levels[-2] if len(self.levels) > 1 else None
        self.levels.append(reach)
        self.sideways.append(sideways)
        return any(reach) if known is None else reach != known

    def _level_down(self) -> Mask:
        seeds, mask = self.levels[-1], self.across
        free = self.field.free_down[self.window.top : self.window.bottom + 1]
        reach = [0] * len(free)
        flow = 0
        for k, seed in enumerate(seeds):
            if seed or flow:
                reach[k] = flow = (flow | seed) & free[k] & mask
        flow = 0
        for k in range(len(free) - 1, -1, -1):
            flow |= reach[k]
            if flow:
                flow &= free[k]
                reach[k] |= flow
        return reach

    def _level_across(self) -> Mask:
        seeds, mask, runs_of = self.levels[-1], self.across, self.field.runs
        reach = []
        for j, seed in enumerate(seeds, start=self.window.top):
            reached = 0
            if seed:
                for run in runs_of(j):
                    if run & seed:
                        reached |= run
            reach.append(reached & mask)
        return reach

    def way_back(self, node: Node, level: int) -> list[Node]:
        """Return the nodes from the port to ``node``, which was reached with ``level`` bends."""
        way = [node]
        goal = self.port.at
        while level > 1:
            node = self._bend_before(node, level, goal)
            way.append(node)
            level -= 1
        if level:
            way.append(Node(node.i, goal.j) if self.port.sideways else Node(goal.i, node.j))
        if way[-1] != goal:
            way.append(goal)
        way.reverse()
        return way

    def _bend_before(self, node: Node, level: int, goal: Node) -> Node:
        """Return the nearest good bend from which ``node`` was reached: on the way to the port, else just past it."""
        top = self.window.top
        before, here = self.levels[level - 1], self.levels[level]
        if self.sideways[level]:
            run = run_around(here[node.j - top], node.i)
            return Node(_nearest(run & before[node.j - top], node.i, goal.i), node.j)
        return Node(node.i, top + _nearest_row(before, here, 1 << node.i, node.j - top, goal.j - top))


def _nearest_row(before: Mask, here: Mask, bit: int, start: int, goal: int) -> int:
    """Return the row with ``bit`` in ``before`` that lies best on the way from ``start`` to ``goal``.

    Rows are tried from ``start`` as far as ``here`` has the bit without a break, towards the goal first.
    """
    step = 1 if goal >= start else -1
    found = []
    for direction in (step, -step):
        k = start
        while 0 <= k < len(here) and here[k] & bit:
            if before[k] & bit:
                if direction == step and (goal - k) * step >= 0:
                    return k
                found.append(k)
                break
            k += direction
    return min(found, key=lambda k: (abs(k - start) + abs(k - goal), k))


def _nearest(mask: int, here: int, goal: int) -> int:
    """Return the bit of ``mask`` that lies best on the way from ``here`` to ``goal``: nearest to here among those."""
    between = mask & span(here, goal)
    if between:
        return between.bit_length() - 1 if here > goal else (between & -between).bit_length() - 1
    low, high = min(here, goal), max(here, goal)
    below, above = mask & ((1 << low) - 1), mask >> high
    candidates = []
    if below:
        candidates.append(below.bit_length() - 1)
    if above:
        candidates.append(high + (above & -above).bit_length() - 1)
    return min(candidates, key=lambda bit: (abs(bit - here) + abs(bit - goal), bit))


def _first_level(field: Field, port: Port, window: Window) -> Mask:
    """Return what is reached straight ahead."""
    rows = [0] * (window.bottom - window.top + 1)
    ahead = ray(field, port, window)
    if port.sideways:
        rows[port.at.j - window.top] = ahead
    else:
        bit = 1 << port.at.i
        rows = [bit if ahead >> j & 1 else 0 for j in range(window.top, window.bottom + 1)]
    return rows
