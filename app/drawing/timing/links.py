"""The links from cause to effect: where each runs beside its column.

Rules of the file: all that one edge moves hangs on one upright line, its *trunk*, from which a short arrow leads to
each effect. A trunk leaves its cause a little below the middle of the row and ends a little above the middle of an
effect, so that in a chain of rows one trunk begins where the last one ended and both share a lane.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from app.drawing.timing.chart import Chart, When

LEAVES, ENTERS = 1, 0
"""Heights within a row of two halves: where a trunk begins, and where an arrow ends."""


@dataclass(frozen=True, slots=True)
class Trunk:
    """What one edge moves at one column: rows by their place, and the lane, counted from the column to the left.

    ``from_when`` is the column of the cause, which is an earlier step of the same instant or the column itself.
    """

    cause: int
    from_when: When
    from_row: int
    to_rows: tuple[int, ...]
    lane: int

    @property
    def span(self) -> tuple[int, int]:
        """Return the first and last half row that it passes."""
        return _span(self.from_row, self.to_rows)


def trunks_of(chart: Chart) -> Mapping[When, Sequence[Trunk]]:
    """Return the trunks that end at each column."""
    edges = {edge.number: (row, edge) for row, edge in chart.edges()}
    moved: dict[When, dict[int, list[int]]] = defaultdict(lambda: defaultdict(list))
    for row, edge in edges.values():
        if edge.by is not None:
            moved[edge.when][edge.by].append(row)
    found = {}
    for when, by_cause in moved.items():
        loose = [
            Trunk(cause, edges[cause][1].when, edges[cause][0], tuple(rows), 0) for cause, rows in by_cause.items()
        ]
        found[when] = _in_lanes(loose)
    return found


def _in_lanes(trunks: Sequence[Trunk]) -> list[Trunk]:
    """Return trunks in lanes, short ones next to the column, so that no two of a lane meet."""
    lanes: list[list[tuple[int, int]]] = []
    placed = []
    for trunk in sorted(trunks, key=lambda trunk: (trunk.span[1] - trunk.span[0], trunk.span, trunk.cause)):
        low, high = trunk.span
        free = (at for at, spans in enumerate(lanes) if all(high < a or b < low for a, b in spans))
        lane = next(free, len(lanes))
        if lane == len(lanes):
            lanes.append([])
        lanes[lane].append((low, high))
        placed.append(Trunk(trunk.cause, trunk.from_when, trunk.from_row, trunk.to_rows, lane))
    return placed


def _span(from_row: int, to_rows: Sequence[int]) -> tuple[int, int]:
    halves = [2 * from_row + LEAVES, *(2 * row + ENTERS for row in to_rows)]
    return min(halves), max(halves)
