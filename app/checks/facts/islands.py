"""Islands: nodes that next to no resistance joins into one, and the path between two nodes of an island."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable

from app.checks.facts.wiring import Join, new_join


class Islands:
    """What a set of joins makes one. A node that nothing touches is an island of its own.

    ``base`` gives islands to which ``joins`` are added; it is read, never changed, and its members stay together.
    """

    def __init__(self, joins: Iterable[Join], base: Islands | None = None) -> None:
        self._base = base
        self._above: dict[str, str] = {}
        more = tuple(joins)
        for join in more:
            first, second = self.of(join.a), self.of(join.b)
            if first != second:
                self._above[second] = first
        self._joins: tuple[Join, ...] = more if base is None else (*base._joins, *more)
        self._members: dict[str, list[str]] | None = None
        self._next_to: dict[str, list[Join]] | None = None

    def of(self, node: str) -> str:
        """Return the node that stands for the island in which ``node`` lies."""
        above = self._above
        if self._base is not None:
            node = self._base.of(node)
            if node not in above:
                return node
        top = node
        while (higher := above.get(top, top)) != top:
            top = higher
        while node != top:
            above[node], node = top, above.get(node, top)
        return top

    def same(self, a: str, b: str) -> bool:
        """Return whether two nodes lie on one island."""
        return self.of(a) == self.of(b)

    def with_join(self, a: str, b: str) -> Islands:
        """Return these islands with one more join, as a conductor between two nodes would make it."""
        return Islands([new_join(a, b)], self)

    def members(self, node: str) -> list[str]:
        """Return the nodes on the island of ``node``, sorted; itself alone where nothing touches it."""
        if self._members is None:
            self._members = {}
            for join in self._joins:
                for each in (join.a, join.b):
                    self._members.setdefault(self.of(each), []).append(each)
            self._members = {top: sorted(set(nodes)) for top, nodes in self._members.items()}
        return self._members.get(self.of(node), [node])

    def path(self, start: str, goal: str) -> list[tuple[Join, str]] | None:
        """Return a shortest path as (join, node reached) steps; None where there is none, empty from a node to itself.

        Of equally short paths the one through the joins that were given first is taken.
        """
        if start == goal:
            return []
        if not self.same(start, goal):
            return None
        came: dict[str, tuple[Join, str]] = {}
        seen = {start}
        ahead = deque([start])
        while ahead:
            node = ahead.popleft()
            for join in self._around().get(node, ()):
                reached = join.b if join.a == node else join.a
                if reached not in seen:
                    seen.add(reached)
                    came[reached] = (join, node)
                    ahead.append(reached)
        return _steps_back(came, start, goal)

    def _around(self) -> dict[str, list[Join]]:
        if self._next_to is None:
            self._next_to = {}
            for join in self._joins:
                self._next_to.setdefault(join.a, []).append(join)
                self._next_to.setdefault(join.b, []).append(join)
        return self._next_to


def _steps_back(came: dict[str, tuple[Join, str]], start: str, goal: str) -> list[tuple[Join, str]]:
    steps: list[tuple[Join, str]] = []
    node = goal
    while node != start:
        join, before = came[node]
        steps.append((join, node))
        node = before
    steps.reverse()
    return steps
