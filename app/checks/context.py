"""What a rule may ask: the layout, its wiring as joins, its operating points, and facts shared between rules.

Rules of the file: everything here is computed when first asked and then kept, so that a rule that needs nothing costs
nothing and two rules that ask the same pay once. Nothing here speaks to a person; see ``facts`` for the facts.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Container, Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any, TypeVar, cast

from app.catalogue.catalogue import Catalogue
from app.catalogue.kind import CallName, Choice, Kind, Terminal
from app.checks.facts.calls import contacts_closed_by
from app.checks.facts.inside import HEAT_EFFECTS, SUPPLY_FUNCTIONS, Inside, look_inside
from app.checks.facts.islands import Islands
from app.checks.facts.joins import Device, Join, Winding
from app.checks.facts.wiring import Wiring, wire_up
from app.checks.outcome import Group, Outcome, groups_of, outcomes_of
from app.circuit.network import Circuit
from app.circuit.operating_point import OperatingPoint
from app.circuit.situation import Situation
from app.circuit.solve import solve_all
from app.job.model import Job, Layout
from app.job.names import letter_of, part_of, short_names

Fact = TypeVar("Fact")
NOTHING_MOVED: Mapping[str, Choice] = {}


@dataclass(frozen=True, slots=True)
class Called:
    """One call of one control and what it does."""

    control: str
    call: CallName
    point: OperatingPoint

    @property
    def outdoor_c(self) -> float:
        """The outdoor temperature at which it is looked at, in °C."""
        return self.point.situation.outdoor_c

    def text(self) -> str:
        """Return the call as commands say it: ``tc=cool-1``."""
        return f"{self.control}={self.call}"


class CheckContext:
    """What a rule may ask of one layout.

    Args:
        circuit: the layout, compiled.
        points: one operating point a situation, idle first.
    """

    def __init__(
        self,
        job: Job,
        layout_name: str,
        catalogue: Catalogue,
        circuit: Circuit,
        points: Sequence[OperatingPoint],
    ) -> None:
        self.job = job
        self.layout_name = layout_name
        self.layout: Layout = job.layouts[layout_name]
        self.catalogue = catalogue
        self.circuit = circuit
        self.points = tuple(points)
        self._islands: dict[tuple[int, frozenset[str]], Islands] = {}
        self._islands_at: dict[int, Islands] = {}
        # Kept, so that no later point can come to stand where one stood and be taken for it.
        self._met: list[OperatingPoint] = []
        self._closes: dict[Hashable, frozenset[str]] = {}
        self._at_supply: dict[float, tuple[OperatingPoint, ...]] = {}
        self._facts: dict[Callable[[CheckContext], Any], Any] = {}

    def once(self, fact: Callable[[CheckContext], Fact]) -> Fact:
        """Return ``fact(self)``, found at most once for this context."""
        if fact not in self._facts:
            self._facts[fact] = fact(self)
        return cast(Fact, self._facts[fact])

    @cached_property
    def situations(self) -> tuple[Situation, ...]:
        """The situation of each operating point."""
        return tuple(point.situation for point in self.points)

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
        """Every call that the set-up has, with what it does; a call that closes something else in other weather also
        with what it does then, behind all others."""
        return tuple(
            Called(control, calls[-1], point)
            for point in self.points
            if not point.situation.faults and len(point.situation.calls) == 1
            for control, calls in point.situation.calls.items()
            if calls
        )

    @cached_property
    def groups(self) -> tuple[Group, ...]:
        """The groups of parts whose situations are combined."""
        return groups_of(self.circuit)

    @cached_property
    def outcomes(self) -> tuple[Outcome, ...]:
        """Everything that any situation comes to, group by group, the simplest situations first."""
        return outcomes_of(self.circuit, self.groups)

    def outcomes_of(self, part: str) -> tuple[Outcome, ...]:
        """Return the outcomes of the group of a part."""
        return self._outcomes_by_group.get(self._group_of[part], ())

    @cached_property
    def _outcomes_by_group(self) -> Mapping[int, tuple[Outcome, ...]]:
        found: dict[int, list[Outcome]] = {}
        for outcome in self.outcomes:
            found.setdefault(outcome.group, []).append(outcome)
        return {number: tuple(outcomes) for number, outcomes in found.items()}

    @cached_property
    def _group_of(self) -> Mapping[str, int]:
        return {part: number for number, group in enumerate(self.groups) for part in group.parts}

    def at_supply(self, percent: float) -> tuple[OperatingPoint, ...]:
        """Return the points of ``points`` at another supply, in the same order."""
        if percent not in self._at_supply:
            asked = [each.model_copy(update={"supply_percent": float(percent)}) for each in self.situations]
            self._at_supply[percent] = tuple(solve_all(self.circuit, asked))
        return self._at_supply[percent]

    @cached_property
    def wired_parts(self) -> frozenset[str]:
        """The parts on which at least one conductor is landed; a part in the box says nothing yet."""
        return frozenset(part_of(terminal) for terminal in self.wiring.landed)

    def kind_of(self, part: str) -> Kind | None:
        """Return the kind of a part, None where it is unknown."""
        return self.wiring.kinds.get(part)

    def inside(self, part: str) -> Inside:
        """Return what rules ask of the kind of a part that has one."""
        return look_inside(self.wiring.kinds[part])

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
        """Return what a part is called on screen: label or title of its kind, with its id where two share that."""
        return self._labels.get(part, part)

    def conductor_called(self, conductor: str) -> str:
        """Return what people call a conductor."""
        return self._called[conductor]

    @cached_property
    def _called(self) -> Mapping[str, str]:
        return short_names(self.layout.conductors)

    @cached_property
    def _labels(self) -> dict[str, str]:
        kinds = self.wiring.kinds
        said = {
            part: found.label or (kinds[part].title if part in kinds else part)
            for part, found in self.layout.parts.items()
        }
        shared = Counter(said.values())
        return {part: label if shared[label] == 1 else f"{label} ({part})" for part, label in said.items()}

    def network_of(self, part: str) -> int:
        """Return the number of the network in which a part lies; networks never influence each other."""
        return self.circuit.network_of[part]

    @cached_property
    def _networks_at(self) -> dict[int, int | None]:
        return {id(point): self._network_touched(point.situation) for point in self.points}

    def _network_touched(self, situation: Situation) -> int | None:
        """Return the one network of which a situation asks something; None for none and for several."""
        parts = [part_of(name) for name in situation.set]
        parts += (control for control, calls in situation.calls.items() if calls)
        networks = {self.network_of(part) for part in parts}
        return networks.pop() if len(networks) == 1 else None

    def network_at(self, point: OperatingPoint) -> int | None:
        """Return the network that a point's call works on, None for idle: elsewhere the point is as idle."""
        if id(point) not in self._networks_at:
            self._met.append(point)
            self._networks_at[id(point)] = self._network_touched(point.situation)
        return self._networks_at[id(point)]

    def other_points_of(self, part: str) -> list[OperatingPoint]:
        """Return the points of all that any situation of the group of a part comes to and no single call shows."""
        return self._other_points[self._group_of[part]]

    @cached_property
    def _other_points(self) -> Mapping[int, list[OperatingPoint]]:
        shown = {(tuple(point.situation.calls.items()), point.situation.outdoor_c) for point in self.points}
        found: dict[int, list[OperatingPoint]] = {number: [] for number in range(len(self.groups))}
        for outcome in self.outcomes:
            if not any(_is_shown(situation, shown) for situation in outcome.situations):
                found[outcome.group].append(outcome.point)
        return found

    def points_of(self, part: str) -> list[OperatingPoint]:
        """Return idle and the points whose call works on the network of a part."""
        here = self.network_of(part)
        return [point for point in self.points if self.network_at(point) in (None, here)]

    @cached_property
    def devices_by_network(self) -> Mapping[int, list[Device]]:
        """The devices of each network."""
        found: dict[int, list[Device]] = {}
        for device in self.wiring.devices:
            found.setdefault(self.network_of(device.part), []).append(device)
        return found

    @cached_property
    def contacts_by_network(self) -> Mapping[int, list[Join]]:
        """The contacts of each network."""
        found: dict[int, list[Join]] = {}
        for join in self.wiring.contacts:
            found.setdefault(self.network_of(join.part), []).append(join)
        return found

    def islands_at(self, point: OperatingPoint) -> Islands:
        """Return what is one in an operating point, within the network that its call works on.

        The contacts of the call count as closed even where a fuse that opened has since put the control to sleep.
        """
        if point is self.idle:
            return self.at_rest
        if id(point) not in self._islands_at:
            network = self.network_at(point)
            contacts = self.wiring.contacts if network is None else self.contacts_by_network.get(network, [])
            closed = [join for join in contacts if self._is_closed(join, point)]
            key = (-1 if network is None else network, frozenset(join.by for join in closed))
            if key not in self._islands:
                self._islands[key] = Islands(closed, self.wired)
            self._islands_at[id(point)] = self._islands[key]
        return self._islands_at[id(point)]

    @cached_property
    def at_rest(self) -> Islands:
        """What is one when nothing calls."""
        return Islands([join for join in self.wiring.contacts if self._is_closed(join, self.idle)], self.wired)

    @cached_property
    def wired(self) -> Islands:
        """What is one by conductors, traces, fuses and fitted jumpers alone."""
        return Islands(self.wiring.fixed)

    @cached_property
    def ever(self) -> Islands:
        """What could be one if every contact were closed at the same time."""
        return Islands(self.wiring.contacts, self.wired)

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
        return self.at_rest.of(node) in self._hot_at_rest

    @cached_property
    def _hot_at_rest(self) -> frozenset[str]:
        return frozenset(self.at_rest.of(winding.hot) for winding in self.windings)

    @cached_property
    def heat_in_layout(self) -> bool:
        """Whether anything in the layout can heat."""
        return any(HEAT_EFFECTS & set(kind.effects) for kind in self.wiring.kinds.values())

    @cached_property
    def effects_at_rest(self) -> frozenset[tuple[str, str]]:
        """The (part, effect) that run with no call at all."""
        return frozenset(self.idle.effects)

    def effects_of(self, called: Called) -> frozenset[tuple[str, str]]:
        """Return the (part, effect) that a call adds to what runs anyway."""
        return frozenset(called.point.effects) - self.effects_at_rest

    def closes(
        self, control: str, call: CallName, outdoor_c: float = 20.0, moved: Mapping[str, Choice] = NOTHING_MOVED
    ) -> frozenset[str]:
        """Return the contacts of a control that a call closes; ``moved`` are its switches that stand elsewhere."""
        kind = self.wiring.kinds.get(control)
        if kind is None:
            return frozenset()
        key = (control, call, outdoor_c, tuple(moved.items()))
        if key not in self._closes:
            settings = {**self.wiring.settings[control], **moved}
            self._closes[key] = contacts_closed_by(kind, call, settings, outdoor_c=outdoor_c)
        return self._closes[key]

    def outputs(self, control: str, call: CallName, outdoor_c: float = 20.0) -> tuple[str, ...]:
        """Return the terminals that a call of a control puts its call on in some weather, sorted."""
        leads = self.inside(control).call_contacts
        found = {
            f"{control}.{letter}"
            for contact in self.closes(control, call, outdoor_c)
            for letter in leads[contact].all()
            if not self.is_supply(f"{control}.{letter}")
        }
        return tuple(sorted(found))

    def outputs_of(self, called: Called) -> tuple[str, ...]:
        """Return the terminals that a call puts its call on in its weather, sorted."""
        return self.outputs(called.control, called.call, called.outdoor_c)

    def is_unknown_at(self, point: OperatingPoint, terminals: Iterable[str]) -> bool:
        """Return whether something unseen could influence one of ``terminals``, so that nothing may be said of it."""
        return any(point.terminals[terminal].unknown for terminal in terminals)

    def unseen_from(self, nodes: Iterable[str]) -> tuple[str, ...]:
        """Return what could not be seen behind any of ``nodes``, as assumptions of a finding."""
        veiled = self.wiring.veiled
        return tuple(sorted({f"{veiled[node]}: taken as leading nowhere" for node in nodes if node in veiled}))

    def _is_closed(self, join: Join, point: OperatingPoint) -> bool:
        name = join.by.partition(":")[2]
        if name not in self.wiring.by_calls:
            return point.elements[name].state == "closed"
        moved = {
            name.partition(".")[2]: value for name, value in point.situation.set.items() if part_of(name) == join.part
        }
        asked = any(
            join.inner in self.closes(join.part, call, point.situation.outdoor_c, moved)
            for call in point.situation.calls.get(join.part, ())
        )
        return asked != self.wiring.by_calls[name]


def _is_shown(situation: Situation, shown: Container[object]) -> bool:
    """Return whether a single call at the rated supply, with all else at rest, comes to the same."""
    if situation.set or situation.supply_percent != 100:
        return False
    return (tuple(situation.calls.items()), situation.outdoor_c) in shown
