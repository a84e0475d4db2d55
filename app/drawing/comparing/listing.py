"""The list of changes below the diagram: parts, wires and cables by the names that stand on it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

from app.drawing.comparing.changes import Changes
from app.drawing.comparing.telling import Told, sentence
from app.drawing.lists.table import WIDTH, Column, Group, Row, Table, plan_table
from app.drawing.surface.geometry import Point, up_to_grid

ASIDE = up_to_grid(WIDTH + 36)
"""From the left edge of one table to that of the one beside it."""


def plan_list(groups: Iterable[Sequence[Group]], names: tuple[str, str], at: Point) -> tuple[Table, ...]:
    """Return the list with its upper left corner at a point on the grid: a table for each sequence, side by side.

    ``names`` say what the two layouts are called.
    """
    columns = (
        Column("What", 200),
        Column("Change", 110),
        Column(names[0].capitalize(), 260, flexible=True),
        Column(names[1].capitalize(), 260, flexible=True),
    )
    shown = (shown for some in groups if (shown := [group for group in some if group.rows]))
    return tuple(plan_table(columns, some, Point(at.x + ASIDE * place, at.y)) for place, some in enumerate(shown))


def groups_of(told: tuple[Sequence[Told], Sequence[Told], Sequence[Told]], changes: Changes) -> tuple[Group, ...]:
    """Return the changes of parts, wires and cables under their headings: wires, parts, cables."""
    parts, wires, cables = told
    kept = len(changes.before.conductors.keys() - changes.wires.keys())
    rest = f"{kept} as before" if kept else ""
    of_wires = Group(_heading("Wires", changes.wires.values(), rest), tuple(_rows(wires, "wire")))
    of_parts = Group(_heading("Parts", changes.parts.values(), ""), tuple(_rows(parts, "part")))
    return of_wires, of_parts, Group("Cables", tuple(_rows(cables, "cable")))


def _heading(what: str, fates: Iterable[str], rest: str) -> str:
    """Return a heading with how many there are of each fate."""
    counted = [f"{count} {fate}" for fate, count in sorted(Counter(fates).items())]
    return f"{what}: {', '.join([*counted, *([rest] if rest else [])])}"


def _rows(told: Sequence[Told], what: str) -> Iterator[Row]:
    for one in told:
        cells = ("\n".join(column) for column in zip(*one.changes, strict=True))
        yield Row((one.name, *cells), {"data-changed": f"{what}:{one.id}"}, sentence(one))
