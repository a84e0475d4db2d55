"""The longest way through links that hang together, from one named node to another."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from app.drawing.connection.inside.links import Link

STEPS_MOST = 2000
"""After so many steps the best way so far is taken: a kind may hold any tangle, and a picture must not wait for it."""

Path = tuple[Link, ...]


def longest_path(links: Sequence[Link], starts: Sequence[str], ends: Collection[str]) -> Path:
    """Return the longest way over ``links`` from one of ``starts`` that stops at the first node among ``ends``.

    Of ways of one length the one is taken in which more links are drawn as they are declared, then the first that is
    found. Where no way reaches an end, the longest is taken that goes anywhere.
    """
    search = _Search(links, ends)
    for start in starts:
        search.go(start, ())
    return search.best


class _Search:
    """Walks every way, but for a limit."""

    def __init__(self, links: Sequence[Link], ends: Collection[str]) -> None:
        self._links = links
        self._ends = ends
        self._steps = 0
        self._score = (-1, -1, -1)
        self.best: Path = ()

    def go(self, node: str, path: Path) -> None:
        """Walk on from ``node``, where ``path`` has come to."""
        self._steps += 1
        if path:
            score = (int(node in self._ends), len(path), sum(link in self._links for link in path))
            if score > self._score:
                self._score, self.best = score, path
            if node in self._ends:
                return
        if self._steps > STEPS_MOST:
            return
        passed = {each for link in path for each in (link.left, link.right)}
        used = {link.element for link in path}
        for link in self._links:
            for way in (link, link.turned()):
                if way.left == node and link.element not in used and way.right not in passed:
                    self.go(way.right, (*path, way))
