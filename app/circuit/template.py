"""A kind as the engine reads it: nodes by number, elements sorted by what they do, terms parsed and put in order.

Made once a kind. A *slot* is an element between two nodes that is not simply a join.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TypeVar, cast

import networkx as nx

from app.catalogue.kind import (
    Coil,
    Contact,
    Fuse,
    Ground,
    Input,
    JumperElement,
    Kind,
    Load,
    Opaque,
    Source,
    Trace,
)
from app.catalogue.reading_terms import parse_term
from app.catalogue.terms import Tree, names_in, names_in_settled, names_with_a_say, untimed_names_in
from app.circuit.running import Running, running
from app.circuit.timing import RunningInTime, Timer, in_time

T = TypeVar("T")

SlotElement = Source | JumperElement | Fuse | Coil | Contact | Load | Input


@dataclass(frozen=True, slots=True)
class Slot:
    """An element between the nodes ``a`` and ``b`` (numbers within the kind)."""

    name: str
    element: SlotElement
    a: int
    b: int


@dataclass(frozen=True, slots=True)
class Asked:
    """A call of the kind: whether the set-up has it, and what it closes."""

    when: Running
    closes: Mapping[str, Running]


@dataclass(frozen=True, slots=True, eq=False)
class Template:
    """What the engine needs of a kind.

    ``judged`` are the slots that are on or off by their volts (coils, inputs, loads that keep the part awake),
    ``fuses`` those of the fuses, both as
    numbers of slots; ``contacts`` are bits by slot. ``states`` stand in the order in which they are worked
    out. Where a state reads, through a timer, one that is worked out later or itself, it reads the value of the pass
    before: ``carried`` names the states of which that value is needed, ``carried_in_time`` the same where timers run.
    """

    kind: Kind
    nodes: tuple[str, ...]
    slots: tuple[Slot, ...]
    joins: tuple[tuple[str, int, int], ...]
    grounds: tuple[tuple[str, int], ...]
    opaques: tuple[tuple[str, tuple[int, ...], str], ...]
    judged: tuple[int, ...]
    fuses: tuple[int, ...]
    contacts: int
    states: tuple[tuple[str, Running], ...]
    effects: tuple[tuple[str, Running], ...]
    calls: Mapping[str, Asked]
    awake_by: tuple[str, ...]
    carried: tuple[str, ...]
    carried_in_time: tuple[str, ...]
    asks_outdoor: bool
    timers: tuple[Timer, ...]
    """What remembers something in the states, by number."""
    states_in_time: tuple[tuple[str, RunningInTime], ...]
    """The states as they are in time, in the same order."""
    reads: Mapping[str, tuple[str, ...]]
    """The names that each state and each effect asks for, in reading order."""
    kept: dict[Hashable, object] = field(default_factory=dict)
    """What was worked out for parts of this kind, by what it depends on; see ``keep``."""

    def keep(self, key: Hashable, make: Callable[[], T]) -> T:
        """Return what was made for ``key`` before, or make it now."""
        found = self.kept.get(key)
        if found is None:
            if len(self.kept) >= _MOST_KEPT:
                self.kept.clear()
            found = self.kept[key] = make()
        return cast(T, found)


_made: dict[int, Template] = {}
_MOST_KEPT = 512


def template_of(kind: Kind) -> Template:
    """Return the template of a kind; that of a kind already seen is not made again."""
    found = _made.get(id(kind))
    if found is not None and found.kind is kind:
        return found
    if len(_made) >= _MOST_KEPT:
        _made.clear()
    made = _make(kind)
    _made[id(kind)] = made
    return made


def _make(kind: Kind) -> Template:
    number = {node: at for at, node in enumerate(_nodes(kind))}
    slots: list[Slot] = []
    joins: list[tuple[str, int, int]] = []
    grounds: list[tuple[str, int]] = []
    opaques: list[tuple[str, tuple[int, ...], str]] = []
    for name, element in kind.elements.items():
        match element:
            case Trace():
                joins.append((name, number[element.between[0]], number[element.between[1]]))
            case Ground():
                grounds.append((name, number[element.at]))
            case Opaque():
                opaques.append((name, tuple(number[node] for node in element.nodes), element.why))
            case _:
                slots.append(Slot(name, element, number[element.between[0]], number[element.between[1]]))
    states = _states_in_order(kind)
    timers: list[Timer] = []
    states_in_time = tuple((name, in_time(tree, name, timers)) for name, tree in states)
    calls: dict[str, Asked] = {
        name: Asked(_run(call.when), {contact: _run(text) for contact, text in call.closes.items()})
        for name, call in kind.calls.items()
    }
    closing = [text for call in kind.calls.values() for text in (call.when, *call.closes.values())]
    texts = [*kind.states.values(), *kind.effects.values(), *closing]
    return Template(
        kind=kind,
        nodes=tuple(number),
        slots=tuple(slots),
        joins=tuple(joins),
        grounds=tuple(grounds),
        opaques=tuple(opaques),
        judged=tuple(at for at, slot in enumerate(slots) if _is_judged(slot.element)),
        fuses=tuple(at for at, slot in enumerate(slots) if isinstance(slot.element, Fuse)),
        contacts=sum(1 << at for at, slot in enumerate(slots) if isinstance(slot.element, Contact)),
        states=tuple((name, running(tree)) for name, tree in states),
        effects=tuple((name, _run(text)) for name, text in sorted(kind.effects.items())),
        calls=calls,
        awake_by=tuple(slot.name for slot in slots if isinstance(slot.element, Load) and _is_judged(slot.element)),
        carried=_carried(states, names_in_settled),
        carried_in_time=_carried(states, names_in),
        asks_outdoor=any("outdoor_c" in names_in(parse_term(text)) for text in texts),
        timers=tuple(timers),
        states_in_time=states_in_time,
        reads={name: _asked_by(text) for name, text in (*kind.effects.items(), *kind.states.items())},
    )


def _run(text: str) -> Running:
    return running(parse_term(text))


def _asked_by(text: str) -> tuple[str, ...]:
    return tuple(dict.fromkeys(names_in(parse_term(text))))


def _is_judged(element: SlotElement) -> bool:
    return isinstance(element, Coil | Input) or (isinstance(element, Load) and element.powers_above is not None)


def _nodes(kind: Kind) -> Iterable[str]:
    """Return the terminals in the kind's order, then the inner nodes in the order of their first mention."""
    found = dict.fromkeys(kind.terminals)
    for element in kind.elements.values():
        match element:
            case Ground():
                found[element.at] = None
            case Opaque():
                found.update(dict.fromkeys(element.nodes))
            case _:
                found.update(dict.fromkeys(element.between))
    return found


def _carried(states: Sequence[tuple[str, Tree]], names: Callable[[Tree], Iterable[str]]) -> tuple[str, ...]:
    """Return the states that are read before they are worked out, in their order."""
    order = [name for name, _ in states]
    early = {read for at, (_, tree) in enumerate(states) for read in names(tree) if read in order[at:]}
    return tuple(name for name in order if name in early)


def _states_in_order(kind: Kind) -> tuple[tuple[str, Tree], ...]:
    """Return the states so that each comes after those that it reads.

    A loop is cut where a timer reads: by preference where what it reads has no say at once, as with ``after``.
    """
    trees = {name: parse_term(text) for name, text in kind.states.items()}
    reads: nx.DiGraph[str] = nx.DiGraph()
    for name, tree in sorted(trees.items()):
        reads.add_node(name)
        for read in names_in(tree):
            if read in trees:
                reads.add_edge(read, name, delay=2)
        for read in names_with_a_say(tree):
            if read in trees:
                reads.add_edge(read, name, delay=1)
        for read in untimed_names_in(tree):
            if read in trees:
                reads.add_edge(read, name, delay=0)
    order: list[str] = []
    # Each knot is a set of states that read each other; nearly always it is a single state.
    knots = nx.condensation(reads)
    for knot in nx.lexicographical_topological_sort(knots, key=lambda n: min(knots.nodes[n]["members"])):
        order += _unknotted(reads, knots.nodes[knot]["members"])
    return tuple((name, trees[name]) for name in order)


def _unknotted(reads: nx.DiGraph[str], members: Iterable[str]) -> list[str]:
    """Return states that read each other in an order that keeps as many readings as it can, the quickest first."""
    kept: nx.DiGraph[str] = nx.DiGraph()
    kept.add_nodes_from(sorted(members))
    edges = sorted((data["delay"], read, name) for read, name, data in reads.subgraph(members).edges(data=True))
    for _, read, name in edges:
        if read != name and not nx.has_path(kept, name, read):
            kept.add_edge(read, name)
    return list(nx.lexicographical_topological_sort(kept))
