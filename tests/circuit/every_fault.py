"""Every single fault of every class that a layout can have."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations
from typing import Any

from app.catalogue.catalogue import Catalogue, settings_of
from app.circuit.situation import Fault
from app.job.model import Layout
from app.job.names import part_of

BAD_JOINT_OHMS = (5.0, 50.0)
SHORT_OHMS = (0.0, 2.0)
BY_ELEMENT = {
    "coil": ("coil-open", "coil-shorted"),
    "contact": ("contact-welded", "contact-dead"),
    "fuse": ("fuse-open",),
    "source": ("source-dead",),
}


def every_fault(layout: Layout, catalogue: Catalogue) -> list[Fault]:
    """Return the faults, those of conductors first; shorts and swaps between conductors that meet on a part."""
    found = [*_of_conductors(layout), *_of_elements(layout, catalogue), *_of_settings(layout, catalogue)]
    return [Fault.model_validate(each) for each in found]


def likely_faults(layout: Layout, catalogue: Catalogue) -> list[Fault]:
    """Return the faults as they happen: of shorts and swaps those between two conductors of one cable."""

    def is_likely(fault: Fault) -> bool:
        if isinstance(fault.at, str):
            return True
        cables = {layout.conductors[place.partition(":")[2]].cable for place in fault.at}
        return len(cables) == 1 and None not in cables

    return [fault for fault in every_fault(layout, catalogue) if is_likely(fault)]


def _of_conductors(layout: Layout) -> Iterator[dict[str, Any]]:
    parts = {name: {part_of(end) for end in each.landed()} for name, each in sorted(layout.conductors.items())}
    for name, conductor in sorted(layout.conductors.items()):
        yield {"is": "conductor-open", "at": f"conductor:{name}"}
        yield from ({"is": "joint-ohms", "at": f"conductor:{name}", "ohms": ohms} for ohms in BAD_JOINT_OHMS)
        if conductor.landed():
            yield {"is": "to-ground", "at": f"conductor:{name}"}
    for number, (one, other) in enumerate(combinations(parts, 2)):
        if parts[one] & parts[other]:
            at = (f"conductor:{one}", f"conductor:{other}")
            yield {"is": "short", "at": at, "ohms": SHORT_OHMS[number % 2]}
            yield {"is": "swapped", "at": at}


def _of_elements(layout: Layout, catalogue: Catalogue) -> Iterator[dict[str, Any]]:
    for part in sorted(layout.parts):
        kind = catalogue.kind_of(layout.parts[part])
        for name, element in () if kind is None else kind.elements.items():
            for fault in BY_ELEMENT.get(element.is_, ()):
                ohms = {"ohms": 0.5} if fault == "coil-shorted" else {}
                yield {"is": fault, "at": f"element:{part}.{name}", **ohms}


def _of_settings(layout: Layout, catalogue: Catalogue) -> Iterator[dict[str, Any]]:
    for part in sorted(layout.parts):
        kind = catalogue.kind_of(layout.parts[part])
        if kind is None:
            continue
        now = settings_of(kind, layout.parts[part])
        choices: dict[str, tuple[Any, ...]] = {
            **{name: setting.choices or () for name, setting in kind.settings.items()},
            **dict.fromkeys(kind.jumpers, ("fitted", "removed")),
            **{name: switch.positions for name, switch in kind.switches.items()},
        }
        for name, each in choices.items():
            if len(each) == 2 and now[name] in each:
                yield {"is": "wrong-setting", "at": f"setting:{part}.{name}"}
