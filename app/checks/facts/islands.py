"""Islands: nodes that next to no resistance joins into one, and the path between two nodes of an island."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Mapping

from app.checks.facts.joins import Join, new_join


class Islands:
    """What a set of joins makes one. A node that nothing touches is an island of its own.

    ``base`` gives islands to which ``joins`` are added; it is read, never changed, and its members stay together.
    """

    def __init__(self, joins: Iterable[Join], base: Islands | None = None) -> None:
        self._base = base
        self._more = tuple(joins)
        self._base_top: Mapping[str, str] = {} if base is None else base._every_top()
        self._above: dict[str, str] = {}
        for join in self._more:
            first, second = self.of(join.a), self.of(join.b)
            if first != second:
                self._above[second] = first
        self._tops: Mapping[str, str] | None = None
        self._members: dict[str, list[str]] | None = None
        self._next_to: dict[str, list[Join]] | None = None

    def of(self, node: str) -> str:
        """Return the node that stands for the island in which ``node`` lies."""
        above = self._above
        node = top = self._base_top.get(node, node)
        while (higher := above.get(top)) is not None:
            top = higher
        while node != top:
            above[node], node = top, above[node]
        return top

    def _every_top(self) -> Mapping[str, str]:
        """Return the top of every node that has another one, so that islands built on these look it up at once."""
        if self._tops is None:
            above = dict.fromkeys([*self._base_top, *self._above])
            self._tops = {node: self.of(node) for node in above}
        return self._tops

    @property
    def added(self) -> tuple[Join, ...]:
        """The joins that were added to ``base``."""
        return self._more

    def _joins(self) -> tuple[Join, ...]:
        return self._more if self._base is None else (*self._base._joins(), *self._more)

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
            for join in self._joins():
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
            for join in self._joins():
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
