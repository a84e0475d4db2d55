"""Union-find: which of many things are joined."""

from __future__ import annotations


class Union:
    """Sets of the numbers from 0 to ``size`` - 1, at first each alone."""

    def __init__(self, size: int) -> None:
        self._above = list(range(size))

    def find(self, one: int) -> int:
        """Return the smallest number of the set of ``one``."""
        above = self._above
        while above[one] != one:
            above[one] = above[above[one]]
            one = above[one]
        return one

    def join(self, one: int, other: int) -> bool:
        """Make one set of the two; return whether they were apart."""
        first, second = self.find(one), self.find(other)
        if first == second:
            return False
        self._above[max(first, second)] = min(first, second)
        return True

    def numbered(self) -> tuple[list[int], int]:
        """Return for each number the place of its set, and how many sets there are."""
        place: dict[int, int] = {}
        return [place.setdefault(self.find(one), len(place)) for one in range(len(self._above))], len(place)
