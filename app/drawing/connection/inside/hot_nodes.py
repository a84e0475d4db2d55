"""Which nodes inside a part are hot in an operating point, worked out of its terminals and the volts of its elements.

An operating point says what stands at terminals; an inner node stands where a terminal stands from which hardly any
volts are lost on the way. So it follows the one answer and computes no circuit of its own.
"""

from __future__ import annotations

from app.catalogue.kind import Ground, Kind, Opaque, Source
from app.circuit.operating_point import ElementState, OperatingPoint
from app.drawing.connection.live import HOT_ABOVE_VOLTS


def hot_nodes(part: str, kind: Kind, point: OperatingPoint) -> set[str]:
    """Return the terminals and inner nodes of a part that are hot."""
    hot = {letter for letter in kind.terminals if _is_hot(f"{part}.{letter}", point)}
    joins: list[tuple[str, str]] = []
    for name, element in kind.elements.items():
        state = point.elements.get(f"{part}.{name}")
        if state is None or isinstance(element, Ground | Opaque):
            continue
        first, second = element.between
        if isinstance(element, Source):
            if (state.volts or 0.0) > HOT_ABOVE_VOLTS:
                hot.add(first)
        elif _carries_all(state):
            joins.append((first, second))
    grows = True
    while grows:
        more = {end for join in joins if hot & set(join) for end in join} - hot
        grows = bool(more)
        hot |= more
    return hot


def _is_hot(terminal: str, point: OperatingPoint) -> bool:
    state = point.terminals.get(terminal)
    return state is not None and state.volts is not None and abs(state.volts) > HOT_ABOVE_VOLTS


def _carries_all(state: ElementState) -> bool:
    """Return whether what stands on one side stands on the other; across what floats on one side there are no volts."""
    return state.volts is not None and state.volts <= HOT_ABOVE_VOLTS
