"""What a rule may ask: the layout, its wiring as joins, its operating points, and facts shared between rules.

Rules of the file: everything here is computed when first asked and then kept, so that a rule that needs nothing costs
nothing and two rules that ask the same pay once. Nothing here speaks to a person; see ``facts`` for the facts.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any, TypeVar, cast

from app.catalogue.catalogue import Catalogue
from app.catalogue.kind import CallName, Contact, Kind, Terminal
from app.checks.facts.calls import contacts_closed_by
from app.checks.facts.inside import HEAT_EFFECTS, SUPPLY_FUNCTIONS, Inside, look_inside
from app.checks.facts.islands import Islands
from app.checks.facts.wiring import Winding, Wiring, joins_of, wire_up
from app.circuit.operating_point import OperatingPoint
from app.circuit.situation import Situation
from app.job.model import Job, Layout
from app.job.names import letter_of, part_of

Fact = TypeVar("Fact")


@dataclass(frozen=True, slots=True)
class Called:
    """One call of one control and what it does."""

    control: str
    call: CallName
    point: OperatingPoint

    def text(self) -> str:
        """Return the call as commands say it: ``tc=cool-1``."""
        return f"{self.control}={self.call}"


class CheckContext:
    """What a rule may ask of one layout.

    Args:
        points: one operating point a situation, idle first, in the order of ``situations``.
    """

    def __init__(
        self,
        job: Job,
        layout_name: str,
        catalogue: Catalogue,
        situations: Sequence[Situation],
        points: Sequence[OperatingPoint],
    ) -> None:
        self.job = job
        self.layout_name = layout_name
        self.layout: Layout = job.layouts[layout_name]
        self.catalogue = catalogue
        self.situations = tuple(situations)
        self.points = tuple(points)
        self._islands: dict[frozenset[str], Islands] = {}
        self._inside: dict[str, Inside] = {}
        self._facts: dict[Callable[[CheckContext], Any], Any] = {}

    def once(self, fact: Callable[[CheckContext], Fact]) -> Fact:
        """Return ``fact(self)``, found at most once for this context."""
        if fact not in self._facts:
            self._facts[fact] = fact(self)
        return cast(Fact, self._facts[fact])

    @cached_property
    def wiring(self) -> Wiring:
        """All joins, devices and sources of the layout."""
        return wire_up(self.layout, self.catalogue)

    @property
    def terminals(self) -> Mapping[str, Terminal]:
        """Every terminal by name."""
        return self.wiring.terminals

    @property
    def windings(self) -> Sequence[Winding]:
        """Every source."""
        return self.wiring.windings

    @property
    def idle(self) -> OperatingPoint:
        """What the circuit does when nothing calls."""
        return self.points[0]

    @cached_property
    def called(self) -> tuple[Called, ...]:
        """Every call that the set-up has, with what it does."""
        return tuple(
            Called(control, calls[-1], point)
            for point in self.points
            if not point.situation.faults and len(point.situation.calls) == 1
            for control, calls in point.situation.calls.items()
            if calls
        )

    @cached_property
    def wired_parts(self) -> frozenset[str]:
        """The parts on which at least one conductor is landed; a part in the box says nothing yet."""
        return frozenset(part_of(terminal) for terminal in self.wiring.landed)

    def kind_of(self, part: str) -> Kind | None:
        """Return the kind of a part, None where it is unknown."""
        return self.wiring.kinds.get(part)

    def inside(self, part: str) -> Inside:
        """Return what rules ask of the kind of a part that has one."""
        name = self.layout.parts[part].kind
        if name not in self._inside:
            self._inside[name] = look_inside(self.wiring.kinds[part])
        return self._inside[name]

    def place_of(self, terminal: str) -> str:
        """Return where a person stands who probes this terminal."""
        return self.layout.parts[part_of(terminal)].place

    def function_of(self, terminal: str) -> str:
        """Return the function of a terminal; ``inner`` for a node inside a part."""
        found = self.terminals.get(terminal)
        return "inner" if found is None else found.function

    def is_supply(self, terminal: str) -> bool:
        """Return whether a terminal is meant to be hot."""
        return self.function_of(terminal) in SUPPLY_FUNCTIONS

    def name_of(self, terminal: str) -> str:
        """Return a terminal as it is said: ``R of Furnace board``."""
        return f"{letter_of(terminal)} of {self.label_of(part_of(terminal))}"

    def label_of(self, part: str) -> str:
        """Return what a part is called on screen: its label, else the title of its kind, else its id."""
        kind = self.wiring.kinds.get(part)
        return self.layout.parts[part].label or (kind.title if kind else part)

    def islands_when(self, closed: frozenset[str]) -> Islands:
        """Return what is one while the contacts ``part.element`` in ``closed`` are closed."""
        if closed not in self._islands:
            self._islands[closed] = Islands(joins_of(self.wiring, closed))
        return self._islands[closed]

    def islands_at(self, point: OperatingPoint) -> Islands:
        """Return what is one in an operating point, as far as the call goes: its contacts count as closed even where
        a fuse that opened has since put the control to sleep."""
        return self.islands_when(self._closed_at(point))

    @cached_property
    def at_rest(self) -> Islands:
        """What is one when nothing calls."""
        return self.islands_at(self.idle)

    @cached_property
    def wired(self) -> Islands:
        """What is one by conductors, traces, fuses and fitted jumpers alone."""
        return self.islands_when(frozenset())

    @cached_property
    def ever(self) -> Islands:
        """What could be one if every contact were closed at the same time."""
        return self.islands_when(frozenset(f"{join.part}.{join.inner}" for join in self.wiring.contacts))

    @cached_property
    def windings_on(self) -> Mapping[str, tuple[Winding, ...]]:
        """The sources by the island (``ever``) on which their hot side lies."""
        found: dict[str, tuple[Winding, ...]] = {}
        for winding in self.windings:
            top = self.ever.of(winding.hot)
            found[top] = (*found.get(top, ()), winding)
        return found

    def fed_by(self, node: str) -> tuple[Winding, ...]:
        """Return the sources whose hot side could reach a node."""
        return self.windings_on.get(self.ever.of(node), ())

    def hot_at_rest(self, node: str) -> bool:
        """Return whether the hot side of a source lies on the island of a node when nothing calls."""
        return any(self.at_rest.same(node, winding.hot) for winding in self.windings)

    @cached_property
    def heat_in_layout(self) -> bool:
        """Whether anything in the layout can heat."""
        return any(HEAT_EFFECTS & set(kind.effects) for kind in self.wiring.kinds.values())

    def effects_of(self, called: Called) -> frozenset[tuple[str, str]]:
        """Return the (part, effect) that a call adds to what runs anyway."""
        return frozenset(called.point.effects) - frozenset(self.idle.effects)

    def closes(self, control: str, call: CallName, outdoor_c: float = 20.0) -> frozenset[str]:
        """Return the contacts of a control that a call closes."""
        kind = self.wiring.kinds.get(control)
        if kind is None:
            return frozenset()
        return contacts_closed_by(kind, call, self.wiring.settings[control], outdoor_c=outdoor_c)

    def outputs(self, control: str, call: CallName) -> tuple[str, ...]:
        """Return the terminals that a call of a control puts its call on, sorted."""
        leads = self.inside(control).call_contacts
        found = {
            f"{control}.{letter}"
            for contact in self.closes(control, call)
            for letter in leads[contact].all()
            if not self.is_supply(f"{control}.{letter}")
        }
        return tuple(sorted(found))

    def unseen_from(self, nodes: Iterable[str]) -> tuple[str, ...]:
        """Return what could not be seen behind any of ``nodes``, as assumptions of a finding."""
        veiled = self.wiring.veiled
        return tuple(sorted({f"{veiled[node]}: taken as leading nowhere" for node in nodes if node in veiled}))

    def _closed_at(self, point: OperatingPoint) -> frozenset[str]:
        asked: set[str] = set()
        for control, calls in point.situation.calls.items():
            for call in calls:
                asked.update(f"{control}.{inner}" for inner in self.closes(control, call, point.situation.outdoor_c))
        closed: set[str] = set()
        for join in self.wiring.contacts:
            name = f"{join.part}.{join.inner}"
            element = self.wiring.kinds[join.part].elements[join.inner]
            by_calls = isinstance(element, Contact) and element.by == "calls"
            if by_calls:
                rests_closed = isinstance(element, Contact) and element.rest == "closed"
                if (name in asked) != rests_closed:
                    closed.add(name)
            elif point.elements[name].state == "closed":
                closed.add(name)
        return frozenset(closed)
