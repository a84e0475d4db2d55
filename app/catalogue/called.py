"""What the elements and states of a kind are called: one name for each, wherever it is told or drawn.

Rules of the file: a kind says under ``called`` what its own name would not tell a technician. A contact that a switch
moves is called by what the switch is, one that calls close by its screws. All others are called as they are named.
"""

from __future__ import annotations

from app.catalogue.kind import Contact, Kind
from app.catalogue.spoken import plain

BY_CALLS = "calls"
CONTACT_ENDINGS = ("_contact", "_c")
"""With these the name of a contact ends that is named after what closes it."""


def called(kind: Kind | None, name: str) -> str:
    """Return what an element or state is called: ``gas valve``, ``contact R to W``, ``high-temperature limit``."""
    said = _said(kind, name)
    return said or plain(_without_ending(name) if _is_contact(kind, name) else name)


def called_with_sort(kind: Kind | None, name: str) -> str:
    """Return the same for a sentence, where ``blower`` would not tell the contact from the blower."""
    words = called(kind, name)
    return f"contact {words}" if _is_contact(kind, name) and not _said(kind, name) else words


def switch_called(kind: Kind | None, name: str) -> str:
    """Return what a switch is, up to the first comma or colon of what its kind says."""
    use = kind.switches[name].use if kind is not None else ""
    return use.partition(":")[0].partition(",")[0] or plain(name)


def _said(kind: Kind | None, name: str) -> str:
    """Return the name that is more than the name in the kind; nothing where there is none."""
    if kind is None:
        return ""
    element = kind.elements.get(name)
    if name in kind.called or not isinstance(element, Contact):
        return kind.called.get(name, "")
    if element.by in kind.switches:
        return switch_called(kind, element.by)
    if element.by == BY_CALLS and kind.terminals.keys() >= set(element.between):
        return f"contact {' to '.join(element.between)}"
    return ""


def _is_contact(kind: Kind | None, name: str) -> bool:
    return kind is not None and isinstance(kind.elements.get(name), Contact)


def _without_ending(name: str) -> str:
    ending = next((each for each in CONTACT_ENDINGS if name.endswith(each)), "")
    return name.removesuffix(ending)
