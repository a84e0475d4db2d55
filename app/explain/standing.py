"""How everything stands at an operating point: positions, values of names, and what a situation asks of a part."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property

from app.catalogue.kind import Choice, Kind
from app.catalogue.reading_terms import parse_term
from app.catalogue.terms import Value, holds
from app.circuit.broken_layout import broken_layout
from app.circuit.faults import injected
from app.circuit.logic import enabled_calls, values_of
from app.circuit.network import Circuit, build_circuit
from app.circuit.operating_point import OperatingPoint
from app.circuit.template import template_of
from app.explain.trial import COLD_AND_WARM_C
from app.explain.ways import Way, Ways, collected, ways_of
from app.job.names import part_of

ON = frozenset({"closed", "pulled-in", "whole", "on"})
UNKNOWN = "unknown"


@dataclass(frozen=True)
class Standing:
    """A circuit at an operating point. ``circuit`` is the layout without the faults of the point's situation."""

    circuit: Circuit
    point: OperatingPoint

    @cached_property
    def wired(self) -> Circuit:
        """The circuit with the faults that change its layout."""
        layout = broken_layout(self.circuit.layout, self.point.situation.faults)
        if layout is self.circuit.layout:
            return self.circuit
        return build_circuit(layout, self.circuit.catalogue, self.circuit.frequency_hz)

    @cached_property
    def ways(self) -> Ways:
        """The ways of the layout as it was drawn; what a fault has cut is among them and conducts nothing."""
        swapped = any(fault.is_ == "swapped" for fault in self.point.situation.faults)
        drawn = ways_of(self.wired if swapped else self.circuit)
        joins = injected(self.circuit.layout, self.circuit.catalogue, self.point.situation.faults).joins
        if not joins:
            return drawn
        more = [Way(f"fault:{at}", "short", one, other) for at, (one, other, _) in enumerate(joins)]
        return collected([*drawn.ways, *more])

    @cached_property
    def cut(self) -> frozenset[str]:
        """The conductors that a fault has cut, by id."""
        faults = self.point.situation.faults
        places = [fault.at for fault in faults if fault.is_ == "conductor-open" and isinstance(fault.at, str)]
        return frozenset(place.partition(":")[2] for place in places)

    def state(self, element: str) -> str:
        """Return the word for how an element stands."""
        return self.point.elements[element].state

    def is_on(self, element: str) -> bool:
        """Return whether an element is closed, pulled in, whole or on."""
        return self.state(element) in ON

    def conducts(self, way: Way) -> bool | None:
        """Return whether a way conducts now, None where nobody knows."""
        if way.sort == "conductor":
            return way.name not in self.cut
        if way.sort in ("contact", "jumper", "fuse", "source"):
            state = self.state(way.name)
            return None if state == UNKNOWN else state in ON
        return True

    def kind(self, part: str) -> Kind | None:
        """Return the kind of a part."""
        return self.circuit.catalogue.kind_of(self.circuit.layout.parts[part])

    def values(self, part: str) -> Mapping[str, Choice]:
        """Return settings, switches and jumpers of a part in this situation."""
        if part not in self._values:
            kind = self.kind(part)
            wished = self.point.situation.set
            here = {name.partition(".")[2]: value for name, value in wished.items() if part_of(name) == part}
            found = self.circuit.layout.parts[part]
            self._values[part] = {} if kind is None else values_of(kind, found, here)
        return self._values[part]

    @cached_property
    def _values(self) -> dict[str, Mapping[str, Choice]]:
        return {}

    def value(self, part: str, name: str, above: frozenset[str] = frozenset(), asking: str = "") -> Value:
        """Return the value of a name in a part's terms; states by their settled meaning.

        ``asking`` is a call that is taken as asked for, whether it is or not.
        """
        values = self.values(part)
        if name in values:
            return values[name]
        if name == "outdoor_c":
            return self.point.situation.outdoor_c
        kind = self.kind(part)
        if kind is None:
            return False
        if name in kind.elements:
            return self.is_on(f"{part}.{name}")
        if name in kind.states and name not in above:
            tree = parse_term(kind.states[name])
            return holds(tree, lambda other: self.value(part, other, above | {name}, asking))
        return name == asking or (not asking and name in self.asked(part) and self.is_awake(part))

    def asked(self, part: str) -> tuple[str, ...]:
        """Return the calls that are asked of a control and that its set-up has."""
        return tuple(call for call in self.point.situation.calls.get(part, ()) if call in self.enabled(part))

    def enabled(self, part: str) -> list[str]:
        """Return the calls that a control's set-up has, in the kind's order."""
        kind = self.kind(part)
        if kind is None or not kind.calls:
            return []
        return enabled_calls(template_of(kind), self.values(part), self.point.situation.outdoor_c)

    def awake_by(self, part: str) -> tuple[str, ...]:
        """Return the loads that keep a part awake."""
        kind = self.kind(part)
        return () if kind is None else template_of(kind).awake_by

    def is_awake(self, part: str) -> bool:
        """Return whether a control's electronics run."""
        loads = self.awake_by(part)
        return not loads or self.values(part).get("battery") is True or any(self.is_on(f"{part}.{n}") for n in loads)

    def closing(self, part: str, contact: str) -> list[str]:
        """Return the calls of a control's set-up that close one of its contacts in this weather."""
        kind = self.kind(part)
        if kind is None:
            return []

        def closes(call: str) -> bool:
            term = kind.calls[call].closes.get(contact)  # type: ignore[index]
            return term is not None and holds(parse_term(term), lambda name: self.value(part, name, asking=call))

        return [call for call in self.enabled(part) if closes(call)]

    def closing_in_other_weather(self, part: str, contact: str) -> list[str]:
        """Return the calls that close a contact of a control when it is cold or when it is warm, all else as it is."""
        found: list[str] = []
        for outdoor_c in COLD_AND_WARM_C:
            situation = self.point.situation.model_copy(update={"outdoor_c": outdoor_c})
            found += Standing(self.circuit, replace(self.point, situation=situation)).closing(part, contact)
        return found
