"""From settled networks to one operating point; every value is worked out when it is asked for.

Where a network has several snapshots (the states of a cycle, or both phases of a source of unknown phase) only what
is equal in all of them is given.
"""

from __future__ import annotations

import cmath
from collections.abc import Sequence
from functools import cached_property

from app.catalogue.kind import Coil, Contact, Fuse, Ground, Input, JumperElement, Load, Opaque, Source, Trace
from app.circuit.lazy import Lazy, Made
from app.circuit.network import Circuit, Network
from app.circuit.operating_point import (
    ConductorState,
    ElementState,
    OperatingPoint,
    SourceState,
    TerminalState,
    Unsettled,
)
from app.circuit.seen import GROUND, Seen
from app.circuit.situation import Situation
from app.circuit.view import View, Views
from app.job.model import UnknownEnd
from app.job.names import part_of

LEAST_AMPS_WITH_DIRECTION = 1e-3


class Answering:
    """Answers for one situation of one circuit."""

    def __init__(self, circuit: Circuit, views: Views) -> None:
        self.circuit = circuit
        self.views = views

    def view_of(self, name: str) -> View:
        """Return the view of the network in which a terminal or element lies."""
        return self.views.of(self.circuit.network_of[part_of(name)])

    @cached_property
    def earth_is_live(self) -> bool:
        """Return whether a source reaches earth in any network."""
        return any(
            seen.snapshot.solution.root[view.network.earth] in seen.references
            for view in self.views.each()
            for seen in view.seen
        )

    @cached_property
    def earth_is_unsure(self) -> bool:
        """Return whether something unseen could bring a source to earth in any network."""
        return any(
            seen.snapshot.doubt.hides(view.network.earth)
            for view in self.views.each()
            if view.network.touched and view.network.ground is not None
            for seen in view.seen
        )

    def could_meet(self) -> frozenset[int]:
        """Return the components that something unseen could join to others."""
        return frozenset(
            number
            for view in self.views.each()
            if view.network.touched
            for node, number in enumerate(view.component_of_node)
            if any(seen.snapshot.doubt.may_meet(node) for seen in view.seen)
        )

    def component(self, terminal: str) -> int:
        """Return the number of the component of a terminal."""
        view = self.view_of(terminal)
        return view.component_of_node[_node(view.network, terminal)]

    def terminal(self, name: str) -> TerminalState:
        """Return what stands at a terminal."""
        view = self.view_of(name)
        node = _node(view.network, name)
        states = [self._terminal_in(view, seen, node) for seen in view.seen]
        first = states[0]
        if all(_same_state(first, other, view) for other in states[1:]):
            return first
        return TerminalState(unknown=True, why=view.why_unequal)

    def _terminal_in(self, view: View, seen: Seen, node: int) -> TerminalState:
        root = seen.snapshot.solution.root[node]
        if seen.snapshot.doubt.hides(node):
            return TerminalState(unknown=True, why=_why_unknown(seen, root))
        reference = seen.references.get(root)
        if reference is not None:
            name = reference.name if reference.name != GROUND else self.circuit.ground or GROUND
            return TerminalState(volts=seen.volts(node, reference), reference=name)
        in_earth = seen.has_ground and root == seen.snapshot.solution.root[view.network.earth]
        if in_earth and self.earth_is_live:
            return TerminalState(volts=0j, reference=self.circuit.ground)
        if in_earth and self.earth_is_unsure:
            return TerminalState(unknown=True, why="it is grounded, and so may be something that was not seen")
        return TerminalState(floating=True)

    def element(self, name: str) -> ElementState:
        """Return what an element does."""
        view = self.view_of(name)
        element = self.circuit.elements[name]
        if isinstance(element, Opaque):
            return ElementState(None, 0.0, "unknown", amps_unknown=True)
        states = [self._element_in(view.network, seen, name) for seen in view.seen]
        first = states[0]
        slack = view.seen[0].snapshot.scene.figures.slack_volts
        if all(_same_element(first, other, slack) for other in states[1:]):
            return first
        # What stands alike in every pass of a cycle stands so, however its volts and amps go to and fro.
        state = first.state if all(other.state == first.state for other in states) else "unknown"
        return ElementState(None, 0.0, state, amps_unknown=True)

    def _element_in(self, network: Network, seen: Seen, name: str) -> ElementState:
        at = network.branch_of.get(name)
        if at is None:
            join = network.join_of[name]
            node = network.node_of[network.joins[join].points[0]]
            if seen.snapshot.doubt.hides(node):
                return ElementState(None, 0.0, "unknown", amps_unknown=True)
            unsure = seen.snapshot.doubt.hides_join_amps(node)
            return ElementState(0.0, abs(seen.join_amps[join]), "", unsure)
        a, b = network.branches[at].nodes
        doubt = seen.snapshot.doubt
        state = self._state_word(network, seen, name, at)
        if doubt.branches >> at & 1:
            return ElementState(None, 0.0, "unknown", amps_unknown=True)
        amps = abs(seen.through(at))
        unsure = doubt.hides_amps(a, b, _siemens(seen, at))
        if doubt.hides(a) or doubt.hides(b):
            return ElementState(None, 0.0, state or "unknown", unsure)
        across = seen.across(at)
        return ElementState(None if across is None else abs(across), amps, state, unsure)

    def _state_word(self, network: Network, seen: Seen, name: str, branch: int) -> str:
        on = bool(seen.snapshot.on >> branch & 1)
        match self.circuit.elements[name]:
            case Coil():
                return "pulled-in" if on else "released"
            case Contact() | JumperElement():
                return "closed" if on else "open"
            case Fuse():
                return "whole" if on else "open"
            case Source() | Input() | Load(powers_above=int() | float() | str()):
                return "on" if on else "off"
            case Load() | Trace() | Ground() | Opaque():
                return ""

    def source(self, name: str) -> SourceState:
        """Return what a source gives; nothing where it is unknown."""
        state = self.element_states[name]
        return SourceState((state.volts or 0.0) * state.amps, state.amps, state.amps_unknown)

    def conductor(self, name: str) -> ConductorState:
        """Return what a conductor carries."""
        landed = self.circuit.layout.conductors[name].landed()
        if len(landed) < 2:
            unseen = any(isinstance(end, UnknownEnd) for end in self.circuit.layout.conductors[name].ends)
            return ConductorState(0.0, unknown=bool(landed) and unseen)
        view = self.view_of(landed[0])
        states = [_conductor_in(view.network, seen, name) for seen in view.seen]
        first = states[0]
        if all(abs(first.amps - other.amps) <= 1e-9 and first.toward == other.toward for other in states[1:]):
            return first
        return ConductorState(0.0, unknown=True)

    @cached_property
    def element_states(self) -> Lazy[ElementState]:
        """Return the elements by ``part.element``."""
        return Lazy(self.circuit.elements, self.element)


def operating_point(circuit: Circuit, situation: Situation, views: Views) -> OperatingPoint:
    """Return the operating point of a situation from its settled networks."""
    answering = Answering(circuit, views)
    stirring = views.stirring()
    unsettled = _joint([view.unsettled for view in stirring if view.unsettled is not None])
    return OperatingPoint(
        situation=situation,
        settled=unsettled is None,
        unsettled=unsettled,
        terminals=Lazy(circuit.terminals, answering.terminal),
        elements=answering.element_states,
        sources=Lazy(circuit.sources, answering.source),
        conductors=Lazy(circuit.layout.conductors, answering.conductor),
        effects=tuple(sorted(effect for view in stirring for effect in view.effects[0])),
        blown={name: amps for view in stirring for name, amps in sorted(view.blown.items())},
        component=Lazy(circuit.terminals, answering.component),
        effects_in_doubt=tuple(sorted(effect for view in stirring for effect in view.effects[1])),
        could_meet=Made(answering.could_meet),
    )


def _node(network: Network, name: str) -> int:
    return network.node_of[network.number_of[name]]


def _why_unknown(seen: Seen, root: int) -> str:
    network = seen.network
    touching = [why for node, why in network.touched.items() if seen.snapshot.solution.root[node] == root]
    return touching[0] if touching else "it depends on contacts of which nobody knows whether they close"


def _same_state(one: TerminalState, other: TerminalState, view: View) -> bool:
    if one.volts is not None and other.volts is not None:
        slack = view.seen[0].snapshot.scene.figures.slack_volts
        return one.reference == other.reference and abs(one.volts - other.volts) <= slack
    return one == other


def _same_element(one: ElementState, other: ElementState, slack: float) -> bool:
    if one.state != other.state or (one.volts is None) != (other.volts is None):
        return False
    return abs((one.volts or 0) - (other.volts or 0)) <= slack and abs(one.amps - other.amps) <= 1e-9


def _siemens(seen: Seen, branch: int) -> complex:
    figures = seen.snapshot.scene.figures
    return figures.on[branch] if seen.snapshot.on >> branch & 1 else figures.off[branch]


def _conductor_in(network: Network, seen: Seen, name: str) -> ConductorState:
    at = network.branch_of.get(name)
    points = network.branches[at].points if at is not None else network.joins[network.join_of[name]].points
    root = seen.snapshot.solution.root[network.node_of[points[0]]]
    doubt = seen.snapshot.doubt
    a, b = (network.node_of[point] for point in points)
    amps = seen.through(at) if at is not None else seen.join_amps[network.join_of[name]]
    if doubt.hides_join_amps(a) if at is None else doubt.hides_amps(a, b, _siemens(seen, at)):
        return ConductorState(0.0, unknown=True)
    reference = seen.references.get(root)
    if reference is None or abs(amps) < LEAST_AMPS_WITH_DIRECTION:
        return ConductorState(abs(amps))
    power = (amps * reference.source.emf * reference.turned).real
    if cmath.isclose(power, 0):
        return ConductorState(abs(amps))
    return ConductorState(abs(amps), 1 if power > 0 else 0)


def _joint(unsettled: Sequence[Unsettled]) -> Unsettled | None:
    """Return one answer for all networks that do not settle: the worst, with the elements of all."""
    if not unsettled:
        return None
    why = next(word for word in ("chatter", "undecided", "race") if any(one.why == word for one in unsettled))
    return Unsettled(
        why=why,  # type: ignore[arg-type]
        elements=tuple(sorted(name for one in unsettled for name in one.elements)),
        period=max(one.period for one in unsettled),
        outcomes={mover: coils for one in unsettled for mover, coils in one.outcomes.items()},
    )
