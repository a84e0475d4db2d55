"""Compiled networks kept from one layout to the next, so that a change to one of them leaves the others as they were.

What a network is compiled from is its key: ids, kinds and settings of its parts, ends, lengths and sizes of its
conductors. Nothing else of a layout (labels, places, positions) changes what a network does. With the network all
that was worked out in it is kept: solutions, and what its scenes settled to.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Hashable, Sequence
from dataclasses import replace
from threading import Lock
from typing import TYPE_CHECKING, TypeVar, cast

from app.catalogue.catalogue import Catalogue
from app.circuit.template import template_of
from app.job.model import Layout, UnknownEnd

if TYPE_CHECKING:
    from app.circuit.network import Network

Made = TypeVar("Made")

MOST_KEPT = 128
"""Networks of a handful of the largest jobs."""
MOST_MADE = 4096
"""A network in which more than this was worked out is compiled anew, so that what is kept stays small."""

_kept: OrderedDict[Hashable, Network] = OrderedDict()
_lock = Lock()


def kept_network(
    number: int,
    parts: Sequence[str],
    conductors: Sequence[str],
    layout: Layout,
    catalogue: Catalogue,
    make: Callable[[], Network],
) -> Network:
    """Return the network of these parts and conductors as it was compiled before, or as ``make`` compiles it now."""
    key = _key_of(parts, conductors, layout, catalogue)
    with _lock:
        found = _kept.get(key)
        if found is not None:
            _kept.move_to_end(key)
    if found is None or len(found.made) + len(found.known) > MOST_MADE:
        found = make()
    elif found.number != number:
        # Its place among the networks of the layout is all that differs; what is kept in it is shared.
        found = replace(found, number=number)
    with _lock:
        _kept[key] = found
        _kept.move_to_end(key)
        while len(_kept) > MOST_KEPT:
            _kept.popitem(last=False)
    return found


def kept_with(networks: Sequence[Network], name: Hashable, make: Callable[[], Made]) -> Made:
    """Return what was worked out of some networks and of nothing else, worked out once as long as all are kept.

    Args:
        networks: at least one.
        name: tells this from whatever else is worked out of the same networks.
        make: works it out.
    """
    made = [network.made for network in networks]
    key = ("kept with", name, *map(id, made))
    found = made[0].get(key)
    if found is None:
        # The others are held beside it, so that their identities in the key stay theirs.
        found = made[0][key] = (make(), made)
    return cast("tuple[Made, object]", found)[0]


def forget_networks() -> None:
    """Compile every network anew from now on, for measurements and for tests of what is kept."""
    with _lock:
        _kept.clear()


def _key_of(parts: Sequence[str], conductors: Sequence[str], layout: Layout, catalogue: Catalogue) -> Hashable:
    return tuple(_part_key(part, layout, catalogue) for part in parts), tuple(
        _conductor_key(name, layout) for name in conductors
    )


def _part_key(name: str, layout: Layout, catalogue: Catalogue) -> Hashable:
    part = layout.parts[name]
    kind = catalogue.kind_of(part)
    # A kept network holds its templates, so that the identity of one that is in a key stays its own.
    template = None if kind is None else id(template_of(kind))
    # 1 and true are equal to Python, but not to a kind.
    settings = tuple((at, value, value.__class__) for at, value in sorted(part.settings.items()))
    return name, template, settings


def _conductor_key(name: str, layout: Layout) -> Hashable:
    conductor = layout.conductors[name]
    ends = tuple(("unknown", end.unknown) if isinstance(end, UnknownEnd) else end for end in conductor.ends)
    return name, ends, conductor.length_and_size(layout.cables)
