"""The elements of a kind in strips: one row from left to right, and rows that branch off below it.

Rules of the file: every link stands in exactly one row. A node at which rows meet is a joint that lines show, as long
as all its rows are in one strip and lie in it without crossing; otherwise it is named wherever it stands.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import permutations

from app.catalogue.kind import Kind
from app.drawing.connection.inside.links import Link, links_of, named_nodes
from app.drawing.connection.inside.paths import Path, longest_path

ORDERS_MOST = 4
"""With more branches than that on one row no other order is tried than the one in which they were found."""


@dataclass(frozen=True)
class Row:
    """Links in line. ``column`` is that of the first; ``joined_left`` and ``joined_right`` tell which ends hang on
    the first row of the strip instead of being named, ``end`` the column line at which the row ends on the right."""

    links: Path
    column: int
    end: int
    joined_left: bool = False
    joined_right: bool = False

    def nodes(self) -> tuple[str, ...]:
        """Return the nodes along the row, one more than it has links."""
        return (self.links[0].left, *(link.right for link in self.links))

    def joints(self) -> tuple[int, ...]:
        """Return the column lines at which the row hangs on the first one."""
        return (self.column,) * self.joined_left + (self.end,) * self.joined_right

    def covers(self, line: int) -> bool:
        """Return whether a line down at a column line would run through this row or the names at its ends."""
        left = self.column - (not self.joined_left)
        right = self.end + (not self.joined_right)
        return left < line < right


@dataclass(frozen=True)
class Strip:
    """Rows from above to below; all but the first hang on the first."""

    rows: tuple[Row, ...]


@dataclass(frozen=True)
class Inside:
    """What is inside a kind: its strips, and the inner nodes that are named."""

    strips: tuple[Strip, ...]
    named: frozenset[str]


def inside_of(kind: Kind, hidden: Sequence[str]) -> Inside:
    """Return the elements of a kind in strips; ``hidden`` are those that are drawn elsewhere."""
    left = links_of(kind, hidden)
    named = named_nodes(kind, left)
    strips = []
    while left:
        strip, named = _next_strip(left, named)
        strips.append(strip)
        drawn = {link.element for row in strip.rows for link in row.links}
        left = [link for link in left if link.element not in drawn]
    return Inside(tuple(strips), frozenset(named))


def _next_strip(links: Sequence[Link], named: set[str]) -> tuple[Strip, set[str]]:
    """Return the strip that holds the first of ``links``, and what is named now."""
    together = _hanging_together(links, named)
    starts = list(dict.fromkeys(node for link in together for node in (link.left, link.right)))
    first = longest_path(together, [node for node in starts if node in named] or starts, named)
    main = Row(first, 0, len(first))
    others = [link for link in together if link.element not in {each.element for each in first}]
    branches: list[Row] = []
    for place, node in enumerate(main.nodes()):
        if node not in named:
            branch = _branch(place, node, main, others, named)
            if branch is not None:
                branches.append(branch)
                others = [link for link in others if link.element not in {each.element for each in branch.links}]
    rows = _ordered(branches)
    kept = {link.element for row in (main, *rows) for link in row.links}
    here = {node for row in (main, *rows) for node in row.nodes()}
    apart = {node for link in together if link.element not in kept for node in (link.left, link.right)}
    return Strip((main, *rows)), named | (here & apart)


def _hanging_together(links: Sequence[Link], named: set[str]) -> list[Link]:
    """Return the links that hang on the first one by nodes that are not named, in their order."""
    found = {links[0].element}
    nodes = {links[0].left, links[0].right} - named
    grows = True
    while grows:
        more = [link for link in links if link.element not in found and nodes & {link.left, link.right}]
        grows = bool(more)
        found |= {link.element for link in more}
        nodes |= {node for link in more for node in (link.left, link.right)} - named
    return [link for link in links if link.element in found]


def _branch(place: int, node: str, main: Row, links: Sequence[Link], named: set[str]) -> Row | None:
    """Return the row that leaves the main one at a joint, or comes to it there."""
    along = main.nodes()
    path = longest_path(links, [node], named | set(along))
    if not path:
        return None
    far = path[-1].right
    if far in along and far not in named:
        other = along.index(far)
        begin, end = min(place, other), max(place, other)
        if len(path) > end - begin:
            return None
        return Row(path if place < other else _turned(path), begin, end, joined_left=True, joined_right=True)
    if far not in named:
        return None
    comes = sum(link.turned() in links for link in path) > sum(link in links for link in path)
    if comes:
        return Row(_turned(path), place - len(path), place, joined_right=True)
    return Row(path, place, place + len(path), joined_left=True)


def _turned(path: Path) -> Path:
    return tuple(link.turned() for link in reversed(path))


def _ordered(branches: Sequence[Row]) -> tuple[Row, ...]:
    """Return the branches from above to below, so that no line down to one runs through another.

    Where no order does that, the last one is left out.
    """
    orders = permutations(branches) if len(branches) <= ORDERS_MOST else iter([tuple(branches)])
    for order in orders:
        if not any(above.covers(line) for n, row in enumerate(order) for above in order[:n] for line in row.joints()):
            return order
    return _ordered(branches[:-1])
