"""Which parts of a sheet are routed together: what is joined by conductors, and what stands close.

Rules of the file: regions never touch, so what is laid in one can be in nobody's way in another. A change in one system
then leaves every other region as it was.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from typing import NamedTuple

import networkx as nx

from app.drawing.surface.geometry import GRID, Box, box_around, up_to_grid

MARGIN_LANES = 10
"""Free lanes around what is routed together, where nothing else stands near."""
MARGIN_LEAST = 4
"""What stands too close to others for so many lanes around each is routed together with them."""


class Region(NamedTuple):
    """Parts that are routed together, and the box around their grounds with lanes around it."""

    parts: tuple[str, ...]
    extent: Box


class _Cluster(NamedTuple):
    """Parts that belong together, and the box around them on the grid."""

    parts: tuple[str, ...]
    box: Box


def regions_of(grounds: Mapping[str, Box], kept: Iterable[Box], joined: Collection[tuple[str, str]]) -> list[Region]:
    """Return the regions of a sheet, by their parts in order.

    ``grounds`` are those of all parts, ``kept`` other boxes that no conductor may enter, ``joined`` the two parts of
    each conductor.
    """
    clusters = _apart([*_systems(grounds, joined), *(_Cluster((), _on_grid(box)) for box in kept)])
    return sorted(_with_margin(cluster, clusters, joined) for cluster in clusters)


def whole_sheet(grounds: Mapping[str, Box], kept: Iterable[Box], joined: Collection[tuple[str, str]]) -> Region:
    """Return the one region that holds everything."""
    around = box_around([*grounds.values(), *kept]) or Box(0, 0, GRID, GRID)
    return _with_margin(_Cluster(tuple(grounds), _on_grid(around)), (), joined)


def _systems(grounds: Mapping[str, Box], joined: Collection[tuple[str, str]]) -> list[_Cluster]:
    graph: nx.Graph[str] = nx.Graph()
    graph.add_nodes_from(grounds)
    graph.add_edges_from(joined)
    found = []
    for component in nx.connected_components(graph):
        around = box_around(grounds[name] for name in component)
        if around is not None:
            found.append(_Cluster(tuple(sorted(component)), _on_grid(around)))
    return found


def _apart(clusters: Iterable[_Cluster]) -> list[_Cluster]:
    """Return the clusters, those that stand too close to each other as one."""
    apart: list[_Cluster] = []
    for cluster in clusters:
        near = _near(cluster, apart)
        while near is not None:
            apart.remove(near)
            cluster = _Cluster(tuple(sorted(cluster.parts + near.parts)), _around(cluster.box, near.box))
            near = _near(cluster, apart)
        apart.append(cluster)
    return apart


def _near(cluster: _Cluster, others: Iterable[_Cluster]) -> _Cluster | None:
    return next((other for other in others if _lanes_between(cluster.box, other.box) <= 2 * MARGIN_LEAST), None)


def _with_margin(cluster: _Cluster, clusters: Iterable[_Cluster], joined: Collection[tuple[str, str]]) -> Region:
    """Return the region of a cluster: the more conductors, the more lanes around it, but never up to another's."""
    parts = frozenset(cluster.parts)
    lanes = MARGIN_LANES + min(sum(first in parts for first, _ in joined) // 4, 30)
    for other in clusters:
        if other is not cluster:
            lanes = min(lanes, (_lanes_between(cluster.box, other.box) - 1) // 2)
    margin = lanes * GRID
    return Region(cluster.parts, cluster.box.grown(margin, margin, margin, margin))


def _lanes_between(a: Box, b: Box) -> int:
    return max(a.x - b.right, b.x - a.right, a.y - b.bottom, b.y - a.bottom) // GRID


def _on_grid(box: Box) -> Box:
    """Return the smallest box on the grid around another."""
    x, y = box.x // GRID * GRID, box.y // GRID * GRID
    return Box(x, y, up_to_grid(box.right) - x, up_to_grid(box.bottom) - y)


def _around(a: Box, b: Box) -> Box:
    x, y = min(a.x, b.x), min(a.y, b.y)
    return Box(x, y, max(a.right, b.right) - x, max(a.bottom, b.bottom) - y)
