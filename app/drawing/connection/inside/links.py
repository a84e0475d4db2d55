"""The elements of a kind as links between two nodes, in the order in which the kind declares them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterator
from typing import NamedTuple

from app.catalogue.kind import Ground, Kind, Opaque, Source, Trace

NOWHERE = ""
"""Beyond what ends a line: an earth, or something opaque with one node."""
JOINT_MOST = 3
"""As many links meet at a joint that is drawn with lines; where more meet, the node is named instead."""


class Link(NamedTuple):
    """One element between its left and its right node, as it is drawn.

    ``also`` are further elements that are the same join, ``beyond`` further nodes on the right: those of traces that
    start at one node, and of what is opaque.
    """

    element: str
    left: str
    right: str
    also: tuple[str, ...] = ()
    beyond: tuple[str, ...] = ()

    @property
    def elements(self) -> tuple[str, ...]:
        """Return all the elements that this link stands for."""
        return (self.element, *self.also)

    def turned(self) -> Link:
        """Return the same link, drawn the other way round."""
        return self._replace(left=self.right, right=self.left)


def links_of(kind: Kind, hidden: Collection[str]) -> list[Link]:
    """Return the links of a kind, but for the elements that are drawn elsewhere; traces from one node are one link."""
    links: dict[str, Link] = {}
    traces: dict[str, str] = {}
    for name, element in kind.elements.items():
        if name in hidden:
            continue
        if isinstance(element, Ground):
            links[name] = Link(name, element.at, NOWHERE)
        elif isinstance(element, Opaque):
            first, second, *others = (*element.nodes, NOWHERE, NOWHERE)
            links[name] = Link(name, first, second, beyond=tuple(node for node in others if node != NOWHERE))
        elif isinstance(element, Source):
            # Power comes out of its first node, so it is drawn from common to hot.
            links[name] = Link(name, element.between[1], element.between[0])
        elif isinstance(element, Trace) and element.between[0] in traces and element.between[1] in kind.terminals:
            first_trace = traces[element.between[0]]
            so_far = links[first_trace]
            links[first_trace] = so_far._replace(also=(*so_far.also, name), beyond=(*so_far.beyond, element.between[1]))
        else:
            links[name] = Link(name, *element.between)
            if isinstance(element, Trace) and element.between[1] in kind.terminals:
                traces[element.between[0]] = name
    return list(links.values())


def named_nodes(kind: Kind, links: Collection[Link]) -> set[str]:
    """Return the nodes at which a strip ends with a name: terminals, and inner nodes that lines would not show well.

    Those are where more links meet than ``JOINT_MOST``, the poles of a source with more than one way on, whatever
    belongs to something opaque or to several traces, and dead ends.
    """
    meet = Counter(node for link in links for node in _nodes(link))
    named = {NOWHERE, *kind.terminals}
    named |= {node for node, count in meet.items() if count > JOINT_MOST or count == 1}
    for link in links:
        element = kind.elements[link.element]
        if isinstance(element, Source):
            named |= {node for node in _nodes(link) if meet[node] >= JOINT_MOST}
        elif isinstance(element, Opaque) or link.also:
            named |= set(_nodes(link))
    return named


def _nodes(link: Link) -> Iterator[str]:
    yield from (node for node in (link.left, link.right, *link.beyond) if node != NOWHERE)
