"""Faults that make another layout: conductors cut, corroded or swapped."""

from __future__ import annotations

from collections.abc import Sequence

from app.circuit.fault_places import bad_fault, conductor_at, one_place, two_places
from app.circuit.impedance import wire_ohms
from app.circuit.situation import Fault
from app.job.model import Conductor, Layout
from app.job.names import part_of


def changes_layout(layout: Layout, fault: Fault) -> bool:
    """Return whether a fault makes another layout.

    One that cuts or corrodes a conductor with length and both ends landed changes its ohms and nothing else.
    """
    if fault.is_ == "swapped":
        return True
    if fault.is_ not in ("conductor-open", "joint-ohms"):
        return False
    conductor = layout.conductors[conductor_at(layout, fault, one_place(fault))]
    return len(conductor.landed()) < 2 or conductor.length_and_size(layout.cables) is None


def broken_layout(layout: Layout, faults: Sequence[Fault]) -> Layout:
    """Return the layout with those of the faults that make another one.

    Raises:
        Refused: code ``bad-fault``, when a fault names what is not there.
    """
    conductors = dict(layout.conductors)
    for fault in faults:
        if not changes_layout(layout, fault):
            continue
        if fault.is_ == "swapped":
            _swap(layout, conductors, fault)
            continue
        name = conductor_at(layout, fault, one_place(fault))
        if fault.is_ == "conductor-open":
            conductors[name] = conductors[name].model_copy(update={"ends": (None, None)})
        else:
            conductors[name] = _corroded(layout, conductors[name], joint_ohms(fault))
    return layout if conductors == layout.conductors else layout.model_copy(update={"conductors": conductors})


def joint_ohms(fault: Fault) -> float:
    """Return the ohms of a bad joint."""
    if not fault.ohms:
        raise bad_fault(fault, "does not say how many ohms", "more than 0 ohms, such as joint-ohms:conductor:w3:5")
    return fault.ohms


def _corroded(layout: Layout, conductor: Conductor, ohms: float) -> Conductor:
    """A bad joint is as good as that much more wire."""
    length_m, size_awg = conductor.length_and_size(layout.cables) or (0.0, 18)
    metres = length_m + ohms / wire_ohms(1.0, size_awg)
    return conductor.model_copy(update={"length_m": metres, "size_awg": size_awg})


def _swap(layout: Layout, conductors: dict[str, Conductor], fault: Fault) -> None:
    """Two conductors change places on the part where both end; two terminals change all that is landed on them."""
    one, other = two_places(fault)
    if one.startswith("conductor:"):
        _swap_conductors(conductors, fault, conductor_at(layout, fault, one), conductor_at(layout, fault, other))
        return
    a, b = (at.partition(":")[2] for at in (one, other))
    landed = {end for conductor in conductors.values() for end in conductor.landed()}
    if not one.startswith("terminal:") or not other.startswith("terminal:") or not {a, b} & landed:
        right = "conductor:w3 and conductor:w4"
        raise bad_fault(fault, "needs two conductors, or two terminals with something landed", right)
    swap = {a: b, b: a}
    for name, conductor in conductors.items():
        ends = tuple(swap.get(end, end) if isinstance(end, str) else end for end in conductor.ends)
        if ends != conductor.ends:
            conductors[name] = conductor.model_copy(update={"ends": ends})


def _swap_conductors(conductors: dict[str, Conductor], fault: Fault, first: str, second: str) -> None:
    mine, theirs = list(conductors[first].ends), list(conductors[second].ends)
    for i in (1, 0):
        for j in (1, 0):
            one, other = mine[i], theirs[j]
            if isinstance(one, str) and isinstance(other, str) and part_of(one) == part_of(other):
                mine[i], theirs[j] = other, one
                conductors[first] = conductors[first].model_copy(update={"ends": tuple(mine)})
                conductors[second] = conductors[second].model_copy(update={"ends": tuple(theirs)})
                return
    raise bad_fault(fault, "names two conductors that share no part", "two conductors that end on one part")
