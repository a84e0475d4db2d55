"""What a part's contacts do: from what is on and off in it, through its states, to the positions of its contacts.

Bits: in ``bits`` the judged elements of the part come first, in the template's order, then its fuses (1 = open). In
the answer each bit is a slot that conducts as "on": contact closed, coil pulled in, fuse whole, jumper fitted,
source live.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace

from app.catalogue.catalogue import settings_of, supply_of
from app.catalogue.kind import Choice, Contact, JumperElement, Kind, Source
from app.catalogue.terms import Value
from app.circuit.running import is_true
from app.circuit.template import Asked, Template
from app.circuit.timing import Phases, Watch
from app.job.model import Part

Memory = tuple[int, ...]
"""The carried states of the pass before; in time, what each timer remembers of the passes before comes behind them.
Empty for nearly all kinds."""
MOST_DOUBTS = 8
"""Beyond so many elements in doubt in one part, all its moved contacts are in doubt."""
MOST_TRIED = 2048
"""The same where elements in doubt and what may be remembered make more combinations than this."""
MOST_TRIED_AT_INSTANT = 128
"""The same where clocks run: a run has many instants, and there is more to be remembered."""


MOST_OUTCOMES_KEPT = 4096
MOST_INSTANTS_KEPT = 256


@dataclass(frozen=True, slots=True)
class Outcome:
    """Which slots are on, and the states for the next pass."""

    on: int
    memory: Memory


@dataclass(frozen=True, slots=True, eq=False)
class PartScene:
    """One part as a situation asks it to be, apart from volts.

    ``values`` are settings, switches and jumpers; ``calls`` those that are asked for and that the set-up has;
    ``forced_on`` and ``forced_off`` are slots that a fault holds.
    """

    template: Template
    values: Mapping[str, Choice]
    calls: tuple[str, ...]
    outdoor_c: float
    mains_off: frozenset[str]
    forced_on: int = 0
    forced_off: int = 0
    phases: Phases | None = None
    """How far the timers have run; None where the settled meaning of the states is asked for."""
    lasting: PartScene | None = None
    """At an instant, the same part with the settled meaning of its states, as it is when everything lasts."""
    found: dict[tuple[int, Memory], Outcome] = field(default_factory=dict)
    instants: dict[Phases, PartScene] = field(default_factory=dict)
    looks: dict[tuple[int, Memory], tuple[dict[str, Value], Watch | None]] = field(default_factory=dict)
    shown: dict[tuple[int, Memory], list[str]] = field(default_factory=dict)
    tried: dict[tuple[int, Memory, int], list[int] | None] = field(default_factory=dict)

    def at_instant(self, phases: Phases) -> PartScene:
        """Return this part at an instant at which its timers have run so far; made once for equal phases."""
        found = self.instants.get(phases)
        if found is None:
            if len(self.instants) >= MOST_INSTANTS_KEPT:
                self.instants.clear()
            fresh = replace(self, phases=phases, lasting=self, found={}, instants={}, looks={}, shown={}, tried={})
            found = self.instants[phases] = fresh
        return found

    def rest_memory(self) -> Memory:
        """Return the memory before anything has happened."""
        template = self.template
        if self.phases is None:
            return (0,) * len(template.carried)
        return (0,) * (len(template.carried_in_time) + len(template.timers))

    def look(self, bits: int, memory: Memory) -> tuple[dict[str, Value], Watch | None]:
        """Return the value of every name of the kind, and in time what came of its timers."""
        key = (bits, memory)
        found = self.looks.get(key)
        if found is None:
            found = self._known(bits, memory)
            # Without time nobody looks twice: what is then asked again is kept as an outcome.
            if self.phases is not None:
                self.looks[key] = found
        return found

    def outcome(self, bits: int, memory: Memory) -> Outcome:
        """Return the outcome of one pass."""
        key = (bits, memory)
        found = self.found.get(key)
        if found is None:
            if len(self.found) >= MOST_OUTCOMES_KEPT:
                self.found.clear()
            found = self.found[key] = self._work_out(bits, memory)
        return found

    def effects(self, bits: int, memory: Memory) -> list[str]:
        """Return the effects that hold."""
        key = (bits, memory)
        found = self.shown.get(key)
        if found is None:
            if len(self.shown) >= MOST_OUTCOMES_KEPT:
                self.shown.clear()
            known, _ = self.look(bits, memory)
            found = self.shown[key] = [name for name, holds in self.template.effects if holds(known)]
        return found

    def ways(self, bits: int, memory: Memory, doubt: int) -> list[int] | None:
        """Return what may be on (bits by slot) when some elements are in doubt; None where they are too many.

        At an instant a clock has run as if what was in doubt had been off; it may as well have run out.
        """
        # A network in doubt asks the same of a part in every pass and in every situation.
        key = (bits, memory, doubt)
        if key not in self.tried:
            if len(self.tried) >= MOST_OUTCOMES_KEPT:
                self.tried.clear()
            self.tried[key] = self._try_ways(bits, memory, doubt)
        return self.tried[key]

    def _try_ways(self, bits: int, memory: Memory, doubt: int) -> list[int] | None:
        memories = self.memories(bits, memory, doubt)
        if memories is None:
            return None
        found = dict.fromkeys(self.outcome(each, before).on for before in memories for each in _each(bits, doubt))
        if self.lasting is not None:
            later = self.lasting.ways(bits, self.lasting.rest_memory(), doubt)
            if later is None:
                return None
            found.update(dict.fromkeys(later))
        return list(found)

    def memories(self, bits: int, memory: Memory, doubt: int) -> list[Memory] | None:
        """Return what may be remembered after any number of passes in which what is in doubt went either way.

        None where more is in doubt, or may be remembered, than can be looked at. Where what is in doubt has no say in
        it, the memory is on its way and not in doubt: then it is what it is.
        """
        if doubt.bit_count() > MOST_DOUBTS:
            return None
        found = [memory]
        has_a_say = False
        most = (MOST_TRIED if self.phases is None else MOST_TRIED_AT_INSTANT) >> doubt.bit_count()
        for before in found:
            if len(found) > most:
                return None
            after = dict.fromkeys(self.outcome(each, before).memory for each in _each(bits, doubt)) if memory else {}
            has_a_say = has_a_say or len(after) > 1
            found += (each for each in after if each not in found)
        # A clock that what is in doubt has not moved may all the same run out before it is looked at again.
        return found if has_a_say or self.phases is not None else [memory]

    def in_doubt(self, bits: int, memory: Memory, doubt: int) -> int:
        """Return the contacts (bits by slot) whose position depends on what is in ``doubt``."""
        outcomes = self.ways(bits, memory, doubt)
        if outcomes is None:
            return self.template.contacts
        always, ever = outcomes[0], outcomes[0]
        for on in outcomes[1:]:
            always &= on
            ever |= on
        return ever & ~always & self.template.contacts

    def effects_in_doubt(self, bits: int, memory: Memory, doubt: int) -> list[str]:
        """Return the effects that hold or not depending on what is in ``doubt``."""
        found = self._effects_possible(bits, memory, doubt)
        if found is None:
            return [name for name, _ in self.template.effects]
        return [name for name, _ in self.template.effects if 0 < sum(name in each for each in found) < len(found)]

    def _effects_possible(self, bits: int, memory: Memory, doubt: int) -> list[list[str]] | None:
        memories = self.memories(bits, memory, doubt)
        if memories is None:
            return None
        found = [self.effects(each, before) for before in memories for each in _each(bits, doubt)]
        if self.lasting is not None:
            found += self.lasting._effects_possible(bits, self.lasting.rest_memory(), doubt) or []
        return found

    def _work_out(self, bits: int, memory: Memory) -> Outcome:
        template = self.template
        known, watch = self.look(bits, memory)
        closed_by_calls = self._closed_by_calls(known)
        on = 0
        for at, slot in enumerate(template.slots):
            element = slot.element
            match element:
                case Contact():
                    is_on = slot.name in closed_by_calls if element.by == "calls" else _moves(element, template, known)
                    is_on = is_on != (element.rest == "closed") if _has_rest(element, template) else is_on
                case JumperElement():
                    is_on = known[element.by] == "fitted"
                case Source():
                    is_on = supply_of(element, self.values) not in self.mains_off
                case _:
                    is_on = False
            if is_on:
                on |= 1 << at
        for place, at in enumerate(template.judged):
            if bits >> place & 1:
                on |= 1 << at
        for place, at in enumerate(template.fuses, start=len(template.judged)):
            if not bits >> place & 1:
                on |= 1 << at
        carried = template.carried if watch is None else template.carried_in_time
        after: Memory = tuple(bool(known[name]) for name in carried)
        if watch is not None:
            after += tuple(watch.after)
        return Outcome((on | self.forced_on) & ~self.forced_off, after)

    def _known(self, bits: int, memory: Memory) -> tuple[dict[str, Value], Watch | None]:
        """Return the value of every name of the kind, states worked out in order."""
        template = self.template
        known: dict[str, Value] = dict(self.values)
        known["outdoor_c"] = self.outdoor_c
        for place, at in enumerate((*template.judged, *template.fuses)):
            is_on = bool(bits >> place & 1)
            known[template.slots[at].name] = is_on if place < len(template.judged) else not is_on
        awake = _is_awake(template, known)
        for name in template.calls:
            known[name] = awake and name in self.calls
        if self.phases is None:
            for name, was in zip(template.carried, memory, strict=True):
                known[name] = bool(was)
            for name, holds in template.states:
                known[name] = holds(known)
            return known, None
        carried = template.carried_in_time
        for name, was in zip(carried, memory, strict=False):
            known[name] = bool(was)
        watch = Watch(self.phases, memory[len(carried) :])
        for name, holds_now in template.states_in_time:
            known[name] = holds_now(known, watch)
        return known, watch

    def _closed_by_calls(self, known: Mapping[str, Value]) -> set[str]:
        return {
            contact
            for call in self.calls
            if known[call]
            for contact, holds in self.template.calls[call].closes.items()
            if holds(known)
        }


def enabled_calls(template: Template, values: Mapping[str, Choice], outdoor_c: float = 20.0) -> list[str]:
    """Return the calls that the set-up of a control has, in the kind's order."""
    return [name for name, asked in template.calls.items() if _is_enabled(asked, values, outdoor_c)]


def values_of(kind: Kind, part: Part, overrides: Mapping[str, Choice]) -> dict[str, Choice]:
    """Return settings, switches and jumpers of a part; what a situation sets goes first."""
    return {**settings_of(kind, part), **overrides}


def _is_enabled(asked: Asked, values: Mapping[str, Choice], outdoor_c: float) -> bool:
    # Whether a set-up has a call is asked with nothing energised: what else the term may name is off.
    known: dict[str, Value] = defaultdict(bool, values)
    known["outdoor_c"] = outdoor_c
    return asked.when(known)


def _is_awake(template: Template, known: Mapping[str, Value]) -> bool:
    """Return whether the part's electronics run: powered, on battery, or without any."""
    return not template.awake_by or known.get("battery") is True or any(known[name] for name in template.awake_by)


def _moves(element: Contact, template: Template, known: Mapping[str, Value]) -> bool:
    if element.by in template.kind.switches:
        return known[element.by] == "closed"
    return is_true(known[element.by])


def _has_rest(element: Contact, template: Template) -> bool:
    """A contact by a switch stands as the switch stands; the others have a position at rest."""
    return element.by not in template.kind.switches


def _each(bits: int, doubt: int) -> Iterator[int]:
    """Yield ``bits`` with every combination of the bits in ``doubt``."""
    part = doubt
    while True:
        yield (bits & ~doubt) | part
        if part == 0:
            return
        part = (part - 1) & doubt
