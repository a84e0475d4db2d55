"""Where a fault is: the conductor, terminal, element or setting that it names, or a refusal."""

from __future__ import annotations

from app.catalogue.catalogue import Catalogue
from app.catalogue.kind import Coil, Contact, Element, Fuse, Kind, Source
from app.circuit.situation import Fault
from app.job.model import Layout, Part
from app.job.names import part_of
from app.job.refusal import Refused

Held = Coil | Contact | Fuse | Source


def bad_fault(fault: Fault, what: str, right: str) -> Refused:
    """Return the refusal of a fault, with what would be right."""
    return Refused("bad-fault", f"The fault {fault.is_} at {fault.at!r} {what}.", would_be_right=right)


def one_place(fault: Fault) -> str:
    """Return the one place that a fault names."""
    if not isinstance(fault.at, str):
        raise bad_fault(fault, "names two places", "one place, such as conductor:w3")
    return fault.at


def two_places(fault: Fault) -> tuple[str, str]:
    """Return the two places that a fault names."""
    if isinstance(fault.at, str):
        raise bad_fault(fault, "names one place only", "two places, such as terminal:fb.R and terminal:fb.C")
    return fault.at


def conductor_at(layout: Layout, fault: Fault, at: str) -> str:
    """Return the conductor that a place is."""
    sort, _, name = at.partition(":")
    if sort != "conductor" or name not in layout.conductors:
        raise bad_fault(
            fault, f"needs a conductor of this layout, which {at} is not", "a conductor, such as conductor:w3"
        )
    return name


def point_at(layout: Layout, catalogue: Catalogue, fault: Fault, at: str) -> str:
    """Return the point that a short or a ground touches."""
    sort, _, name = at.partition(":")
    if sort == "conductor":
        landed = layout.conductors[conductor_at(layout, fault, at)].landed()
        if not landed:
            raise bad_fault(fault, f"touches {at}, which is landed nowhere", "a conductor with a landed end")
        return landed[0]
    part = part_of(name)
    if sort == "terminal" and part in layout.parts and name.partition(".")[2] in catalogue.terminals_of(layout, part):
        return name
    raise bad_fault(fault, f"needs a terminal or conductor of this layout, which {at} is not", "such as terminal:fb.R")


def element_at(layout: Layout, catalogue: Catalogue, fault: Fault, sort: type[Held]) -> tuple[str, str, Element]:
    """Return (part, name, element) of the element that a fault is in."""
    at = one_place(fault)
    word, _, name = at.partition(":")
    part, _, element_name = name.partition(".")
    kind = kind_of(layout, catalogue, part)
    element = kind.elements.get(element_name) if kind is not None else None
    if word != "element" or not isinstance(element, sort):
        what = sort.__name__.lower()
        raise bad_fault(fault, f"needs a {what}, which {at} is not", f"the {what} of a part, such as element:ou.{what}")
    return part, element_name, element


def kind_of(layout: Layout, catalogue: Catalogue, part: str) -> Kind | None:
    """Return the kind of a part, None where there is none or it is not known."""
    found: Part | None = layout.parts.get(part)
    return None if found is None else catalogue.kind_of(found)
