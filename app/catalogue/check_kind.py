"""Is a kind of part a good one?

Rules of the file: a kind is judged whole, before anything is computed with it; after this every name that it uses
exists. A kind that came along and one that a job brings are judged alike.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping

from app.catalogue.check_figures import check_figures
from app.catalogue.check_terms import check_terms
from app.catalogue.check_timers import check_timers
from app.catalogue.kind import Coil, Contact, Element, Ground, JumperElement, Kind, Opaque
from app.catalogue.naming import check_names
from app.job.names import pointer
from app.job.refusal import Refused

BY_CALLS = "calls"
"""What a contact names that the calls of its part close."""


def check_kind(name: str, kind: Kind) -> None:
    """Refuse a kind that contradicts itself.

    Args:
        name: id of the kind, as it stands under ``kinds`` of a job.
        kind: the kind.

    Raises:
        Refused: the first thing that is wrong, with a pointer ``/kinds/NAME/…``.
    """
    try:
        check_names(kind)
        _check_switches(kind)
        check_figures(kind)
        for element_name, element in kind.elements.items():
            _check_element(kind, element_name, element)
        _check_inner_nodes(kind)
        _check_jumpers_sit(kind)
        _check_calls(kind)
        _check_called(kind)
        check_terms(kind)
        check_timers(kind)
    except Refused as refused:
        raise Refused(
            refused.code,
            f"In the kind {name}: {refused.message}",
            pointer=pointer("kinds", name) + (refused.pointer or ""),
            would_be_right=refused.would_be_right,
        ) from None


def nodes_of(element: Element) -> tuple[str, ...]:
    """Return the nodes on which an element sits."""
    if isinstance(element, Ground):
        return (element.at,)
    return element.nodes if isinstance(element, Opaque) else element.between


def _is_terminal(node: str) -> bool:
    return not node[0].islower()


def _check_switches(kind: Kind) -> None:
    for name, switch in kind.switches.items():
        if switch.rest not in switch.positions:
            raise Refused(
                "bad-switch",
                f"The switch {name} rests at {switch.rest!r}, which is none of its positions.",
                pointer=pointer("switches", name, "rest"),
                would_be_right="one of " + ", ".join(switch.positions),
            )
        if len(set(switch.positions)) != len(switch.positions):
            raise Refused(
                "bad-switch",
                f"The switch {name} has a position twice.",
                pointer=pointer("switches", name, "positions"),
                would_be_right="each position once",
            )


def _check_element(kind: Kind, name: str, element: Element) -> None:
    nodes = nodes_of(element)
    for node in nodes:
        if _is_terminal(node) and node not in kind.terminals:
            raise Refused(
                "unknown-node",
                f"The element {name} sits on {node}, which is no terminal of this kind.",
                pointer=pointer("elements", name),
                would_be_right="one of " + ", ".join(kind.terminals) + ", or an inner node in lower case",
            )
    if not nodes or len(set(nodes)) != len(nodes):
        raise Refused(
            "element-on-one-node",
            f"The element {name} needs different nodes at its ends.",
            pointer=pointer("elements", name),
            would_be_right="two different nodes",
        )
    if isinstance(element, Contact):
        _check_contact(kind, name, element)
    if isinstance(element, JumperElement) and element.by not in kind.jumpers:
        raise _no_such("jumper", name, element.by, kind.jumpers)


def _check_contact(kind: Kind, name: str, contact: Contact) -> None:
    by = contact.by
    if by in kind.switches:
        if "closed" not in kind.switches[by].positions:
            raise Refused(
                "bad-switch",
                f"The switch {by} moves the contact {name} but has no position closed.",
                pointer=pointer("switches", by, "positions"),
                would_be_right='positions open and closed, or a state such as "' + by + " == 'heat'\"",
            )
        return
    if by == BY_CALLS or by in kind.states or isinstance(kind.elements.get(by), Coil):
        return
    coils = {key: element for key, element in kind.elements.items() if isinstance(element, Coil)}
    raise _no_such("coil, switch or state", name, by, {**coils, **kind.switches, **kind.states})


def _no_such(sort: str, element: str, by: str, known: Mapping[str, object]) -> Refused:
    return Refused(
        "unknown-name",
        f"The element {element} is moved by {by}, but there is no {sort} of this name.",
        pointer=pointer("elements", element, "by"),
        would_be_right="one of " + ", ".join(sorted(known)) if known else f"a {sort} of this name",
    )


def _inner_nodes(kind: Kind) -> Iterator[tuple[str, str]]:
    for name, element in kind.elements.items():
        for node in nodes_of(element):
            if not _is_terminal(node):
                yield node, name


def _check_inner_nodes(kind: Kind) -> None:
    """An inner node on which one element sits alone is almost always a slip of the pen."""
    counts = Counter(node for node, _ in _inner_nodes(kind))
    for node, name in _inner_nodes(kind):
        if counts[node] == 1:
            raise Refused(
                "unknown-node",
                f"Only the element {name} sits on the inner node {node}.",
                pointer=pointer("elements", name),
                would_be_right="a terminal, or an inner node on which another element sits too",
            )


def _check_jumpers_sit(kind: Kind) -> None:
    sitting = {element.by for element in kind.elements.values() if isinstance(element, JumperElement)}
    for name in kind.jumpers:
        if name not in sitting:
            raise Refused(
                "jumper-nowhere",
                f"The jumper {name} sits between no terminals.",
                pointer=pointer("jumpers", name),
                would_be_right=f'an element {{ is = "jumper", between = [..., ...], by = "{name}" }}',
            )


def _check_calls(kind: Kind) -> None:
    closable = {
        name for name, element in kind.elements.items() if isinstance(element, Contact) and element.by == BY_CALLS
    }
    closed: set[str] = set()
    for call, said in kind.calls.items():
        for contact in said.closes:
            if contact not in closable:
                raise Refused(
                    "unknown-contact",
                    f"The call {call} closes {contact}, which is no contact that calls close.",
                    pointer=pointer("calls", call, "closes", contact),
                    would_be_right="one of " + ", ".join(sorted(closable)) if closable else 'a contact by = "calls"',
                )
            closed.add(contact)
    for contact in sorted(closable - closed):
        raise Refused(
            "contact-never-closed",
            f"No call closes the contact {contact}.",
            pointer=pointer("elements", contact),
            would_be_right=f"a call that names {contact} under closes",
        )


def _check_called(kind: Kind) -> None:
    for name in kind.called:
        if name not in kind.elements and name not in kind.states:
            raise Refused(
                "unknown-name",
                f"{name} is called {kind.called[name]!r}, but there is no element or state of this name.",
                pointer=pointer("called", name),
                would_be_right="one of " + ", ".join(sorted({**kind.elements, **kind.states})),
            )
