"""Which situations a layout is looked at in: idle, then every call that the set-up of each control has."""

from __future__ import annotations

from collections.abc import Mapping
from typing import cast

from app.catalogue.catalogue import Catalogue
from app.catalogue.kind import CallName
from app.circuit.logic import enabled_calls, values_of
from app.circuit.network import coupled_parts
from app.circuit.situation import Situation
from app.circuit.template import template_of
from app.circuit.union import Union
from app.job.model import Layout


def controls_of(layout: Layout, catalogue: Catalogue) -> Mapping[str, tuple[CallName, ...]]:
    """Return the calls that each control's set-up has; parts sorted, calls in the kind's order, none without calls."""
    found: dict[str, tuple[CallName, ...]] = {}
    for part_id in sorted(layout.parts):
        part = layout.parts[part_id]
        kind = catalogue.kind_of(part)
        if kind is not None and kind.calls:
            calls = enabled_calls(template_of(kind), values_of(kind, part, {}))
            if calls:
                found[part_id] = cast("tuple[CallName, ...]", tuple(calls))
    return found


def situations_of(layout: Layout, catalogue: Catalogue) -> list[Situation]:
    """Return idle, then one situation for each call of each control, with all else at rest.

    Controls come group by group, groups in the order of their first part.
    """
    controls = controls_of(layout, catalogue)
    situations = [Situation()]
    for group in groups(layout, catalogue):
        for part in group:
            situations += (Situation(calls={part: (call,)}) for call in controls.get(part, ()))
    return situations


def groups(layout: Layout, catalogue: Catalogue) -> tuple[tuple[str, ...], ...]:
    """Return the parts that conductors could couple or that share air with others that have effects, as sorted groups.

    Parts of kinds without effects, such as a transformer, move no air and are held together by conductors alone.
    """
    parts = sorted(layout.parts)
    number = {part: at for at, part in enumerate(parts)}
    union = Union(len(parts))
    for coupled in coupled_parts(layout):
        for part in coupled[1:]:
            union.join(number[coupled[0]], number[part])
    first_in: dict[str, str] = {}
    for part in parts:
        kind = catalogue.kind_of(layout.parts[part])
        if kind is not None and kind.effects:
            union.join(number[part], number[first_in.setdefault(layout.parts[part].air, part)])
    found: dict[int, list[str]] = {}
    for at, part in enumerate(parts):
        found.setdefault(union.find(at), []).append(part)
    return tuple(tuple(group) for group in found.values())
